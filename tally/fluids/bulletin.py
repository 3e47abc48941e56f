"""Friction by the forms of API RP 13D: two regions (before 2006) and the later smooth form.

The friction page of the older edition was read; the later form is from memory. Live figures use
friction.py, which takes the later form's transition and an exact laminar part.
"""

from __future__ import annotations

from math import log10

from tally.fluids.flow import (
    ANNULUS_RANGE,
    DENSITY,
    HOLE,
    RATE,
    REYNOLDS,
    VELOCITY,
    annulus_velocity,
    pipe_velocity,
)
from tally.fluids.flow_curve import YIELD_STRESS
from tally.fluids.laminar import GRADIENT, WALL_STRESS
from tally.fluids.textbook import APPARENT, LOSS, TURNING_POINT
from tally.fluids.textbook_power_law import FACTOR, POWER_RANGE, K, N, require_power
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import INNER_DIAMETER, INNER_RANGE, LENGTH, OUTER_DIAMETER, require_gap

OLDER = "API RP 13D before 2006, one-page hydraulics sheet of May 2002 (scribd.com/doc/190209218)"
LATER = "API RP 13D 2006 to 2017, from memory; its unit constants checked"
BOB = 1.0678
"""Radius of the viscometer's sleeve over that of its bob."""


@formula(
    "older-bulletin-pipe",
    "Friction inside pipe by API RP 13D before 2006 (power law of 600 and 300 rpm)",
    inputs=[INNER_DIAMETER, LENGTH, RATE, DENSITY, K, N],
    outputs=[LOSS, GRADIENT, VELOCITY, APPARENT, REYNOLDS, FACTOR],
    source=OLDER,
    range=f"{INNER_RANGE}; {POWER_RANGE}",
)
def older_pipe(
    inner_diameter: float,
    length: float,
    rate: float,
    density: float,
    consistency: float,
    index: float,
) -> tuple[float, float, float, float, float, float]:
    """Return the pressure lost inside pipe by the older bulletin.

    Parameters
    ----------
    inner_diameter : float
        Inside diameter, [m]
    length : float
        Length along the pipe, [m]
    rate : float
        Pump rate, [m^3/s]
    density : float
        Density of the fluid, [kg/m^3]
    consistency : float
        Consistency k from 600 and 300 rpm, [Pa s^n]
    index : float
        Flow index n from 600 and 300 rpm, [-]

    Returns
    -------
    pressure : float
        Pressure lost, [Pa]
    gradient : float
        Pressure lost by length, [Pa/m]
    velocity : float
        Mean velocity, [m/s]
    apparent : float
        Apparent viscosity, [Pa s]
    reynolds : float
        Reynolds number; turbulent from 2,100, [-]
    factor : float
        Friction factor (Fanning), [-]

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> values = older_pipe(0.1, 1000.0, 0.02, 1200.0, 0.2, 0.74)
    >>> [round(value, 4) for value in values[3:]]
    [0.0534, 5719.8114, 0.0074]

    References
    ----------
    .. [1] One-page hydraulics sheet dated May 2002, scribd.com/doc/190209218.
    """
    require_power(length, rate, density, consistency, index)
    velocity = pipe_velocity(inner_diameter, rate)
    shape: float = ((3 * index + 1) / (4 * index)) ** index
    apparent = consistency * (8 * velocity / inner_diameter) ** (index - 1) * shape
    return _older(length, density, velocity, inner_diameter, apparent, index, 16)


@formula(
    "older-bulletin-annulus",
    "Friction in the annulus by API RP 13D before 2006 (power law of 100 and 3 rpm)",
    inputs=[HOLE, OUTER_DIAMETER, LENGTH, RATE, DENSITY, K, N],
    outputs=[LOSS, GRADIENT, VELOCITY, APPARENT, REYNOLDS, FACTOR],
    source=OLDER,
    range=f"{ANNULUS_RANGE}; {POWER_RANGE}",
)
def older_annulus(
    hole_diameter: float,
    outer_diameter: float,
    length: float,
    rate: float,
    density: float,
    consistency: float,
    index: float,
) -> tuple[float, float, float, float, float, float]:
    """Return the pressure lost in the annulus by the older bulletin.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    length : float
        Length along the hole, [m]
    rate : float
        Pump rate, [m^3/s]
    density : float
        Density of the fluid, [kg/m^3]
    consistency : float
        Consistency k from 100 and 3 rpm, [Pa s^n]
    index : float
        Flow index n from 100 and 3 rpm, [-]

    Returns
    -------
    pressure : float
        Pressure lost, [Pa]
    gradient : float
        Pressure lost by length, [Pa/m]
    velocity : float
        Mean velocity, [m/s]
    apparent : float
        Apparent viscosity, [Pa s]
    reynolds : float
        Reynolds number; turbulent from 2,100, [-]
    factor : float
        Friction factor (Fanning), [-]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Examples
    --------
    >>> values = older_annulus(0.31, 0.25, 1000.0, 0.02, 1200.0, 0.63, 0.54)
    >>> [round(value, 4) for value in values[3:]]
    [0.0716, 762.1964, 0.0315]

    References
    ----------
    .. [1] One-page hydraulics sheet dated May 2002, scribd.com/doc/190209218.
    """
    require_power(length, rate, density, consistency, index)
    gap = require_gap(hole_diameter, outer_diameter)
    velocity = annulus_velocity(hole_diameter, outer_diameter, rate)
    shape: float = ((2 * index + 1) / (3 * index)) ** index
    apparent = consistency * (12 * velocity / gap) ** (index - 1) * shape
    return _older(length, density, velocity, gap, apparent, index, 24)


