"""Following a pump file that another program writes: its rows in batches, and what they show.

    following = Following(path, asked, shown, since=job.read_up_to.get(str(path)), now=now)
    brought = following.look(now, job)      # again and again; each time what is new

It holds the rows that are not in a batch yet and the readings that a page draws, and no more,
however long the file is. Opened again later it reads the file from its start, and keeps only what
stands behind the place of the last batch.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tally.errors import JobFileError
from tally.feeds.due_readings import DueReadings
from tally.feeds.pump_file import PumpFollower, PumpPlace
from tally.feeds.pump_rows import PumpRow
from tally.feeds.since_zero import SinceZero, iso
from tally.job.batch import BatchColumn, hash_of, payload_of
from tally.job.entry import moment, seconds_between
from tally.job.followed_file import ReadUpTo
from tally.job.job import Job, PumpReading
from tally.units import UnitSet, shown, to_unit

LINES_A_LOOK = 500
ROWS_A_BATCH = 500
SECONDS_A_BATCH = 60.0
_MOST_TOLD = 20
_QUANTITIES = {
    "volume": "volume",
    "pressure": "pressure",
    "rate": "flow rate",
    "density": "density",
    "strokes": "",
}
Timed = tuple[float, PumpRow]
"""The moment of a row [s, POSIX], and the row."""


@dataclass(frozen=True, slots=True)
class Batch:
    """Rows that are ready for the book: the fields of their entry, and their text."""

    fields: Mapping[str, Any]
    payload: str


@dataclass(frozen=True, slots=True)
class LastRow:
    """The newest row of the file: when, and what it shows in words."""

    at: str
    words: str


@dataclass(frozen=True, slots=True)
class Brought:
    """What one look brought."""

    batches: tuple[Batch, ...] = ()
    due: tuple[Mapping[str, Any], ...] = ()
    """Readings that go into the job: the fields of their entries."""
    readings: tuple[PumpReading, ...] = ()
    """Those since the zero, for the pages."""
    last: LastRow | None = None
    told: tuple[str, ...] = ()
    doubts: Mapping[str, str] = field(default_factory=dict)
    rows: int = 0
    more: bool = False
    """The file holds more than was looked at."""
    ended: str = ""
    """Why it cannot be followed any more."""


@dataclass(frozen=True, slots=True)
class _Kept:
    """Up to where a file is in the book: the place, the line and time of its last row."""

    place: PumpPlace
    line: int
    time: float
    at: float

    @classmethod
    def of(cls, upto: ReadUpTo | None) -> _Kept | None:
        """Return what the words of a place say; nothing where they are another reader's."""
        try:
            read, first, last, line, time = (upto.place if upto else "").split(" ")
            place = PumpPlace(int(read), first, last)
            at = moment(upto.last).timestamp() if upto else 0.0
            return cls(place, int(line), float(time), at)
        except ValueError:
            return None

    @staticmethod
    def words(place: PumpPlace, row: PumpRow) -> str:
        """Return a place in words, for the line of a batch."""
        return f"{place.read} {place.first} {place.last} {row.line} {row.time:.3f}"


