"""Sign a report: by name and role, with what it means, and with the PIN."""

from __future__ import annotations

from screens.acts import say
from screens.dialogs.form import Field
from screens.dialogs.pins import signed_form
from screens.pages.page import Page
from tally.job.entries.people import PinSet
from tally.job.entries.signing import ReportSigned
from tally.job.entry import several
from tally.job.job import Job
from tally.job.signature import MEANINGS, REPORTS, reports_named
from tally.job.unfinished import unfinished

EVERY = "all of these"


def can_be_signed(job: Job) -> tuple[str, ...]:
    """Return the keys of the reports that nothing is missing from before somebody signs."""
    return tuple(key for key in REPORTS if not unfinished(job, key))


async def sign_report(page: Page) -> None:
    """Ask which reports are signed, by whom and what it means; then for the PIN.

    What is signed is the book as it stood when the form was shown.
    """
    ready = can_be_signed(page.job)
    if page.job.setup is None or not ready:
        lacks = unfinished(page.job, "tally") if page.job.setup else "the job is not set up"
        page.refuse(f"Nothing can be signed yet: {lacks}.")
        return
    if not page.job.people:
        page.refuse("Nobody is on the job yet; F2, a adds the person who signs.")
        return
    count, head = page.shoedown.book.head
    answer = await signed_form(
        page, "Sign a report", _fields(page, ready), ("name",), offer=True, says=_says(page)
    )
    if answer is None:
        return
    name, which = answer["name"], answer["reports"]
    app = page.shoedown
    count, head = _with_pins(page, count, head)
    entry = ReportSigned(
        by=app.who or name,
        at=app.now(),
        name=name,
        role=page.job.people[name].role,
        meaning=answer["meaning"],
        reports=ready if which == EVERY else tuple(k for k in ready if REPORTS[k] == which),
        entries=count,
        head=head,
        signed=answer["signed"],
    )
    await say(page, entry)


def _with_pins(page: Page, count: int, head: str) -> tuple[int, str]:
    """Return what is signed: as it was shown, with the PINs that were set on the way."""
    book = page.shoedown.book
    set_since = all(isinstance(each, PinSet) for each in book.entries[count:])
    return book.head if set_since else (count, head)


def _fields(page: Page, ready: tuple[str, ...]) -> list[Field]:
    named = tuple(REPORTS[key] for key in ready)
    people = tuple(page.job.people)
    choices = (*named, EVERY) if len(named) > 1 else named
    who = page.shoedown.who if page.shoedown.who in people else ""
    return [
        Field("reports", "Report", choices=choices, value=choices[-1]),
        Field("name", "Signed by", choices=people, value=who),
        Field("meaning", "As", choices=MEANINGS),
    ]


def _says(page: Page) -> str:
    job, (count, head) = page.job, page.shoedown.book.head
    still = len(job.open_exceptions())
    lacks = [key for key in REPORTS if unfinished(job, key)]
    more = (
        f" Not yet: {reports_named(tuple(lacks))}, {unfinished(job, lacks[-1])}." if lacks else ""
    )
    return (
        f"What is signed stays as it is: {several(count, 'entry')}, "
        f"the last hash {head[:12]}. Exceptions open: {still}.{more}"
    )
