"""Counts of the displacement that no job is likely to have: asked about once, never refused."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

from tally.job.entry import seconds_between
from tally.job.figures import figure
from tally.job.job import Job, PumpReading
from tally.units import Measure, from_unit, to_unit
from tally.units import read as measure

APART_SHARE, APART_LEAST = 0.25, 0.5
"""Two counts further apart than this share of the greater and than this [m^3] are not one."""
PAST_SHARE = 0.2
"""A count further past the bump and its limit than this share of the displacement is a slip."""
FASTEST = 0.1
"""[m^3/s]; no pump displaces faster, 38 bbl/min: times that say so are not those of pumping."""
GRACE = 120.0
"""[s]; counts are written down first and typed later, several at a time."""

SHORT = 120.0
"""[s]; a shorter time is told in seconds."""
TOLD = 2
"""Reasons that are told at once; the rest say no more."""
BEGUN, AWAY = "first-slurry", "slurry-away"


class Counts(Protocol):
    """What was read: the volume by the tank, the strokes, and when."""

    @property
    def tank(self) -> Measure | None:
        """By the displacement tank."""

    @property
    def strokes(self) -> int | None:
        """By the counter."""

    @property
    def at(self) -> str:
        """When it was read."""


@dataclass(frozen=True, slots=True)
class _Look:
    """Two counts as volumes, [m^3], as far as they are known."""

    tank: float | None
    strokes: float | None

    @property
    def known(self) -> tuple[float, ...]:
        return tuple(each for each in (self.tank, self.strokes) if each is not None)

    @property
    def together(self) -> bool:
        """Whether there are two counts that agree, as far as a slip in typing goes."""
        if self.tank is None or self.strokes is None:
            return False
        apart = abs(self.tank - self.strokes)
        return apart <= max(APART_LEAST, APART_SHARE * max(self.known))


def unlikely(job: Job, read: Counts) -> str:
    """Return why counts are hardly what was pumped, with the slip that explains them; or nothing.

    A second reading that stands with one in doubt is not asked about again.
    """
    if stands_with_doubt(job, read):
        return ""
    found = [*_back(job, read), *_apart(job, read), *_far(job, read), *_fast(job, read)]
    return " ".join([*found[:TOLD], _slip(job, read)]) if found else ""


def in_doubt(job: Job) -> PumpReading | None:
    """Return the reading in doubt that was the last look at the counts, if it was."""
    last = job.in_doubt[-1] if job.in_doubt else None
    known = [one.seq for one in (*job.pumped[-1:], job.zeroed) if one is not None]
    return last if last is not None and last.seq > max(known, default=0) else None


def stands_with_doubt(job: Job, read: Counts) -> bool:
    """Whether every count of the reading in doubt is read again, no lower and not far from it."""
    doubtful = in_doubt(job)
    if doubtful is None:
        return False
    before, now = _look(job, doubtful), _look(job, read)
    pairs = ((before.tank, now.tank), (before.strokes, now.strokes))
    most = _most_since(job, doubtful.at, read.at)
    return all(
        one is None or (other is not None and -1e-9 <= other - one <= most) for one, other in pairs
    )


def _look(job: Job, read: Counts) -> _Look:
    stroke = figure(job, "stroke_volume").value
    known = read.strokes is not None and stroke is not None
    return _Look(
        read.tank.value if read.tank else None,
        (read.strokes or 0) * float(stroke or 0.0) if known else None,
    )


def _back(job: Job, read: Counts) -> Iterator[str]:
    tank = next((one.tank for one in reversed(job.pumped) if one.tank), None)
    strokes = next((n.strokes for n in reversed(job.pumped) if n.strokes is not None), None)
    if read.tank and tank and read.tank.value < tank.value:
        yield f"The tank count {read.tank.text} is below the last, {tank.text}."
    if read.strokes is not None and strokes is not None and read.strokes < strokes:
        yield f"{read.strokes} strokes is below the last count, {strokes}."


def _apart(job: Job, read: Counts) -> Iterator[str]:
    look = _look(job, read)
    if look.tank is not None and look.strokes is not None and read.tank and not look.together:
        by_pump = job.known.shown.show(look.strokes, "volume")
        yield (
            f"{read.tank.text} by the tank and {by_pump} by {read.strokes} strokes are not one "
            "volume."
        )


def _far(job: Job, read: Counts) -> Iterator[str]:
    total, limit = figure(job, "displacement_to_collar").value, job.known.limit("over_displacement")
    if total is None:
        return
    most = float(total) * (1 + PAST_SHARE) + (limit.value if limit else 0.0)
    furthest = max(_look(job, read).known, default=0.0)
    if furthest > most:
        show = job.known.shown.show
        yield (
            f"{show(furthest, 'volume')} is {show(furthest - float(total), 'volume')} past the "
            f"calculated bump, {show(float(total), 'volume')}."
        )


def _fast(job: Job, read: Counts) -> Iterator[str]:
    """Tell of more than a pump can have moved since the last look.

    Two counts that agree need no clock, one second tells no rate, and of a job that is written
    down afterwards the times are not those of the pumping.
    """
    if _look(job, read).together or _written_down_after(job):
        return
    start = job.pumped[-1].at if job.pumped else job.zeroed.at if job.zeroed else read.at
    seconds = seconds_between(start, read.at)
    before = _look(job, job.pumped[-1]) if job.pumped else _Look(0.0, 0.0)
    now = _look(job, read)
    pairs = ((before.tank, now.tank), (before.strokes, now.strokes))
    gone = max((b - a for a, b in pairs if a is not None and b is not None), default=0.0)
    if seconds > 0 and gone > _most_since(job, start, read.at):
        show = job.known.shown.show
        time = f"{seconds:.0f} s" if seconds < SHORT else show(seconds, "time")
        yield f"{show(gone, 'volume')} in {time} is more than a pump can move."


def _written_down_after(job: Job) -> bool:
    """Whether the slurry went faster, by the times of its steps, than any pump moves it."""
    steps = {step: one for (_list, step), one in job.steps.items() if step in (BEGUN, AWAY)}
    begun, away = steps.get(BEGUN), steps.get(AWAY)
    if begun is None or away is None or not away.value or job.zeroed is None:
        return False
    return measure(away.value, "volume").value > _most_since(job, begun.at, job.zeroed.at)


def _most_since(job: Job, start: str, end: str) -> float:
    """Return the greatest volume that can have been pumped between two times, [m^3]."""
    return FASTEST * (max(0.0, seconds_between(start, end)) + GRACE)


def _slip(job: Job, read: Counts) -> str:
    """Return the slip that explains the counts, as a question."""
    stroke, unit = figure(job, "stroke_volume").value, job.known.shown.unit("volume")
    if read.tank is None or read.strokes is None or stroke is None:
        return "Is it a slip, a decimal mark or a digit too many?"
    turned = round(to_unit(read.tank.value, unit))
    if _look(job, read).together:
        return "Were both counts zeroed with the top plug?"
    if _Look(from_unit(read.strokes, unit), turned * float(stroke)).together:
        return f"Is it the other way round, {read.strokes} {unit} and {turned} strokes?"
    by_pump = read.strokes * float(stroke)
    for factor in (0.1, 10.0, 0.01, 100.0):
        if _Look(read.tank.value * factor, by_pump).together:
            meant = job.known.shown.show(read.tank.value * factor, "volume")
            return f"Is it {meant} by the tank, with the decimal mark at another place?"
    return "Is one of them of another tank or pump, or not zeroed?"
