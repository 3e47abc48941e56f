"""What the acts of the running page ask, and the entries they make."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from screens.acts import not_set_up, pass_gates, say
from screens.dialogs.correct import correct_an_entry
from screens.dialogs.form import Field, Form
from screens.dialogs.panel import Panel
from screens.dialogs.pins import signed
from screens.dialogs.rig_fields import from_rig, weight_from_rig
from screens.dialogs.values import fittings_of, measure, steps_text, whole_number
from screens.pages.page import Page
from screens.widgets.limits import limit_lines
from screens.widgets.volumes import volume_lines
from tally.errors import InputError
from tally.job.counts import next_item
from tally.job.entries.auto_fill import AutoFillConverted
from tally.job.entries.landing import HungOffAt, OnDepth
from tally.job.entries.people import Note
from tally.job.entries.running import Fitted, ItemRun, LaidDown, PulledOut, Rejected
from tally.job.entries.watching import Filled, TankRead
from tally.job.entries.weighing import WeightRead
from tally.job.entry import Entry
from tally.job.fittings import due_on
from tally.job.hold_point import held
from tally.job.job import Job
from tally.units import Measure

correct = correct_an_entry

REJECTED = ("failed drift", "thread damaged", "pipe body damaged", "wrong weight or grade")
LAID_DOWN = (
    "thread",
    "cross-threaded",
    "wobble at make-up",
    "doubtful make-up",
    "pipe body damaged",
)
OUT_OF_ORDER = (
    "order changed on the rack",
    "wrong joint picked up",
    "next joint not ready",
    "measured again",
    "entered late",
)
REASON_MISSED = ("forgotten at the floor", "none left on the floor", "damaged")
LATE = ("seen late", "written down wrongly", "installed later at the floor")


def stamp(page: Page) -> dict[str, Any]:
    """Return who is at the keys and the time."""
    return {"by": page.shoedown.who, "at": page.shoedown.now()}


async def ask(page: Page, title: str, *fields: Field, says: str = "", caution: str = "") -> Any:
    """Ask for some fields; nothing when it was cancelled."""
    return await page.app.push_screen_wait(Form(title, fields, says=says, caution=caution))


async def say_run(page: Page, entry: ItemRun) -> bool:
    """Run an item; the book asks where it is not the expected one, or the hold point is shut."""
    shut = held(page.job, entry.number)
    if shut and not entry.check(page.job):
        passing = await pass_gates(
            page, f"Gate shut: run {entry.number}", (shut, entry.ask(page.job))
        )
        signers = await signed(page, passing["second"]) if passing else None
        if passing is None or signers is None:
            return False

        reason, second = passing["despite"], passing["second"]
        entry = replace(entry, despite=reason, second=second, signed=signers)
    return await say(page, entry, reasons=OUT_OF_ORDER)


async def reject(page: Page) -> None:
    """Reject a joint, the next one unless another is named."""
    due = next_item(page.job)
    await _set_aside(page, "Reject before make-up", Rejected, due.number if due else "", REJECTED)


async def lay_down(page: Page) -> None:
    """Lay a joint down: the next one, or the top one of the string."""
    due = next_item(page.job)
    await _set_aside(
        page,
        "Lay down: off the floor, or the top of the string",
        LaidDown,
        due.number if due else "",
        LAID_DOWN,
        "hands and feet clear of pinch points and of the hanging joint",
    )


async def _set_aside(
    page: Page,
    title: str,
    kind: Callable[..., Entry],
    number: str,
    reasons: tuple[str, ...],
    caution: str = "",
) -> None:
    answer = await ask(
        page,
        title,
        Field("number", "Number", known_item(page.job), value=number),
        Field("reason", "Reason", choices=reasons, open=True),
        caution=caution,
    )
    if answer:
        await say(page, kind(**stamp(page), **answer))


def known_item(job: Job) -> Callable[[str], str]:
    """Return a reader of a number that is in the book; another keeps the form open."""

    def find(text: str) -> str:
        if text not in job.items:
            raise InputError(f"There is no item {text} in the book; check the number.")
        return text

    return find


async def pull(page: Page) -> None:
    """Pull the top item back out, onto the rack."""
    if not page.job.string:
        page.refuse("Nothing is in the string; there is nothing to pull out.")
        return
    top = page.job.string[-1]
    answer = await ask(
        page,
        f"Pull {top.number} back out, onto the rack",
        Field(
            "reason", "Reason", choices=("tight spot", "wrong item", "fitting missed"), open=True
        ),
    )
    if answer:
        await say(page, PulledOut(**stamp(page), number=top.number, reason=answer["reason"]))


async def install(page: Page, number: str = "", despite: str = "") -> None:
    """Say what is installed on an item of the string; ask which where it is not named."""
    job = page.job
    if not job.string:
        page.refuse("Nothing is in the string; run the item first.")
        return
    made = job.made(number)
    if made is None:
        which = await ask(
            page,
            "What is installed on an item",
            Field("number", "Item", _in_string(job), value=number or job.string[-1].number),
        )
        if not which:
            return
        made = which["number"]
    programme = ", ".join(str(each) for each in due_on(job, made.joint)) or "nothing"
    answer = await ask(
        page,
        f"Installed on {made.number}; programme: {programme}",
        Field(
            "fittings",
            "Everything on it, separated by commas",
            fittings_of,
            value=", ".join(str(each) for each in made.fittings),
            hint="bow centralizer mid-joint, 2 x scratcher; a dash: nothing",
        ),
    )
    if answer:
        told = {"number": made.number, "fittings": answer["fittings"], "despite": despite}
        await say(page, Fitted(**stamp(page), **told), reasons=LATE)


def _in_string(job: Job) -> Callable[[str], Any]:
    def find(text: str) -> Any:
        made = job.made(text)
        if made is None:
            raise InputError(f"Item {text} is not in the string; type a number that was run.")
        return made

    return find


async def tank(page: Page) -> None:
    """Read the trip tank."""
    if not_set_up(page):
        return
    unit = page.job.known.shown.unit("volume")
    answer = await ask(
        page,
        "Trip tank",
        from_rig(
            page,
            Field("volume", "Volume in the tank", measure("volume", unit), hint=unit),
            "trip tank",
        ),
        Field(
            "mark",
            "Was the tank emptied or filled for a new start?",
            choices=("no", "yes"),
            value="no",
        ),
    )
    if answer:
        answer["mark"] = answer["mark"] == "yes"
        await say(page, TankRead(**stamp(page), **answer))


async def fill(page: Page) -> None:
    """Fill the pipe from the top."""
    if not_set_up(page):
        return
    unit = page.job.known.shown.unit("volume")
    answer = await ask(
        page,
        "Fill the pipe",
        Field(
            "source",
            "From",
            choices=("active pit", "trip tank"),
            value=page.job.known.filling.source,
        ),
        Field(
            "volume",
            "Volume",
            measure("volume", unit),
            optional=True,
            hint=f"{unit}; empty: to the top",
        ),
        caution="never look down an open string; it may flow back",
    )
    if answer:
        await say(page, Filled(**stamp(page), **answer))


async def convert(page: Page) -> None:
    """Say that the auto-fill float is converted, with what was seen."""
    shown = page.job.known.shown if page.job.setup else None
    refused = AutoFillConverted(**stamp(page)).check(page.job)
    if shown is None or refused:
        page.refuse(refused)
        return
    pressure, rate = shown.unit("pressure"), shown.unit("flow rate")
    filling = page.job.known.filling
    answer = await ask(
        page,
        "Auto-fill float converted: from here on the end is closed",
        Field("pressure", _seen("Pressure", filling.converts_at_pressure),
              measure("pressure", pressure), optional=True, hint=f"{pressure}; empty: not read"),
        Field("rate", _seen("Rate", filling.converts_at_rate), measure("flow rate", rate),
              optional=True, hint=f"{rate}; empty: not read"),
    )  # fmt: skip
    if answer:
        await say(page, AutoFillConverted(**stamp(page), **answer))


def _seen(what: str, wanted: Measure | None) -> str:
    """Return what is read when a float converts, beside what it wants where that is set up."""
    return f"{what} seen" + (f"; expected {wanted.text} or more" if wanted else "")


async def weigh(page: Page) -> None:
    """Read the weight on the indicator."""
    if not page.job.string:
        page.refuse("Nothing is run yet; there is no weight of the string to read.")
        return
    unit = page.job.known.shown.unit("force")
    fields = (
        weight_from_rig(
            page,
            Field(name, label, measure("force", unit), optional=True,
                  hint=f"{unit}; empty: not read"),
        )
        for name, label in (("slack_off", "Going down"), ("pick_up", "Coming up"),
                            ("hanging", "At rest"))
    )  # fmt: skip
    answer = await ask(page, "Weight on the indicator, blocks in it", *fields)
    if answer:
        await say(page, WeightRead(**stamp(page), **answer))


async def note(page: Page) -> None:
    """Write a note."""
    answer = await ask(page, "Note", Field("text", "What happened"))
    if answer:
        await say(page, Note(**stamp(page), text=answer["text"]))


async def on_depth(page: Page) -> None:
    """Say that the string is on depth: stick-up, and the rack as counted by a person."""
    job = page.job
    if job.setup is None or not job.string:
        page.refuse("Nothing is run yet; the string cannot be on depth.")
        return
    step = job.known.step
    answer = await ask(
        page,
        "String on depth",
        Field(
            "stick_up",
            f"Stick-up above the {job.known.well.datum}",
            steps_text(job, loss=False),
            hint=f"{step.unit}; the shoe is at the length of the string less this",
        ),
        Field(
            "counted",
            "Joints left on the rack",
            whole_number,
            hint="as a person counts them now, not from the book",
        ),
    )
    if not answer:
        return
    signers = await signed(page, page.shoedown.who)
    if signers is not None:
        stick_up, typed = answer["stick_up"]
        counted = answer["counted"]
        entry = OnDepth(**stamp(page), stick_up=stick_up, typed=typed, counted=counted)
        await say(page, replace(entry, signed=signers))


async def hung_off(page: Page) -> None:
    """Say that the string is hung off."""
    if not_set_up(page):
        return
    unit = page.job.known.shown.unit("force")
    answer = await ask(
        page,
        "String hung off",
        Field("load", "Load hung", measure("force", unit), hint=unit),
        Field("how", "Hung in", choices=("slips", "mandrel hanger"), open=True),
    )
    if answer:
        await say(page, HungOffAt(**stamp(page), **answer))


async def show_volumes(page: Page) -> None:
    """Show the volumes of the last item and of the string."""
    if not_set_up(page):
        return
    await page.app.push_screen_wait(
        Panel("Volumes", volume_lines(page.job, 60), "calculated from the lengths as run")
    )


async def show_limits(page: Page) -> None:
    """Show what holds the string: pull, weight going down, speed, standoff so far."""
    if not not_set_up(page):
        lines = limit_lines(page.job, 60)
        await page.app.push_screen_wait(Panel("What holds the string", lines))
