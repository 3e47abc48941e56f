"""Friction as a textbook prints it, for a power-law fluid, to reproduce the book."""

from __future__ import annotations

from collections.abc import Callable

from tally.fluids.flow import (
    ANNULUS_RANGE,
    DENSITY,
    EQUIVALENT_SLOT,
    GUO,
    HOLE,
    RATE,
    REYNOLDS,
    VELOCITY,
    annulus_velocity,
    pipe_velocity,
)
from tally.fluids.textbook import FLOW_RANGE, LOSS, blasius, require_flow
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import INNER_DIAMETER, INNER_RANGE, LENGTH, OUTER_DIAMETER, require_gap

N = Term("n", "flow index", "number", "")
K = Term("k", "consistency in equivalent cP (0.001 Pa s^n)", "viscosity", "cP")
FACTOR = Term("factor", "friction factor (Fanning)", "number", "")
LOW = Term("laminar-limit", "Reynolds number below which the flow is laminar", "number", "")
HIGH = Term("turbulent-limit", "Reynolds number above which the flow is turbulent", "number", "")

POWER_RANGE = f"{FLOW_RANGE}; flow index 0.1 to 1.5; consistency 0.1 to 100,000 equivalent cP"


@formula(
    "textbook-power-law-pipe",
    "Textbook friction of a power-law fluid inside pipe (to reproduce the book)",
    inputs=[INNER_DIAMETER, LENGTH, RATE, DENSITY, K, N],
    outputs=[LOSS, VELOCITY, REYNOLDS, FACTOR, LOW, HIGH],
    source=GUO,
    range=f"{INNER_RANGE}; {POWER_RANGE}",
)
def power_law_pipe(
    inner_diameter: float,
    length: float,
    rate: float,
    density: float,
    consistency: float,
    index: float,
) -> tuple[float, float, float, float, float, float]:
    """Return the pressure lost inside pipe as the textbook has it for a power-law fluid.

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
        Consistency k, [Pa s^n]
    index : float
        Flow index n, [-]

    Returns
    -------
    pressure : float
        Pressure lost, [Pa]
    velocity : float
        Mean velocity, [m/s]
    reynolds : float
        Reynolds number, [-]
    factor : float
        Friction factor (Fanning), [-]
    laminar_limit, turbulent_limit : float
        Reynolds number below which the flow is laminar, above which it is turbulent, [-]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    Re = 8*density*v**(2-n)/k * (d/2/(3+1/n))**n, f = 16/Re laminar, 0.0791/Re**0.25 turbulent as
    in the book's worked examples, along a line between the two limits [1]_.

    Examples
    --------
    >>> values = power_law_pipe(0.1, 1000.0, 0.02, 1200.0, 0.02, 0.8)
    >>> [round(value, 4) for value in values]
    [859131.0106, 2.5465, 42153.5577, 0.0055, 2374.0, 3174.0]

    References
    ----------
    .. [1] Guo and Liu, Applied Drilling Circulation Systems, 2011, ch. 2.
    """
    require_power(length, rate, density, consistency, index)
    velocity = pipe_velocity(inner_diameter, rate)
    shape: float = (inner_diameter / 2 / (3 + 1 / index)) ** index
    reynolds = 8 * density * velocity ** (2 - index) / consistency * shape
    low, high = _limits(index)
    factor = _between(reynolds, low, high, lambda re: 16 / re)
    gradient = 2 * factor * density * velocity**2 / inner_diameter
    return gradient * length, velocity, reynolds, factor, low, high


@formula(
    "textbook-power-law-annulus",
    "Textbook friction of a power-law fluid in the annulus (to reproduce the book)",
    inputs=[HOLE, OUTER_DIAMETER, LENGTH, RATE, DENSITY, K, N],
    outputs=[LOSS, VELOCITY, REYNOLDS, FACTOR, LOW, HIGH],
    source=GUO,
    range=f"{ANNULUS_RANGE}; {POWER_RANGE}",
)
def power_law_annulus(
    hole_diameter: float,
    outer_diameter: float,
    length: float,
    rate: float,
    density: float,
    consistency: float,
    index: float,
) -> tuple[float, float, float, float, float, float]:
    """Return the pressure lost in the annulus as the textbook has it for a power-law fluid.

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
        Consistency k, [Pa s^n]
    index : float
        Flow index n, [-]

    Returns
    -------
    pressure : float
        Pressure lost, [Pa]
    velocity : float
        Mean velocity, [m/s]
    reynolds : float
        Reynolds number, [-]
    factor : float
        Friction factor (Fanning) for a pipe of 0.816 * (hole less pipe), [-]
    laminar_limit, turbulent_limit : float
        Reynolds number below which the flow is laminar, above which it is turbulent, [-]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    Re = 12*0.816*density*v**(2-n)/k * (D/4/(2+1/n))**n with D hole less pipe. Laminar the exact
    slot; turbulent f = 0.0791/Re**0.25 in a pipe of 0.816*D, along a line between [1]_.

    Examples
    --------
    >>> values = power_law_annulus(0.31, 0.25, 1000.0, 0.02, 1200.0, 0.02, 0.8)
    >>> [round(value, 4) for value in values]
    [256312.9183, 0.7579, 5700.461, 0.0091, 2374.0, 3174.0]

    References
    ----------
    .. [1] Guo and Liu, Applied Drilling Circulation Systems, 2011, ch. 2.
    """
    require_power(length, rate, density, consistency, index)
    gap = require_gap(hole_diameter, outer_diameter)
    velocity = annulus_velocity(hole_diameter, outer_diameter, rate)
    shape: float = (gap / 4 / (2 + 1 / index)) ** index
    reynolds = 12 * EQUIVALENT_SLOT * density * velocity ** (2 - index) / consistency * shape
    low, high = _limits(index)
    # 24/Re of the slot, said for the pipe of 0.816 D that the turbulent factor goes with
    slow = 24 * EQUIVALENT_SLOT**2
    factor = _between(reynolds, low, high, lambda re: slow / re)
    gradient = 2 * factor * density * velocity**2 / (EQUIVALENT_SLOT * gap)
    return gradient * length, velocity, reynolds, factor, low, high


def _limits(index: float) -> tuple[float, float]:
    return 3470 - 1370 * index, 4270 - 1370 * index


def _between(reynolds: float, low: float, high: float, slow: Callable[[float], float]) -> float:
    """Return the friction factor: laminar, turbulent, or on the line between the two limits."""
    if reynolds <= low:
        return slow(reynolds)
    if reynolds >= high:
        return blasius(reynolds)
    share = (reynolds - low) / (high - low)
    return (1 - share) * slow(low) + share * blasius(high)


def require_power(
    length: float, rate: float, density: float, consistency: float, index: float
) -> None:
    """Refuse what is no flow of a power-law fluid."""
    require_flow(length, rate, density)
    require_range("Flow index", index, 0.1, 1.5, "")
    require_range("Consistency", consistency, 0.000_1, 100.0, "Pa s^n")
