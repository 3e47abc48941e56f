"""Our side and the bare one of gathering: books of one history after the other, each once."""

from __future__ import annotations

import shutil
import sqlite3
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from itertools import count
from pathlib import Path

from tally.book.journal import Line, chained, genesis
from tally.book.opening import lines_after
from tally.book.schema import TABLES
from tally.office.database import open_office
from tally.office.gathering import ADDED, gather
from tests.bench.minimal import PRAGMAS
from tests.bench.ours import book_with
from tests.bench.ratio import Sample

AT = "2026-03-20T08:00:00+01:00"
BEFORE_RUNNING = 4
"""Entries of the measured job that run no joint: the set-up, the pipe, the shoe, the collar."""


def renamed(path: Path, book: str) -> list[Line]:
    """Make a book another one with the same entries; return its lines."""
    with closing(sqlite3.connect(path)) as connection:
        ((old,),) = connection.execute("SELECT book FROM books").fetchall()
        head, lines = genesis(book), []
        for line in lines_after(connection, old, 0):
            text = line.text.replace(f'"book":"{old}"', f'"book":"{book}"', 1)
            lines.append(Line(line.seq, head, head := chained(head, text), text))
        connection.execute("DELETE FROM journal")
        connection.executemany("INSERT INTO journal VALUES (?, ?, ?, ?, ?)", stored(book, lines))
        for name in ("books", *(table.name for table in TABLES)):
            connection.execute(f"UPDATE {name} SET book = ?", (book,))
        connection.commit()
    return lines


def stored(book: str, lines: list[Line]) -> list[tuple[str, int, str, str, str]]:
    """Return lines as rows of the journal."""
    return [(book, line.seq, line.prev, line.hash, line.text) for line in lines]


def _ids() -> Iterator[str]:
    """Yield ids that lie as far apart as those of real books."""
    return (f"{number * 0x9E3779B97F4A7C15 % 2**64:016x}" for number in count(1))


@contextmanager
def gathered(entries: int) -> Iterator[Sample]:
    """Yield a sample: one more book verified and brought into a growing office [s]."""
    with book_with(entries - BEFORE_RUNNING) as path:
        office = open_office(str(path.with_name("office.db")))
        ids, copy = _ids(), path.with_name("copy.book")

        def sample() -> float:
            shutil.copy(path, copy)
            if len(renamed(copy, next(ids))) != entries:
                raise AssertionError(f"The measured book has not {entries} entries.")
            began = time.perf_counter()
            outcome = gather(office, copy, AT).outcome
            taken = time.perf_counter() - began
            if outcome != ADDED:
                raise AssertionError(f"The book was {outcome}, not added.")
            return taken

        try:
            yield sample
        finally:
            office.close()


@contextmanager
def bare_bulk(entries: int) -> Iterator[Sample]:
    """Yield a sample: the same lines inserted in bulk and committed by sqlite3 alone [s]."""
    with book_with(entries - BEFORE_RUNNING) as path, tempfile.TemporaryDirectory() as folder:
        ids, copy = _ids(), path.with_name("copy.book")
        connection = sqlite3.connect(Path(folder) / "bare.db", isolation_level=None)
        for pragma in PRAGMAS:
            connection.execute(f"PRAGMA {pragma}")
        connection.execute(
            "CREATE TABLE journal (book TEXT NOT NULL, seq INTEGER NOT NULL, prev TEXT NOT NULL, "
            "hash TEXT NOT NULL, line TEXT NOT NULL, PRIMARY KEY (book, seq)) STRICT, WITHOUT ROWID"
        )

        def sample() -> float:
            shutil.copy(path, copy)
            book = next(ids)
            rows = stored(book, renamed(copy, book))
            began = time.perf_counter()
            connection.execute("BEGIN IMMEDIATE")
            connection.executemany("INSERT INTO journal VALUES (?, ?, ?, ?, ?)", rows)
            connection.execute("COMMIT")
            return time.perf_counter() - began

        try:
            yield sample
        finally:
            connection.close()
