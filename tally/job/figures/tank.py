"""Expected and seen for the trip tank: since the last reading, and since the mark."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from tally.job.figures.model import CALCULATED, READ, Figure, Input, Missing, live
from tally.job.figures.volumes import let_in_by
from tally.job.job import Job, TankLevel


@dataclass(frozen=True, slots=True)
class TankCheck:
    """What the tank should have gained, what it gained, and over how many items."""

    expected: float
    seen: float
    items: int
    limit: float | None
    since: str = ""
    """What the check counts from."""

    @property
    def difference(self) -> float:
        """Seen less expected; above nothing is a gain, below nothing a loss."""
        return self.seen - self.expected

    @property
    def agrees(self) -> bool | None:
        """Whether the difference is inside its limit; nothing where no limit is set."""
        return None if self.limit is None else abs(self.difference) <= self.limit


def last_reading(job: Job) -> TankCheck | None:
    """Return the check of the last reading against the one before it."""
    if len(job.tank) < 2 or job.tank[-1].mark:
        return None
    return _check(job, job.tank[-2:], "tank_difference", "the reading before")


def since_mark(job: Job) -> TankCheck | None:
    """Return the check of all readings since the total was started anew, else since the first.

    Each emptying or filling of the tank is passed over.
    """
    starts = [place for place, level in enumerate(job.tank) if level.since]
    levels = job.tank[starts[-1] :] if starts else job.tank
    since = levels[0].since if starts else "the first reading"
    if all(level.mark for level in levels[1:]):
        return None
    return _check(job, levels, "tank_total", since)


def _check(job: Job, levels: Sequence[TankLevel], limit: str, since: str) -> TankCheck:
    pairs = [pair for pair in pairwise(levels) if not pair[1].mark]
    bound = job.known.limit(limit)
    return TankCheck(
        expected=sum(_expected(*pair) for pair in pairs),
        seen=sum(pair[1].volume.value - pair[0].volume.value for pair in pairs),
        items=sum(pair[1].items - pair[0].items for pair in pairs),
        limit=None if bound is None else bound.value,
        since=since,
    )


def _expected(before: TankLevel, after: TankLevel) -> float:
    return (after.displaced - before.displaced) - (after.drawn - before.drawn)


@live("tank_expected", "Trip tank, last reading, expected")
def tank_expected(job: Job) -> Figure:
    """Return the change that the string and the fills should have made."""
    return _figure(job, last_reading(job), "expected")


@live("tank_seen", "Trip tank, last reading, seen")
def tank_seen(job: Job) -> Figure:
    """Return the change that was read."""
    return _figure(job, last_reading(job), "seen")


@live("tank_difference", "Trip tank, last reading, difference")
def tank_difference(job: Job) -> Figure:
    """Return seen less expected at the last reading."""
    return _figure(job, last_reading(job), "difference")


@live("tank_total_expected", "Trip tank, in all, expected")
def tank_total_expected(job: Job) -> Figure:
    """Return the change expected over all readings."""
    return _figure(job, since_mark(job), "expected")


@live("tank_total_seen", "Trip tank, in all, seen")
def tank_total_seen(job: Job) -> Figure:
    """Return the change read over all readings."""
    return _figure(job, since_mark(job), "seen")


@live("tank_total_difference", "Trip tank, in all, difference")
def tank_total_difference(job: Job) -> Figure:
    """Return seen less expected over all readings."""
    return _figure(job, since_mark(job), "difference")


def _figure(job: Job, check: TankCheck | None, part: str) -> Figure:
    if check is None:
        raise Missing("The trip tank was not read twice since its mark.")
    how = let_in_by(job)
    formula = {
        "expected": f"displaced by the items run between ({how}) - fill drawn from the trip tank",
        "seen": "level now - level before",
        "difference": "seen - expected",
    }[part]
    inputs = (
        Input("counted from", check.since, "text", READ, "entries"),
        Input("items run between", check.items, "count", READ, "entries"),
        Input("expected", check.expected, "volume", CALCULATED, "items run and fills"),
        Input("seen", check.seen, "volume", READ, f"entry {job.tank[-1].seq}"),
    )
    return Figure(getattr(check, part), "volume", formula, inputs)
