"""Figures of plugs and floats: where the plugs are, what comes back, what may be put on."""

from __future__ import annotations

from collections.abc import Iterator

from tally.cement.floats import plug_depth, swelling, weakest
from tally.cement.pressuring import volume_to_pressure_up
from tally.job.cement_job import collar_depth, down_to
from tally.job.figures import programme, pumping
from tally.job.figures.model import (
    CALCULATED,
    TYPED,
    Figure,
    Input,
    Missing,
    calculated,
    live,
    on,
    read_off,
    typed,
)
from tally.job.geometry import hung, yield_of
from tally.job.job import Job
from tally.job.setup import Pipe
from tally.pipe.ratings import internal_yield
from tally.units import Measure, read

RELEASE = "plug-release"
CASING = "casing"
SET_UP = "job set-up"
WITHOUT_FALL = "pipe-capacity by the volume behind it; fluid that falls free carries it further"


@live("top_plug_depth", "Top plug, by the count")
def top_plug_depth(job: Job) -> Figure:
    """Return how deep the top plug is by the count that is further on."""
    return _plug(job, (_pumped(job),))


@live("bottom_plug_depth", "Bottom plug, by the counts")
def bottom_plug_depth(job: Job) -> Figure:
    """Return how deep the bottom plug ahead of the slurry is, until it seats."""
    plugs = job.known.pumping.bottom_plugs
    if not plugs:
        raise Missing("The programme has no bottom plug.")
    slurry = _stored(job, "slurry-away", "volume", "slurry pumped")
    behind = (slurry, _pumped(job)) if job.pumped else (slurry,)
    return _plug(job, behind)


@live("first_bottom_plug_depth", "First bottom plug, by the counts")
def first_bottom_plug_depth(job: Job) -> Figure:
    """Return how deep the bottom plug ahead of the spacer is, where there are two."""
    if job.known.pumping.bottom_plugs < 2:
        raise Missing("The programme has no second bottom plug.")
    spacer = _stored(job, "spacer-pumped", "volume", "spacer pumped")
    slurry = _stored(job, "slurry-away", "volume", "slurry pumped")
    behind = (spacer, slurry, _pumped(job)) if job.pumped else (spacer, slurry)
    return _plug(job, behind)


def _plug(job: Job, behind: tuple[Input, ...]) -> Figure:
    head, collar = job.known.pumping.head_volume, collar_depth(job)
    volume = sum(float(each.value or 0.0) for each in behind)
    depth = plug_depth(down_to(hung(job), collar), head.value if head else 0.0, volume)
    if depth is None:
        raise Missing("The plug is still in the head by the count.")
    lands = calculated("collar", collar, "length", "items run")
    return Figure(max(0.0, depth), "length", WITHOUT_FALL, (*behind, lands))


def _pumped(job: Job) -> Input:
    """Return what was displaced, as the plug follows it."""
    return on(pumping.displaced(job))


def _stored(job: Job, step: str, quantity: str, name: str) -> Input:
    record = job.steps.get((RELEASE, step))
    value = read(record.value, quantity) if record and record.value else None
    return read_off(name, value, f"step {step}")


@live("expected_back", "Fluid expected back at the float check")
def expected_back(job: Job) -> Figure:
    """Return what the fluid inside and the pipe give when the pressure is bled off."""
    setup = job.known
    pressure = _bump(job)
    gives = typed("compressibility behind the plug", setup.pumping.compressibility)
    inside = on(pumping.displacement(job))
    on_it = float(pressure.value or 0.0)
    fluid = volume_to_pressure_up(float(inside.value or 0.0), on_it, float(gives.value or 0.0))
    pipe = swelling(hung(job), on_it, collar_depth(job))
    parts = (
        calculated("of the fluid", fluid, "volume", "volume-to-pressure-up"),
        calculated("of the pipe", pipe, "volume", "bore-swelling"),
    )
    how = "volume-to-pressure-up + bore-swelling x contents, down to the collar"
    return Figure(fluid + pipe, "volume", how, (inside, pressure, gives, *parts))


def _bump(job: Job) -> Input:
    """Return the pressure at the bump: as read, else as it is meant to be."""
    record = job.steps.get((RELEASE, "bump-pressure"))
    if record is not None and record.value:
        return _stored(job, "bump-pressure", "pressure", "pressure at the bump")
    return on(pumping.bump_pressure(job))


@live("hold_pressure", "To hold if the floats leak")
def hold_pressure(job: Job) -> Figure:
    """Return the differential, all that is held if the floats leak, and the limit with heat."""
    held = on(programme.bump_differential(job))
    value = max(0.0, float(held.value or 0.0))
    limit = typed("highest pressure kept on while it heats", job.known.limit("heat_pressure"),
                  "limits")  # fmt: skip
    most = float(limit.value or 0.0)
    how = "the differential alone; heat raises it: bleed to it again, never past the limit"
    if value > most:
        how = "the differential alone, and it is over the limit: ask who set it before holding"
    return Figure(value, "pressure", how, (held, limit))


@live("highest_pressure", "Highest surface pressure allowed")
def highest_pressure(job: Job) -> Figure:
    """Return the least rating of what the surface pressure acts on, and which one it is."""
    ratings = tuple(_ratings(job))
    found = weakest([(name, value) for name, value, _where in ratings])
    if found is None:
        raise Missing(
            "Nothing that the pressure acts on is rated: line, head, plugs, collar, casing, relief."
        )
    without = f"; not rated: {', '.join(found.unrated)}" if found.unrated else "; all are rated"
    inputs = tuple(
        Input(name, value, "pressure", CALCULATED if name == CASING else TYPED, where)
        for name, value, where in ratings
        if value is not None
    )
    how = f"least of the ratings: {found.name} governs{without}"
    return Figure(found.pressure, "pressure", how, inputs)


def _ratings(job: Job) -> Iterator[tuple[str, float | None, str]]:
    """Yield what each part holds, [Pa], and where that comes from."""
    pump, line = job.known.pumping, job.steps.get((RELEASE, "line-test"))
    tested = read(line.value, "pressure") if line and line.value else None
    yield "tested line", _of(tested), "step line-test"
    yield "head", _of(pump.head_rating), SET_UP
    yield "plugs", _of(pump.plug_rating), SET_UP
    yield "collar", _of(pump.collar_rating), SET_UP
    yield CASING, _burst(job), "internal-yield x share that may be used"
    yield "pump relief", _of(pump.relief), SET_UP


def _of(measure: Measure | None) -> float | None:
    return None if measure is None else measure.value


def _burst(job: Job) -> float | None:
    """Return the share of the internal yield of the weakest pipe that may be used."""
    share = job.known.limit("burst_share")
    pipes = [job.known.pipe(name) for name in {made.pipe for made in job.string}]
    if share is None or not pipes or any(yield_of(each) is None for each in pipes):
        return None
    return min(_yields_at(each) for each in pipes) * share.value


def _yields_at(pipe: Pipe) -> float:
    wall = (pipe.outer_diameter.value - pipe.inner_diameter.value) / 2
    return internal_yield(pipe.outer_diameter.value, wall, yield_of(pipe) or 0.0)[0]
