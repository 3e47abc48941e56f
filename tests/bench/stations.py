"""How soon an entry made at one station stands on the page of another."""

from __future__ import annotations

import itertools
import random
import sqlite3
import sys
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager

from tests.bench import timed
from tests.bench.ours import SPARE, book_with
from tests.bench.ratio import Sample

QUARTER = 0.25
"""What a station lets pass between two looks at the book [s]."""


@contextmanager
def seen_elsewhere(run: int) -> Iterator[Sample]:
    """Yield a sample: from Enter at one station to the joint on the page of another [s]."""
    with book_with(run) as path:
        enters = timed.Program(command=[sys.executable, "-m", "screens.start", path])
        looks = timed.Program(command=[sys.executable, "-m", "screens.start", "watch", path])
        with enters.started() as one, looks.started() as other:
            numbers = iter(range(run + 1, run + SPARE))
            for each in (one, other):
                each.wait_for(f"NEXT  joint {run + 1}")

            def sample() -> float:
                number = next(numbers)
                one.type(str(number))
                one.wait_for(f"joint {number}, ")
                for each in (one, other):
                    each.wait_still(0.05)
                began = time.perf_counter()
                one.press("enter")
                if other.watch_for(f"NEXT  joint {number + 1}", 10.0) is None:
                    raise other.failure(f"joint {number} was never seen")
                seen = time.perf_counter() - began
                one.wait_for(f"NEXT  joint {number + 1}")
                return seen

            yield sample


@contextmanager
def bare_poll() -> Iterator[Sample]:
    """Yield a sample: from a bare commit to a bare look each quarter second that sees it [s]."""
    with (
        book_with(20) as path,
        closing(sqlite3.connect(path, isolation_level=None)) as writes,
        closing(sqlite3.connect(path, isolation_level=None)) as looks,
    ):
        writes.execute("CREATE TABLE measured (number INTEGER)")
        numbers, phase = itertools.count(), random.Random(7)

        def version() -> int:
            return int(looks.execute("PRAGMA data_version").fetchone()[0])

        def sample() -> float:
            before = version()
            wait = phase.uniform(0, QUARTER)
            began = time.perf_counter()
            writes.execute("INSERT INTO measured VALUES (?)", (next(numbers),))
            time.sleep(wait)
            while version() == before:
                time.sleep(QUARTER)
            return time.perf_counter() - began

        yield sample
