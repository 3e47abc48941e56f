"""Friction as a textbook prints it for a Herschel-Bulkley fluid, to reproduce the book.

Against the exact slot the printed annulus form reads some 6 % low, the wrong way for an
equivalent density, so no live figure uses it.
"""

from __future__ import annotations

from math import log10, pi

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
from tally.fluids.textbook import LOSS
from tally.fluids.textbook_power_law import FACTOR, POWER_RANGE, K, N, require_power
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import INNER_DIAMETER, INNER_RANGE, LENGTH, OUTER_DIAMETER, require_gap

CORRECTION = Term("correction", "correction C of the printed form", "number", "")
CRITICAL = Term("critical", "Reynolds number at which turbulence begins", "number", "")
SOURCE = (
    "Guo and Liu, Applied Drilling Circulation Systems, 2011, ch. 2, eq. 2.37 to 2.44 (layout "
    "garbled in the copy; rebuilt until its printed numbers came out)"
)
RANGE = f"{POWER_RANGE}; yield stress 0 to 200 Pa"


@formula(
    "textbook-herschel-bulkley-pipe",
    "Textbook friction of a Herschel-Bulkley fluid inside pipe (to reproduce the book)",
    inputs=[INNER_DIAMETER, LENGTH, RATE, DENSITY, YIELD_STRESS, K, N],
    outputs=[LOSS, VELOCITY, CORRECTION, REYNOLDS, CRITICAL, FACTOR],
    source=SOURCE,
    range=f"{INNER_RANGE}; {RANGE}",
)
def herschel_pipe(
    inner_diameter: float,
    length: float,
    rate: float,
    density: float,
    yield_stress: float,
    consistency: float,
    index: float,
) -> tuple[float, float, float, float, float, float]:
    """Return the pressure lost inside pipe as the textbook has it for a Herschel-Bulkley fluid.

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
        Yield stress, [Pa]
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
    correction : float
        Correction C of the printed form, [-]
    reynolds : float
        Reynolds number, [-]
    critical : float
        Reynolds number at which turbulence begins, [-]
    factor : float
        Friction factor (Fanning), [-]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    The printed turbulent line carries 1421.22 where its own units ask for 1428.9, half a
    percent apart; here the units hold [1]_.

    Examples
    --------
    >>> values = herschel_pipe(0.1, 1000.0, 0.02, 1200.0, 3.0, 0.02, 0.8)
    >>> [round(value, 4) for value in values]
    [1048268.1416, 2.5465, 0.7423, 13569.235, 1536.9122, 0.0067]

    References
    ----------
    .. [1] Guo and Liu, Applied Drilling Circulation Systems, 2011, ch. 2, eq. 2.37 to 2.44.
    """
    _require(length, rate, density, yield_stress, consistency, index)
    velocity = pipe_velocity(inner_diameter, rate)
    n, radius = index, inner_diameter / 2
    spread: float = consistency * ((3 * n + 1) * rate / (n * pi * radius**3)) ** n
    correction = 1 - yield_stress / (2 * n + 1) / (yield_stress + spread)
    sheared: float = consistency * ((3 * n + 1) / (n * correction)) ** n
    moved: float = yield_stress * (radius / velocity) ** n + sheared
    reynolds = 2 * (3 * n + 1) / n * density * velocity ** (2 - n) * radius**n / moved
    a, b = _turbulent(n)
    critical: float = (4 * (3 * n + 1) / (n * a)) ** (1 / (1 - b))
    if reynolds > critical:
        factor = a * (correction * reynolds) ** -b
        gradient = 2 * factor * density * velocity**2 / inner_diameter
    else:
        rate_at_wall: float = (3 * n + 1) / (n * correction) * 8 * rate / (pi * inner_diameter**3)
        gradient = 4 / inner_diameter * (yield_stress + consistency * rate_at_wall**n)
        factor = gradient * inner_diameter / (2 * density * velocity**2)
    return gradient * length, velocity, correction, reynolds, critical, factor


@formula(
    "textbook-herschel-bulkley-annulus",
    "Textbook laminar friction of a Herschel-Bulkley fluid in the annulus (to reproduce the book)",
    inputs=[HOLE, OUTER_DIAMETER, LENGTH, RATE, DENSITY, YIELD_STRESS, K, N],
    outputs=[LOSS, VELOCITY, CORRECTION, REYNOLDS, CRITICAL],
    source=SOURCE,
    range=f"{ANNULUS_RANGE}; {RANGE}; the pressure holds below the critical Reynolds number",
)
def herschel_annulus(
    hole_diameter: float,
    outer_diameter: float,
    length: float,
    rate: float,
    density: float,
    yield_stress: float,
    consistency: float,
    index: float,
) -> tuple[float, float, float, float, float]:
    """Return the laminar loss in the annulus as the textbook has it.

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

    Returns
    -------
    pressure : float
        Pressure lost if the flow is laminar, [Pa]
    velocity : float
        Mean velocity, [m/s]
    correction : float
        Correction C of the printed form, [-]
    reynolds : float
        Reynolds number, [-]
    critical : float
        Reynolds number at which turbulence begins; above it the pressure does not hold, [-]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    The turbulent line for the annulus was not on the pages read, so only the laminar loss is
    given; `friction-annulus` covers every rate.

    Examples
    --------
    >>> values = herschel_annulus(0.31, 0.25, 1000.0, 0.02, 1200.0, 3.0, 0.02, 0.8)
    >>> [round(value, 4) for value in values]
    [318515.4445, 0.7579, 0.6017, 1875.4458, 2737.2128]

    References
    ----------
    .. [1] Guo and Liu, Applied Drilling Circulation Systems, 2011, ch. 2, eq. 2.37 to 2.44.
    """
    _require(length, rate, density, yield_stress, consistency, index)
    gap = require_gap(hole_diameter, outer_diameter)
    velocity = annulus_velocity(hole_diameter, outer_diameter, rate)
    n, squares = index, hole_diameter**2 - outer_diameter**2
    # 2 q (2n+1) / (n pi (r2 - r1) (r2^2 - r1^2)), said with diameters
    middle = 16 * rate * (2 * n + 1) / (n * pi * gap * squares)
    spread: float = consistency * middle**n
    correction = 1 - yield_stress / (n + 1) / (yield_stress + spread)
    sheared: float = consistency * (2 * (2 * n + 1) / (n * correction)) ** n
    moved: float = yield_stress * (gap / 2 / velocity) ** n + sheared
    reynolds = 4 * (2 * n + 1) / n * density * velocity ** (2 - n) * (gap / 2) ** n / moved
    a, b = _turbulent(n)
    critical: float = (8 * (2 * n + 1) / (n * a)) ** (1 / (1 - b))
    wall: float = yield_stress + consistency * (middle / correction) ** n
    return 4 / gap * wall * length, velocity, correction, reynolds, critical


def _turbulent(index: float) -> tuple[float, float]:
    """Return factor and power of the turbulent friction factor."""
    return (log10(index) + 3.93) / 50, (1.75 - log10(index)) / 7


def _require(
    length: float,
    rate: float,
    density: float,
    yield_stress: float,
    consistency: float,
    index: float,
) -> None:
    require_power(length, rate, density, consistency, index)
    require_range("Yield stress", yield_stress, 0.0, 200.0, "Pa")
