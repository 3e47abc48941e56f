"""The office's database in PostgreSQL: the same tables and views, for many machines."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from tally.book import schema
from tally.book.journal import Line
from tally.book.schema import BOOKS, JOURNAL, TABLES, Table
from tally.errors import BookDamaged, BookError
from tally.office.database import GATHERED
from tally.office.source import Cells
from tally.office.views import EVERY_VIEW

if TYPE_CHECKING:
    from psycopg import Connection

_KINDS = {str: "TEXT", int: "BIGINT", float: "DOUBLE PRECISION"}
_MAKING = 0x53684F66
"""The lock held while tables are made."""
_WORDS = """
    CREATE OR REPLACE FUNCTION json_extract(line text, place text) RETURNS text
        LANGUAGE sql IMMUTABLE AS
        $$ SELECT line::json #>> string_to_array(substr(place, 3), '.') $$;
    CREATE OR REPLACE FUNCTION instr(whole text, part text) RETURNS integer
        LANGUAGE sql IMMUTABLE AS $$ SELECT strpos(whole, part) $$;
    CREATE OR REPLACE FUNCTION julianday(at text) RETURNS double precision
        LANGUAGE sql STABLE AS
        $$ SELECT (extract(epoch FROM at::timestamptz) / 86400.0 + 2440587.5)::float8 $$;
"""
"""SQLite's functions that the views are written with."""


class PostgresOffice:
    """The office's database behind an address."""

    def __init__(self, connection: Connection[Any]) -> None:
        self._connection = connection

    @classmethod
    def open(cls, address: str) -> PostgresOffice:
        """Connect to a database and make its tables where they are not there yet."""
        try:
            import psycopg
        except ImportError as fault:
            raise BookError(
                "A PostgreSQL office needs the extra package psycopg; install shoedown[office]."
            ) from fault
        try:
            connection = psycopg.connect(address, autocommit=True)
        except psycopg.Error as fault:
            raise BookError(f"The office's database cannot be reached: {_first(fault)}.") from fault
        office = cls(connection)
        try:
            with office._transaction(_MAKING):
                office._make()
        except BaseException:
            connection.close()
            raise
        return office

    @contextmanager
    def holding(self, book: str) -> Iterator[None]:
        """Hold one book for one transaction; other books can be gathered meanwhile."""
        with self._transaction(f"shoedown {book}"):
            yield

    def count(self, book: str) -> int:
        """Return how many entries of a book are there."""
        asked = "SELECT count(*), coalesce(max(seq), 0) FROM journal WHERE book = %s"
        ((count, last),) = self._ask(asked, book)
        if count != last:
            raise BookDamaged(
                f"The office holds {count} entries of book {book}, and the last is entry {last}: "
                "some are gone. Gather into a new database."
            )
        return int(count)

    def head(self, book: str) -> str:
        """Return the hash of the last entry that is there."""
        asked = "SELECT hash FROM journal WHERE book = %s ORDER BY seq DESC LIMIT 1"
        found = self._ask(asked, book)
        return str(found[0][0]) if found else ""

    def hashes(self, book: str) -> list[str]:
        """Return the hash of every entry of a book, in their order."""
        asked = "SELECT hash FROM journal WHERE book = %s ORDER BY seq"
        return [str(row[0]) for row in self._ask(asked, book)]

    def rows_verified(self, book: str) -> bool:
        """Return whether the rows of a book that are there were held against its journal."""
        found = self._ask("SELECT rows_verified FROM gathered WHERE book = %s", book)
        return bool(found and found[0][0])

    def put_book(self, book: str, created: str, title: str) -> None:
        """Write down a book, or its title anew."""
        self._do(
            "INSERT INTO books VALUES (%s, %s, %s, %s) "
            "ON CONFLICT (book) DO UPDATE SET title = excluded.title",
            *(book, created, schema.SCHEMA, _storable(title)),
        )

    def add_lines(self, book: str, lines: Sequence[Line]) -> None:
        """Add lines to the journal of a book."""
        self._copy("journal", [(book, line.seq, line.prev, line.hash, line.text) for line in lines])

    def put_rows(self, table: Table, book: str, rows: Sequence[Cells]) -> None:
        """Put the rows of a book in place of those that are there."""
        self._do(f"DELETE FROM {table.name} WHERE book = %s", book)
        if rows:
            self._copy(table.name, rows)

    def note_gathered(self, row: Cells) -> None:
        """Write down from where and when a book came."""
        self._do("DELETE FROM gathered WHERE book = %s", row[0])
        self._copy("gathered", [row])

    def close(self) -> None:
        """Leave the database."""
        self._connection.close()

    @contextmanager
    def _transaction(self, lock: str | int) -> Iterator[None]:
        """Hold a lock for one transaction; a refusal of the database is told in a sentence."""
        import psycopg

        number = "%s::bigint" if isinstance(lock, int) else "hashtextextended(%s, 0)"
        try:
            with self._connection.transaction():
                self._do(f"SELECT pg_advisory_xact_lock({number})", lock)
                yield
        except psycopg.Error as fault:
            raise BookError(f"The office's database refused: {_first(fault)}.") from fault

    def _make(self) -> None:
        """Make what is not there; refuse tables that another release made."""
        (made,) = self._ask("SELECT to_regclass('books') IS NOT NULL")[0]
        if made:
            self._recognise()
            return
        self._do(_WORDS)
        self._do(_table_sql("books", BOOKS, ("book",)))
        self._do(_table_sql("journal", JOURNAL, ("book", "seq")))
        for one in TABLES:
            columns = {"book": str, **one.columns}
            self._do(_table_sql(one.name, columns, ("book", *one.key), one.empty))
        self._do(_table_sql("gathered", GATHERED, ("book",)))
        self._do(f"COMMENT ON TABLE gathered IS '{_marked()}'")
        for name, query in EVERY_VIEW.items():
            self._do(f"CREATE VIEW {name} AS {_in_postgres(query)}")

    def _recognise(self) -> None:
        asked = "SELECT obj_description(to_regclass('gathered'), 'pg_class')"
        (found,) = self._ask(asked)[0]
        if found != _marked():
            raise BookError(
                "The database holds tables that this release did not make; name an empty one, or "
                "gather with the release that made it."
            )

    def _ask(self, asked: str, *values: object) -> list[tuple[Any, ...]]:
        return self._connection.execute(asked, values or None).fetchall()

    def _do(self, done: str, *values: object) -> None:
        self._connection.execute(done, values or None)

    def _copy(self, table: str, rows: Sequence[Cells]) -> None:
        with (
            self._connection.cursor() as cursor,
            cursor.copy(f"COPY {table} FROM STDIN") as copy,
        ):
            for row in rows:
                copy.write_row([_storable(cell) for cell in row])


