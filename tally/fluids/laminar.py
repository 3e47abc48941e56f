"""Slow flow of a Herschel-Bulkley fluid, exactly: in a pipe, and in the slot of an annulus."""

from __future__ import annotations

from collections.abc import Callable
from math import exp, log

from tally.errors import DomainError
from tally.fluids.flow import ANNULUS_RANGE, HOLE, RATE, RATE_RANGE, annulus_velocity, pipe_velocity
from tally.fluids.flow_curve import CONSISTENCY, CURVE_RANGE, INDEX, YIELD_STRESS, FlowCurve
from tally.fluids.root import bracketed_root
from tally.formula import Term, formula
from tally.pipe.capacity import INNER_DIAMETER, INNER_RANGE, OUTER_DIAMETER, require_gap

GRADIENT = Term("gradient", "pressure lost by length", "pressure gradient", "psi/ft")
WALL_STRESS = Term("wall-stress", "shear stress at the wall", "yield point", "lbf/100ft2")
NARROWEST = 0.3
"""Least pipe over hole for which the annulus is taken as a slot."""

_MOST_DOUBLINGS = 400


@formula(
    "friction-pipe-laminar",
    "Friction of slow (laminar) flow inside pipe, exact",
    inputs=[INNER_DIAMETER, RATE, YIELD_STRESS, CONSISTENCY, INDEX],
    outputs=[GRADIENT, WALL_STRESS],
    source="balance of forces with the Herschel-Bulkley law integrated over the pipe",
    range=f"{INNER_RANGE}; {RATE_RANGE}; {CURVE_RANGE}; laminar flow",
)
def pipe_laminar(
    inner_diameter: float,
    rate: float,
    yield_stress: float,
    consistency: float,
    index: float = 1.0,
) -> tuple[float, float]:
    """Return pressure lost by length and the stress at the wall, slow flow in pipe.

    Parameters
    ----------
    inner_diameter : float
        Inside diameter, [m]
    rate : float
        Pump rate, [m^3/s]
    yield_stress : float
        Yield stress, [Pa]
    consistency : float
        Plastic viscosity or consistency, [Pa s^n]
    index : float
        Flow index n, [-]

    Returns
    -------
    gradient : float
        Pressure lost by length, [Pa/m]
    wall_stress : float
        Shear stress at the wall, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    The velocity that a wall stress drives is integrated in closed form; the wall stress that
    drives the velocity wanted is its bracketed root. At no rate nothing is lost; what a fluid
    with a yield stress holds before it moves is not counted.

    Examples
    --------
    >>> [round(value, 2) for value in pipe_laminar(0.22, 0.02, 5.0, 0.02)]
    [111.94, 6.16]
    """
    velocity = pipe_velocity(inner_diameter, rate)
    stress = pipe_wall_stress(FlowCurve(yield_stress, consistency, index), velocity, inner_diameter)
    return 4 * stress / inner_diameter, stress


@formula(
    "friction-annulus-laminar",
    "Friction of slow (laminar) flow in a concentric annulus, exact slot",
    inputs=[HOLE, OUTER_DIAMETER, RATE, YIELD_STRESS, CONSISTENCY, INDEX],
    outputs=[GRADIENT, WALL_STRESS],
    source="balance of forces with the Herschel-Bulkley law integrated over a flat slot",
    range=f"{ANNULUS_RANGE}; pipe over hole 0.3 or more; {RATE_RANGE}; {CURVE_RANGE}; laminar flow",
)
def annulus_laminar(
    hole_diameter: float,
    outer_diameter: float,
    rate: float,
    yield_stress: float,
    consistency: float,
    index: float = 1.0,
) -> tuple[float, float]:
    """Return pressure lost by length and the stress at the wall, slow flow in an annulus.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    rate : float
        Pump rate, [m^3/s]
    yield_stress : float
        Yield stress, [Pa]
    consistency : float
        Plastic viscosity or consistency, [Pa s^n]
    index : float
        Flow index n, [-]

    Returns
    -------
    gradient : float
        Pressure lost by length, [Pa/m]
    wall_stress : float
        Shear stress at the wall, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    The annulus is taken as a flat slot as wide as its middle is long. For a Newtonian fluid
    that is within 1 % of the true ring from half a hole's diameter of pipe on, and within 3 %
    at 0.3; the usual textbook sum of a viscous and a yield part reads up to a fifth more.

    Examples
    --------
    >>> [round(value, 2) for value in annulus_laminar(0.31, 0.25, 0.02, 5.0, 0.02)]
    [659.53, 9.89]
    """
    require_slot(hole_diameter, outer_diameter)
    velocity = annulus_velocity(hole_diameter, outer_diameter, rate)
    gap = hole_diameter - outer_diameter
    stress = slot_wall_stress(FlowCurve(yield_stress, consistency, index), velocity, gap / 2)
    return 4 * stress / gap, stress


def require_slot(hole_diameter: float, outer_diameter: float) -> float:
    """Return hole less pipe, [m], or refuse an annulus too wide to be taken as a slot."""
    gap = require_gap(hole_diameter, outer_diameter)
    if outer_diameter < NARROWEST * hole_diameter:
        raise DomainError(
            f"Outside diameter {outer_diameter:.6g} m is less than {NARROWEST:g} of the hole "
            f"diameter {hole_diameter:.6g} m, too wide an annulus to be taken as a slot."
        )
    return gap


def pipe_wall_stress(curve: FlowCurve, velocity: float, diameter: float) -> float:
    """Return the stress at the wall that drives a mean velocity in pipe, [Pa]."""
    n = curve.index

    def driven(over: float) -> float:
        """Return ln(velocity) for a wall stress that lies `over` above the yield stress."""
        at_rest = curve.yield_stress
        wall = at_rest + over
        parts = over * over / (3 + 1 / n)
        parts += 2 * at_rest * over / (2 + 1 / n) + at_rest * at_rest / (1 + 1 / n)
        speed = log(over / curve.consistency) / n + log(over) + log(parts) - 3 * log(wall)
        return speed + log(diameter / 2)

    return _wall_stress(curve, velocity, driven, 8 * velocity / diameter)


def slot_wall_stress(curve: FlowCurve, velocity: float, height: float) -> float:
    """Return the stress at the wall that drives a mean velocity in a slot, [Pa]."""
    n = curve.index

    def driven(over: float) -> float:
        """Return ln(velocity) for a wall stress that lies `over` above the yield stress."""
        wall = curve.yield_stress + over
        shape = 1 + curve.yield_stress / wall * n / (n + 1)
        speed = log(over / curve.consistency) / n + log(over / wall) + log(shape)
        return speed + log(height / 2 * n / (2 * n + 1))

    return _wall_stress(curve, velocity, driven, 6 * velocity / height)


def _wall_stress(
    curve: FlowCurve, velocity: float, driven: Callable[[float], float], rate: float
) -> float:
    """Return the wall stress at which ln(velocity) is that wanted; 0 for a fluid at rest."""
    if velocity == 0:
        return 0.0
    wanted = log(velocity)

    def short(ln_over: float) -> float:
        return driven(exp(ln_over)) - wanted

    low = high = log(curve.consistency) + curve.index * log(rate)
    for _ in range(_MOST_DOUBLINGS):
        if short(high) > 0:
            break
        high += 0.7
    for _ in range(_MOST_DOUBLINGS):
        if short(low) < 0:
            break
        low -= 0.7
    return curve.yield_stress + exp(bracketed_root(short, low, high))
