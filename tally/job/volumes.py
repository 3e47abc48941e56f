"""Volumes of the string as run, [m^3]: from the whole lengths of each pipe, never from the plan."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from tally.errors import Missing
from tally.job.depths import shoe_depth
from tally.job.geometry import by_length, hole_of, hung, require_excess_said
from tally.job.job import Job, Made
from tally.job.setup import Pipe, Setup

Area = Callable[[Pipe], float]


def bore(pipe: Pipe) -> float:
    """Return the volume a pipe holds per length, [m^3/m]."""
    return by_length(pipe).bore


def steel(pipe: Pipe) -> float:
    """Return what the metal of a pipe displaces per length, couplings counted, [m^3/m]."""
    return by_length(pipe).steel


def closed(pipe: Pipe) -> float:
    """Return what a pipe displaces per length with its end closed, couplings counted, [m^3/m]."""
    return by_length(pipe).closed


def pipes(job: Job) -> tuple[Pipe, ...]:
    """Return the pipes that the string is made of, in the order in which they were run."""
    names = dict.fromkeys(made.pipe for made in job.string)
    return tuple({pipe.name: pipe for pipe in map(job.known.pipe, names)}.values())


def volume(job: Job, items: Iterable[Made], area: Area) -> float:
    """Return the volume of some items: whole lengths summed by pipe, then times the area."""
    return summed(job, items, lambda pipe, length: length * area(pipe))


def summed(job: Job, items: Iterable[Made], of: Callable[[Pipe, float], float]) -> float:
    """Return the sum by pipe of something of a pipe and its whole length, [m]."""
    lengths: dict[str, int] = {}
    for made in items:
        lengths[made.pipe] = lengths.get(made.pipe, 0) + made.length
    setup = job.known
    return sum(of(setup.pipe(name), setup.step.si(steps)) for name, steps in lengths.items())


def capacity(job: Job) -> float:
    """Return what the string as run holds."""
    return volume(job, job.string, bore)


def displaced_open(job: Job) -> float:
    """Return what the metal of the string displaces."""
    return volume(job, job.string, steel)


def displaced_closed(job: Job) -> float:
    """Return what the string displaces with its end closed."""
    return volume(job, job.string, closed)


def auto_fill(setup: Setup) -> float:
    """Return the share of its contents that the pipe takes in at its foot; 0 without such a float.

    With an open end all of it comes in, and no float has a say.
    """
    filling = setup.filling
    return filling.auto_fill.value if filling.closed_end and filling.auto_fill else 0.0


def let_in(job: Job) -> float:
    """Return what came in at the foot: a share of what was run before the float was converted."""
    share, last = auto_fill(job.known), job.converted
    if not share:
        return 0.0
    return share * volume(job, (one for one in job.string if not last or one.seq < last.seq), bore)


def entering(job: Job) -> float:
    """Return the share of its contents that the next joint takes in at the foot."""
    return 0.0 if job.converted else auto_fill(job.known)


def filled(job: Job) -> float:
    """Return what stands in the pipe: all of it where the end is open, else fills and auto-fill."""
    if not job.known.filling.closed_end:
        return capacity(job)
    return min(capacity(job), max(0.0, _put_in(job)))


def _put_in(job: Job) -> float:
    """Return what was filled in from the top and is not lost, with what came in at the foot."""
    return sum(fill.volume for fill in job.fills) - job.spilled + let_in(job)


def over_the_top(job: Job) -> float:
    """Return what was filled in and finds no room in the pipe any more."""
    if not job.fills or not job.known.filling.closed_end:
        return 0.0
    return max(0.0, _put_in(job) - capacity(job))


def empty_length(job: Job) -> float:
    """Return how far down the pipe is empty, [m], from the top of the string."""
    left = capacity(job) - filled(job)
    depth = 0.0
    step = job.known.step
    areas = {name: bore(job.known.pipe(name)) for name in {made.pipe for made in job.string}}
    for made in reversed(job.string):
        if left <= 0:
            break
        length = step.si(made.length)
        room = length * areas[made.pipe]
        depth += length * min(1.0, left / room)
        left -= room
    return depth


def drawn_from_tank(job: Job) -> float:
    """Return what was drawn from the trip tank into the pipe."""
    return sum(fill.volume for fill in job.fills if fill.source == "trip tank")


def into_tank(job: Job) -> float:
    """Return what the string should have pushed into the trip tank so far.

    With the end closed the whole outside of the pipe pushes mud out, with it open only the metal;
    an auto-fill float keeps back what it lets in.
    """
    if not job.known.filling.closed_end:
        return displaced_open(job)
    return displaced_closed(job) - let_in(job)


def outside(job: Job) -> float:
    """Return the volume around the pipe from the shoe to the datum, in the hole as it is set up.

    Casings, sections with their excess or caliper, and couplings are counted.
    """
    require_excess_said(job.known)
    shoe = max(0.0, job.known.step.si(shoe_depth(job)))
    return hole_of(job.known).annulus(hung(job), 0.0, shoe)


def pocket(job: Job) -> float:
    """Return the volume of the hole below the shoe, with its excess or caliper."""
    step, hole = job.known.step, job.known.hole
    shoe, depth = step.si(shoe_depth(job)), hole.depth.value
    if shoe > depth:
        raise Missing(
            f"The shoe at {step.with_unit(shoe_depth(job))} is below the bottom of the hole at "
            f"{hole.depth.text}; correct the one that is wrong."
        )
    return hole_of(job.known).volume(max(0.0, shoe), depth)


def above_collar(job: Job) -> tuple[Made, ...]:
    """Return the items above the collar on which the plugs land."""
    place = _collar_place(job)
    return () if place is None else job.string[place + 1 :]


def below_collar(job: Job) -> tuple[Made, ...]:
    """Return the items of the shoe track: from the shoe up to and with that collar."""
    place = _collar_place(job)
    return () if place is None else job.string[: place + 1]


def _collar_place(job: Job) -> int | None:
    places = [place for place, made in enumerate(job.string) if made.kind == "collar"]
    return places[-1] if places else None