def _marked() -> str:
    return f"Gathered by Shoedown, schema {schema.SCHEMA}"


def _table_sql(
    name: str, columns: Mapping[str, type], key: tuple[str, ...], empty: tuple[str, ...] = ()
) -> str:
    parts = [
        f'"{column}" {_KINDS[kind]}{"" if column in empty else " NOT NULL"}'
        for column, kind in columns.items()
    ]
    if name != "books":
        parts.append('FOREIGN KEY ("book") REFERENCES books ("book")')
    keys = ", ".join(f'"{column}"' for column in key)
    return f"CREATE TABLE {name} ({', '.join(parts)}, PRIMARY KEY ({keys}))"


def _in_postgres(query: str) -> str:
    """Return a view's query with what it takes out of a line as a number named as such."""
    bare = "json_extract(line, '$.of') AS seq"
    return query.replace(bare, "CAST(json_extract(line, '$.of') AS BIGINT) AS seq")


def _storable(cell: object) -> object:
    """Return a cell without the one character that PostgreSQL cannot hold; lines have none."""
    return cell.replace("\0", "\N{REPLACEMENT CHARACTER}") if isinstance(cell, str) else cell


def _first(fault: Exception) -> str:
    """Return the first line of what the database says; an address with a password is not in it."""
    lines = [line.strip() for line in str(fault).splitlines() if line.strip()]
    return lines[0].rstrip(".") if lines else "it does not say why"
