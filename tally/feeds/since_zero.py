"""What a followed file says of the volume since the zero: counted on over changes of the pump."""

from __future__ import annotations

from collections import deque
from datetime import datetime, tzinfo

from tally.feeds.pump_rows import PumpRow
from tally.job.job import PumpReading
from tally.units import Measure, UnitSet, to_unit

FASTEST = 0.2
"""[m3/s]; a count that grows faster was set, or is another pump's: nothing is pumped so fast."""
MOST_STROKES = 5.0
"""[1/s]; the same for strokes."""
_SLACK = 0.02
"""[m3]; the least step in which a count may come."""
MOST_READINGS = 800
_CLOSEST = 1.0
"""[s]; readings are kept no closer than this, and further apart once there are many."""
_AGAIN = 120
"""Rows that are at hand again when the zero turns out to be a little earlier than the last row."""

Timed = tuple[float, PumpRow]
"""The moment of a row [s, POSIX], and the row."""


class Counted:
    """One count of the file, carried on where it is set back or leaps."""

    def __init__(self, name: str, quantity: str, fastest: float, slack: float) -> None:
        self._name = name
        self._quantity = quantity
        self._fastest = fastest
        self._slack = slack
        self._last: tuple[float, float] | None = None

    def step(self, row: PumpRow, value: float | None, shown: UnitSet) -> tuple[float, str]:
        """Return what was added since the last row that has the count, and what is wrong."""
        if value is None:
            return 0.0, ""
        before, self._last = self._last, (row.time, value)
        if before is None:
            return 0.0, ""
        added = value - before[1]
        room = self._fastest * (row.time - before[0]) + self._slack
        if 0 <= added <= room:
            return added, ""
        told = [shown.show(each, self._quantity) for each in (before[1], value)]
        if added > room:
            return 0.0, self._told(row, "leaps", told, "that is not pumped; it is counted on from")
        anew = value if value <= room else 0.0
        why = "the pump was changed or the count set back; it is counted on from"
        return anew, self._told(row, "goes back", told, why)

    def _told(self, row: PumpRow, how: str, told: list[str], why: str) -> str:
        return f"Line {row.line}: the {self._name} {how} from {told[0]} to {told[1]}: {why} there."


class SinceZero:
    """The readings since the zero, few enough to draw, however long the file is."""

    def __init__(self, source: str, shown: UnitSet, zone: tzinfo | None) -> None:
        self._source = source
        self._zone = zone
        self._shown = shown
        self._recent: deque[Timed] = deque(maxlen=_AGAIN)
        self._begin(None)
        self.readings: tuple[PumpReading, ...] = ()
        self.last: PumpReading | None = None
        """The newest one, kept or not."""

    def _begin(self, zero: float | None) -> None:
        self._zero = zero
        self._volume = Counted("volume", "volume", FASTEST, _SLACK)
        self._strokes = Counted("count of strokes", "count", MOST_STROKES, 2.0)
        self.volume = self.strokes = 0.0
        self._before: float | None = None
        self._kept: list[tuple[float, PumpReading]] = []
        self._spacing = _CLOSEST
        self.readings, self.last = (), None

    def zeroed(self, zero: float | None) -> None:
        """Count from a moment on [s, POSIX]; rows that came after it already are counted again."""
        if zero == self._zero:
            return
        self._begin(zero)
        for at, row in self._recent:
            self._count(at, row)
        self._drawn()

    def take(self, at: float, row: PumpRow) -> list[str]:
        """Count one row; return what is wrong with its counts."""
        self._recent.append((at, row))
        return self._count(at, row)

    def _count(self, at: float, row: PumpRow) -> list[str]:
        volume, first = self._volume.step(row, row.volume, self._shown)
        strokes, second = self._strokes.step(row, row.strokes, self._shown)
        if self._zero is not None and at >= self._zero:
            share = self._share(at)
            self.volume += volume * share
            self.strokes += strokes * share
            self._keep(at, row)
        self._before = at
        return [each for each in (first, second) if each]

    def _share(self, at: float) -> float:
        """Return how much of the step from the row before lies behind the zero."""
        if self._before is None or self._zero is None or self._before >= self._zero:
            return 1.0
        return (at - self._zero) / (at - self._before) if at > self._before else 1.0

    def _keep(self, at: float, row: PumpRow) -> None:
        self.last = self._reading(at, row)
        if self._kept and at < self._kept[-1][0] + self._spacing:
            return
        self._kept.append((at, self.last))
        if len(self._kept) > MOST_READINGS:
            self._kept = self._kept[::2]
            self._spacing *= 2

    def drawn(self) -> tuple[PumpReading, ...]:
        """Return the readings, the newest among them; the same ones while nothing is new."""
        self._drawn()
        return self.readings

    def _drawn(self) -> None:
        kept = [each for _, each in self._kept]
        if self.last is not None and (not kept or kept[-1] is not self.last):
            kept.append(self.last)
        if not self.readings or not kept or self.readings[-1] is not kept[-1]:
            self.readings = tuple(kept)

    def _reading(self, at: float, row: PumpRow) -> PumpReading:
        pressure = None if row.pressure is None else max(0.0, row.pressure)
        return PumpReading(
            0,
            self._measure(self.volume if row.volume is not None else None, "volume"),
            None if row.strokes is None else round(self.strokes),
            self._measure(pressure, "pressure"),
            self._measure(row.rate, "flow rate"),
            iso(at, self._zone),
            source=self._source,
        )

    def _measure(self, value: float | None, quantity: str) -> Measure | None:
        if value is None:
            return None
        unit = self._shown.unit(quantity)
        number = f"{to_unit(value, unit):.2f}".rstrip("0").rstrip(".")
        return Measure(value, quantity, f"{number} {unit}")


def iso(at: float, zone: tzinfo | None) -> str:
    """Return a moment [s, POSIX] as an entry's time, by the clock of a zone.

    >>> from datetime import UTC
    >>> iso(0.0, UTC)
    '1970-01-01T00:00:00+00:00'
    """
    return datetime.fromtimestamp(at, zone).astimezone(zone).isoformat(timespec="seconds")
