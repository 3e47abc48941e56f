"""Looking into an office's database with nothing of ours between."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from typing import Any

from tally.office.database import ADDRESSES

Rows = list[tuple[Any, ...]]


def ask(where: str, query: str) -> Rows:
    """Return what a query gives."""
    if where.startswith(ADDRESSES):
        import psycopg

        with psycopg.connect(where) as connection:
            return [tuple(row) for row in connection.execute(query).fetchall()]
    with closing(sqlite3.connect(where)) as connection:
        return connection.execute(query).fetchall()


def do(where: str, change: str) -> None:
    """Change something behind the office's back."""
    if where.startswith(ADDRESSES):
        import psycopg

        with psycopg.connect(where) as connection:
            connection.execute(change)
        return
    with closing(sqlite3.connect(where)) as connection:
        connection.execute(change)
        connection.commit()


def everything(where: str) -> dict[str, Rows]:
    """Return every row of every table of a book, in order; SQLite and PostgreSQL alike."""
    from tally.book.schema import TABLES

    names = ("books", "journal", *(table.name for table in TABLES))
    return {
        name: sorted(ask(where, f"SELECT * FROM {name}"), key=lambda row: str(row))
        for name in names
    }
