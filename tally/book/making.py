"""Making the tables of a book, and making its rows anew where an earlier release made them."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from tally.book import schema
from tally.book.connection import immediate, patiently
from tally.book.opening import UNREADABLE, Opened, lines_after, number, unreadable
from tally.book.schema import APPLICATION_ID, BOOKS, JOURNAL, TABLES, VIEWS, view_sql
from tally.book.writing import write_rows
from tally.job.job import EMPTY

if TYPE_CHECKING:
    from sqlite_utils import Database


def make_tables(connection: sqlite3.Connection) -> None:
    """Make every table and view, inside the transaction that is open."""
    maker = _maker(connection)
    connection.execute(_table_sql(maker, "books", BOOKS, ("book",)))
    connection.execute(_table_sql(maker, "journal", JOURNAL, ("book", "seq")))
    _make_rows(connection, maker)
    connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")


def schema_of(connection: sqlite3.Connection, wait: float) -> int:
    """Return the step of the schema in which the rows of a file were made."""
    return patiently(lambda: number(connection, "user_version"), wait)


def stepped_up(how: Opened, name: str, wait: float) -> Opened:
    """Return a book with its rows as this release makes them; the journal is left alone.

    Rows of an earlier schema are dropped and made anew from the journal, in one transaction.
    """
    connection, known = how.connection, how.standing
    if schema_of(connection, wait) == schema.SCHEMA:
        return how
    try:
        with immediate(connection, wait):
            now = known.carried_on(lines_after(connection, known.book, known.count))
            for view in VIEWS:
                connection.execute(f"DROP VIEW IF EXISTS {view}")
            for table in TABLES:
                connection.execute(f"DROP TABLE IF EXISTS {table.name}")
            _make_rows(connection, _maker(connection))
            write_rows(connection, known.book, EMPTY, now.job)
            connection.execute("UPDATE books SET schema = ?", (schema.SCHEMA,))
    except UNREADABLE as fault:
        raise unreadable(fault, name) from fault
    return replace(how, standing=now)


def _make_rows(connection: sqlite3.Connection, maker: Database) -> None:
    for table in TABLES:
        columns, key = {"book": str, **table.columns}, ("book", *table.key)
        connection.execute(_table_sql(maker, table.name, columns, key, table.empty))
    for name, query in VIEWS.items():
        connection.execute(view_sql(name, query))
    connection.execute(f"PRAGMA user_version = {schema.SCHEMA}")


def _maker(connection: sqlite3.Connection) -> Database:
    from sqlite_utils import Database

    return Database(connection, recursive_triggers=False, execute_plugins=False)


def _table_sql(
    maker: Database,
    name: str,
    columns: Mapping[str, type],
    key: tuple[str, ...],
    empty: tuple[str, ...] = (),
) -> str:
    """Return a strict table without row ids: a row then lies in one page, beside its key."""
    sql = maker.create_table_sql(
        name,
        dict(columns),
        pk=key,
        foreign_keys=[] if name == "books" else [("book", "books", "book")],
        not_null=[column for column in columns if column not in empty],
        strict=True,
    )
    return sql.strip().removesuffix(";") + ", WITHOUT ROWID"
