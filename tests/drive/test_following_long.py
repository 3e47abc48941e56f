"""A day of rows, one a second, fed quickly to the real program: its memory hardly grows."""

from __future__ import annotations

import os
import re
import sys
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tally.book.book import Book
from tally.book.verify import verify
from tally.job.batch import rows_of
from tally.job.entries.steps import StepDone
from tests.drive.floor import Floor
from tests.drive.jobs import book_at, played

pytestmark = pytest.mark.long

DAY, PART = 86_400, 8_640
TITLES = "Time (s),Volume (bbl),Pressure (psi),Rate (bbl/min),Strokes\n"


def rows(start: int, end: int) -> str:
    """Return a row every second: pumping so slowly that a day does not reach the collar."""
    return "".join(
        f"{n},{300 + 0.005 * n:.3f},{900 + n % 40},0.30,{n // 20}\n" for n in range(start, end)
    )


def resident(pid: int) -> int:
    """Return how much memory a process holds, [kB]."""
    told = Path(f"/proc/{pid}/status").read_text("ascii")
    return int(re.search(r"VmRSS:\s+(\d+) kB", told)[1])


def test_memory_grows_by_less_than_a_tenth_over_a_day_of_rows(tmp_path, start):
    zero = next(e for e in played() if isinstance(e, StepDone) and e.step_id == "top-plug-released")
    book = book_at(tmp_path / "larkspur.book", played()[: zero.seq])
    path, clock = tmp_path / "job.csv", tmp_path / "clock"
    path.write_text(TITLES, "utf-8")

    def stands_at(seconds: float) -> None:
        now = datetime.fromisoformat(zero.at) + timedelta(seconds=seconds)
        whole = clock.with_suffix(".new")
        whole.write_text(now.isoformat(timespec="seconds"), "utf-8")
        whole.replace(clock)
        os.utime(path, (now.timestamp(), now.timestamp()))

    stands_at(0)
    command = (sys.executable, "-m", "tests.drive.at_clock", book, clock)
    floor = Floor(start(*command, size=(120, 36), cwd=Path(__file__).parents[2], patience=60.0))
    floor.says("NEXT")
    floor.asks("e", "Follow a pump file")
    floor.fills(str(path))
    floor.says("FILE job.csv")
    held = []
    for first in range(0, DAY, PART):
        with path.open("a", encoding="utf-8") as file:
            file.write(rows(first, first + PART))
        stands_at(first + PART)
        floor.says(re.compile(rf"FILE job.csv .* {(first + PART - 1) // 20:,} strokes"))
        held.append(resident(floor.terminal.pid))
    floor.asks("e", "Leave the pump file")
    floor.fills("")
    floor.says("pump file left")
    floor.terminal.press("f10")
    assert floor.terminal.wait_exit() == 0
    assert held[-1] < 1.1 * held[0], held
    with Book.open(book, look_only=True) as after:
        kept = [row[4] for text in after.batches().values() for _, row in rows_of(text)]
        assert kept == [n // 20 for n in range(DAY)]
    assert verify(book).ok
