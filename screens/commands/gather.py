"""The command that brings books from many rigs into the office's database."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from screens.commands.books import BOOK, now
from screens.commands.refusing import FAULTS
from screens.commands.telling import plural, say
from tally.errors import ShoedownError
from tally.reports.guard import visible


@click.command()
@click.argument("office")
@click.argument("books", metavar="BOOK...", type=BOOK, nargs=-1, required=True)
@click.option("--full", is_flag=True, help="Verify the rows of each book too; takes much longer.")
def gather(office: str, books: tuple[Path, ...], full: bool) -> None:
    """Add BOOKs to the office's database OFFICE, a file or postgresql:// address, without doubles.

    Each book's file and chain are verified first. What the office has already is left alone; a
    book with another history than the office has of it is refused, and the others go on.
    """
    from tally.office.database import open_office
    from tally.office.gathering import gather as bring

    opened = open_office(office)
    outcomes: Counter[str] = Counter()
    entries = 0
    refusals: list[str] = []
    try:
        for path in _shown(books):
            try:
                one = bring(opened, path, now(), full=full)
            except (ShoedownError, OSError) as fault:
                refusals.append(f"REFUSED {visible(str(path))}: {visible(str(fault))}")
                continue
            outcomes[one.outcome] += 1
            entries += one.new
    finally:
        opened.close()
    _tell(outcomes, entries, refusals)


def _tell(outcomes: Counter[str], entries: int, refusals: Sequence[str]) -> None:
    for refusal in refusals:
        say(refusal)
    say(
        f"{plural(outcomes['added'], 'book')} added, {outcomes['grown']} grown, "
        f"{outcomes['unchanged']} as the office has them, {outcomes['older']} older than that, "
        f"{len(refusals)} refused; {plural(entries, 'new entry', 'new entries')}."
    )
    if refusals:
        sys.exit(FAULTS)


def _shown(books: Sequence[Path]) -> Iterator[Path]:
    """Yield the books one by one; on a terminal a bar shows how far it is."""
    if not sys.stderr.isatty():
        yield from books
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn
    from rich.progress import TimeRemainingColumn as Left

    bar = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), Left())
    with Progress(*bar, console=Console(stderr=True), transient=True) as progress:
        yield from progress.track(books, description="Gathering")
