"""The office's database as one SQLite file: the tables of a book, for many books."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from tally.book import schema
from tally.book.connection import connect, immediate
from tally.book.journal import Line
from tally.book.making import make_tables
from tally.book.opening import UNREADABLE, number, unreadable
from tally.book.schema import BOOKS, JOURNAL, Table, view_sql
from tally.errors import BookDamaged, BookError, BookTooNew
from tally.office.database import GATHERED
from tally.office.source import Cells
from tally.office.views import OFFICE_VIEWS

OFFICE_ID = 0x53684F66
"""Marks a file as an office's database; the letters "ShOf"."""
WAIT = 60.0
"""How long to wait for another gathering, [s]; each holds the file for one book at a time."""
_KINDS = {str: "TEXT", int: "INTEGER", float: "REAL"}
_GATHERED = (
    "CREATE TABLE gathered ("
    + ", ".join(f"{name} {_KINDS[kind]} NOT NULL" for name, kind in GATHERED.items())
    + ", PRIMARY KEY (book)) STRICT, WITHOUT ROWID"
)


def _marks(columns: int) -> str:
    return ", ".join("?" * columns)


class SqliteOffice:
    """The office's database in a file."""

    def __init__(self, connection: sqlite3.Connection, name: str) -> None:
        self._connection = connection
        self._name = name

    @classmethod
    def open(cls, where: str) -> SqliteOffice:
        """Open a file; one that is not there, or in which nothing was finished, is made."""
        path = Path(where).absolute()
        if not path.parent.is_dir():
            raise BookError(f"There is no folder {path.parent}; make it, or name another place.")
        if path.is_dir():
            raise BookError(f"{path} is a folder; name the file of the office's database in it.")
        path.touch(exist_ok=True)
        try:
            connection = connect(path, wait=WAIT)
        except UNREADABLE as fault:
            raise _refusal(fault, path.name) from fault
        try:
            with immediate(connection, WAIT):
                _made(connection, path.name)
        except BaseException as fault:
            connection.close()
            if isinstance(fault, UNREADABLE):
                raise _refusal(fault, path.name) from fault
            raise
        return cls(connection, path.name)

    @contextmanager
    def holding(self, book: str) -> Iterator[None]:
        """Hold the file for one transaction."""
        try:
            with immediate(self._connection, WAIT):
                yield
        except UNREADABLE as fault:
            raise _refusal(fault, self._name) from fault

    def count(self, book: str) -> int:
        """Return how many entries of a book are there."""
        asked = "SELECT count(*), coalesce(max(seq), 0) FROM journal WHERE book = ?"
        count, last = self._connection.execute(asked, (book,)).fetchone()
        if count != last:
            raise BookDamaged(
                f"{self._name} holds {count} entries of book {book}, and the last is entry {last}: "
                "some are gone. Gather into a new file."
            )
        return int(count)

    def head(self, book: str) -> str:
        """Return the hash of the last entry that is there."""
        asked = "SELECT hash FROM journal WHERE book = ? ORDER BY seq DESC LIMIT 1"
        found = self._connection.execute(asked, (book,)).fetchone()
        return str(found[0]) if found else ""

    def hashes(self, book: str) -> list[str]:
        """Return the hash of every entry of a book, in their order."""
        asked = "SELECT hash FROM journal WHERE book = ? ORDER BY seq"
        return [str(row[0]) for row in self._connection.execute(asked, (book,))]

    def rows_verified(self, book: str) -> bool:
        """Return whether the rows of a book that are there were held against its journal."""
        asked = "SELECT rows_verified FROM gathered WHERE book = ?"
        found = self._connection.execute(asked, (book,)).fetchone()
        return bool(found and found[0])

    def put_book(self, book: str, created: str, title: str) -> None:
        """Write down a book, or its title anew."""
        self._connection.execute(
            f"INSERT INTO books VALUES ({_marks(len(BOOKS))}) "
            "ON CONFLICT (book) DO UPDATE SET title = excluded.title",
            (book, created, schema.SCHEMA, title),
        )

    def add_lines(self, book: str, lines: Sequence[Line]) -> None:
        """Add lines to the journal of a book."""
        self._connection.executemany(
            f"INSERT INTO journal VALUES ({_marks(len(JOURNAL))})",
            ((book, line.seq, line.prev, line.hash, line.text) for line in lines),
        )

    def put_rows(self, table: Table, book: str, rows: Sequence[Cells]) -> None:
        """Put the rows of a book in place of those that are there."""
        self._connection.execute(f"DELETE FROM {table.name} WHERE book = ?", (book,))
        self._connection.executemany(table.put, rows)

    def note_gathered(self, row: Cells) -> None:
        """Write down from where and when a book came."""
        self._connection.execute(
            f"INSERT OR REPLACE INTO gathered VALUES ({_marks(len(GATHERED))})", row
        )

    def close(self) -> None:
        """Close the file."""
        self._connection.close()


def _made(connection: sqlite3.Connection, name: str) -> None:
    """Make the tables in an empty file; refuse one that holds anything but an office's."""
    if not connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()[0]:
        make_tables(connection)
        connection.execute(_GATHERED)
        for view, query in OFFICE_VIEWS.items():
            connection.execute(view_sql(view, query))
        connection.execute(f"PRAGMA application_id = {OFFICE_ID}")
        return
    found = number(connection, "application_id")
    if found == schema.APPLICATION_ID:
        raise BookError(f"{name} is a book, no office's database; name another file for that.")
    if found != OFFICE_ID:
        raise BookDamaged(f"{name} belongs to another program; name another file.")
    made = number(connection, "user_version")
    if made != schema.SCHEMA:
        kind = BookTooNew if made > schema.SCHEMA else BookError
        raise kind(
            f"{name} was made by another release (schema {made}; this one makes {schema.SCHEMA}): "
            "gather the books into a new file."
        )


def _refusal(fault: Exception, name: str) -> BookError:
    return fault if isinstance(fault, BookError) else unreadable(fault, name)
