"""Figures of surge and swab: what the pipe adds as it goes down, and takes off coming up."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from tally.job.figures.lowering import (
    holding,
    margin_of,
    moved,
    number,
    running_speed,
    set_for,
    weak,
)
from tally.job.figures.model import CALCULATED, Figure, Input, Missing, calculated, live, on, typed
from tally.job.figures.weights import GOVERNS
from tally.job.geometry import hole_of, path_of
from tally.job.job import Job
from tally.job.lowering import SHALLOWEST, Point, going_down, mud_of, point_at
from tally.string.surge import MovingString

SURGE = "surge-annulus, all annuli in series, the larger of slow and turbulent flow"


@live("surge_pressure", "Surge at the shoe")
def surge_pressure(job: Job) -> Figure:
    """Return what lowering the next joint adds at the shoe."""
    speed, now = on(running_speed(job)), going_down(job)
    value = now.string.pressure(number(speed), now.shoe)
    return Figure(value, "pressure difference", SURGE, (speed, *moved(job, now)))


@live("surge_shoe", "Equivalent density at the shoe, going down")
def surge_shoe(job: Job) -> Figure:
    """Return the density that would press at the new shoe as mud and surge do together."""
    return _at(job, "shoe", going_down(job).shoe)


@live("surge_old_shoe", "Equivalent density at the previous shoe, going down")
def surge_old_shoe(job: Job) -> Figure:
    """Return the density that would press at the shoe of the last casing as mud and surge do."""
    depth = hole_of(job.known).previous_shoe
    if path_of(job.known).true_vertical(depth) < SHALLOWEST:
        raise Missing("There is no previous casing in the job set-up.")
    return _at(job, "previous shoe", depth)


def _at(job: Job, name: str, depth: float) -> Figure:
    speed, now = on(running_speed(job)), going_down(job)
    lost = now.string.pressure(number(speed), depth)
    value = point_at(job.known, name, depth).equivalent(mud_of(job.known).density, lost)
    surge = calculated(f"surge at the {name}", lost, "pressure difference", SURGE)
    where = calculated(f"{name}, measured depth", depth, "length", "job set-up and string")
    return Figure(value, "density", "surge-density", (surge, where, speed, *moved(job, now)))


@live("gel_pressure", "Pressure that breaks the gel, at the shoe")
def gel_pressure(job: Job) -> Figure:
    """Return what moving the next joint takes before the mud flows; no part of the surge."""
    gel, now = typed("gel strength", job.known.pumping.gel_strength), going_down(job)
    value = now.string.gel_break(number(gel), now.shoe)
    how = "gel-break-annulus, all annuli in series; the larger of it and the surge counts"
    return Figure(value, "pressure", how, moved(job, now))


@live("gel_weakest", "Equivalent density where the hole bears least, as the gel breaks")
def gel_weakest(job: Job) -> Figure:
    """Return the density at the weak point that comes nearest to its own as the gel breaks."""
    gel, now = typed("gel strength", job.known.pumping.gel_strength), going_down(job)
    points, margin = weak(job, now), margin_of(job, "surge_margin", "surge margin")
    return _worst(job, points, lambda depth: now.string.gel_break(number(gel), depth), margin)


@live("surge_weakest", "Equivalent density where the hole bears least, going down")
def surge_weakest(job: Job) -> Figure:
    """Return the density at the weak point that it comes nearest to, or goes furthest beyond."""
    now = going_down(job)
    points, margin = weak(job, now), margin_of(job, "surge_margin", "surge margin")
    return _worst(job, points, _flowing(job, now.string), margin, speed=on(running_speed(job)))


@live("swab_lowest", "Equivalent density where a zone is held least, coming up")
def swab_lowest(job: Job) -> Figure:
    """Return the density at the zone whose pressure it comes nearest to, at the same speed."""
    now = going_down(job)
    points, margin = holding(job, now), margin_of(job, "trip_margin", "trip margin")
    lost, speed = _flowing(job, now.string.held_closed()), on(running_speed(job))
    return _worst(job, points, lost, margin, way=-1.0, speed=speed)


def _flowing(job: Job, string: MovingString) -> Callable[[float], float]:
    """Return the surge down to a depth at the speed of the pipe."""
    speed = number(on(running_speed(job)))
    return lambda depth: string.pressure(speed, depth)


def _worst(
    job: Job,
    points: Sequence[Point],
    lost: Callable[[float], float],
    margin: Input,
    way: float = 1.0,
    speed: Input | None = None,
) -> Figure:
    """Return the density at the point with the least in hand; `way` is 1 down and -1 up."""
    mud = mud_of(job.known).density

    def there(point: Point) -> float:
        return point.equivalent(mud, way * lost(point.depth))

    def in_hand(point: Point) -> float:
        return way * (point.density - there(point)) - number(margin)

    worst = min(points, key=in_hand)
    inputs = (
        Input(GOVERNS, worst.name, "text", CALCULATED, "the point with the least in hand"),
        calculated("in hand, margin kept", in_hand(worst), "density difference", SURGE),
        margin,
        *_each(job, points, there),
        *set_for(points),
        *((speed,) if speed else ()),
        *moved(job, going_down(job)),
    )
    return Figure(there(worst), "density", "surge-density at each point of open hole", inputs)


def _each(job: Job, points: Sequence[Point], there: Callable[[Point], float]) -> tuple[Input, ...]:
    shown = job.known.shown
    return tuple(
        calculated(
            f"{point.name} at {shown.show(point.depth, 'length')}", there(point), "density", SURGE
        )
        for point in points
    )
