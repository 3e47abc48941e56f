"""Gathering: books from many rigs into one database, again and again, none of it doubled."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from tally.book.schema import TABLES
from tally.errors import BookError
from tally.office.database import Office
from tally.office.source import Source, read_source

ADDED, GROWN, UNCHANGED, OLDER = "added", "grown", "unchanged", "older"


@dataclass(frozen=True, slots=True)
class Gathered:
    """What became of one book."""

    outcome: str
    new: int
    """Entries that the office did not have."""


def gather(office: Office, path: Path, at: str, *, full: bool = False) -> Gathered:
    """Bring one book into the office, in one transaction, verified before anything is written.

    Parameters
    ----------
    office : Office
        The office's database
    path : Path
        The book, as it came from the rig
    at : str
        The time, as an entry keeps it
    full : bool
        Whether the rows are held against the journal too

    Raises
    ------
    BookError
        If the book is not sound, or the office has another history of it; nothing is written.
    """
    source = read_source(path, full=full)
    with office.holding(source.book):
        known, head = office.count(source.book), office.head(source.book)
        same = min(known, source.count)
        if known and (head if same == known else office.hashes(source.book)[same - 1]) != (
            source.hash_at(same)
        ):
            raise _conflict(office, source, path.name)
        if known > source.count:
            return Gathered(OLDER, 0)
        if known < source.count or (source.full and not office.rows_verified(source.book)):
            _write(office, source, known, (path.name, at))
    if known == source.count:
        return Gathered(UNCHANGED, 0)
    return Gathered(GROWN if known else ADDED, source.count - known)


def _write(office: Office, source: Source, known: int, came: tuple[str, str]) -> None:
    office.put_book(source.book, source.created, source.title)
    office.add_lines(source.book, source.lines[known:])
    for table in TABLES:
        office.put_rows(table, source.book, source.rows[table.name])
    head = source.hash_at(source.count)
    office.note_gathered((source.book, *came, source.count, head, int(source.full)))


def _conflict(office: Office, source: Source, name: str) -> BookError:
    """Return the refusal of a book with another history, its first entry that differs named."""
    held = office.hashes(source.book)
    pairs = zip(held, source.lines, strict=False)
    first = next((line.seq for has, line in pairs if has != line.hash), 1)
    return BookError(
        f"{name} (book {source.book}) has another history than the office from entry {first} on. "
        f"Nothing of it was added; keep both and find out which one the rig worked with."
    )
