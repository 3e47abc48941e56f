"""Our sides of the measures: a joint saved, a joint painted, a program started on a book."""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import datetime, timedelta
from functools import cache
from pathlib import Path

from tally.book.book import Book
from tally.job.counts import next_item
from tally.job.entries.running import ItemRun
from tally.job.entry import Entry
from tally.job.fittings import due_next
from tally.units import read
from tests.bench import minimal, timed
from tests.bench.ratio import Sample
from tests.screens.books import AMA, Story, setup

SPARE = 400
"""Joints left on the rack: enough for the rounds of one measure."""


@cache
def entries(run: int) -> tuple[Entry, ...]:
    """Return the entries of a job with so many joints run and enough left to go on."""
    joints = run + SPARE
    plan = setup(
        order=("S1", "1", "2", "C1", *(str(number) for number in range(3, joints + 1))), limits={}
    )
    deep = {name: read(f"{joints * 60} ft", "length") for name in ("depth", "casing_point")}
    story = Story()
    story.starts(replace(plan, hole=replace(plan.hole, **deep)), joints)
    story.runs(run + 2)
    return tuple(story.entries)


@contextmanager
def book_with(run: int) -> Iterator[Path]:
    """Yield the path of a new book with so many joints run."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "measured.book"
        Book.create(path, entries(run)).close()
        yield path


@contextmanager
def bare_insert() -> Iterator[Sample]:
    """Yield a sample: one row inserted and committed by sqlite3 [s]."""
    with tempfile.TemporaryDirectory() as folder, minimal.bare_insert(Path(folder)) as sample:
        yield sample


@contextmanager
def saved_joint(run: int) -> Iterator[Sample]:
    """Yield a sample: the next joint recorded in a book that is open [s]."""
    with book_with(run) as path, Book.open(path) as book:

        def sample() -> float:
            due = next_item(book.job)
            assert due is not None
            at = datetime.fromisoformat(book.job.last) + timedelta(minutes=5)
            entry = ItemRun(
                by=AMA, at=at.isoformat(), number=due.number, fittings=due_next(book.job)
            )
            began = time.perf_counter()
            book.record(entry)
            return time.perf_counter() - began

        yield sample


@contextmanager
def start(run: int) -> Iterator[Sample]:
    """Yield a sample: from starting the program on a book to its first key taken [s]."""
    with book_with(run) as path:
        program = timed.Program(command=[sys.executable, "-m", "screens.start", path])
        side = timed.start_to_key(lambda: program, key="4", wanted="number or length 4")
        with side as sample:
            yield sample


@contextmanager
def painted_joint(run: int) -> Iterator[Sample]:
    """Yield a sample: from Enter to the joint that was typed shown as saved [s]."""
    with book_with(run) as path:
        program = timed.Program(command=[sys.executable, "-m", "screens.start", path])
        with program.started() as terminal:
            numbers = iter(range(run + 1, run + SPARE))
            terminal.wait_for(f"NEXT  joint {run + 1}")

            def sample() -> float:
                number = next(numbers)
                terminal.type(str(number))
                terminal.wait_for(f"joint {number}, ")
                terminal.wait_still(0.05)
                return terminal.time_to(f"  {number} run", "enter")

            yield sample