@formula(
    "later-bulletin-annulus",
    "Friction in the annulus by the form of API RP 13D since 2006 (from memory)",
    inputs=[
        HOLE,
        OUTER_DIAMETER,
        LENGTH,
        RATE,
        DENSITY,
        YIELD_STRESS,
        K,
        N,
        Term("n-pipe", "flow index of the readings at 600 and 300 rpm", "number", ""),
    ],
    outputs=[
        LOSS,
        GRADIENT,
        VELOCITY,
        Term("wall-rate", "shear rate at the wall", "shear rate", "1/s"),
        WALL_STRESS,
        REYNOLDS,
        FACTOR,
    ],
    source=LATER,
    range=f"{ANNULUS_RANGE}; {POWER_RANGE}; yield stress 0 to 200 Pa",
)
def later_annulus(
    hole_diameter: float,
    outer_diameter: float,
    length: float,
    rate: float,
    density: float,
    yield_stress: float,
    consistency: float,
    index: float,
    pipe_index: float,
) -> tuple[float, float, float, float, float, float, float]:
    """Return the pressure lost in the annulus by the later bulletin's form.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    length : float
        Length along the hole, [m]
    rate : float
        Pump rate, [m^3/s]
    density : float
        Density of the fluid, [kg/m^3]
    yield_stress : float
        Yield stress, [Pa]
    consistency : float
        Consistency k, [Pa s^n]
    index : float
        Flow index n, [-]
    pipe_index : float
        Flow index of the readings at 600 and 300 rpm alone, [-]

    Returns
    -------
    pressure : float
        Pressure lost, [Pa]
    gradient : float
        Pressure lost by length, [Pa/m]
    velocity : float
        Mean velocity, [m/s]
    wall_rate : float
        Shear rate at the wall, [1/s]
    wall_stress : float
        Shear stress at the wall, [Pa]
    reynolds : float
        Reynolds number, [-]
    factor : float
        Friction factor (Fanning), [-]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    From memory: the editions were not open, so no conformance is claimed. Its laminar part lies
    2 % below the exact slot, which `friction-annulus` uses.

    Examples
    --------
    >>> values = later_annulus(0.31, 0.25, 1000.0, 0.02, 1200.0, 2.0, 0.2, 0.72, 0.66)
    >>> [round(value, 3) for value in values[2:6]]
    [0.758, 167.023, 10.647, 517.875]

    References
    ----------
    .. [1] API RP 13D, 2006, 2010 and 2017 (from memory).
    """
    require_power(length, rate, density, consistency, index)
    require_range("Yield stress", yield_stress, 0.0, 200.0, "Pa")
    require_range("Flow index for pipe", pipe_index, 0.1, 1.5, "")
    gap = require_gap(hole_diameter, outer_diameter)
    velocity = annulus_velocity(hole_diameter, outer_diameter, rate)
    wall_rate = 8 * _geometry(index) * velocity / gap
    yielded: float = 1.5**index * yield_stress
    stress: float = yielded + consistency * wall_rate**index
    reynolds = 8 * density * velocity**2 / stress
    factor = _later_factor(reynolds, pipe_index)
    gradient = 2 * factor * density * velocity**2 / gap
    return gradient * length, gradient, velocity, wall_rate, stress, reynolds, factor


def _older(
    length: float,
    density: float,
    velocity: float,
    diameter: float,
    apparent: float,
    index: float,
    slow: float,
) -> tuple[float, float, float, float, float, float]:
    reynolds = density * velocity * diameter / apparent
    factor = slow / reynolds if reynolds < TURNING_POINT else _turbulent(reynolds, index)
    gradient = 2 * factor * density * velocity**2 / diameter
    return gradient * length, gradient, velocity, apparent, reynolds, factor


def _geometry(index: float) -> float:
    """Return the geometry factor of an annulus, with the viscometer's own put right."""
    annulus = ((2 * index + 1) / (3 * index)) * 1.5
    power: float = BOB ** (2 / index)
    bob = power / (index * BOB**2) * (BOB**2 - 1) / (power - 1)
    return annulus / bob


def _later_factor(reynolds: float, index: float) -> float:
    """Return the friction factor, smooth from laminar through the transition to turbulence."""
    passing = 16 * reynolds / (3470 - 1370 * index) ** 2
    turbulent = _turbulent(reynolds, index)
    joined: float = (passing**-8 + turbulent**-8) ** (-1 / 8)
    factor: float = (joined**12 + (16 / reynolds) ** 12) ** (1 / 12)
    return factor


def _turbulent(reynolds: float, index: float) -> float:
    factor: float = (log10(index) + 3.93) / 50 / reynolds ** ((1.75 - log10(index)) / 7)
    return factor
