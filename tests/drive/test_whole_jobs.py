"""Four whole jobs of pumping on the real screens, from files of the independent march with noise.

What the program says at each moment is held against what was put into the file: the bump proposed
or not, the floats, the phases of the returns, what stays an open exception.
"""

from __future__ import annotations

import json
import os
import re
import sys
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tally.book.book import Book
from tally.book.document import document_text
from tally.book.verify import verify
from tally.cement.returns import FULL, LESS
from tally.job.batch import rows_of
from tally.job.entries.pumping import RETURNS
from tally.job.wet_shoe import suspect
from tests.drive.floor import FORM_FOOT, Floor
from tests.drive.jobs import book_at
from tests.drive.recorded import TITLES, Recorded, lines, recorded, until_spacer
from tests.drive.terminal import Terminal

IVO, NADIA = "Ivo Marek", "N. Haddad"
START = datetime.fromisoformat("2026-03-12T14:50:00-06:00")
PROPOSED = re.compile(r"rise seen at ([\d.]+) bbl, inside the band: b to confirm the bump")
CALCULATED = 597.1
"""[bbl]; the length above the collar by the field divisor, as tests/drive/test_job.py sums it."""


class Job:
    """A book with all agreed, a pump file that grows, and somebody at the keys."""

    def __init__(self, folder: Path, start: Callable[..., Terminal], file: Recorded) -> None:
        self.file = file
        self.book = book_at(folder / "larkspur.book", until_spacer())
        self.path, self.clock = folder / "job.csv", folder / "clock"
        self._written = 0
        self.path.write_text(TITLES, "utf-8")
        self.reaches(0.0)
        command = (sys.executable, "-m", "tests.drive.at_clock", self.book, self.clock)
        here = Path(__file__).parents[2]
        self.floor = Floor(start(*command, size=(120, 36), cwd=here))
        self.floor.says("NEXT  Enter  Pump the spacer")
        self.floor.becomes(IVO)

    def reaches(self, time: float) -> None:
        """Let the pump program write up to a time of its own, and the clock stand there, [s]."""
        new = [row for row in self.file.rows[self._written :] if row.time <= time]
        self._written += len(new)
        now = START + timedelta(seconds=time)
        whole = self.clock.with_suffix(".new")
        whole.write_text(now.isoformat(timespec="seconds"), "utf-8")
        whole.replace(self.clock)
        with self.path.open("a", encoding="utf-8", newline="") as file:
            file.write(lines(new))
        os.utime(self.path, (now.timestamp(), now.timestamp()))

    def pumps_to(self, volume: float) -> None:
        """Pump to a volume since the zero [bbl], and wait until the page has drawn it."""
        self.to_total(self.file.zero + volume)

    def to_total(self, total: float) -> None:
        """Pump to a volume in all [bbl], and wait until the page shows the row."""
        time = next(row.time for row in self.file.rows if row.volume >= total - 1e-6)
        self.reaches(time)
        self.shown()

    def shown(self) -> None:
        """Wait until the newest row is on the page."""
        row = self.file.rows[self._written - 1]
        self.floor.says(re.compile(rf"FILE job.csv \d\d:\d\d, \d s ago  {row.volume:,.1f} bbl"))

    def follows(self) -> None:
        """Name the file."""
        self.floor.asks("e", "Follow a pump file")
        self.floor.fills(str(self.path))
        self.floor.says("FILE job.csv")

    def stores(self, key: str, *told: str, witness: bool = True) -> None:
        """Press the letter of an event, and confirm it afterwards."""
        word = "Witness: " if witness else "Tell: "
        self.floor.terminal.press(key)
        self.floor.says(re.compile(r"saved \d\d:\d\d"))
        self.floor.asks("k", word)
        self.floor.fills(*told)
        self.floor.terminal.wait_gone(FORM_FOOT)

    def sees_returns(self, volume: float) -> str:
        """Pump to a volume and enter the returns as they are seen there; return the page's line."""
        self.pumps_to(volume)
        seen = self.file.returns_at(volume)
        self.floor.asks("r", "Both counts since the zero")
        self.floor.fills(f"{volume:.1f}", "", "", "", str(RETURNS.index(seen) + 1), "")
        self.floor.terminal.wait_gone(FORM_FOOT)
        return self.floor.says(re.compile(rf"returns +\S.*seen.*: {seen}.*"))[0]

    def to_the_top_plug(self) -> None:
        """Follow the file; pump spacer and slurry, release both plugs."""
        self.follows()
        self.to_total(49.9)
        self.floor.works("50.0")
        self.floor.works("1")
        self.floor.works("1", NADIA)
        self.stores("f", "1", NADIA)
        self.to_total(self.file.zero - 0.1)
        self.stores("a", "299.6", NADIA)
        self.reaches(self.file.time_at(0.2) - 10)
        self.shown()
        self.stores("p", "1", NADIA)
        self.floor.terminal.press("d")
        self.floor.says(re.compile("saved .*Start the displacement"))

    def gives_way(self) -> None:
        """Pump until the bottom plug has seated and its diaphragm has given way."""
        self.pumps_to(305.0)
        self.floor.terminal.press("u")
        self.floor.says(re.compile("saved .*diaphragm gives way"))

    def to_the_slow_rate(self) -> None:
        """Slow down ahead of the calculated bump and read the pressure there."""
        self.pumps_to(CALCULATED - 18.0)
        self.floor.terminal.press("s")
        self.floor.works("1")
        self.floor.works("1")
        self.pumps_to(CALCULATED - 5.0)
        assert not PROPOSED.search(self.floor.terminal.text())
        pressure = self.floor.says(re.compile(r"pressure ([\d,]+) psi   rate"))[1]
        self.floor.works(pressure.replace(",", ""))

    def calls_the_bump(self, seen: str = "1", differs: str = "") -> None:
        """Press b and confirm what was seen of the pressure."""
        self.floor.terminal.press("b")
        self.floor.says("BUMP CALLED")
        self.floor.asks("k", "Witness: ")
        self.answers(seen, NADIA, differs=differs)

    def tells(self, *answers: str, differs: str = "") -> None:
        """Do the step that NEXT names; one that differs from what is wanted wants a reason."""
        key = self.floor.says(re.compile(r"NEXT  (Enter|\w)  "))[1]
        self.floor.asks(key.lower(), FORM_FOOT)
        self.answers(*answers, differs=differs)

    def answers(self, *answers: str, differs: str, signs: tuple[str, ...] = ()) -> None:
        """Fill the form, sign with the names alone, and give the reason if it differs."""
        self.floor.fills(*answers)
        for name in signs:
            self.floor.says(f"{name} has no PIN")
            self.floor.fills("1")
            self.floor.terminal.wait_gone(f"{name} has no PIN")
        if differs:
            self.floor.says("Stop: this was not expected")
            self.floor.fills(differs)
        self.floor.terminal.wait_gone(FORM_FOOT)

    def releases_the_floats(self, seen: str, differs: str = "") -> None:
        """Release the last hold point, by the company representative and the cementer."""
        self.floor.becomes(NADIA)
        self.floor.asks("y", FORM_FOOT)
        self.answers(seen, "1", IVO, differs=differs, signs=(NADIA, IVO))

    def seats(self) -> float:
        """Pump to the end of the file; return where the page proposes the bump, and call it."""
        self.reaches(self.file.rows[-1].time)
        self.shown()
        proposed = float(self.floor.says(PROPOSED)[1])
        self.calls_the_bump()
        assert not PROPOSED.search(self.floor.terminal.text())
        return proposed

    def tells_the_bump(self, proposed: float) -> None:
        """Give pressure and volume at the bump, and how the counts differ."""
        for answer in (f"{self.file.rows[-1].pressure:.0f}", f"{proposed:.1f}", "1.4"):
            self.floor.works(answer)

    def ends(self) -> Book:
        """Leave the program; return the book once it is verified."""
        self.floor.terminal.press("f10")
        assert self.floor.terminal.wait_exit() == 0
        report = verify(self.book)
        assert report.ok, report.findings
        assert any("batches of readings are as the journal says" in str(f) for f in report.findings)
        return Book.open(self.book, look_only=True)


