"""What gathering asks of the office's database, whichever engine holds it."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import AbstractContextManager
from typing import Protocol

from tally.book.journal import Line
from tally.book.schema import Table
from tally.office.source import Cells

GATHERED = {
    "book": str,
    "file": str,
    "gathered_at": str,
    "entries": int,
    "head": str,
    "rows_verified": int,
}
"""The office's own table: from where and when a book came last, and what was verified of it."""
ADDRESSES = ("postgresql://", "postgres://")


class Office(Protocol):
    """The office's database, open for gathering."""

    def holding(self, book: str) -> AbstractContextManager[None]:
        """Hold a book for one transaction: all that is done in it is kept, or nothing."""

    def count(self, book: str) -> int:
        """Return how many entries of a book are there."""

    def hashes(self, book: str) -> list[str]:
        """Return the hash of every entry of a book, in their order."""

    def head(self, book: str) -> str:
        """Return the hash of the last entry of a book that is there; nothing if none is."""

    def rows_verified(self, book: str) -> bool:
        """Return whether the rows of a book that are there were held against its journal."""

    def put_book(self, book: str, created: str, title: str) -> None:
        """Write down a book, or its title anew."""

    def add_lines(self, book: str, lines: Sequence[Line]) -> None:
        """Add lines to the journal of a book."""

    def put_rows(self, table: Table, book: str, rows: Sequence[Cells]) -> None:
        """Put the rows of a book in place of those that are there."""

    def note_gathered(self, row: Cells) -> None:
        """Write down from where and when a book came."""

    def close(self) -> None:
        """Close the database."""


def open_office(where: str) -> Office:
    """Open the office's database; one that is not there yet is made.

    Parameters
    ----------
    where : str
        A file, or the address of a PostgreSQL database, postgresql://...

    Raises
    ------
    BookError
        If it is no office of this release, or cannot be opened.
    """
    if where.startswith(ADDRESSES):
        from tally.office.postgres import PostgresOffice

        return PostgresOffice.open(where)
    from tally.office.sqlite import SqliteOffice

    return SqliteOffice.open(where)
