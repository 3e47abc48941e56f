"""What the acts of the rack ask: a joint received later, sent away, or rejected."""

from __future__ import annotations

from collections.abc import Callable

from screens.acts import ask_reason, say
from screens.dialogs.form import Field
from screens.dialogs.running import REJECTED, ask, stamp
from screens.dialogs.values import steps_text
from screens.pages.page import Page
from tally.errors import InputError
from tally.feeds.item_numbers import as_painted, item_number
from tally.job.entries.pipe import Arrival, Received, SentAway
from tally.job.entries.running import Rejected, length_doubt
from tally.job.job import Item, Job
from tally.job.setup import ITEM_KINDS

SENT = ("not needed here", "damaged, for repair", "wrong pipe delivered")
SHORT_OR_LONG = ("measured twice", "cut joint, measured twice")


async def receive(page: Page) -> None:
    """Count in one item that came later."""
    job = page.job
    if job.setup is None:
        page.refuse("The job is not set up yet; set it up before pipe is counted in.")
        return
    answer = await ask(page, "Receive one item", *_fields(job))
    if not answer:
        return
    length, typed = answer["length"]
    pipe = answer.get("pipe", "")
    one = Arrival(
        number=answer["number"], length=length, typed=typed, kind=answer["kind"], pipe=pipe
    )
    doubt = length_doubt(job, Item(one.number, one.kind, length, typed, pipe), length)
    reason = await ask_reason(page, f"{one.number}: {doubt}", SHORT_OR_LONG) if doubt else ""
    if reason is None:
        page.refuse("Not entered; nothing was changed.")
        return
    await say(page, Received(**stamp(page), items=(one,), despite=reason))


def _fields(job: Job) -> list[Field]:
    setup = job.known
    overall = setup.make_up_loss is not None
    less = f", overall; {setup.lengths.make_up_loss} make-up loss is taken off" if overall else ""
    fields = [
        Field("number", "Number as painted on it", _unused(job)),
        Field("length", "Length as measured", steps_text(job), hint=f"{setup.step.unit}{less}"),
        Field("kind", "Kind", choices=ITEM_KINDS, value="joint"),
    ]
    if len(setup.pipes) > 1:
        names = tuple(pipe.name for pipe in setup.pipes)
        fields.append(Field("pipe", "Pipe", choices=names, value=names[0]))
    return fields


def _unused(job: Job) -> Callable[[str], str]:
    """Return a reader of a number that no other item in the book has, or could be taken for."""
    painted = {as_painted(number): number for number in job.items}

    def read(text: str) -> str:
        number = item_number(text)
        other = painted.get(as_painted(number))
        if other is not None:
            raise InputError(
                f"{number} is taken: {job.items[other].kind} {other} is in the book, "
                f"{job.items[other].state}; give it a number of its own."
            )
        return number

    return read


async def send_away(page: Page, number: str) -> None:
    """Send an item away from the location; its number is kept."""
    answer = await ask(
        page,
        "Send away from the location",
        Field("number", "Number", _in_book(page.job), value=number),
        Field("reason", "Reason", choices=SENT, open=True),
    )
    if answer:
        await say(page, SentAway(**stamp(page), **answer))


async def reject(page: Page, number: str) -> None:
    """Reject an item before make-up."""
    answer = await ask(
        page,
        "Reject before make-up",
        Field("number", "Number", _in_book(page.job), value=number),
        Field("reason", "Reason", choices=REJECTED, open=True),
    )
    if answer:
        await say(page, Rejected(**stamp(page), **answer))


def _in_book(job: Job) -> Callable[[str], str]:
    def read(text: str) -> str:
        if text not in job.items:
            raise InputError(f"There is no item {text} in the book; check the number.")
        return text

    return read
