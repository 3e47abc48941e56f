"""Friction as a textbook prints it, for a Bingham fluid, to reproduce the book.

The live figures use friction.py: these older forms have a step where they change from laminar
to turbulent, and their sum of a viscous and a yield part reads high in slow flow.
"""

from __future__ import annotations

from tally.fluids.flow import (
    ANNULUS_RANGE,
    DENSITY,
    DENSITY_RANGE,
    EQUIVALENT_SLOT,
    GUO,
    HOLE,
    RATE,
    REYNOLDS,
    VELOCITY,
    annulus_velocity,
    pipe_velocity,
    require_density,
)
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    LENGTH,
    LENGTH_RANGE,
    OUTER_DIAMETER,
    require_gap,
)

PV = Term("pv", "plastic viscosity", "viscosity", "cP")
YP = Term("yp", "yield point", "yield point", "lbf/100ft2")
LOSS = Term("pressure", "pressure lost over the length", "pressure", "psi")
APPARENT = Term("apparent", "apparent viscosity", "viscosity", "cP")

FLOW_RANGE = f"{LENGTH_RANGE}; rate 0.00001 to 1 m3/s; {DENSITY_RANGE}"
BINGHAM_RANGE = f"{FLOW_RANGE}; plastic viscosity 0.1 to 1,000 cP; yield point 0 to 200 Pa"
TURNING_POINT = 2100.0


@formula(
    "textbook-bingham-pipe",
    "Textbook friction of a Bingham fluid inside pipe (to reproduce the book)",
    inputs=[INNER_DIAMETER, LENGTH, RATE, DENSITY, PV, YP],
    outputs=[LOSS, VELOCITY, APPARENT, REYNOLDS],
    source=GUO,
    range=f"{INNER_RANGE}; {BINGHAM_RANGE}",
)
def bingham_pipe(
    inner_diameter: float,
    length: float,
    rate: float,
    density: float,
    plastic_viscosity: float,
    yield_point: float,
) -> tuple[float, float, float, float]:
    """Return the pressure lost inside pipe as the textbook has it for a Bingham fluid.

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
    plastic_viscosity : float
        Plastic viscosity, [Pa s]
    yield_point : float
        Yield point, [Pa]

    Returns
    -------
    pressure : float
        Pressure lost, [Pa]
    velocity : float
        Mean velocity, [m/s]
    apparent : float
        Apparent viscosity, [Pa s]
    reynolds : float
        Reynolds number with the apparent viscosity; turbulent above 2,100, [-]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    Laminar the viscous part plus the yield part, 32*mu*v/d**2 + 16*ty/(3*d); turbulent a smooth
    wall with f = 0.0791/Re**0.25 and the plastic viscosity [1]_.

    Examples
    --------
    >>> [round(value, 3) for value in bingham_pipe(0.1, 1000.0, 0.02, 1200.0, 0.03, 3.0)]
    [1225371.929, 2.546, 0.05, 6156.498]

    References
    ----------
    .. [1] Guo and Liu, Applied Drilling Circulation Systems, 2011, ch. 2.
    """
    _require_bingham(length, rate, density, plastic_viscosity, yield_point)
    velocity = pipe_velocity(inner_diameter, rate)
    apparent = plastic_viscosity + yield_point * inner_diameter / (6 * velocity)
    gradient, reynolds = _bingham(
        density, velocity, inner_diameter, plastic_viscosity, apparent, 32 / inner_diameter**2
    )
    return gradient * length, velocity, apparent, reynolds


@formula(
    "textbook-bingham-annulus",
    "Textbook friction of a Bingham fluid in the annulus (to reproduce the book)",
    inputs=[HOLE, OUTER_DIAMETER, LENGTH, RATE, DENSITY, PV, YP],
    outputs=[LOSS, VELOCITY, APPARENT, REYNOLDS],
    source=GUO,
    range=f"{ANNULUS_RANGE}; {BINGHAM_RANGE}",
)
def bingham_annulus(
    hole_diameter: float,
    outer_diameter: float,
    length: float,
    rate: float,
    density: float,
    plastic_viscosity: float,
    yield_point: float,
) -> tuple[float, float, float, float]:
    """Return the pressure lost in the annulus as the textbook has it for a Bingham fluid.

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
    plastic_viscosity : float
        Plastic viscosity, [Pa s]
    yield_point : float
        Yield point, [Pa]

    Returns
    -------
    pressure : float
        Pressure lost, [Pa]
    velocity : float
        Mean velocity, [m/s]
    apparent : float
        Apparent viscosity, [Pa s]
    reynolds : float
        Reynolds number with the apparent viscosity; turbulent above 2,100, [-]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    Laminar 48*mu*v/D**2 + 6*ty/D with D hole less pipe; turbulent as in a pipe of 0.816*D [1]_.
    Against the exact slot the laminar sum reads up to a fifth high.

    Examples
    --------
    >>> [round(value, 3) for value in bingham_annulus(0.31, 0.25, 1000.0, 0.02, 1200.0, 0.03, 3.0)]
    [603152.273, 0.758, 0.06, 745.995]

    References
    ----------
    .. [1] Guo and Liu, Applied Drilling Circulation Systems, 2011, ch. 2.
    """
    _require_bingham(length, rate, density, plastic_viscosity, yield_point)
    gap = require_gap(hole_diameter, outer_diameter)
    velocity = annulus_velocity(hole_diameter, outer_diameter, rate)
    apparent = plastic_viscosity + yield_point * gap / (8 * velocity)
    gradient, reynolds = _bingham(
        density, velocity, EQUIVALENT_SLOT * gap, plastic_viscosity, apparent, 48 / gap**2
    )
    return gradient * length, velocity, apparent, reynolds


def blasius(reynolds: float) -> float:
    """Return the turbulent friction factor of a smooth wall."""
    factor: float = 0.0791 / reynolds**0.25
    return factor


def _bingham(
    density: float, velocity: float, diameter: float, plastic: float, apparent: float, slow: float
) -> tuple[float, float]:
    """Return gradient and Reynolds number; `slow` times viscosity times velocity is laminar."""
    reynolds = density * velocity * diameter / apparent
    if reynolds < TURNING_POINT:
        return slow * apparent * velocity, reynolds
    factor = blasius(density * velocity * diameter / plastic)
    return 2 * factor * density * velocity**2 / diameter, reynolds


def require_flow(length: float, rate: float, density: float) -> None:
    """Refuse what is no length, rate or density of a flow."""
    require_range("Length", length, 0.0, 20_000.0, "m")
    require_range("Pump rate", rate, 0.000_01, 1.0, "m3/s")
    require_density(density)


def _require_bingham(
    length: float, rate: float, density: float, plastic: float, yield_point: float
) -> None:
    require_flow(length, rate, density)
    require_range("Plastic viscosity", plastic, 0.000_1, 1.0, "Pa s")
    require_range("Yield point", yield_point, 0.0, 200.0, "Pa")
