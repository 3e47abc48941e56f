"""Commands about a book: open it, make it, write its files, verify it."""

from __future__ import annotations

import sys
from collections.abc import Callable
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from screens.commands.refusing import FAULTS
from screens.commands.telling import plural, say, say_path
from tally.errors import BookError, InputError, ShoedownError
from tally.reports.guard import visible

if TYPE_CHECKING:
    from screens.app import ShoedownApp
    from tally.book.book import Book
    from tally.book.reported import Reported
    from tally.job.job import Job

BOOK = click.Path(path_type=Path)
Begin = Callable[["ShoedownApp"], None]
"""What is done once the first page stands."""


def now() -> str:
    """Return the time as an entry keeps it: to the second, with its offset."""
    return datetime.now().astimezone().isoformat(timespec="seconds")


def on_a_terminal() -> bool:
    """Return whether a person sits at both ends."""
    return sys.stdin.isatty() and sys.stdout.isatty()


@click.command("open")
@click.argument("book", type=BOOK, required=False)
@click.option("--look", is_flag=True, help="Open to look only; nothing can be entered.")
@click.option("--rig", help="Where the rig's readings come from: HOST:PORT, listen:PORT, ...")
@click.option(
    "--rig-units", type=click.Choice(["field", "metric"]), help="Their unit set; the job's own."
)
@click.option("--rig-items", default="", help="Items otherwise, like: trip tank=1130.")
@click.option("--rig-send", is_flag=True, help="Send shoe depth and volume to bump back.")
def open_book(
    book: Path | None,
    look: bool,
    rig: str | None,
    rig_units: str | None,
    rig_items: str,
    rig_send: bool,
) -> None:
    """Open BOOK on the screen; `shoedown BOOK` does the same."""
    if book is None:
        raise ShoedownError(
            "Name the book to open, as in `shoedown job.db`; `shoedown new job.db` makes one, and "
            "`shoedown demo` shows one."
        )
    show(book, look=look, begin=_rig(rig, rig_units, rig_items, rig_send) if rig else None)


def _rig(address: str, units: str | None, items: str, send: bool) -> Begin:
    """Return what connects the rig's stream; what cannot be one is refused before the screens."""
    from tally.feeds.rig_source import source_at
    from tally.feeds.rig_values import chosen_items

    source_at(address)
    chosen_items(items)

    def begin(app: ShoedownApp) -> None:
        if app.job.setup is not None:
            app.follow_rig(address, units or app.job.known.shown.name, items, send=send)

    return begin


def show(path: Path, *, look: bool = False, begin: Begin | None = None) -> None:
    """Open the screens on a book and stay until they are left."""
    from tally.book.book import Book

    with Book.open(path, look_only=look) as book:
        start, who = "run" if book.job.setup else "job", "" if book.entries else login_name()
        _run(book, start, who, begin)


def _run(book: Book, start: str, who: str, begin: Begin | None = None) -> Book:
    """Run the screens on a book; return the book that they were left with."""
    _require_terminal()
    from screens.app import ShoedownApp
    from screens.start import until_left

    app = ShoedownApp(book, start=start, who=who)
    if begin is not None:
        app.at_start = partial(begin, app)
    until_left(app)
    return app.book


def _require_terminal() -> None:
    if not on_a_terminal():
        raise ShoedownError("The screens need a terminal; `figures` and `export` work without one.")


@click.command()
@click.argument("book", type=BOOK)
@click.option(
    "--from", "source", type=BOOK, help="The job file, job.toml; or the JSON file of a whole book."
)
@click.option("--by", default="", help="Who sets the job up; your login name unless given.")
def new(book: Path, source: Path | None, by: str) -> None:
    """Make BOOK from a job file, from the JSON of a whole book, or by typing into forms."""
    if source is None:
        _type_in(book, by or login_name())
    elif source.suffix.lower() == ".json":
        _again(book, source, by)
    else:
        _from_file(book, source, by or login_name())


def _type_in(path: Path, by: str) -> None:
    """Open the forms of the set-up; they make the book."""
    from tally.book.new_book import NewBook
    from tally.units import clean

    if path.exists() or path.is_symlink():
        raise BookError(f"There is a file at {visible(str(path))} already; name one that is free.")
    if not path.absolute().parent.is_dir():
        raise BookError(
            f"There is no folder {visible(str(path.absolute().parent))}; make it first."
        )
    _require_terminal()
    with _run(NewBook(path), "job", clean(by, 60)) as left:
        if left.job.setup is None:
            say("No book is made yet; `shoedown new` with the same name goes on with the draft.")
        else:
            say_path("Book made:", left.path)


