"""The bump in a record of pressure against volume: proposed with its reasons, for a person to say.

    finder = BumpFinder(BumpRule(calculated=94.9, early=0.65, late=0.65))
    for reading in readings:
        rise = finder.add(reading)            # nothing, or a rise and what it is taken for

It holds the last few barrels only, however long the record is. `find_bump` looks at a whole one.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import isfinite
from statistics import fmean, median

from tally.cement.trend import STANDING_STILL, WINDOW, Look, Trend

BUMP, OUTSIDE, RATE, SLOW, VALVE = "bump", "outside the band", "rate", "slow", "valve"
WHY = {
    BUMP: "the pressure rose over its trend within the band of the calculated bump, "
    "faster than lift and without a higher rate",
    OUTSIDE: "the pressure rose like a bump, but outside the band of the calculated bump",
    RATE: "the rise is explained by the higher rate",
    SLOW: "the rise is too slow for a bump: lift, or cement that sets",
    VALVE: "the pressure rose with the volume hardly moving: a valve, not fluid pressed together",
}
NOT_SEEN = "no rise over the trend was seen"

_LOOK, _LOOK_DERIVED = 8.0, 20.0
"""[s]; how long the pressure is averaged for a look, by a rate read and by one worked out."""
_CLOSEST = 0.5
"""[s]; readings that follow one another faster are left out."""
_KEPT = 700
_BEYOND = 1e12
"""In SI nothing that is pumped or timed comes near it; a larger number is no reading."""
_LITTLE_NOISE = 1e5
"""[Pa]; a single step of the pressure teaches no more noise than this where there was none."""
_COUNT_STEP = 0.0159
"""[m^3]; a tenth of a barrel: counts are often no finer."""


@dataclass(frozen=True, slots=True)
class PumpPoint:
    """Time [s], volume since the zero [m^3], pressure [Pa] and rate [m^3/s] if it was read."""

    time: float
    volume: float
    pressure: float
    rate: float | None = None


@dataclass(frozen=True, slots=True)
class BumpRule:
    """Where a bump is looked for, [m^3], and the least rise over the trend that counts, [Pa]."""

    calculated: float
    early: float
    late: float
    least_rise: float = 1.7e6
    compressibility: float = 4.35e-10
    """Of the fluid behind the plug, [1/Pa]."""
    looked_at: int = 3
    """Readings that must show a rise; 1 where a person read the gauge, who tells noise from it."""
    window: float = WINDOW
    """How far back the trend is taken, [m^3]."""

    def squeezed(self, volume: float, pressure: float) -> float:
        """Return what a rise of pressure takes of the fluid behind the plug, [m^3]."""
        return self.compressibility * volume * pressure


@dataclass(frozen=True, slots=True)
class Rise:
    """A rise of pressure: what it is taken for, where it began, and from what to what."""

    kind: str
    volume: float
    time: float
    before: float
    after: float
    seen: float
    """When there was enough to tell, [s]."""

    @property
    def why(self) -> str:
        """What it is taken for, in words."""
        return WHY[self.kind]


@dataclass(frozen=True, slots=True)
class Found:
    """What a whole record shows: the bump proposed, if any, and every rise that is none."""

    proposal: Rise | None
    others: tuple[Rise, ...]

    @property
    def why(self) -> str:
        """Why a bump is proposed, or why none is."""
        if self.proposal is not None:
            return self.proposal.why
        return "; ".join(dict.fromkeys(each.why for each in self.others)) or NOT_SEEN


def find_bump(readings: Iterable[PumpPoint], rule: BumpRule) -> Found:
    """Return what a whole record shows.

    Parameters
    ----------
    readings : iterable of PumpPoint
        The record in the order of time, since the volume was zeroed
    rule : BumpRule
        The calculated bump with its band, and the least rise that counts

    Returns
    -------
    found : Found
        The first bump proposed, its pressure after as it then stood highest, and the other rises

    Notes
    -----
    A house method. The pressure of the last seconds is compared with the trend of the last
    barrels at the same rate, by volume; at a lower rate it cannot stand higher without a reason,
    at a higher one it may stand higher by the square of the ratio of the rates, which is more
    than any friction gives. A rise must be over the noise, begin within the band, be steep as
    fluid pressed together behind a plug is, and last.

    Examples
    --------
    >>> rising = [PumpPoint(5.0 * n, 0.02 * n, 7e6 + 6e3 * n, 0.004) for n in range(500)]
    >>> rule = BumpRule(calculated=10.0, early=0.5, late=0.5)
    >>> find_bump(rising, rule).why
    'no rise over the trend was seen'
    >>> held = [PumpPoint(2500.0 + 5 * n, 10.05, 13.5e6, 0.0) for n in range(9)]
    >>> bump = find_bump([*rising, *held], rule).proposal
    >>> round(bump.volume, 1), round(bump.before / 1e6, 1), round(bump.after / 1e6, 1)
    (10.0, 10.0, 13.5)
    """
    finder = BumpFinder(rule)
    others = []
    for reading in readings:
        rise = finder.add(reading)
        if rise is not None and rise.kind != BUMP:
            others.append(rise)
    return Found(finder.proposal, tuple(others))


class BumpFinder:
    """Looks at one reading at a time; `proposal` is the bump proposed, once there is one."""

    def __init__(self, rule: BumpRule) -> None:
        self.rule = rule
        self.proposal: Rise | None = None
        self._begin()

    def _begin(self) -> None:
        self._recent: deque[PumpPoint] = deque(maxlen=_KEPT)
        self._trend = Trend(self.rule.window)
        self._noise = 0.0
        self._standing = 0
        self._told_rate = 0.0

    def add(self, reading: PumpPoint) -> Rise | None:
        """Take one reading; return a rise when there is enough to tell what it is."""
        if not _whole(reading):
            return None
        if self._recent:
            last = self._recent[-1]
            if reading.volume < last.volume - 10 * _COUNT_STEP:
                self._begin()  # the count was zeroed anew
            elif reading.time < last.time + _CLOSEST:
                return None
        self._recent.append(reading)
        self._learn_noise()
        look = self._look()
        if look is None:
            return None
        if self.proposal is not None:
            self._follow(look)
            return None
        rise = self._judged(look)
        self._trend.add(Look(reading.volume, self._rate_now(look), reading.pressure))
        return rise

    def _follow(self, look: Look) -> None:
        assert self.proposal is not None
        if look.pressure > self.proposal.after:
            self.proposal = replace(self.proposal, after=look.pressure)

    def _learn_noise(self) -> None:
        """Follow the noise by how far a reading lies off the middle of its neighbours."""
        if len(self._recent) < 3 or self.rule.looked_at == 1:
            return
        first, middle, last = (self._recent[place].pressure for place in (-3, -2, -1))
        off = abs(middle - (first + last) / 2) / 0.977  # mean of |off| of a normal spread of 1
        most = max(3 * self._noise, _LITTLE_NOISE)
        self._noise += 0.05 * (min(off, most) - self._noise)

    def _look(self) -> Look | None:
        """Return the middle of the last seconds, with the rate over them."""
        newest = self._recent[-1]
        span = _LOOK if newest.rate is not None else _LOOK_DERIVED
        seen: list[PumpPoint] = []
        for each in reversed(self._recent):
            if len(seen) >= self.rule.looked_at and newest.time - each.time > span:
                break
            seen.append(each)
        if len(seen) < self.rule.looked_at or len(self._recent) < 2:
            return None
        oldest = seen[-1] if len(seen) > 1 else self._recent[-2]
        rates = [each.rate for each in seen if each.rate is not None]
        if newest.rate is not None:
            rate = max(fmean(rates), newest.rate)
        else:
            rate = (newest.volume - oldest.volume) / (newest.time - oldest.time)
        return Look(seen[-1].volume, rate, median(each.pressure for each in seen))

    def _rate_now(self, look: Look) -> float:
        rate = self._recent[-1].rate
        return look.rate if rate is None else rate

    def _judged(self, look: Look) -> Rise | None:
        """Return what the pressure of a look is taken for, when it stands over the trend."""
        gap = 2 * self.rule.squeezed(look.volume, self.rule.least_rise)
        ahead = self._trend.ahead(look, look.volume - gap)
        if ahead is None:
            return None
        least = max(self.rule.least_rise, 4.5 * self._noise)
        over = look.pressure - ahead.ceiling
        if over < least:
            self._standing = 0
            by_rate = ahead.ceiling > ahead.level and look.pressure - ahead.level >= least
            return self._by_rate(look, ahead.level) if by_rate else None
        self._standing += 1
        if self._standing < min(2, self.rule.looked_at):
            return None
        rise = self._told(look, over)
        if rise is None or rise.after - rise.before < least:
            self._standing = 0
            return None  # the trend ran off: just before, the pressure stood as high
        self._standing = 0
        if rise.kind != BUMP:
            self._trend = Trend(self.rule.window)
        elif self._sharp(look, rise):
            self.proposal = rise
        else:
            return None
        return rise

    def _by_rate(self, look: Look, level: float) -> Rise | None:
        if look.rate <= 1.04 * self._told_rate:
            return None
        self._told_rate = look.rate
        newest = self._recent[-1]
        return Rise(RATE, look.volume, newest.time, level, look.pressure, newest.time)

    def _told(self, look: Look, over: float) -> Rise | None:
        """Return the rise with its beginning and its kind, unless a higher rate began with it."""
        level, rate = self._before(look, over)
        if rate is not None and look.rate > rate > STANDING_STILL:
            explained = level * (look.rate / rate) ** 2
            if look.pressure - explained < self.rule.least_rise:
                return None
        on_trend, off = self._turned(level + max(2 * self._noise, 0.25 * (look.pressure - level)))
        begun = max(self._unpressed(each, level) for each in (on_trend, off))
        seen = self._recent[-1].time
        kind = self._kind(on_trend, off, look.pressure - level)
        return Rise(kind, begun, off.time, level, look.pressure, seen)

    def _sharp(self, look: Look, rise: Rise) -> bool:
        """Return whether it was lower by a whole rise only just before.

        One low reading on a slow rise would else pass for the last one on the trend.
        """
        low, off = self._turned(look.pressure - self.rule.least_rise)
        return not self._slow(low, off, rise.after - rise.before)

    def _slow(self, on_trend: PumpPoint, off: PumpPoint, over: float) -> bool:
        newest = self._recent[-1]
        squeezed = self.rule.squeezed(newest.volume, over)
        moved = newest.volume - on_trend.volume
        return moved > 2.5 * squeezed + (off.volume - on_trend.volume) + 2 * _COUNT_STEP

    def _unpressed(self, point: PumpPoint, level: float) -> float:
        """Return the volume less what the rise has taken: also the first part of it is a rise."""
        return point.volume - self.rule.squeezed(point.volume, max(point.pressure - level, 0.0))

    def _before(self, look: Look, over: float) -> tuple[float, float | None]:
        """Return the pressure just before the rise, and the rate then if it was read."""
        on_trend, _ = self._turned(look.pressure - min(over, self.rule.least_rise))
        clear = on_trend.volume - self.rule.squeezed(look.volume, look.pressure - on_trend.pressure)
        earlier = [each for each in self._recent if each.volume <= clear]
        last = earlier[-self.rule.looked_at :] or [on_trend]
        rates = [each.rate for each in last if each.rate is not None]
        return median(each.pressure for each in last), max(rates, default=None)

    def _turned(self, level: float) -> tuple[PumpPoint, PumpPoint]:
        """Return the last reading not over a level and the one after it."""
        off = self._recent[-1]
        for each in reversed(self._recent):
            if each.pressure <= level:
                return each, off
            off = each
        return off, off

    def _kind(self, on_trend: PumpPoint, off: PumpPoint, over: float) -> str:
        rule, newest = self.rule, self._recent[-1]
        squeezed = rule.squeezed(newest.volume, over)
        moved = newest.volume - on_trend.volume
        if moved + _COUNT_STEP < 0.5 * squeezed:
            return VALVE
        if self._slow(on_trend, off, over):
            return SLOW
        unsure = rule.squeezed(newest.volume, 3 * self._noise) + _COUNT_STEP
        low, high = rule.calculated - rule.early, rule.calculated + rule.late
        if off.volume < low - unsure or on_trend.volume > high + unsure:
            return OUTSIDE
        return BUMP


def _whole(reading: PumpPoint) -> bool:
    numbers = (reading.time, reading.volume, reading.pressure, reading.rate or 0.0)
    return all(isfinite(each) and abs(each) < _BEYOND for each in numbers)