class Following:
    """One file that is followed."""

    def __init__(
        self,
        path: Path,
        asked: Mapping[str, str],
        shown_in: UnitSet,
        *,
        since: ReadUpTo | None = None,
        anew: bool = False,
        now: str,
    ) -> None:
        self.path = path
        self._shown = shown_in
        self._zone = moment(now).tzinfo
        self._follower = PumpFollower(path, asked)
        self._since = since.place if since else ""
        self._begin(_Kept.of(since), anew, now, asked)
        self._readings = SinceZero(path.name, shown_in, self._zone)
        self._due = DueReadings()
        self._rows: list[Timed] = []
        self._told: list[str] = []
        self._batched = now
        self._last: LastRow | None = None
        self._opens = True

    def _begin(self, kept: _Kept | None, anew: bool, now: str, asked: Mapping[str, str]) -> None:
        """See whether the file goes on from what the book holds, and set its clock."""
        fits = kept is not None and kept.place.fits(self.path)
        self._lost = kept is not None and not fits and not anew
        goes_on = kept is not None and (fits or kept.place.begins(self.path))
        self._kept_line = kept.line if kept and goes_on else 0
        self._clock = kept.at - kept.time if kept and goes_on else _clock_of(self.path, asked, now)

    def look(self, now: str, job: Job, *, whole: bool = False) -> Brought:
        """Return what is new; with `whole` all rows that were read go into a batch.

        It raises nothing: a file that cannot be opened now is told of, and looked at again.
        """
        self._readings.zeroed(moment(job.zeroed.at).timestamp() if job.zeroed else None)
        try:
            news = self._follower.look(LINES_A_LOOK)
        except JobFileError as fault:
            return self._shut(str(fault))
        self._opens = True
        if news.anew or self._lost:
            return self._gone(now)
        told, due = list(news.faults), []
        for row in news.rows:
            due += self._taken(row, now, job, told)
        self._told += told
        return Brought(
            self._batches(now, news.more, whole=whole),
            tuple(due),
            self._readings.drawn(),
            self._last,
            tuple(told),
            news.doubts,
            len(news.rows),
            news.more,
        )

    def _shut(self, fault: str) -> Brought:
        """Tell once that the file cannot be opened now; another program may be writing it."""
        told = (f"{fault} It is looked at again.",) if self._opens else ()
        self._opens = False
        return Brought(told=told, readings=self._readings.drawn(), last=self._last)

    def _gone(self, now: str) -> Brought:
        """Return the rows that were read before the file became another one, and say so."""
        name = shown(self.path.name, 60)
        why = f"The pump file '{name}' was replaced or became shorter; no row of it is kept from "
        why += "here on."
        self._told.append(why)
        batches = self._batches(now, False, whole=True)
        return Brought(batches, (), self._readings.drawn(), self._last, ended=why)

    def _taken(self, row: PumpRow, now: str, job: Job, told: list[str]) -> list[Mapping[str, Any]]:
        """Count a row; return the reading of it that goes into the job, if one is due."""
        at = row.time + self._clock
        ahead = at - moment(now).timestamp()
        if ahead > 0:  # its clock runs faster than ours: no row is read before it is written
            self._clock -= ahead
            at -= ahead
        faults = self._readings.take(at, row)
        self._last = LastRow(iso(at, self._zone), self._words(row))
        if row.line <= self._kept_line:
            return []
        told += faults
        self._rows.append((at, row))
        return self._due.of(self._readings.last, job)

    def _words(self, row: PumpRow) -> str:
        """Return what a row shows, each value with its unit."""
        found = [(getattr(row, name), quantity) for name, quantity in _QUANTITIES.items()]
        parts = [self._shown.show(value, q) for value, q in found if value is not None and q]
        strokes = [] if row.strokes is None else [f"{row.strokes:,.0f} strokes"]
        return "  ".join([*parts, *strokes])

    def _batches(self, now: str, more: bool, *, whole: bool) -> tuple[Batch, ...]:
        """Return the rows at hand as a batch, once they are enough or old enough."""
        waited = seconds_between(self._batched, now) >= SECONDS_A_BATCH and not more
        if not self._rows or not (whole or waited or len(self._rows) >= ROWS_A_BATCH):
            return ()
        start, columns = self._rows[0][1].time, _columns(self._shown)
        rows = [
            (row.time - start, tuple(_number(row, each) for each in columns))
            for _, row in self._rows
        ]
        payload = payload_of(columns, rows)
        place = _Kept.words(self._follower.place, self._rows[-1][1])
        fields = {
            "source": str(self.path),
            "columns": columns,
            "rows": len(rows),
            "first": iso(min(self._rows[0][0], self._rows[-1][0]), self._zone),
            "last": iso(self._rows[-1][0], self._zone),
            "sha256": hash_of(payload),
            "place": place,
            "since": self._since,
            "told": tuple(self._told[:_MOST_TOLD]),
        }
        self._rows, self._told, self._batched, self._since = [], [], now, place
        return (Batch(fields, payload),)


def _columns(shown_in: UnitSet) -> tuple[BatchColumn, ...]:
    return tuple(
        BatchColumn(name, shown_in.unit(q) if q else "") for name, q in _QUANTITIES.items()
    )


def _number(row: PumpRow, column: BatchColumn) -> float | None:
    value: float | None = getattr(row, column.name)
    return value if value is None or not column.unit else to_unit(value, column.unit)


def _clock_of(path: Path, asked: Mapping[str, str], now: str) -> float:
    """Return what makes a moment of a time of the file, [s]: its last row is its newest change.

    The clock of the computer that writes it may show anything. A file without a row yet begins now.
    """
    probe, last, more = PumpFollower(path, asked), None, True
    while more:
        news = probe.look(LINES_A_LOOK)
        last = news.rows[-1].time if news.rows else last
        more = news.more
    here = moment(now).timestamp()
    return here if last is None else min(here, path.stat().st_mtime) - last
