"""The tables of a book: the journal, which is the record, and the rows, which are a cache.

The rows say what stands now, so that the book can be read with SQL, sqlite-utils or Datasette.
Every table begins with the book's id, so that books can be gathered into one file.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

APPLICATION_ID = 0x53686F65
"""Marks a file as a book of this program; the letters "Shoe"."""
SCHEMA = 3
"""The step of the schema; it goes up when a table, a view or the words in a row change."""

Value = str | int | float | None
Row = tuple[Value, ...]
"""A row without the book's id; its key comes first."""
Rows = dict[Row, Row]
"""Rows by their key."""

BOOKS = {"book": str, "created": str, "schema": int, "title": str}
JOURNAL = {"book": str, "seq": int, "prev": str, "hash": str, "line": str}


@dataclass(frozen=True)
class Table:
    """One table of rows; its columns come after the book's id."""

    name: str
    key: tuple[str, ...]
    columns: Mapping[str, type]
    empty: tuple[str, ...] = ()
    """Columns that may be empty (NULL)."""

    def keyed(self, rows: Iterable[Row]) -> Rows:
        """Return rows by their key."""
        return {row[: len(self.key)]: row for row in rows}

    @cached_property
    def put(self) -> str:
        """The statement that writes a row, in place of one of the same key."""
        marks = ", ".join("?" for _ in ("book", *self.columns))
        return f"INSERT OR REPLACE INTO {self.name} VALUES ({marks})"

    @cached_property
    def drop(self) -> str:
        """The statement that takes a row out."""
        same = " AND ".join(f"{column} = ?" for column in ("book", *self.key))
        return f"DELETE FROM {self.name} WHERE {same}"

    @cached_property
    def read(self) -> str:
        """The statement that reads every row."""
        return f"SELECT {', '.join(('book', *self.columns))} FROM {self.name}"


ITEMS = Table(
    "items",
    ("number",),
    {
        "number": str,
        "kind": str,
        "pipe": str,
        "description": str,
        "length_steps": int,
        "typed": str,
        "state": str,
        "reason": str,
        "received": int,
        "place": int,
        "joint": int,
    },
    empty=("place", "joint"),
)
FITTINGS = Table(
    "fittings",
    ("number", "place"),
    {"number": str, "place": int, "what": str, "position": str, "count": int},
)
STEPS = Table(
    "steps",
    ("list", "step"),
    {
        "list": str,
        "step": str,
        "outcome": str,
        "state": str,
        "value": str,
        "note": str,
        "done_by": str,
        "done_at": str,
        "witness": str,
        "passed": str,
        "seq": int,
    },
)
READINGS = Table(
    "readings",
    ("seq", "what"),
    {
        "seq": int,
        "what": str,
        "at": str,
        "volume": str,
        "volume_m3": float,
        "strokes": int,
        "pressure": str,
        "rate": str,
        "source": str,
        "mark": int,
    },
    empty=("volume_m3", "strokes"),
)
PEOPLE = Table("people", ("name",), {"name": str, "role": str})
EXCEPTIONS = Table(
    "exceptions",
    ("place",),
    {
        "place": int,
        "seq": int,
        "what": str,
        "left_by": str,
        "left_at": str,
        "closed_by": str,
        "closing": str,
    },
)
SETTINGS = Table(
    "settings",
    (),
    {"unit": str, "step": str, "steps_per_unit": int, "stick_up_steps": int},
)
LIMITS = Table("limits", ("name",), {"name": str, "value": str, "owner": str, "source": str})
SIGNATURES = Table(
    "signatures",
    ("seq",),
    {
        "seq": int,
        "name": str,
        "role": str,
        "meaning": str,
        "at": str,
        "pin": int,
        "reports": str,
        "entries": int,
        "head": str,
    },
)
NOTICES = Table(
    "notices",
    ("seq",),
    {
        "seq": int,
        "told": str,
        "about": str,
        "means": str,
        "given_by": str,
        "given_when": str,
        "answer": str,
        "at": str,
    },
)
CALIBRATIONS = Table(
    "calibrations",
    ("seq",),
    {
        "seq": int,
        "what": str,
        "serial": str,
        "day": str,
        "due": str,
        "done_by": str,
        "note": str,
        "at": str,
    },
)
TIME_LOST = Table(
    "time_lost",
    ("seq",),
    {"seq": int, "cause": str, "minutes": float, "began": str, "note": str, "at": str},
)
PRESSURE_TESTS = Table(
    "pressure_tests",
    ("seq",),
    {
        "seq": int,
        "what": str,
        "pressure": str,
        "time": str,
        "ended": str,
        "held": int,
        "device": str,
        "note": str,
        "at": str,
    },
)
HANDOVERS = Table(
    "handovers",
    ("seq",),
    {
        "seq": int,
        "handed_by": str,
        "handed_to": str,
        "watch": str,
        "at": str,
        "taken_by": str,
        "taken_at": str,
    },
)
KEPT = (NOTICES, CALIBRATIONS, TIME_LOST, PRESSURE_TESTS, HANDOVERS)
TABLES = (
    *(ITEMS, FITTINGS, STEPS, READINGS, PEOPLE, EXCEPTIONS, SETTINGS, LIMITS, SIGNATURES),
    *KEPT,
)

# The views are for people who look in with other tools. This program does not read them: with
# trusted_schema off, older SQLite libraries refuse json_extract inside a view.
VIEWS = {
    "entries": """
        WITH corrections AS (
            SELECT book, json_extract(line, '$.of') AS seq, max(seq) AS corrected_by
            FROM journal
            WHERE json_extract(line, '$.kind') = 'correction'
            GROUP BY 1, 2
        )
        SELECT
            journal.book,
            journal.seq,
            json_extract(line, '$.at') AS made_at,
            json_extract(line, '$.by') AS made_by,
            json_extract(line, '$.kind') AS kind,
            json_extract(line, '$.number') AS number,
            corrected_by,
            line
        FROM journal
        LEFT JOIN corrections
            ON corrections.book = journal.book AND corrections.seq = journal.seq
        ORDER BY journal.book, journal.seq""",
    "running_depths": """
        WITH lengths AS (
            SELECT
                items.*,
                sum(length_steps) OVER (PARTITION BY book ORDER BY place) AS run_steps,
                sum(length_steps) OVER (PARTITION BY book) AS string_steps
            FROM items
            WHERE place IS NOT NULL
        )
        SELECT
            book,
            place,
            number,
            kind,
            joint,
            unit,
            round(1.0 * length_steps / steps_per_unit, 3) AS length,
            round(1.0 * run_steps / steps_per_unit, 3) AS run_length,
            round(1.0 * (string_steps - stick_up_steps - run_steps) / steps_per_unit, 3)
                AS top_depth,
            round(1.0 * (string_steps - stick_up_steps - run_steps + length_steps)
                / steps_per_unit, 3) AS bottom_depth
        FROM lengths
        JOIN settings USING (book)
        ORDER BY book, place""",
}


def view_sql(name: str, query: str) -> str:
    """Return the statement that makes a view, as the file keeps it."""
    return f"CREATE VIEW {name} AS{query}"
