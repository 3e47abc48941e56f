"""The rows of readings that a book keeps beside its journal, each batch under its line's number.

They are no cache: nothing in the journal gives them back, only their hash. The table is made when
the first batch comes, so that a book without readings is as it always was.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING

from tally.errors import EntryRefused
from tally.job.batch import hash_of, number_of_rows
from tally.job.entries.readings import Readings

if TYPE_CHECKING:
    from tally.job.entry import Entry

TABLE = "batches"
_MAKE = f"""CREATE TABLE IF NOT EXISTS {TABLE} (
    book TEXT NOT NULL REFERENCES books(book),
    seq INTEGER NOT NULL,
    payload TEXT NOT NULL,
    PRIMARY KEY (book, seq)
) STRICT"""
_PUT = f"INSERT INTO {TABLE} VALUES (?, ?, ?)"
_READ = f"SELECT seq, payload FROM {TABLE} WHERE book = ? AND seq > ? AND seq <= ? ORDER BY seq"
Told = tuple[str, bool]
"""A sentence, and whether it is good."""


def fitting(entry: Entry, payload: str) -> None:
    """Refuse a batch whose rows are not those that its line names, and rows without a line."""
    if not isinstance(entry, Readings):
        if payload:
            raise EntryRefused("Only readings come with rows.")
        return
    fault = misfit(entry, payload)
    if fault:
        raise EntryRefused(f"The readings cannot be kept: {fault}")


def misfit(entry: Readings, payload: str) -> str:
    """Return how rows differ from what their line says of them, or nothing."""
    if hash_of(payload) != entry.sha256:
        return "their rows are not those whose SHA-256 stands in the journal."
    found = number_of_rows(payload)
    return f"{found} rows, the journal says {entry.rows}." if found != entry.rows else ""


def write_batches(connection: sqlite3.Connection, book: str, batches: Mapping[int, str]) -> None:
    """Write the rows of batches, inside the transaction that is open."""
    if batches:
        connection.execute(_MAKE)
        connection.executemany(_PUT, [(book, seq, text) for seq, text in batches.items()])


def batches_between(
    connection: sqlite3.Connection, book: str, after: int, upto: int
) -> dict[int, str]:
    """Return the rows of the batches after an entry and up to another, by number of entry."""
    found = connection.execute("SELECT 1 FROM sqlite_schema WHERE name = ?", (TABLE,)).fetchone()
    return dict(connection.execute(_READ, (book, after, upto)).fetchall()) if found else {}


def batches_told(entries: Iterable[Entry], kept: Mapping[int, str]) -> Iterator[Told]:
    """Yield what is wrong with the rows of a book, or that they are as the journal says."""
    lines = {each.seq: each for each in entries if isinstance(each, Readings)}
    faults = [f"Readings {seq}: {fault}" for seq, fault in _faults(lines, kept)]
    faults += [
        f"Readings {seq}: no line of the journal speaks of these rows."
        for seq in kept
        if seq not in lines
    ]
    yield from ((fault, False) for fault in faults)
    if lines and not faults:
        yield f"All {len(lines)} batches of readings are as the journal says.", True


def _faults(lines: Mapping[int, Readings], kept: Mapping[int, str]) -> Iterator[tuple[int, str]]:
    for seq, entry in lines.items():
        fault = misfit(entry, kept[seq]) if seq in kept else "their rows are missing."
        if fault:
            yield seq, fault
