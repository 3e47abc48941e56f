"""How the mud and the fluids of the programme flow: by the viscometer, else by two numbers."""

from __future__ import annotations

from tally.errors import DomainError, Missing
from tally.fluids.flow_curve import FlowCurve
from tally.fluids.rheology import bingham_from_readings
from tally.fluids.rheology_fit import Fit, fit_curve
from tally.job.setup import MUD, Dial, Setup, same_name
from tally.units import Measure

LEAST_READINGS = 3
"""Yield stress, consistency and index want as many."""

TURNS_A_MINUTE = 60.0
"""Rotary speed is kept in turns a second, a viscometer is read by turns a minute."""


def curve_of(setup: Setup, fluid: str) -> FlowCurve:
    """Return how a fluid flows: by least squares over its readings, else by PV and YP.

    Raises Missing where the set-up has neither, DomainError where the readings fit no curve.
    """
    fit = fit_of(setup, fluid)
    if fit is not None:
        return fit.curve
    viscosity, yield_point = two_numbers(setup, fluid)
    if viscosity is None:
        raise Missing(_lacking("Plastic viscosity", fluid))
    if yield_point is None:
        raise Missing(_lacking("Yield point", fluid))
    return FlowCurve(yield_point.value, viscosity.value)


def fit_of(setup: Setup, fluid: str) -> Fit | None:
    """Return the curve nearest to the readings of a fluid; nothing where there are too few."""
    read = readings(setup, fluid)
    return fit_curve(read) if len(read) >= LEAST_READINGS else None


def readings(setup: Setup, fluid: str) -> dict[float, float]:
    """Return degrees of the dial by turns a minute; a speed read twice counts with its mean."""
    by_speed: dict[float, list[float]] = {}
    for dial in dials_of(setup, fluid):
        by_speed.setdefault(round(dial.speed.value * TURNS_A_MINUTE, 6), []).append(dial.dial.value)
    return {speed: sum(seen) / len(seen) for speed, seen in by_speed.items()}


def by_two_readings(setup: Setup, fluid: str) -> tuple[float, float] | None:
    """Return plastic viscosity [Pa s] and yield point [Pa] by the readings at 600 and 300 rpm.

    Nothing where one of the two was not read, or they give no such numbers.
    """
    read = readings(setup, fluid)
    try:
        return bingham_from_readings(read[600.0], read[300.0])
    except (KeyError, DomainError):
        return None


def dials_of(setup: Setup, fluid: str) -> tuple[Dial, ...]:
    """Return the readings of the viscometer that are of a fluid."""
    return tuple(dial for dial in setup.dials if same_name(dial.fluid, fluid))


def two_numbers(setup: Setup, fluid: str) -> tuple[Measure | None, Measure | None]:
    """Return plastic viscosity and yield point of a fluid, as far as they are typed."""
    if same_name(fluid, MUD):
        return setup.pumping.plastic_viscosity, setup.pumping.yield_point
    for each in setup.fluids:
        if same_name(each.name, fluid):
            return each.plastic_viscosity, each.yield_point
    raise Missing(f"There is no fluid '{fluid}' in the job set-up; check its name.")


def _lacking(what: str, fluid: str) -> str:
    of = "" if same_name(fluid, MUD) else f" of {fluid}"
    return f"{what}{of} is not in the job set-up."
