"""Our side of a page refreshed while a pump file of a whole day is followed."""

from __future__ import annotations

import itertools
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tally.job.entries.pumping import Pumped
from tests.bench import timed
from tests.bench.ratio import Sample
from tests.drive.jobs import book_at, played
from tests.drive.test_following_long import TITLES, rows

SIZE = (120, 36)


@contextmanager
def refreshed(rows_followed: int) -> Iterator[Sample]:
    """Yield a sample: from a key to the page of the plugs painted anew, a new row each time [s]."""
    first = next(e for e in played() if isinstance(e, Pumped))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        book = book_at(folder / "job.book", played()[: first.seq - 1])
        path, clock = folder / "job.csv", folder / "clock"
        clock.write_text(first.at, "utf-8")
        path.write_text(TITLES + rows(0, rows_followed), "utf-8")
        command = (sys.executable, "-m", "tests.drive.at_clock", book, clock)
        with timed.Program(command=command, size=SIZE).started() as terminal:
            terminal.wait_for("NEXT")
            terminal.press("e")
            terminal.wait_for("Follow a pump file")
            terminal.type(f"{path}\r")
            terminal.wait_for(f"{(rows_followed - 1) // 20:,} strokes", timeout=120.0)
            counted = itertools.count(rows_followed)

            def sample() -> float:
                number = next(counted)
                with path.open("a", encoding="utf-8") as file:
                    file.write(rows(number, number + 1))
                terminal.press("home")
                terminal.wait_for("NEXT")
                terminal.wait_still(0.05)
                return terminal.time_to("HERE", "down")

            yield sample
