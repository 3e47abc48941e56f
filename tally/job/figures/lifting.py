"""Figures of lift and pull while pumping: what pressure takes off the string and puts on it.

Pipe, head and what is inside are taken as one body. The pressure of the pump acts on both ends of
it; what lifts is the pressure below the shoe beyond the column inside. While fluid goes out of the
shoe that is the pump's less the friction inside the pipe, so the pump's own pressure is the most.
"""

from __future__ import annotations

from tally.errors import ShoedownError
from tally.job.figures.circulating import annulus_friction
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
from tally.job.figures.pumping import bump_pressure
from tally.job.figures.running import shoe_depth
from tally.job.figures.weights import hangs, pull_limits
from tally.job.job import Job
from tally.job.setup import Setup
from tally.pipe.interval import PipeInterval
from tally.string.columns import column
from tally.string.pull import lift_by_pressure, tension_with_pressure
from tally.string.weights import hanging, weighed
from tally.units import Measure, read

RELEASE = "plug-release"
SURVEY = "along the survey, full pipe, the same fluid inside and outside, without friction"


@live("lifting_pressure", "Pressure below the shoe that lifts the string")
def lifting_pressure(job: Job) -> Figure:
    """Return the pressure below the shoe, beyond the columns, that carries the full string."""
    margin = lift_by_pressure(_load(job, _mud(job)), _shoe(job).outer_diameter, 0.0)[2]
    how = "lift-by-pressure: weight in mud / closed end of the pipe at the shoe"
    return Figure(margin, "pressure difference", how, _held(job, _mud(job)))


@live("lift_conditioning", "Weight less lift while conditioning")
def lift_conditioning(job: Job) -> Figure:
    """Return what friction in the annulus leaves of the weight at the rate of conditioning."""
    friction = on(annulus_friction(job))
    return _less_lift(job, _mud(job), friction, "friction in the annulus")


@live("lift_bump", "Weight less lift before the bump")
def lift_bump(job: Job) -> Figure:
    """Return what the pressure before the bump leaves of the weight, heavy fluid outside."""
    how = "pressure before the bump, friction inside not taken off"
    return _less_lift(job, _inside(job.known), _before_bump(job), how)


def _less_lift(job: Job, fluid: Input, pressure: Input, what: str) -> Figure:
    load, outer = _load(job, fluid), _shoe(job).outer_diameter
    net = lift_by_pressure(load, outer, float(pressure.value or 0.0))[1]
    how = f"lift-by-pressure: weight - {what} x closed end; below zero the string rises"
    return Figure(net, "force difference", how, (pressure, *_held(job, fluid)))


@live("tension_bump", "Pull in the top joint with the bump pressure")
def tension_bump(job: Job) -> Figure:
    """Return the pull in the top joint with the bump pressure on the plug, nothing lifted."""
    pressure, fluid = _at_bump(job), _inside(job.known)
    bore = hangs(job).pipe[0].inner_diameter
    load = _load(job, fluid)
    value = tension_with_pressure(max(0.0, load), bore, float(pressure.value or 0.0))[0]
    how = (
        "tension-with-pressure: weight + pressure x bore; what the cement carries is not taken off"
    )
    inputs = (pressure, *_held(job, fluid), *_ratings(job))
    return Figure(value, "force", how, inputs)


def _ratings(job: Job) -> tuple[Input, ...]:
    """Return what pipe and gear may carry, for comparison, where it was set."""
    try:
        limits, _ = pull_limits(job)
    except ShoedownError:
        return ()
    where = "ratings in the set-up, for comparison"
    return tuple(
        Input(f"may carry: {each.name}", each.strength, "force", CALCULATED, where)
        for each in limits
    )


def _held(job: Job, fluid: Input) -> tuple[Input, ...]:
    outer = _shoe(job).outer_diameter
    return (
        calculated("weight", _load(job, fluid), "force difference", SURVEY),
        fluid,
        Input("outside diameter at the shoe", outer, "diameter", TYPED, "job set-up"),
        on(shoe_depth(job)),
    )


def _shoe(job: Job) -> PipeInterval:
    return hangs(job).pipe[-1]


def _load(job: Job, fluid: Input) -> float:
    """Return the weight of the full string with one fluid on both sides, [N]."""
    now, density = hangs(job), float(fluid.value or 0.0)
    return hanging(weighed(now.pipe, column(density, now.pipe[0].top), column(density)), now.survey)


def _mud(job: Job) -> Input:
    return typed("mud weight", job.known.pumping.mud_weight)


def _inside(setup: Setup) -> Input:
    """Return the fluid that stands inside at the bump: the displacement fluid, else the mud."""
    for fluid in reversed(setup.fluids):
        if fluid.kind == "displacement" and fluid.density is not None:
            return typed(f"density of {fluid.name}", fluid.density)
    return typed("mud weight", setup.pumping.mud_weight)


def _before_bump(job: Job) -> Input:
    """Return the pressure before the bump: as it was read, else as it is planned."""
    seen = _step(job, "pressure-before-bump")
    if seen is not None:
        return read_off("pressure before the bump", seen, "step pressure-before-bump")
    return typed("final pressure of the programme", job.known.pumping.final_pressure)


def _at_bump(job: Job) -> Input:
    """Return the pressure at the bump: as read, else what it is to be by the limits."""
    seen = _step(job, "bump-pressure")
    if seen is not None:
        return read_off("pressure at the bump", seen, "step bump-pressure")
    wanted = bump_pressure(job)
    if wanted.value is not None:
        return on(wanted)
    planned, margin = job.known.pumping.final_pressure, job.known.limit("bump_margin")
    if planned is None or margin is None:
        raise Missing(wanted.missing)
    where = "final pressure of the programme + bump margin"
    return calculated("pressure to bump with", planned.value + margin.value, "pressure", where)


def _step(job: Job, step_id: str) -> Measure | None:
    record = job.steps.get((RELEASE, step_id))
    return read(record.value, "pressure") if record and record.value else None
