"""Friction in pipe and annulus for the live figures: laminar to turbulent, smooth in rate."""

from __future__ import annotations

from dataclasses import dataclass
from math import log10

from tally.fluids.eccentric import ECCENTRICITY_RANGE, eccentric_shares
from tally.fluids.flow import (
    ANNULUS_RANGE,
    DENSITY,
    DENSITY_RANGE,
    HOLE,
    RATE,
    RATE_RANGE,
    VELOCITY,
    annulus_velocity,
    pipe_velocity,
    require_density,
)
from tally.fluids.flow_curve import CONSISTENCY, CURVE_RANGE, INDEX, YIELD_STRESS, FlowCurve
from tally.fluids.laminar import GRADIENT, pipe_wall_stress, require_slot, slot_wall_stress
from tally.fluids.root import bracketed_root
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    LENGTH,
    LENGTH_RANGE,
    OUTER_DIAMETER,
)

LOSS = Term("pressure", "pressure lost over the length", "pressure", "psi")
GENERAL_REYNOLDS = Term("reynolds", "Reynolds number by the wall stress of slow flow", "number", "")
CRITICAL = Term("critical", "Reynolds number at which turbulence begins", "number", "")
ECCENTRICITY = Term(
    "eccentricity", "0 for pipe in the middle, 1 for pipe on the wall", "ratio", "%", "0 %"
)
SOURCE = (
    "laminar exact; transition and turbulence by the form of API RP 13D 2006 to 2017 (from memory: "
    "limit 3470 - 1370 n, smooth blend), smooth walls"
)


@dataclass(frozen=True, slots=True)
class Loss:
    """Friction of a flow: gradient [Pa/m], velocity [m/s], and where it stands between regimes."""

    gradient: float
    velocity: float
    reynolds: float
    critical: float


@formula(
    "friction-pipe",
    "Friction inside pipe at a rate, laminar to turbulent",
    inputs=[INNER_DIAMETER, LENGTH, RATE, DENSITY, YIELD_STRESS, CONSISTENCY, INDEX],
    outputs=[LOSS, GRADIENT, VELOCITY, GENERAL_REYNOLDS, CRITICAL],
    source=SOURCE,
    range=f"{INNER_RANGE}; {LENGTH_RANGE}; {RATE_RANGE}; {DENSITY_RANGE}; {CURVE_RANGE}",
)
def friction_pipe(
    inner_diameter: float,
    length: float,
    rate: float,
    density: float,
    yield_stress: float,
    consistency: float,
    index: float = 1.0,
) -> tuple[float, float, float, float, float]:
    """Return the pressure lost inside a length of pipe at a rate.

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
    yield_stress : float
        Yield stress or yield point, [Pa]
    consistency : float
        Plastic viscosity or consistency, [Pa s^n]
    index : float
        Flow index n, 1 for a Bingham fluid, [-]

    Returns
    -------
    pressure : float
        Pressure lost, [Pa]
    gradient : float
        Pressure lost by length, [Pa/m]
    velocity : float
        Mean velocity, [m/s]
    reynolds : float
        8 * density * velocity**2 / wall stress of slow flow, [-]
    critical : float
        The same where turbulence begins, [-]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    The friction factor is 16/Re with the exact slow flow, then 16*Re/Rec**2 through the
    transition, then a/Re**b, joined by powers so that it has no corner. It grows with the rate
    everywhere. At no rate nothing is lost: what a gelled fluid holds before it moves, and
    couplings and roughness, are not counted.

    Examples
    --------
    >>> [round(value, 2) for value in friction_pipe(0.22, 1000.0, 0.02, 1200.0, 5.0, 0.02)]
    [111936.43, 111.94, 0.53, 431.64, 2454.7]
    """
    require_range("Length", length, 0.0, 20_000.0, "m")
    curve = FlowCurve(yield_stress, consistency, index)
    loss = pipe_loss(curve, density, rate, inner_diameter)
    return loss.gradient * length, loss.gradient, loss.velocity, loss.reynolds, loss.critical


@formula(
    "friction-annulus",
    "Friction between hole and pipe at a rate, laminar to turbulent, pipe off centre if wanted",
    inputs=[
        HOLE,
        OUTER_DIAMETER,
        LENGTH,
        RATE,
        DENSITY,
        YIELD_STRESS,
        CONSISTENCY,
        INDEX,
        ECCENTRICITY,
    ],
    outputs=[LOSS, GRADIENT, VELOCITY, GENERAL_REYNOLDS, CRITICAL],
    source=f"{SOURCE}; off centre by Haciislamoglu and Langlinais, 1990 (from memory)",
    range=f"{ANNULUS_RANGE}; pipe over hole 0.3 or more; {LENGTH_RANGE}; {RATE_RANGE}; "
    f"{DENSITY_RANGE}; {CURVE_RANGE}; {ECCENTRICITY_RANGE} where off centre",
)
def friction_annulus(
    hole_diameter: float,
    outer_diameter: float,
    length: float,
    rate: float,
    density: float,
    yield_stress: float,
    consistency: float,
    index: float = 1.0,
    eccentricity: float = 0.0,
) -> tuple[float, float, float, float, float]:
    """Return the pressure lost between hole and pipe over a length at a rate.

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
        Yield stress or yield point, [Pa]
    consistency : float
        Plastic viscosity or consistency, [Pa s^n]
    index : float
        Flow index n, 1 for a Bingham fluid, [-]
    eccentricity : float
        0 for pipe in the middle of the hole, 1 for pipe on its wall, [-]

    Returns
    -------
    pressure : float
        Pressure lost, [Pa]
    gradient : float
        Pressure lost by length, [Pa/m]
    velocity : float
        Mean velocity, [m/s]
    reynolds : float
        8 * density * velocity**2 / wall stress of slow flow, pipe in the middle, [-]
    critical : float
        The same where turbulence begins, [-]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    As in pipe, with the exact slot for slow flow. Pipe off centre loses less, so leave the
    eccentricity at 0 where the greatest equivalent density is asked for.

    Examples
    --------
    >>> values = friction_annulus(0.31, 0.25, 1000.0, 0.02, 1200.0, 5.0, 0.02)
    >>> [round(value, 2) for value in values]
    [659527.97, 659.53, 0.76, 557.38, 2454.7]
    """
    require_range("Length", length, 0.0, 20_000.0, "m")
    curve = FlowCurve(yield_stress, consistency, index)
    loss = annulus_loss(curve, density, rate, hole_diameter, outer_diameter, eccentricity)
    return loss.gradient * length, loss.gradient, loss.velocity, loss.reynolds, loss.critical