def exceptions(book: Book) -> list[str]:
    """Return what stays open of the pumping."""
    return [each.what for each in book.job.exceptions if each.seq > len(until_spacer())]


def states(book: Book) -> dict[str, str]:
    """Return what was entered for the steps of the release, from the journal."""
    return {
        step: record.state or record.value
        for (plan, step), record in book.job.steps.items()
        if plan == "plug-release"
    }


def kept_as_written(book: Book, file: Recorded) -> None:
    """Hold the rows in the book's own JSON against the file, row by row."""
    told = json.loads(document_text(book.document()))["batches"]
    volumes = [row[0] for batch in told for _, row in rows_of(batch["rows"])]
    assert volumes == [round(row.volume, 1) for row in file.rows[: len(volumes)]]
    assert len(volumes) > 0.9 * len(file.rows)


@pytest.fixture
def job(tmp_path: Path, start: Callable[..., Terminal]) -> Callable[[Recorded], Job]:
    """Return a function that sets somebody before the screen with a file to come."""
    return lambda file: Job(tmp_path, start, file)


def test_a_clean_job(job):
    file = recorded(bump=0.8)
    made = job(file)
    made.to_the_top_plug()
    for volume, seen in ((60.0, FULL), (240.0, LESS), (340.0, LESS), (430.0, FULL)):
        if volume == 340.0:
            made.gives_way()
        line = made.sees_returns(volume)
        assert f"{seen}, agrees" in line
    made.to_the_slow_rate()
    made.floor.says(re.compile(r"pressure .* agrees \(150\)"))
    made.floor.works("2")
    proposed = made.seats()
    assert abs(proposed - (CALCULATED + 0.8)) <= 1.0
    made.tells_the_bump(proposed)
    made.floor.works("3.1")
    made.floor.works("10")
    made.releases_the_floats("1")
    made.floor.says(re.compile(r"Float check: 3\.1 bbl back, 3\.\d bbl expected, compression"))
    made.floor.says("it has stopped: the floats hold")
    with made.ends() as book:
        assert exceptions(book) == []
        assert suspect(book.job) == ()
        assert states(book)["bumped"] == "rose sharply and stands"
        assert states(book)["floats-held"] == "flow stopped and stayed stopped"
        kept_as_written(book, file)


