"""Everything in a book, read at one moment as far as its damage allows."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from tally.book import schema
from tally.book.batches import batches_between
from tally.book.connection import is_busy
from tally.book.journal import LARGEST, Line
from tally.book.opening import UNREADABLE, book_in, every_line, lines_after, number, unreadable
from tally.book.schema import TABLES, Table
from tally.errors import BookDamaged

Found = list[tuple[Any, ...]]


@dataclass(slots=True)
class Contents:
    """What a file holds; `faults` names what could not be read."""

    id: str = ""
    title: str = ""
    schema: int = 0
    """The schema that the table of books names."""
    version: int = 0
    """The schema that the file names."""
    lines: list[Line] = field(default_factory=list)
    rows: dict[str, Found] = field(default_factory=dict)
    """Rows by table, each with the book's id first."""
    batches: dict[int, str] = field(default_factory=dict)
    """The rows of readings, by the number of their line."""
    views: dict[str, str] = field(default_factory=dict)
    triggers: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)


def contents(connection: sqlite3.Connection, name: str) -> Contents:
    """Read a book in one transaction, so that no writer comes between."""
    connection.text_factory = _text
    found = Contents()
    connection.execute("BEGIN")
    try:
        _try(found, "books", lambda: _book(connection, name, found))
        _try(found, "journal", lambda: _lines(connection, found))
        _try(found, "batches", lambda: _batches(connection, found))
        _try(found, "sqlite_schema", lambda: _made(connection, found))
        found.version = number(connection, "user_version")
        for table in TABLES if found.version == schema.SCHEMA else ():
            _try(found, table.name, _rows(connection, table, found))
    finally:
        connection.execute("ROLLBACK")
    return found


def _text(raw: bytes) -> str:
    """Return stored text; damaged bytes become marks, and the chain then shows them."""
    return raw.decode(errors="replace")


def _try(found: Contents, part: str, read: Callable[[], None]) -> None:
    try:
        read()
    except BookDamaged as fault:
        found.faults.append(str(fault))
    except UNREADABLE as fault:
        if isinstance(fault, sqlite3.Error) and is_busy(fault):
            raise
        found.faults.append(str(unreadable(fault, f"Table {part}")))


def _book(connection: sqlite3.Connection, name: str, found: Contents) -> None:
    found.id = book_in(connection, name)
    one = connection.execute("SELECT title, schema FROM books").fetchone()
    found.title, found.schema = one


def _lines(connection: sqlite3.Connection, found: Contents) -> None:
    found.lines = lines_after(connection, found.id, 0)
    every_line(connection, found.id)


def _batches(connection: sqlite3.Connection, found: Contents) -> None:
    found.batches = batches_between(connection, found.id, 0, LARGEST)


def _made(connection: sqlite3.Connection, found: Contents) -> None:
    made = connection.execute("SELECT type, name, sql FROM sqlite_schema").fetchall()
    found.views = {name: sql for kind, name, sql in made if kind == "view"}
    found.triggers = [name for kind, name, _ in made if kind == "trigger"]


def _rows(connection: sqlite3.Connection, table: Table, found: Contents) -> Callable[[], None]:
    def read() -> None:
        found.rows[table.name] = connection.execute(table.read).fetchall()

    return read
