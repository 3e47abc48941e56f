"""Our sides of measures of a whole book: put right, opened again, verified, its memory."""

from __future__ import annotations

import hashlib
import itertools
import json
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from tally.book.verify import verify
from tests.bench import minimal, timed
from tests.bench.ours import book_with
from tests.bench.ratio import Sample
from tests.drive.terminal import Terminal

SHOEDOWN = (sys.executable, "-m", "screens.start")
MEASURED_ANEW = ("41.11", "41.12")
"""Lengths that the first joint is given by turns."""


@contextmanager
def typed_key(run: int) -> Iterator[Sample]:
    """Yield a sample: from a digit pressed in the entry line to the digit painted [s]."""
    with book_with(run) as path, timed.Program(command=[*SHOEDOWN, path]).started() as terminal:
        terminal.wait_for(f"NEXT  joint {run + 1}")
        terminal.press("4")
        terminal.wait_for("number or length 4")
        with _digit(terminal, "number or length 41") as sample:
            yield sample


@contextmanager
def minimal_typed_key() -> Iterator[Sample]:
    """Yield a sample: the same in an app of one input [s]."""
    with timed.minimal("line").started() as terminal:
        terminal.wait_for("4")
        with _digit(terminal, "41") as sample:
            yield sample


@contextmanager
def _digit(terminal: Terminal, wanted: str) -> Iterator[Sample]:
    def sample() -> float:
        taken = terminal.time_to(wanted, "1")
        terminal.press("backspace")
        terminal.wait_gone(wanted)
        terminal.wait_still(0.05)
        return taken

    yield sample


@contextmanager
def corrected(run: int) -> Iterator[Sample]:
    """Yield a sample: from Enter to the first joint's length put right and every depth anew [s]."""
    with book_with(run) as path, timed.Program(command=[*SHOEDOWN, path]).started() as terminal:
        terminal.wait_for(f"NEXT  joint {run + 1}")
        lengths = itertools.cycle(MEASURED_ANEW)

        def sample() -> float:
            terminal.press("c")
            terminal.wait_for("Correct an entry")
            for answer in ("j1", next(lengths)):
                terminal.type(answer)
                terminal.press("enter")
            terminal.type("1")
            terminal.wait_still(0.1)
            taken = terminal.time_to("saved", "enter")
            terminal.press("up")
            terminal.wait_gone("saved")
            terminal.wait_still(0.05)
            return taken

        yield sample


@contextmanager
def bare_sums(rows: int) -> Iterator[Sample]:
    """Yield a sample: running sums of so many numbers, a bare commit, a minimal repaint [s]."""
    lengths = [4_000 + number % 300 for number in range(rows)]
    with (
        tempfile.TemporaryDirectory() as folder,
        minimal.bare_insert(Path(folder)) as insert,
        timed.minimal_table(rows) as paint,
    ):

        def sample() -> float:
            began = time.perf_counter()
            assert len(list(itertools.accumulate(lengths))) == rows
            return time.perf_counter() - began + insert() + paint()

        yield sample


@contextmanager
def opened_again(run: int, *, killed: bool) -> Iterator[Sample]:
    """Yield a sample: start to first key of a book whose writer was killed, or was left [s]."""
    with book_with(run) as path, tempfile.TemporaryDirectory() as place:
        if killed:
            writer = [sys.executable, "-m", "tests.tally.book.writer", "die", str(path)]
            subprocess.run(writer, check=False, capture_output=True)
        copy = Path(place) / path.name

        def program() -> timed.Program:
            for each in path.parent.iterdir():
                shutil.copy(each, copy.with_name(each.name))
            return timed.Program(command=[*SHOEDOWN, copy])

        with timed.start_to_key(program, key="4", wanted="number or length 4") as sample:
            yield sample


@contextmanager
def verified(run: int) -> Iterator[Sample]:
    """Yield a sample: a book verified: file, chain, entries added up, rows compared [s]."""
    with book_with(run) as path:

        def sample() -> float:
            began = time.perf_counter()
            report = verify(path)
            taken = time.perf_counter() - began
            assert report.ok, report.findings
            return taken

        yield sample


@contextmanager
def bare_check(run: int) -> Iterator[Sample]:
    """Yield a sample: SQLite's own check of the same file, each line hashed and read [s]."""
    with book_with(run) as path:

        def sample() -> float:
            began = time.perf_counter()
            with closing(sqlite3.connect(path)) as connection:
                assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
                for prev, line in connection.execute("SELECT prev, line FROM journal ORDER BY seq"):
                    hashlib.sha256(f"{prev}\n{line}".encode()).hexdigest()
                    json.loads(line)
            return time.perf_counter() - began

        yield sample
