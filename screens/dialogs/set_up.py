"""What the keys of the set-up do: fill in a table, read a survey, save all, begin again."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from screens.acts import say
from screens.dialogs.form import Field, Form
from screens.dialogs.panel import Panel
from screens.dialogs.running import stamp
from screens.dialogs.table_form import TableForm
from screens.ink import STOP, wrap
from tally.book.new_book import NewBook
from tally.errors import InputError, JobFileError, ShoedownError
from tally.feeds.job_file import JobFile, first_entries
from tally.feeds.job_sheets import Sheet, where
from tally.feeds.survey_list import read_survey
from tally.job.entries.people import SetUp
from tally.job.entry import clock
from tally.units import shown

if TYPE_CHECKING:
    from screens.pages.set_up import SetUpPage

REASONS = ("the programme changed", "typed wrongly before", "measured on location")
KEEP, AGAIN = "keep what is typed", "throw it away and begin again"
SHOWN_CHANGES = 10


async def fill_in(page: SetUpPage, sheet: Sheet) -> None:
    """Ask for a table, or for lines of it one after the other until one is left or empty."""
    while True:
        place = page.row or 0
        new = not page.work.draft.row(sheet.name, place)
        answer = await page.app.push_screen_wait(TableForm(page.work, sheet, place, _keeper(page)))
        page.work.tidy()
        _keep(page)
        if answer is None:
            break
        if page.row is None:
            page.go_on()
            break
        last = place + 1 >= len(sheet.rows) if sheet.rows else not any(answer.values())
        if last:
            break
        page.row = place + 1
        page.draw()
        if not new:
            break
    page.draw()


def _keeper(page: SetUpPage) -> Callable[[], None]:
    return lambda: _keep(page)


def _keep(page: SetUpPage) -> None:
    fault = page.work.keep()
    if fault:
        page.refuse(fault)


def take_out(page: SetUpPage, sheet: Sheet, row: int) -> None:
    """Take a line out of the draft; a line that is always there is emptied."""
    if sheet.rows:
        page.work.typed(sheet.name, row, {})
    else:
        page.work.draft = page.work.draft.without_row(sheet.name, row)
    _keep(page)


async def read_survey_file(page: SetUpPage) -> None:
    """Ask for a file and take its stations in the place of those typed."""
    folder, typed = page.work.book.path.parent, len(page.work.draft.of("survey"))
    unit = page.work.draft.row("tally", 0).get("unit", "")
    answer = await page.app.push_screen_wait(
        Form(
            "Read the survey from a CSV file",
            [
                Field("file", "File", _file_beside(folder), hint="beside the book, or its path"),
                Field(
                    "unit",
                    "Unit of the depths, where the file names none",
                    choices=("ft", "m"),
                    value="m" if unit.startswith("m") else "ft",
                ),
            ],
            says=f"It takes the place of the {typed} stations typed." if typed else "",
        )
    )
    if answer is None:
        return
    try:
        stations = read_survey(answer["file"], answer["unit"])
    except JobFileError as error:
        lines = [each for one in error.faults for each in wrap(one, 70, STOP)]
        await page.app.push_screen_wait(Panel("The survey was not read", lines))
        return
    page.work.draft = page.work.draft.with_rows("survey", stations)
    page.row = None
    page.saved(f"{len(stations)} stations read; not saved in the book yet")
    _keep(page)


def _file_beside(folder: Path) -> Callable[[str], Path]:
    """Return a reader of a file; a name alone is a file beside the book."""

    def read(text: str) -> Path:
        path = folder / Path(text)
        try:
            there = path.is_file()
        except (OSError, ValueError):
            there = False
        if not there:
            raise InputError(f"There is no file '{shown(text, 60)}'; look at its name and folder.")
        return path

    return read


async def begin_again(page: SetUpPage) -> None:
    """Throw away what is typed, once a person has said so."""
    field = Field("what", "What", choices=(KEEP, AGAIN), value=KEEP)
    answer = await page.app.push_screen_wait(Form("Begin again", [field]))
    if answer and answer["what"] == AGAIN:
        page.work.begin_again()
        page.saved("begun again from what stands in the book")


async def save(page: SetUpPage) -> None:
    """Save the whole set-up: make the book with it, or record the change with its reason."""
    job = page.work.look_again().job
    if job is None:
        _go_to_first_fault(page)
    elif isinstance(page.work.book, NewBook):
        _make_book(page, page.work.book, job)
    elif page.work.editing:
        await _change(page, job)
    else:
        await _set_up(page, job)


def _go_to_first_fault(page: SetUpPage) -> None:
    """Put the cursor where the first fault is, and say how many there are."""
    faults = page.work.looked.faults
    spots = [where(fault.spot) for fault in faults]
    order = [sheet.name for sheet in page.work.sheets]
    names = [name for name in order if any(spot.sheet == name for spot in spots)]
    if names:
        page.go_to(names[0])
    titles = ", ".join(sheet.title for sheet in page.work.sheets if sheet.name in names)
    count = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
    page.draw()
    page.refuse(f"Not saved: {count} in {titles}.")


def _make_book(page: SetUpPage, new: NewBook, job: JobFile) -> None:
    app = page.shoedown
    try:
        made = new.made(first_entries(job, app.who, app.now()))
    except ShoedownError as fault:
        page.refuse(f"Not saved. {fault}")
        return
    app.book = made
    page.leave(f"saved {clock(app.now())}  the book {made.path.name} is made")


async def _set_up(page: SetUpPage, job: JobFile) -> None:
    """Record what begins a book that was made without a set-up."""
    for entry in first_entries(job, page.shoedown.who, page.shoedown.now()):
        if not await say(page, entry):
            return
    page.leave(f"saved {clock(page.shoedown.now())}  the job is set up")


async def _change(page: SetUpPage, job: JobFile) -> None:
    changed = page.work.changes()
    if not changed:
        page.refuse("Nothing would change; there is nothing to save.")
        return
    entry = SetUp(**stamp(page), setup=job.setup)
    refused = entry.check(page.job)
    if refused:
        page.refuse(f"Not saved. {refused}")
        return
    answer = await page.app.push_screen_wait(
        Form(
            "Save the change of the set-up",
            [Field("reason", "Why", choices=REASONS, open=True)],
            says=_in_words(changed),
        )
    )
    if answer is None:
        page.refuse("Not saved; the draft is kept.")
        return
    entry = SetUp(**stamp(page), setup=job.setup, despite=answer["reason"])
    if await say(page, entry):
        page.leave(f"saved {clock(entry.at)}  the set-up is changed: {answer['reason']}")


def _in_words(changed: tuple[str, ...]) -> str:
    lines = [f"- {each}" for each in changed[:SHOWN_CHANGES]]
    more = len(changed) - SHOWN_CHANGES
    rest = [f"and {more} more; the page shows them all under what would change"] if more > 0 else []
    return "\n".join([*lines, *rest])
