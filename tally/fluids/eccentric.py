"""Pipe off the centre of the hole loses less pressure than pipe in the middle."""

from __future__ import annotations

from math import sqrt

from tally.fluids.flow import ANNULUS_RANGE, HOLE
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import OUTER_DIAMETER, require_gap

ECCENTRICITY_RANGE = "pipe over hole 0.3 to 0.95, flow index 0.2 to 1"
SOURCE = (
    "Haciislamoglu and Langlinais, J. Energy Resources Technology 112(3), 1990, p. 163 (abstract "
    "seen; coefficients from memory)"
)


@formula(
    "eccentric-annulus",
    "Friction of pipe off centre, as a share of that in the middle of the hole",
    inputs=[
        HOLE,
        OUTER_DIAMETER,
        Term("n", "flow index, 1 for a Bingham or Newtonian fluid", "number", "", "1"),
        Term("eccentricity", "0 for pipe in the middle, 1 for pipe on the wall", "ratio", "%"),
    ],
    outputs=[
        Term("laminar", "share in slow flow", "ratio", "%"),
        Term("turbulent", "share in turbulent flow", "ratio", "%"),
    ],
    source=SOURCE,
    range=f"{ANNULUS_RANGE}; {ECCENTRICITY_RANGE}; eccentricity 0 to 100 %",
)
def eccentric_shares(
    hole_diameter: float, outer_diameter: float, index: float, eccentricity: float
) -> tuple[float, float]:
    """Return the friction of pipe off centre as a share of that in the middle.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    index : float
        Flow index n, [-]
    eccentricity : float
        0 for pipe in the middle of the hole, 1 for pipe on its wall (1 less standoff), [-]

    Returns
    -------
    laminar : float
        Share in slow flow, [-]
    turbulent : float
        Share in turbulent flow, [-]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    1 - 0.072*(e/n**0.8454)*r**0.1852 - 1.5*e**2*sqrt(n)*r**0.1852 + 0.96*e**3*sqrt(n)*r**0.2527
    in slow flow, with r pipe over hole; turbulent with 0.048, 2/3 and 0.285 [1]_. For a narrow
    Newtonian annulus with the pipe on the wall the exact share is 1/(1 + 1.5) = 0.4, and so is
    this one. Coefficients from memory: hold them against a copy before relying on them.

    Examples
    --------
    >>> [round(value, 3) for value in eccentric_shares(0.31, 0.25, 1.0, 1.0)]
    [0.399, 0.583]

    References
    ----------
    .. [1] Haciislamoglu and Langlinais, ASME J. Energy Resources Technology 112(3), 1990.
    """
    require_gap(hole_diameter, outer_diameter)
    ratio = outer_diameter / hole_diameter
    require_range("Pipe over hole", ratio, 0.3, 0.95, "")
    require_range("Flow index", index, 0.2, 1.0, "")
    require_range("Eccentricity", eccentricity, 0.0, 1.0, "")
    linear: float = eccentricity / index**0.8454 * ratio**0.1852
    square: float = eccentricity**2 * sqrt(index) * ratio**0.1852
    cube: float = eccentricity**3 * sqrt(index) * ratio**0.2527
    return (
        1 - 0.072 * linear - 1.5 * square + 0.96 * cube,
        1 - 0.048 * linear - 2 / 3 * square + 0.285 * cube,
    )
