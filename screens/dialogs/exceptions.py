"""The open exceptions: read them, and close one with how it was settled."""

from __future__ import annotations

from collections.abc import Callable

from textual.binding import Binding
from textual.content import Content

from screens.acts import others, say
from screens.dialogs.form import Field
from screens.dialogs.panel import Panel
from screens.dialogs.pins import signed_form
from screens.dialogs.running import ask, stamp
from screens.dialogs.values import whole_number
from screens.ink import ATTENTION, INK, QUIET, cut, line, wrap
from screens.pages.page import Page
from tally.errors import InputError
from tally.job.entries.closing import ExceptionClosed
from tally.job.entry import clock
from tally.job.job import Job, OpenException

WIDTH = 70
SETTLED = ("checked and agreed", "put right", "accepted as it is")


class ExceptionsPanel(Panel):
    """The exceptions of a job; k leaves it to close one."""

    BINDINGS = [Binding("k", "settle", "Close an exception", id="exceptions.settle")]

    def __init__(self, job: Job) -> None:
        super().__init__("Exceptions", exception_lines(job, WIDTH), "k close one")
        self.to_settle = False

    def action_settle(self) -> None:
        """Leave the panel for the form."""
        self.to_settle = True
        self.dismiss(None)


def exception_lines(job: Job, width: int) -> list[Content]:
    """Return the open exceptions, then the closed ones with how they were settled."""
    still = job.open_exceptions()
    closed = [each for each in job.exceptions if each.closed_by]
    lines = [line(f"open: {len(still)}", ATTENTION if still else QUIET)]
    for each in still:
        lines += open_lines(each, width)
    lines += [line("")] if closed and still else []
    lines += [line(f"closed: {len(closed)}", QUIET)] if closed else []
    for each in closed:
        lines += wrap(f"entry {each.seq}: {each.what}", width, QUIET)
        lines += wrap(f"  closed by {each.closed_by}: {each.closing}", width)
    return lines


def open_lines(each: OpenException, width: int, style: str = INK) -> list[Content]:
    """Return one open exception in as many lines as it takes."""
    return wrap(f"entry {each.seq}, {clock(each.at)}, {each.by}: {each.what}", width, style)


async def show_exceptions(page: Page) -> None:
    """Show the exceptions, and close one if that is asked for."""
    panel = ExceptionsPanel(page.job)
    await page.app.push_screen_wait(panel)
    if panel.to_settle:
        await settle(page)


async def settle(page: Page) -> None:
    """Close one open exception."""
    still = page.job.open_exceptions()
    if not still:
        page.refuse("No exception is open; there is nothing to close.")
        return
    of = still[0].seq if len({each.seq for each in still}) == 1 else await _which(page)
    if of is None:
        return
    these, who = [each for each in still if each.seq == of], page.shoedown.who
    fields = [Field("reason", "How it was settled", choices=SETTLED, open=True)]
    critical = any(each.critical for each in these)
    if critical:
        fields.append(Field("second", "Second person", choices=others(page, who)))
    answer = await signed_form(
        page,
        f"Close the exception of entry {of}",
        fields,
        ("second",),
        also=who if critical or any(each.by != who for each in these) else "",
        says=" ".join(each.what for each in these),
    )
    if answer:
        await say(page, ExceptionClosed(**stamp(page), of=of, **answer))


async def _which(page: Page) -> int | None:
    still = page.job.open_exceptions()
    answer = await ask(
        page,
        "Close which exception",
        Field("of", "Entry number", _open_one(page.job), value=str(still[0].seq)),
        says="\n".join(cut(f"{each.seq:>5}  {each.what}", WIDTH) for each in still),
    )
    return int(answer["of"]) if answer else None


def _open_one(job: Job) -> Callable[[str], int]:
    def read(text: str) -> int:
        of = whole_number(text)
        if all(each.seq != of for each in job.open_exceptions()):
            raise InputError(f"Entry {of} has no open exception; type a number of the list.")
        return of

    return read
