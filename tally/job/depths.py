"""Depths as run, in whole steps: counted from the shoe up, measured from the datum down.

The string reaches from the bottom of the shoe to the top of its last item. That top stands a
stick-up above the datum, so the shoe is at the length of the string less the stick-up, and every
other depth follows from the shoe.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from tally.job.counts import coming, goes_above
from tally.job.job import Job, Made


@dataclass(frozen=True, slots=True)
class Reach:
    """Where one item of the string lies, in whole steps below the datum."""

    made: Made
    top: int
    bottom: int


def stick_up(job: Job) -> int:
    """Return the stick-up: as landed, else the usual one above the slips."""
    return job.landing.stick_up if job.landing else job.known.lengths.stick_up


def shoe_depth(job: Job) -> int:
    """Return the depth of the shoe."""
    return job.length - stick_up(job)


def to_go(job: Job) -> int:
    """Return how far the shoe still is above the casing point; negative once it is past."""
    return job.known.step.steps(job.known.hole.casing_point.value) - shoe_depth(job)


def below_hole(job: Job, kind: str = "", length: int = 0) -> int:
    """Return how far the shoe is below the bottom of the hole with an item more; else 0 or less."""
    step = job.known.step
    return _shoe_with(job, kind, length) - step.steps(job.known.hole.depth.value)


def _shoe_with(job: Job, kind: str, length: int) -> int:
    """Return the depth of the shoe with an item more; with a hanger, as it is to hang off."""
    hang_off = job.known.space_out.hang_off
    hung = job.length + length if kind == "hanger" else None
    if kind == "landing joint":
        hung = next((made.top for made in job.string if made.kind == "hanger"), None)
    if hang_off is None or hung is None:
        return shoe_depth(job) + length
    return hung + job.known.step.steps(hang_off.value)


def reaches(job: Job) -> tuple[Reach, ...]:
    """Return every item of the string with its top and bottom depth, from the shoe up."""
    shoe = shoe_depth(job)
    return tuple(Reach(made, shoe - made.top, shoe - made.top + made.length) for made in job.string)


def collar(job: Job) -> Made | None:
    """Return the uppermost collar of the string, on which the plugs land."""
    return next((made for made in reversed(job.string) if made.kind == "collar"), None)


def joints_to_go(job: Job) -> tuple[int, int]:
    """Return the joints still needed by the lengths listed, and the spare ones after them.

    Where the list is too short the joints needed are all of them and the spare count is
    negative: the joints missing at the mean length of those listed, or of those run where none
    is left.
    """
    still = to_go(job) if job.spaced_out is None else job.spaced_out - job.length
    needed = spare = reached = 0
    lengths = []
    for item in coming(job):
        joint = item.kind == "joint"
        if reached < still and goes_above(job, item.kind):
            reached += item.length
            needed += joint
        else:
            spare += joint
        if joint:
            lengths.append(item.length)
    lengths = lengths or [made.length for made in job.string if made.joint]
    if reached < still and lengths and goes_above(job, "joint"):
        spare = -ceil(Fraction((still - reached) * len(lengths), sum(lengths)))
    return needed, spare