def _from_file(book: Path, job_file: Path, by: str) -> None:
    from tally.book.book import Book
    from tally.feeds.job_file import job_entries

    entries = job_entries(job_file, by, now())
    with Book.create(book, entries) as made:
        well = made.job.known.well
        joints = made.job.received
        say(f"{well.name}, {well.string}: {plural(joints, 'joint')} on location.")
        say_path("Book made:", made.path)
        _warn_of_slurries(made.job)
        _warn_of_place(made.path)


def _warn_of_slurries(job: Job) -> None:
    """Say how what is typed for a slurry disagrees, and which value is used."""
    from tally.job.recipes import slurry_doubts

    for doubt in slurry_doubts(job.known):
        say(f"In doubt: {doubt.text}")


def _warn_of_place(path: Path) -> None:
    from tally.book.medium import warning

    told = warning(path)
    if told:
        say(told)


def _again(book: Path, source: Path, by: str) -> None:
    """Make the book that an export wrote as JSON."""
    from tally.book.rebuilding import rebuilt

    if by:
        raise InputError("The entries of a book keep their own names; leave --by out.")
    report = rebuilt(book.absolute(), source)
    say(f"{plural(report.count, 'entry', 'entries')}, the last hash is {report.head}.")
    say_path("Book made again and verified:", book.absolute())
    _warn_of_place(book.absolute())


def login_name() -> str:
    """Return the name that the person is logged in with."""
    from getpass import getuser

    try:
        return getuser()
    except (OSError, KeyError, ImportError):
        raise InputError("Say who you are with --by NAME.") from None


@click.command()
@click.argument("book", type=BOOK)
@click.option("--to", "folder", type=BOOK, required=True, help="The folder; made if need be.")
@click.option("--only", multiple=True, help="One kind of file; may be given several times.")
def export(book: Path, folder: Path, only: tuple[str, ...]) -> None:
    """Write the reports of BOOK to a folder: its tally, lists and set-up, in every usual form."""
    from screens.commands.export_progress import progress_shown
    from screens.export_files import export_files
    from tally.book.book import Book

    with Book.open(book, look_only=True) as opened, progress_shown():
        paths = export_files(opened, folder, only)
        final = opened.job.landing is not None
    if not final:
        say("NOT FINAL: the string is not on depth yet.")
    for path in paths:
        say_path("Written:", path)


@click.command()
@click.argument("book", type=BOOK)
@click.argument("to", type=BOOK)
def backup(book: Path, to: Path) -> None:
    """Copy BOOK to the file or folder TO, verify the copy, and put it in its place."""
    from tally.book.backup import backup as copy

    made = copy(book, to)
    say(f"{plural(made.count, 'entry', 'entries')}, the last hash is {made.head}.")
    say_path("Copied and verified:", made.path)


@click.command()
@click.argument("book", type=BOOK)
@click.option(
    "--against",
    help="A report of BOOK: its JSON, its text page, or the count and hash that it prints.",
)
def verify(book: Path, against: str | None) -> None:
    """Check that BOOK holds together, and still holds what a report said."""
    from tally.book.reported import read_reported
    from tally.book.verify import verify as look_through

    reported = read_reported(against) if against is not None else None
    report = look_through(book, reported)
    for finding in report.findings:
        say(str(finding))
    if not report.ok:
        say("FAULTS were found: keep the file as it is and work from a copy of an earlier one.")
        _tell_of_copy(book)
        sys.exit(FAULTS)
    if reported is not None and reported.page:
        _read_page(book, reported)


def _tell_of_copy(book: Path) -> None:
    from tally.book.second_place import last_good_copy

    told = last_good_copy(book.absolute())
    if told:
        say(told)


def _read_page(book: Path, reported: Reported) -> None:
    """Say whether the page reads as the sound book gives it."""
    from tally.book.book import Book
    from tally.reports.page_held import page_differs

    with Book.open(book, look_only=True) as opened:
        differs = page_differs(opened, reported.page, reported.count)
    if differs is None:
        say("Only the count and the hash of this page were looked at.")
    elif differs:
        say(differs)
        sys.exit(FAULTS)
    else:
        say("The page reads word for word as those entries give it.")
