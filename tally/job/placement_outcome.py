"""What the placement of a job comes to: its plugs, the depth that governs, its end."""

from __future__ import annotations

from dataclasses import dataclass

from tally.cement import ending as at_end
from tally.errors import Missing
from tally.job.job import Job
from tally.job.placement import Live, done
from tally.units import read


def beyond(job: Job) -> float:
    """Return the pressure put on top of the final lift at the bump, [Pa]."""
    margin = job.known.limit("bump_margin")
    if margin is None:
        raise Missing("Bump margin is not in the limits.")
    return margin.value


def plug_at(here: Live, ahead_of: int) -> float | None:
    """Return the depth of the plug ahead of a slug where the job is, [m]; None in the head."""
    return here.placement.plug(ahead_of, here.pumped)


@dataclass(frozen=True, slots=True)
class Governing:
    """The watched depth that comes nearest to what it can bear: its greatest density and limit."""

    name: str
    depth: float
    greatest: float
    at: float
    """Volume pumped when it is greatest, [m^3]."""
    now: float
    limit: float | None
    """[kg/m^3]; None where no watched depth has one."""


def governing(here: Live) -> Governing:
    """Return the depth that governs, where the job is and from there on.

    It is the one with the least left to its strength; the new shoe where none is known.
    """
    placement = here.placement
    held = [each for each in placement.points if each.point.weak_at is not None]
    if not held:
        held = [placement.points[0]]
    found = []
    for each in held:
        greatest, at = _greatest(here, each.equivalent)
        index = placement.points.index(each)
        now = here.now.points[index] / each.pressure[0] * each.equivalent[0]
        limit = each.point.weak_at
        found.append(Governing(each.point.name, each.point.depth, greatest, at, now, limit))
    return min(found, key=lambda one: (one.limit or 0.0) - one.greatest)


def _greatest(here: Live, values: tuple[float, ...]) -> tuple[float, float]:
    """Return the greatest of values by row from where the job is, and the volume it is at."""
    rows = zip(here.placement.volume, values, strict=True)
    ahead = [(value, volume) for volume, value in rows if volume >= here.pumped]
    return max(ahead) if ahead else (values[-1], here.placement.volume[-1])


def ending(job: Job, here: Live) -> at_end.Ending:
    """Return what the end comes to, held against the ratings of the set-up."""
    return at_end.ending(here.placement, beyond(job), ratings(job))


def ratings(job: Job) -> tuple[tuple[str, float | None], ...]:
    """Return what else sees the pressure at the head, with its rating, [Pa]."""
    pump, line = job.known.pumping, done(job, "line-test")
    tested = read(line.value, "pressure") if line is not None and line.value else None
    return tuple(
        (name, None if measure is None else measure.value)
        for name, measure in (
            ("tested line", tested),
            ("head", pump.head_rating),
            ("plugs", pump.plug_rating),
            ("collar", pump.collar_rating),
            ("pump relief", pump.relief),
        )
    )
