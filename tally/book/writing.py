"""Writing into a book, inside the transaction that is open: lines, and the rows they change."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable

from tally.book import schema
from tally.book.journal import Line
from tally.book.rows import differences, title
from tally.job.job import Job

_ADD_LINE = "INSERT INTO journal VALUES (?, ?, ?, ?, ?)"


def write_book(connection: sqlite3.Connection, book: str, created: str) -> None:
    """Write down which book the file is."""
    connection.execute("INSERT INTO books VALUES (?, ?, ?, '')", (book, created, schema.SCHEMA))


def write_lines(connection: sqlite3.Connection, book: str, lines: Iterable[Line]) -> None:
    """Add lines to the journal."""
    for line in lines:
        connection.execute(_ADD_LINE, (book, line.seq, line.prev, line.hash, line.text))


def write_rows(connection: sqlite3.Connection, book: str, old: Job, new: Job) -> None:
    """Bring the rows from one job to the next; only what changes is written."""
    for change in differences(old, new):
        for key in change.gone:
            connection.execute(change.table.drop, (book, *key))
        for row in change.put:
            connection.execute(change.table.put, (book, *row))
    if old.setup is not new.setup:
        connection.execute("UPDATE books SET title = ? WHERE book = ?", (title(new), book))
