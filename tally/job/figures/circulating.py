"""Figures of circulating: how the mud flows, and what its friction in the annulus adds."""

from __future__ import annotations

from tally.fluids.equivalent import equivalent_density
from tally.fluids.friction import annulus_loss
from tally.job.figures.model import READ, Figure, Input, Missing, live, on, typed
from tally.job.figures.running import shoe_depth
from tally.job.figures.volumes import hole_inputs
from tally.job.figures.weights import hangs
from tally.job.geometry import hole_of
from tally.job.job import Job
from tally.job.rheology import curve_of, dials_of, fit_of, two_numbers
from tally.job.setup import MUD
from tally.pipe.interval import overlap


@live("annulus_friction", "Friction in the annulus while conditioning")
def annulus_friction(job: Job) -> Figure:
    """Return the pressure lost in the annulus at the rate of conditioning, pipe centred."""
    pump = job.known.pumping
    flows = rheology(job, MUD)
    mud = typed("mud weight", pump.mud_weight), typed("conditioning rate", pump.conditioning_rate)
    weight, rate = (float(one.value or 0.0) for one in mud)
    curve, now = curve_of(job.known, MUD), hangs(job)
    lost = 0.0
    for pipe in now.pipe:
        for section in hole_of(job.known).sections:
            length = overlap(max(0.0, pipe.top), pipe.bottom, section.top, section.bottom)
            if length > 0:
                outer = pipe.outer_diameter
                loss = annulus_loss(curve, weight, rate, section.diameter, outer)
                lost += loss.gradient * length
    how = "friction-annulus x length, by pipe and section of the hole"
    return Figure(lost, "pressure", how, (*mud, *flows, *hole_inputs(job), on(shoe_depth(job))))


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


def rheology(job: Job, fluid: str) -> tuple[Input, ...]:
    """Return what the flow of a fluid is worked out from: its readings, else its two numbers."""
    if fit_of(job.known, fluid) is None:
        viscosity, yield_point = two_numbers(job.known, fluid)
        return typed("plastic viscosity", viscosity), typed("yield point", yield_point)
    return tuple(
        Input(f"viscometer at {dial.speed.text}", dial.dial.value, "number", READ, "job set-up")
        for dial in dials_of(job.known, fluid)
    )


@live("mud_yield", "Yield stress of the mud")
def mud_yield(job: Job) -> Figure:
    """Return the stress at which the mud begins to flow."""
    return _flows(job, curve_of(job.known, MUD).yield_stress, "yield point")


@live("mud_consistency", "Consistency of the mud, equivalent")
def mud_consistency(job: Job) -> Figure:
    """Return the consistency of the mud; with an index of 1 it is the plastic viscosity."""
    return _flows(job, curve_of(job.known, MUD).consistency, "viscosity")


@live("mud_index", "Flow index of the mud")
def mud_index(job: Job) -> Figure:
    """Return the flow index of the mud, 1 where it is by plastic viscosity and yield point."""
    return _flows(job, curve_of(job.known, MUD).index, "number")


def _flows(job: Job, value: float, quantity: str) -> Figure:
    fit = fit_of(job.known, MUD)
    how = "as typed, index 1"
    if fit is not None:
        how = f"herschel-bulkley-fit, readings missed by {fit.misfit:.2g} degrees"
    return Figure(value, quantity, how, rheology(job, MUD))
