"""The finder of the bump on the readings of a job: it proposes, a person confirms."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from statistics import median

from tally.cement.bump import BumpRule, Found, PumpPoint, find_bump
from tally.cement.trend import WINDOW
from tally.job.entry import seconds_between
from tally.job.job import Job, PumpReading

TANK, STROKES = "tank", "strokes"
CLOSE = 15.0
"""[s]; readings as close as this come from a gauge, wider ones from a person."""
_STEPS_BACK = 12


@dataclass(frozen=True, slots=True)
class Watched:
    """The readings that were looked at, by the count that has more of them."""

    count: str
    points: tuple[PumpPoint, ...]

    def found(self, rule: BumpRule) -> Found:
        """Return what they show."""
        return find_bump(self.points, rule)


def watched(job: Job, per_stroke: float | None) -> Watched:
    """Return the readings since the zero that have a pressure and a count.

    Two counts are never mixed, or a step from the one to the other would look like pumping.
    """
    tank = _points(job, [(one, one.tank.value if one.tank else None) for one in job.pumped])
    strokes = _points(
        job,
        [
            (one, None if one.strokes is None or not per_stroke else one.strokes * per_stroke)
            for one in job.pumped
        ],
    )
    return Watched(STROKES, strokes) if len(strokes) > len(tank) else Watched(TANK, tank)


def _points(job: Job, counted: Sequence[tuple[PumpReading, float | None]]) -> tuple[PumpPoint, ...]:
    return tuple(
        PumpPoint(
            seconds_between(job.pumped[0].at, one.at),
            volume,
            one.pressure.value,
            one.rate.value if one.rate else None,
        )
        for one, volume in counted
        if volume is not None and one.pressure is not None
    )


def rule_for(
    points: Sequence[PumpPoint],
    calculated: float,
    band: tuple[float, float],
    margin: float,
    compressibility: float | None,
) -> BumpRule:
    """Return the rule for readings as close or as wide as these; half the margin is a rise."""
    steps = [(b.time - a.time, b.volume - a.volume) for a, b in pairwise(points)]
    by_hand = bool(steps) and median(time for time, _ in steps) > CLOSE
    wide = median(volume for _, volume in steps) if steps else 0.0
    rule = BumpRule(calculated, *band, margin / 2, window=max(WINDOW, _STEPS_BACK * wide))
    if compressibility is not None:
        rule = replace(rule, compressibility=compressibility)
    return replace(rule, looked_at=1) if by_hand else rule
