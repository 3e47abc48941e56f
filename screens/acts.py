"""How a page says something to the book: record it, ask where the book asks, say what became of it.

An act is a coroutine on a page, run in a worker, so that it may wait for a dialog.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import fields, replace
from typing import TYPE_CHECKING

from screens.dialogs.form import Field, Form
from tally.errors import BookError, EntryRefused, ShoedownError
from tally.job.between import came_between, told_between
from tally.job.entry import Entry, clock

if TYPE_CHECKING:
    from screens.pages.page import Page


def not_set_up(page: Page) -> bool:
    """Refuse on the page where the job is not set up yet; tell whether it was refused."""
    if page.job.setup is None:
        page.refuse("The job is not set up yet.")
    return page.job.setup is None


async def say(page: Page, entry: Entry, *, reasons: tuple[str, ...] = ()) -> bool:
    """Record an entry; return whether it is in the book.

    Where the book asks, a dialog asks for the reason; where it refuses, its sentence stays on
    the page. Only what the book has confirmed is shown as saved.
    """
    before = page.job
    try:
        page.shoedown.record(entry)
    except EntryRefused as refused:
        if not refused.question:
            again = " What was typed is in the form again." * page.shoedown.half_typed.refused()
            page.refuse(f"{refused}{_between(page, entry)}{again}")
            return False
        return await _ask(page, entry, str(refused), reasons)
    except ShoedownError as fault:
        page.refuse(str(fault))
        return False
    page.shoedown.half_typed.saved()
    from tally.job.programme_change import programme_change  # once something is entered

    told = (entry.worded(page.job), _put_right(page, entry), programme_change(before, page.job))
    page.saved(f"saved {clock(entry.at)}  {'; '.join(each for each in told if each)}")
    return True


def _between(page: Page, entry: Entry) -> str:
    """Return who entered what since this was begun, where the book answers otherwise for it."""
    app = page.shoedown
    with suppress(BookError):  # the next look at the book tells of it
        if app.book.poll():
            page.draw()
    one = came_between(entry, app.seen, app.book.entries)
    return f" {told_between(one, app.job)}" if one is not None else ""


def _put_right(page: Page, entry: Entry) -> str:
    """Return both of each value that a correction or another set-up puts right, or nothing."""
    if entry.KIND not in ("correction", "set up"):
        return ""
    from tally.job.amending import changed_words

    entries = page.shoedown.book.entries
    return changed_words(page.job, entries, entries[-1].seq)


async def _ask(page: Page, entry: Entry, question: str, reasons: tuple[str, ...]) -> bool:
    doubted = entry.doubted(question)
    if doubted is not None:
        return await _in_doubt(page, entry, doubted, question)
    about = tuple(str(getattr(entry, one.name)) for one in fields(entry))
    reason = await ask_reason(page, f"{question}{_between(page, entry)}", reasons, about)
    if reason is None:
        page.refuse("Not entered; nothing was changed.")
        return False
    return await say(page, replace(entry, despite=reason))


async def _in_doubt(page: Page, entry: Entry, doubted: Entry, question: str) -> bool:
    """Ask once; a second Enter stores the entry in doubt."""
    from screens.dialogs.doubt import StoreInDoubt  # seldom asked for

    if await page.app.push_screen_wait(StoreInDoubt(question)):
        return await say(page, doubted)
    page.refuse(f"Not entered: {entry.said()}; nothing was changed.")
    return False


class Stop(Form):
    """A question of the book; a reason half typed for one is no reason for the next."""

    KEPT = False


async def ask_reason(
    page: Page, question: str, reasons: tuple[str, ...] = (), about: tuple[str, ...] = ()
) -> str | None:
    """Stop and ask for a reason; nothing when it was cancelled. `about` are those it is about."""
    answer = await page.app.push_screen_wait(
        Stop(
            "Stop: this was not expected",
            [Field("reason", "Reason to go on", choices=reasons, open=True)],
            says=question,
            about=about,
        )
    )
    return None if answer is None else str(answer["reason"])


async def pass_gates(page: Page, title: str, reasons: tuple[str, ...]) -> dict[str, str] | None:
    """Return the reason and the second person with which a shut gate is passed, or nothing."""
    told = " ".join(each for each in reasons if each)
    answer = await page.app.push_screen_wait(
        Form(
            title,
            [
                Field("despite", "Pass it with the reason"),
                Field("second", "Second person", choices=others(page, page.shoedown.who)),
            ],
            says=f"{told} Passed, it stays an open exception.",
        )
    )
    if answer is None:
        page.refuse(reasons[0])
        return None
    return {str(key): str(value) for key, value in answer.items()}


def others(page: Page, doer: str) -> tuple[str, ...]:
    """Return the people of the job but one."""
    return tuple(name for name in page.job.people if name != doer)
