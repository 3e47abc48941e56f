"""How much of the mud a moving pipe drags along: the clinging constant, exact and fitted."""

from __future__ import annotations

from math import log, sqrt

from tally.fluids.flow import ANNULUS_RANGE, HOLE
from tally.fluids.laminar import NARROWEST, require_slot
from tally.formula import Term, formula
from tally.pipe.capacity import OUTER_DIAMETER

HANDBOOK = 0.45
"""The clinging constant that handbooks use for every annulus."""

SLOT = 0.5
"""The clinging constant of a slot: what the exact one becomes in a narrow annulus."""

CLINGING_RANGE = f"{ANNULUS_RANGE}; pipe over hole {NARROWEST:g} or more"
GUO_SURGE = "Guo and Liu, Applied Drilling Circulation Systems, 2011, ch. 2"
LAMINAR = Term("laminar", "clinging constant in slow flow", "number", "")
TURBULENT = Term("turbulent", "clinging constant in turbulent flow", "number", "")


@formula(
    "clinging-constant",
    "Share of its own speed with which a moving pipe drags the mud along, exact",
    inputs=[HOLE, OUTER_DIAMETER],
    outputs=[LAMINAR, TURBULENT],
    source="Newtonian flow between a still and a moving cylinder, balance of forces; after "
    "J.A. Burkhardt, J. Petroleum Technology, June 1961 (turbulent form from memory)",
    range=CLINGING_RANGE,
)
def clinging_constants(hole_diameter: float, outer_diameter: float) -> tuple[float, float]:
    """Return the clinging constants of an annulus, slow and turbulent flow.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]

    Returns
    -------
    laminar : float
        Clinging constant in slow flow, [-]
    turbulent : float
        Clinging constant in turbulent flow, [-]

    Raises
    ------
    DomainError
        If a diameter is out of range, or the pipe is not less than the hole.

    Notes
    -----
    With a = pipe over hole: -(1/(2*ln(a)) + a**2/(1 - a**2)) and
    (sqrt((a**4 + a)/(1 + a)) - a**2)/(1 - a**2). Both are positive here, and the velocity that
    rubs is that of the mud going up plus the constant times the speed of the pipe going down.
    Both near 0.5 as the annulus narrows. The slow one is exact for a Newtonian fluid and is used
    for every fluid.

    Examples
    --------
    >>> [round(value, 5) for value in clinging_constants(0.31115, 0.244475)]
    [0.45996, 0.49915]
    """
    require_slot(hole_diameter, outer_diameter)
    a = outer_diameter / hole_diameter
    square = a * a
    laminar = -(1 / (2 * log(a)) + square / (1 - square))
    return laminar, (sqrt((square * square + a) / (1 + a)) - square) / (1 - square)


@formula(
    "clinging-constant-fitted",
    "Clinging constants by straight lines laid through a chart (to reproduce the book)",
    inputs=[HOLE, OUTER_DIAMETER],
    outputs=[LAMINAR, TURBULENT],
    source=f"0.275 a + 0.25 and 0.1 a + 0.41 with a pipe over hole; {GUO_SURGE}, eq. 2.81, 2.82",
    range=CLINGING_RANGE,
)
def fitted_constants(hole_diameter: float, outer_diameter: float) -> tuple[float, float]:
    """Return the clinging constants by the lines that a textbook lays through a chart.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]

    Returns
    -------
    laminar : float
        Clinging constant in slow flow, [-]
    turbulent : float
        Clinging constant in turbulent flow, [-]

    Raises
    ------
    DomainError
        If a diameter is out of range, or the pipe is not less than the hole.

    Notes
    -----
    0.275*a + 0.25 and 0.1*a + 0.41 [1]_. Against the exact forms the slow one is within 0.015
    from a = 0.51 to 0.9; the turbulent one is 0.023 low at 0.51 and within 0.016 above 0.73.

    Examples
    --------
    >>> [round(value, 5) for value in fitted_constants(0.31115, 0.244475)]
    [0.46607, 0.48857]

    References
    ----------
    .. [1] Guo and Liu, Applied Drilling Circulation Systems, 2011, eq. 2.81 and 2.82.
    """
    require_slot(hole_diameter, outer_diameter)
    a = outer_diameter / hole_diameter
    return 0.275 * a + 0.25, 0.1 * a + 0.41