def test_no_bump(job):
    file = recorded(bump=None, past=3.6)
    made = job(file)
    made.to_the_top_plug()
    made.gives_way()
    made.to_the_slow_rate()
    made.floor.works("2")
    made.reaches(file.rows[-1].time)
    made.shown()
    made.floor.says(re.compile(r"PAST THE CALCULATED BUMP  3\.[5-7] bbl"))
    made.floor.says(re.compile(r"SHOE SUSPECT: pumped 3\.\d bbl past the calculated bump"))
    assert not PROPOSED.search(made.floor.terminal.text())
    made.calls_the_bump("3", differs="stopped at the limit, nothing rose")
    with made.ends() as book:
        told = " | ".join(exceptions(book))
        assert re.search(r"pumped 3\.\d bbl past the calculated bump, limit 3.0 bbl", told)
        assert "the top plug was not proved to seat: no rise up to the volume limit" in told
        assert len(suspect(book.job)) == 2
        assert states(book)["bumped"] == "no rise up to the volume limit"
        kept_as_written(book, file)


def test_the_floats_leak(job):
    file = recorded(bump=-0.6)
    made = job(file)
    made.to_the_top_plug()
    made.gives_way()
    made.to_the_slow_rate()
    made.floor.works("2")
    proposed = made.seats()
    assert abs(proposed - (CALCULATED - 0.6)) <= 1.0
    made.tells_the_bump(proposed)
    made.tells("11.0", differs="it goes on flowing")
    made.tells("0", differs="it goes on flowing")
    made.releases_the_floats("2", differs="it goes on flowing")
    made.floor.says(re.compile(r"Float check: 11\.0 bbl back, 3\.\d bbl expected, u-tube"))
    made.floor.says("the floats do not hold")
    with made.ends() as book:
        assert [each.why for each in suspect(book.job)] == ["floats do not hold: flow goes on"]
        assert "floats do not hold: flow goes on" in " | ".join(exceptions(book))
        assert states(book)["bumped"] == "rose sharply and stands"
        kept_as_written(book, file)


def test_losses_after_a_free_fall(job):
    file = recorded(bump=0.3, lost_from=440.0)
    made = job(file)
    made.to_the_top_plug()
    assert f"{LESS}, agrees" in made.sees_returns(240.0)  # the slurry fell, the pump catches up
    made.gives_way()
    assert f"{LESS}, agrees" in made.sees_returns(340.0)
    assert f"{FULL}, agrees" in made.sees_returns(430.0)
    assert f"{LESS}: look for losses" in made.sees_returns(500.0)
    made.to_the_slow_rate()
    made.floor.says(re.compile(r"pressure .* -1\d\d  outside \(150\)"))
    made.tells("3", differs="half of the returns since 440 bbl")
    proposed = made.seats()
    assert abs(proposed - (CALCULATED + 0.3)) <= 1.0
    with made.ends() as book:
        assert states(book)["returns-to-end"] == "lost"
        assert suspect(book.job) == ()
        assert ["half of the returns" in each for each in exceptions(book)] == [True]
        kept_as_written(book, file)
