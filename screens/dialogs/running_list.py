"""What the running list asks: the rules it is built by, what is put in, why it is set."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from screens.acts import say
from screens.dialogs.form import Field
from screens.dialogs.running import ask, stamp
from screens.dialogs.values import numbers_of, whole_number
from screens.pages.page import Page
from tally.errors import InputError
from tally.feeds.item_numbers import item_number
from tally.feeds.places import read_places
from tally.job.entries.rack import OrderSet
from tally.job.job import Job
from tally.job.naming import in_short
from tally.job.order_rules import SORTINGS, OrderRules
from tally.job.running_list import RunningList
from tally.units import clean

WHY = ("built from the rack", "order changed on the rack", "another joint in its place")
GO_ON = ("looked at, run it so", "to be put right on the floor")


async def ask_rules(page: Page, rules: OrderRules) -> OrderRules | None:
    """Ask by which rules the list is built, those of last time offered."""
    job = page.job
    unit = job.known.step.unit
    fields = [
        Field("sorting", "Joints", choices=SORTINGS, value=rules.sorting),
        Field("shoe_track", "Joints in the shoe track", whole_number, value=str(rules.shoe_track)),
        Field(
            "track",
            "Which joints, if they are chosen",
            numbers_of(job),
            value=in_short(rules.track),
            optional=True,
            hint="by number, from the shoe up",
        ),
        Field(
            "places",
            "Places of markers, crossovers, collars",
            lambda text: read_places(text, unit),
            value=", ".join(str(place) for place in rules.places),
            optional=True,
            hint=f"M1 at 5000 {unit}, X1 above 40",
        ),
        Field(
            "left_out",
            "Set aside",
            numbers_of(job),
            value=in_short(rules.left_out),
            optional=True,
            hint="joints kept for the slips: 203-205",
        ),
    ]
    if len(job.known.pipes) > 1:
        fields.insert(3, _sections(job, rules))
    answer = await ask(page, "Build the running list", *fields)
    if not answer:
        return None
    told: dict[str, Any] = {key: () if value is None else value for key, value in answer.items()}
    return OrderRules(**told)


def _sections(job: Job, rules: OrderRules) -> Field:
    names = [pipe.name for pipe in job.known.pipes]
    numbered = "   ".join(f"{place} {name}" for place, name in enumerate(names, start=1))
    return Field(
        "pipes",
        f"Pipes from the shoe up: {numbered}",
        pipes_of(job),
        value=" ".join(str(names.index(name) + 1) for name in rules.pipes if name in names),
        optional=True,
        hint="by these numbers, like 2 1; empty: as they lie",
    )


def pipes_of(job: Job) -> Callable[[str], tuple[str, ...]]:
    """Return a reader of pipes by their place in the set-up, each once."""
    names = [pipe.name for pipe in job.known.pipes]

    def read(text: str) -> tuple[str, ...]:
        places = [whole_number(part) for part in text.replace(",", " ").split()]
        wrong = [place for place in places if not 1 <= place <= len(names)]
        if wrong or len(set(places)) < len(places):
            raise InputError(f"Type each pipe once by its number, 1 to {len(names)}.")
        return tuple(names[place - 1] for place in places)

    return read


async def ask_number(page: Page, before: str) -> str:
    """Ask which item goes in under the one at the cursor; nothing when it was cancelled."""
    where = f"under {before}" if before else "on top of all"
    answer = await ask(
        page,
        f"Put an item in, {where}",
        Field("number", "Number", lambda text: item_number(clean(text))),
    )
    return str(answer["number"]) if answer else ""


async def set_list(page: Page, draft: RunningList, rules: OrderRules | None) -> bool:
    """Ask why, and set the list; the book asks where it is doubtful."""
    answer = await ask(page, "Set the running list", Field("reason", "Why", choices=WHY, open=True))
    if not answer:
        return False
    entry = OrderSet(
        **stamp(page),
        order=draft.order,
        locked=draft.locked,
        aside=draft.aside,
        length=draft.length,
        reason=answer["reason"],
        rules=rules,
    )
    return await say(page, entry, reasons=GO_ON)
