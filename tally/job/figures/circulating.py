"""Figures of circulating: what friction in the annulus adds while the mud is conditioned."""

from __future__ import annotations

from tally.fluids.equivalent import equivalent_density
from tally.fluids.flow_curve import FlowCurve
from tally.fluids.friction import annulus_loss
from tally.job.figures.model import Figure, Input, Missing, live, on, typed
from tally.job.figures.running import shoe_depth
from tally.job.figures.weights import hangs
from tally.job.hanging import hole_of
from tally.job.job import Job
from tally.pipe.interval import overlap


@live("annulus_friction", "Friction in the annulus while conditioning")
def annulus_friction(job: Job) -> Figure:
    """Return the pressure lost in the annulus at the rate of conditioning, pipe centred."""
    inputs = _mud(job)
    weight, viscosity, yield_point, rate = (float(one.value or 0.0) for one in inputs)
    curve, now = FlowCurve(yield_point, viscosity), hangs(job)
    lost = 0.0
    for pipe in now.pipe:
        for section in hole_of(job.known).sections:
            length = overlap(max(0.0, pipe.top), pipe.bottom, section.top, section.bottom)
            if length > 0:
                outer = pipe.outer_diameter
                loss = annulus_loss(curve, weight, rate, section.diameter, outer)
                lost += loss.gradient * length
    how = "friction-annulus x length, by pipe and section of the hole"
    return Figure(lost, "pressure", how, (*inputs, on(shoe_depth(job))))


@live("conditioning_density", "Equivalent density at the shoe while conditioning")
def conditioning_density(job: Job) -> Figure:
    """Return the density that would press at the shoe as mud and friction do together."""
    friction = on(annulus_friction(job))
    now, mud = hangs(job), typed("mud weight", job.known.pumping.mud_weight)
    if now.shoe <= 1:
        raise Missing("The shoe is not below the datum yet.")
    down = now.survey.true_vertical(now.shoe)
    value = equivalent_density(float(mud.value or 0.0), float(friction.value or 0.0), down)
    inputs = (mud, friction, on(shoe_depth(job)))
    return Figure(value, "density", "equivalent-circulating-density", inputs)


def _mud(job: Job) -> tuple[Input, ...]:
    pump = job.known.pumping
    return (
        typed("mud weight", pump.mud_weight),
        typed("plastic viscosity", pump.plastic_viscosity),
        typed("yield point", pump.yield_point),
        typed("conditioning rate", pump.conditioning_rate),
    )
