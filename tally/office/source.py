"""One book read for the office, and its record verified on the way."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from tally.book import schema
from tally.book.connection import connect, patiently
from tally.book.journal import Line, genesis, misfit
from tally.book.opening import (
    UNREADABLE,
    book_in,
    every_line,
    file_id,
    number,
    recognised,
    unreadable,
    whole,
)
from tally.book.rows import rows_of, title
from tally.book.schema import TABLES, Value
from tally.book.standing import begun
from tally.book.verify import verify
from tally.errors import BookDamaged

Cells = tuple[Value, ...]
"""A row as a table holds it, the book's id first."""
_STRANGE = """
    SELECT seq FROM journal
    WHERE CASE WHEN json_valid(line)
        THEN json_extract(line, '$.book') IS NOT book OR json_extract(line, '$.seq') IS NOT seq
        ELSE 1 END
    ORDER BY seq LIMIT 1"""


@dataclass(frozen=True, slots=True)
class Source:
    """A book as it goes into the office's database."""

    book: str
    created: str
    title: str
    lines: tuple[Line, ...]
    rows: dict[str, list[Cells]]
    """Rows by table."""
    full: bool
    """Whether its rows were held against the journal."""

    @property
    def count(self) -> int:
        """How many entries it has."""
        return len(self.lines)

    def hash_at(self, count: int) -> str:
        """Return the hash of an entry; that of the beginning for none."""
        return self.lines[count - 1].hash if count else genesis(self.book)


def read_source(path: Path, *, full: bool = False) -> Source:
    """Read a book; its file, its chain and the place of every line are verified.

    Parameters
    ----------
    path : Path
        The book
    full : bool
        Whether all of it is verified, its rows too, as `verify` does

    Raises
    ------
    BookError
        If there is none, another program holds it, or it is not sound.
    """
    file_id(path)
    if full:
        _verified(path)
    try:
        with closing(connect(path, look_only=True)) as connection:
            return patiently(lambda: _at_one_moment(connection, path.name, full))
    except UNREADABLE as fault:
        raise unreadable(fault, path.name) from fault


def _verified(path: Path) -> None:
    report = verify(path)
    for finding in report.findings:
        if not finding.good:
            raise BookDamaged(f"{path.name} is not sound: {finding}")


def _at_one_moment(connection: sqlite3.Connection, name: str, full: bool) -> Source:
    connection.execute("BEGIN")
    try:
        recognised(connection, name)
        whole(connection, name)
        return _read(connection, name, full)
    finally:
        connection.execute("ROLLBACK")


def _read(connection: sqlite3.Connection, name: str, full: bool) -> Source:
    book = book_in(connection, name)
    lines = tuple(every_line(connection, book))
    _chained(connection, book, lines, name)
    created, called = connection.execute("SELECT created, title FROM books").fetchone()
    if number(connection, "user_version") < schema.SCHEMA:
        return _made_anew(book, created, lines)
    rows = {table.name: connection.execute(table.read).fetchall() for table in TABLES}
    return Source(book, created, called, lines, rows, full)


def _chained(connection: sqlite3.Connection, book: str, lines: tuple[Line, ...], name: str) -> None:
    head = genesis(book)
    for count, line in enumerate(lines):
        fault = misfit(line, count, head)
        if fault:
            raise BookDamaged(f"{name}: {fault}")
        head = line.hash
    strange = connection.execute(_STRANGE).fetchone()
    if strange:
        raise BookDamaged(
            f"{name}: the line of entry {strange[0]} cannot be read, or was written for another "
            "place or book."
        )


def _made_anew(book: str, created: str, lines: tuple[Line, ...]) -> Source:
    """Return a book of an earlier schema with its rows as this release makes them."""
    job = begun(book).carried_on(lines).job
    rows = {name: [(book, *row) for row in keyed.values()] for name, keyed in rows_of(job).items()}
    return Source(book, created, title(job), lines, rows, True)