@formula(
    "turbulent-rate-annulus",
    "Pump rate at which flow between hole and pipe begins to turn turbulent",
    inputs=[HOLE, OUTER_DIAMETER, DENSITY, YIELD_STRESS, CONSISTENCY, INDEX],
    outputs=[RATE, VELOCITY],
    source=SOURCE,
    range=f"{ANNULUS_RANGE}; pipe over hole 0.3 or more; {DENSITY_RANGE}; {CURVE_RANGE}; rate "
    "0.00001 to 1 m3/s",
)
def turbulent_rate(
    hole_diameter: float,
    outer_diameter: float,
    density: float,
    yield_stress: float,
    consistency: float,
    index: float = 1.0,
) -> tuple[float, float]:
    """Return the rate, and the velocity, at which the annulus begins to turn turbulent.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    density : float
        Density of the fluid, [kg/m^3]
    yield_stress : float
        Yield stress or yield point, [Pa]
    consistency : float
        Plastic viscosity or consistency, [Pa s^n]
    index : float
        Flow index n, 1 for a Bingham fluid, [-]

    Returns
    -------
    rate : float
        Pump rate, [m^3/s]
    velocity : float
        Mean velocity, [m/s]

    Raises
    ------
    DomainError
        If a number is out of range, or no rate up to 1 m^3/s is turbulent.

    Examples
    --------
    >>> [round(value, 3) for value in turbulent_rate(0.31, 0.25, 1200.0, 5.0, 0.02)]
    [0.052, 1.964]
    """
    curve = FlowCurve(yield_stress, consistency, index)

    def short(rate: float) -> float:
        loss = annulus_loss(curve, density, rate, hole_diameter, outer_diameter)
        return loss.reynolds - loss.critical

    rate = bracketed_root(short, 0.000_01, 1.0)
    return rate, annulus_velocity(hole_diameter, outer_diameter, rate)


def pipe_loss(curve: FlowCurve, density: float, rate: float, inner_diameter: float) -> Loss:
    """Return the friction inside pipe."""
    velocity = pipe_velocity(inner_diameter, rate)
    require_density(density)
    stress = pipe_wall_stress(curve, velocity, inner_diameter)
    return _loss(curve, density, velocity, inner_diameter, stress, (1.0, 1.0))


def annulus_loss(
    curve: FlowCurve,
    density: float,
    rate: float,
    hole_diameter: float,
    outer_diameter: float,
    eccentricity: float = 0.0,
) -> Loss:
    """Return the friction between hole and pipe; an eccentricity of 0 asks for no correction."""
    gap = require_slot(hole_diameter, outer_diameter)
    velocity = annulus_velocity(hole_diameter, outer_diameter, rate)
    require_density(density)
    require_range("Eccentricity", eccentricity, 0.0, 1.0, "")
    shares = (1.0, 1.0)
    if eccentricity:
        shares = eccentric_shares(hole_diameter, outer_diameter, curve.index, eccentricity)
    stress = slot_wall_stress(curve, velocity, gap / 2)
    return _loss(curve, density, velocity, gap, stress, shares)


def _loss(
    curve: FlowCurve,
    density: float,
    velocity: float,
    diameter: float,
    stress: float,
    shares: tuple[float, float],
) -> Loss:
    """Return the friction from the wall stress of slow flow, times shares for pipe off centre."""
    slope = curve.slope()
    critical = 3470 - 1370 * slope
    if velocity == 0:
        return Loss(0.0, 0.0, 0.0, critical)
    reynolds = 8 * density * velocity * velocity / stress
    slow = 16 / reynolds * shares[0]
    fast = _turbulent_factor(reynolds, critical, slope) * shares[1]
    factor = _blend(slow, fast, 12)
    return Loss(2 * factor * density * velocity**2 / diameter, velocity, reynolds, critical)


def _turbulent_factor(reynolds: float, critical: float, slope: float) -> float:
    """Return the friction factor of transition and turbulence together."""
    passing = 16 * reynolds / critical**2
    turbulent = (log10(slope) + 3.93) / 50 / reynolds ** ((1.75 - log10(slope)) / 7)
    return 1 / _blend(1 / passing, 1 / turbulent, 8)


def _blend(one: float, two: float, power: int) -> float:
    """Return (one**power + two**power)**(1/power) without overflow."""
    most, least = max(one, two), min(one, two)
    blended: float = most * (1 + (least / most) ** power) ** (1 / power)
    return blended
