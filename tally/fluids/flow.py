"""How fast a fluid moves in pipe and annulus, and its Reynolds number when it is Newtonian."""

from __future__ import annotations

from math import pi

from tally.formula import Term, formula, require_range
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    OUTER_DIAMETER,
    OUTER_RANGE,
    closed_end_displacement,
    pipe_capacity,
    require_gap,
)

HOLE = Term("hole", "diameter of the hole, or inside of the outer casing", "diameter", "in")
RATE = Term("rate", "pump rate", "flow rate", "bbl/min")
VELOCITY = Term("velocity", "mean velocity", "velocity", "ft/min")
DENSITY = Term("density", "density of the fluid", "density", "lb/gal")
VISCOSITY = Term("viscosity", "viscosity, Newtonian or apparent", "viscosity", "cP")
REYNOLDS = Term("reynolds", "Reynolds number", "number", "")

RATE_RANGE = "rate 0 to 1 m3/s"
ANNULUS_RANGE = f"hole diameter 0.05 to 1.5 m; {OUTER_RANGE}; pipe less than hole"
DENSITY_RANGE = "density 1 to 3,000 kg/m3"
EQUIVALENT_SLOT = 0.816
"""Diameter of a pipe like the annulus, over hole less pipe; sqrt(2/3), as printed."""

GUO = (
    "Guo and Liu, Applied Drilling Circulation Systems, 2011, ch. 2, after Bourgoyne et al., "
    "Applied Drilling Engineering, SPE 1986, ch. 4"
)


@formula(
    "pipe-velocity",
    "Mean velocity of a fluid inside pipe",
    inputs=[INNER_DIAMETER, RATE],
    outputs=[VELOCITY],
    source=f"rate / cross-section; {GUO}",
    range=f"{INNER_RANGE}; {RATE_RANGE}",
)
def pipe_velocity(inner_diameter: float, rate: float) -> float:
    """Return the mean velocity inside pipe.

    Parameters
    ----------
    inner_diameter : float
        Inside diameter, [m]
    rate : float
        Pump rate, [m^3/s]

    Returns
    -------
    velocity : float
        Mean velocity, [m/s]

    Raises
    ------
    DomainError
        If the diameter is not from 0.05 to 1 m or the rate not from 0 to 1 m^3/s.

    Examples
    --------
    >>> round(pipe_velocity(0.22, 0.02), 3)
    0.526
    """
    require_rate(rate)
    return rate / pipe_capacity(inner_diameter)


@formula(
    "annulus-velocity",
    "Mean velocity of a fluid between hole and pipe",
    inputs=[HOLE, OUTER_DIAMETER, RATE],
    outputs=[VELOCITY],
    source=f"rate / cross-section; {GUO}",
    range=f"{ANNULUS_RANGE}; {RATE_RANGE}",
)
def annulus_velocity(hole_diameter: float, outer_diameter: float, rate: float) -> float:
    """Return the mean velocity between hole and pipe.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    rate : float
        Pump rate, [m^3/s]

    Returns
    -------
    velocity : float
        Mean velocity, [m/s]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Examples
    --------
    >>> round(annulus_velocity(0.31, 0.25, 0.02), 3)
    0.758
    """
    require_rate(rate)
    require_gap(hole_diameter, outer_diameter)
    return rate / (pi / 4 * hole_diameter**2 - closed_end_displacement(outer_diameter))


@formula(
    "reynolds-pipe",
    "Reynolds number in pipe, of a Newtonian fluid or with an apparent viscosity",
    inputs=[INNER_DIAMETER, VELOCITY, DENSITY, VISCOSITY],
    outputs=[REYNOLDS],
    source=f"density x velocity x diameter / viscosity; {GUO} (928 in field units)",
    range=f"{INNER_RANGE}; velocity 0 to 100 m/s; {DENSITY_RANGE}; viscosity 0.1 to 100,000 cP",
)
def reynolds_pipe(
    inner_diameter: float, velocity: float, density: float, viscosity: float
) -> float:
    """Return the Reynolds number in pipe.

    Parameters
    ----------
    inner_diameter : float
        Inside diameter, [m]
    velocity : float
        Mean velocity, [m/s]
    density : float
        Density of the fluid, [kg/m^3]
    viscosity : float
        Viscosity, Newtonian or apparent, [Pa s]

    Returns
    -------
    reynolds : float
        Reynolds number, laminar below some 2,100, [-]

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> round(reynolds_pipe(0.22, 0.5, 1200.0, 0.02))
    6600
    """
    require_range("Inside diameter", inner_diameter, 0.05, 1.0, "m")
    return _reynolds(inner_diameter, velocity, density, viscosity)


@formula(
    "reynolds-annulus",
    "Reynolds number in the annulus, of a Newtonian fluid or with an apparent viscosity",
    inputs=[HOLE, OUTER_DIAMETER, VELOCITY, DENSITY, VISCOSITY],
    outputs=[REYNOLDS],
    source=f"that of a pipe of 0.816 x (hole - pipe); {GUO} (757 in field units)",
    range=f"{ANNULUS_RANGE}; velocity 0 to 100 m/s; {DENSITY_RANGE}; viscosity 0.1 to 100,000 cP",
)
def reynolds_annulus(
    hole_diameter: float, outer_diameter: float, velocity: float, density: float, viscosity: float
) -> float:
    """Return the Reynolds number in the annulus.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    velocity : float
        Mean velocity, [m/s]
    density : float
        Density of the fluid, [kg/m^3]
    viscosity : float
        Viscosity, Newtonian or apparent, [Pa s]

    Returns
    -------
    reynolds : float
        Reynolds number, laminar below some 2,100, [-]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Examples
    --------
    >>> round(reynolds_annulus(0.31, 0.25, 0.8, 1200.0, 0.02))
    2350
    """
    gap = require_gap(hole_diameter, outer_diameter)
    return _reynolds(EQUIVALENT_SLOT * gap, velocity, density, viscosity)


def _reynolds(diameter: float, velocity: float, density: float, viscosity: float) -> float:
    require_range("Velocity", velocity, 0.0, 100.0, "m/s")
    require_density(density)
    require_range("Viscosity", viscosity, 0.000_1, 100.0, "Pa s")
    return density * velocity * diameter / viscosity


def require_rate(rate: float) -> None:
    """Refuse what is no pump rate."""
    require_range("Pump rate", rate, 0.0, 1.0, "m3/s")


def require_density(density: float) -> None:
    """Refuse what is no density of a fluid that flows."""
    require_range("Density", density, 1.0, 3000.0, "kg/m3")
