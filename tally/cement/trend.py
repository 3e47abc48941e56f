"""The trend of pump pressure by volume over the last barrels, told apart by rate."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

WINDOW = 1.4
"""[m^3]; how far back the trend is taken, some nine barrels."""
STANDING_STILL = 0.0003
"""[m^3/s]; slower than this the pump stands."""
_BIN = 0.04
_SAME = 0.06
_LEAST_READINGS = 3
_LEAST_SPAN = 0.25
"""[m^3]; over less than this no slope is taken."""


class Look(NamedTuple):
    """Volume [m^3], rate [m^3/s] and pressure [Pa] at one time."""

    volume: float
    rate: float
    pressure: float


class Ahead(NamedTuple):
    """Where the trend leads: the level [Pa], its slope [Pa/m^3], and the most the rate explains."""

    level: float
    slope: float
    ceiling: float


@dataclass(slots=True)
class _Bin:
    """Readings close in volume and rate, as their mean."""

    first: float
    count: int
    volume: float
    rate: float
    pressure: float

    def takes(self, look: Look) -> bool:
        return abs(look.volume - self.first) < _BIN and _same(look.rate, self.rate)

    def add(self, look: Look) -> None:
        self.count += 1
        self.volume += (look.volume - self.volume) / self.count
        self.rate += (look.rate - self.rate) / self.count
        self.pressure += (look.pressure - self.pressure) / self.count


class Trend:
    """The last barrels in bins: as much as is needed and never more."""

    def __init__(self, window: float = WINDOW) -> None:
        self._window = window
        self._bins: deque[_Bin] = deque(maxlen=200)
        self._slope = 0.0

    def add(self, look: Look) -> None:
        """Take a reading into the bin it belongs to."""
        if self._bins and self._bins[-1].takes(look):
            self._bins[-1].add(look)
        else:
            self._bins.append(_Bin(look.volume, 1, *look))

    def ahead(self, look: Look, until: float) -> Ahead | None:
        """Return where the readings up to a volume lead, for the rate of a look."""
        bins = [each for each in self._bins if until - self._window <= each.volume <= until]
        for alike in _by_rate(bins, look.rate):
            if sum(each.count for each in alike) >= _LEAST_READINGS:
                return self._led(alike, look)
        return None

    def _led(self, bins: Sequence[_Bin], look: Look) -> Ahead:
        """Return the level at the end of the bins, carried on by no falling slope."""
        total = sum(each.count for each in bins)
        volume = sum(each.count * each.volume for each in bins) / total
        pressure = sum(each.count * each.pressure for each in bins) / total
        rate = sum(each.count * each.rate for each in bins) / total
        end = max(each.volume for each in bins)
        slope = self._slope
        if end - min(each.volume for each in bins) >= _LEAST_SPAN and total > _LEAST_READINGS:
            slope = self._slope = _fitted(bins, volume, pressure)
        at_end = pressure + slope * (end - volume)
        level = at_end + max(slope, 0.0) * max(look.volume - end, 0.0)
        higher = look.rate / rate if rate > STANDING_STILL else 1.0
        return Ahead(level, max(slope, 0.0), level * max(1.0, higher) ** 2 if level > 0 else level)


def _fitted(bins: Sequence[_Bin], volume: float, pressure: float) -> float:
    spread = sum(each.count * (each.volume - volume) ** 2 for each in bins)
    both = sum(each.count * (each.volume - volume) * (each.pressure - pressure) for each in bins)
    return both / spread if spread > 0 else 0.0


def _same(rate: float, other: float) -> bool:
    return abs(rate - other) <= _SAME * max(rate, other) + STANDING_STILL / 2


def _by_rate(bins: Sequence[_Bin], rate: float) -> Iterator[list[_Bin]]:
    """Yield the bins at the same rate, then those at higher and at lower ones, the latest first."""
    yield [each for each in bins if _same(each.rate, rate)]
    others = [each for each in bins if not _same(each.rate, rate)]
    yield from _latest([each for each in others if each.rate > rate])
    yield from _latest([each for each in others if 0.3 * rate < each.rate < rate])


def _latest(bins: Sequence[_Bin]) -> Iterator[list[_Bin]]:
    """Yield the bins of one rate after the other, from the last back."""
    left = list(bins)
    while left:
        rate = left[-1].rate
        yield [each for each in left if _same(each.rate, rate)]
        left = [each for each in left if not _same(each.rate, rate)]
