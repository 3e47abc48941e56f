"""Figures of lowering: the greatest running speed, and the least lowering time by the clock."""

from __future__ import annotations

from collections.abc import Sequence

from tally.fluids.surge_speed import least_lowering_time, peak_speed
from tally.fluids.surge_velocity import FASTEST
from tally.job.figures.circulating import rheology
from tally.job.figures.model import (
    CALCULATED,
    READ,
    TYPED,
    Figure,
    Input,
    Missing,
    calculated,
    live,
    on,
    typed,
)
from tally.job.figures.volumes import hole_inputs, let_in_by
from tally.job.figures.weights import GOVERNS
from tally.job.job import Job, Made
from tally.job.lowering import (
    Lowered,
    Point,
    fastest,
    going_down,
    pore_points,
    surge_bounds,
    swab_bounds,
    weak_points,
)
from tally.job.setup import MUD
from tally.string.surge import Greatest

PEAK = "peak factor"
NOT_SET = "limits: not set, nothing is kept in hand"


@live("fastest_lowering", "Highest running speed")
def fastest_lowering(job: Job) -> Figure:
    """Return the greatest speed of the next joint that breaks no weak point, and which governs."""
    now = going_down(job)
    points, margin = weak(job, now), margin_of(job, "surge_margin", "surge margin")
    bounds = surge_bounds(job.known, points, number(margin))
    return _fastest(job, now, fastest(now.string, job.known, bounds), (margin, *set_for(points)))


@live("fastest_pulling", "Highest pulling speed")
def fastest_pulling(job: Job) -> Figure:
    """Return the greatest speed of the string coming up at which every zone is held."""
    now = going_down(job)
    points, margin = holding(job, now), margin_of(job, "trip_margin", "trip margin")
    bounds = swab_bounds(job.known, points, number(margin))
    best = fastest(now.string.held_closed(), job.known, bounds)
    return _fastest(job, now, best, (margin, *set_for(points)))


def _fastest(job: Job, now: Lowered, best: Greatest, more: tuple[Input, ...]) -> Figure:
    name = best.governs or f"nothing up to {job.known.shown.show(FASTEST, 'velocity')}"
    governs = Input(GOVERNS, name, "text", CALCULATED, "the first limit that breaks")
    how = "speed at which surge-annulus, all annuli in series, comes to the first limit"
    return Figure(best.speed, "velocity", how, (governs, *more, *moved(job, now)))


@live("least_lowering", "Least lowering time of the next joint")
def least_lowering(job: Job) -> Figure:
    """Return the least time, slips out to slips set, in which the next joint is lowered."""
    now = going_down(job)
    length = calculated(f"length of {now.name}", now.joint, "length", "running list")
    return _least(job, length)


def _least(job: Job, length: Input) -> Figure:
    highest, peak = fastest_lowering(job), limit_of(job, "peak_factor", PEAK)
    speed = on(highest)
    value = least_lowering_time(number(length), number(speed), number(peak))
    governs = next(one for one in highest.inputs if one.name == GOVERNS)
    inputs = (governs, length, speed, peak)
    return Figure(value, "lowering time", "least-lowering-time, slips out to slips set", inputs)


@live("lowering_seen", "Lowering time of the last item, over the least")
def lowering_seen(job: Job) -> Figure:
    """Return how much longer the last item was lowered than the least; below zero: too fast."""
    if not job.string:
        raise Missing("Nothing is run yet.")
    last = job.string[-1]
    if last.lowering is None:
        raise Missing(not_timed(f"Item {last.number} was not timed"))
    length = calculated(f"length of {last.number}", along(job, last), "length", "entries")
    least, seen = _least(job, length), clock(last)
    inputs = (
        seen,
        calculated("least", number(least), "lowering time", least.formula),
        *least.inputs,
    )
    return Figure(
        last.lowering - number(least), "lowering time difference", "timed - least", inputs
    )


@live("running_speed", "Greatest speed of the pipe going down")
def running_speed(job: Job) -> Figure:
    """Return the greatest speed of the item timed last, else by the time of the programme."""
    made = next((one for one in reversed(job.string) if one.lowering is not None), None)
    if made is not None:
        time, length = clock(made), along(job, made)
    else:
        time, length = _planned(job), going_down(job).joint
    peak = limit_of(job, "peak_factor", PEAK)
    value = peak_speed(length, number(time), number(peak))
    joint = calculated("length lowered", length, "length", "running list or entries")
    return Figure(value, "velocity", "length / lowering time x peak factor", (time, joint, peak))


def _planned(job: Job) -> Input:
    if job.known.limit("lowering_time") is None:
        lack = not_timed("No item was timed")
        raise Missing(f"{lack} Time one, or set the limit lowering_time by the programme.")
    return limit_of(job, "lowering_time", "lowering time by the programme")


def clock(made: Made) -> Input:
    """Return the time in which an item was lowered."""
    return Input(
        f"lowering of {made.number}", made.lowering, "lowering time", READ, f"entry {made.seq}"
    )


def along(job: Job, made: Made) -> float:
    """Return the length of an item, [m]."""
    return job.known.step.si(made.length)


def not_timed(what: str) -> str:
    """Return in words that a speed is not known; a cycle time is no lowering time."""
    return (
        f"{what} from slips out to slips set: the speed was not measured. The time from joint to "
        "joint holds more than lowering and is not laid against it."
    )


def weak(job: Job, now: Lowered) -> tuple[Point, ...]:
    """Return where the open hole takes fluid; with no such density set there is no limit."""
    points = weak_points(job.known, now.shoe)
    if not points:
        raise Missing(
            "No density is set at which the open hole takes fluid; set weak_at of the previous "
            "casing or of a zone below its shoe."
        )
    return points


def holding(job: Job, now: Lowered) -> tuple[Point, ...]:
    """Return where the open hole holds fluid under a known pressure."""
    points = pore_points(job.known, now.shoe)
    if not points:
        raise Missing("No zone below the previous shoe has a pore pressure; set pore of a zone.")
    return points


def set_for(points: Sequence[Point]) -> tuple[Input, ...]:
    """Return the densities that are set for the points, each once."""
    named = {point.name: point.density for point in points}
    return tuple(
        Input(f"set for {name}", density, "density", TYPED, "job set-up")
        for name, density in named.items()
    )


def margin_of(job: Job, key: str, name: str) -> Input:
    """Return a margin as its owner set it; one that is not set is nothing, and is said to be."""
    if job.known.limit(key) is None:
        return Input(name, 0.0, "density", TYPED, NOT_SET)
    return limit_of(job, key, name)


def limit_of(job: Job, key: str, name: str) -> Input:
    """Return a limit with the person who set it."""
    setting = job.known.limits.get(key)
    where = f"limits, {setting.owner}" if setting else "limits"
    return typed(name, job.known.limit(key), where)


def moved(job: Job, now: Lowered) -> tuple[Input, ...]:
    """Return what every surge is worked out from: shoe, foot, mud, hole."""
    gel = job.known.pumping.gel_strength
    return (
        calculated("shoe, the next joint down", now.shoe, "length", "string and running list"),
        Input("foot of the pipe", let_in_by(job), "text", CALCULATED, "job set-up and entries"),
        typed("mud weight", job.known.pumping.mud_weight),
        *rheology(job, MUD),
        *((typed("gel strength", gel),) if gel else ()),
        *hole_inputs(job),
    )


def number(one: Input | Figure) -> float:
    """Return the number of an input that is one."""
    assert isinstance(one.value, (int, float))
    return float(one.value)
