"""Pressure of a standing column of fluid."""

from __future__ import annotations

from tally.formula import Term, formula, require_range
from tally.pipe.weight import FLUID_RANGE, STANDARD_GRAVITY

DENSITY = Term("density", "density of the fluid", "density", "lb/gal")


@formula(
    "pressure-gradient",
    "Rise of pressure with true vertical depth in a fluid",
    inputs=[DENSITY],
    outputs=[Term("gradient", "rise of pressure with depth", "pressure gradient", "psi/ft")],
    source="density x standard gravity",
    range=FLUID_RANGE,
)
def pressure_gradient(density: float) -> float:
    """Return the rise of pressure with true vertical depth in a fluid.

    Parameters
    ----------
    density : float
        Density of the fluid, [kg/m^3]

    Returns
    -------
    gradient : float
        Rise of pressure, [Pa/m]

    Raises
    ------
    DomainError
        If the density is not a number from 0 to 3,000 kg/m^3.

    Examples
    --------
    >>> round(pressure_gradient(1200.0), 1)
    11768.0
    """
    require_range("Density", density, 0.0, 3000.0, "kg/m3")
    return density * STANDARD_GRAVITY


@formula(
    "hydrostatic",
    "Pressure of a standing column of one fluid",
    inputs=[DENSITY, Term("tvd", "true vertical depth, or height of the column", "length", "ft")],
    outputs=[Term("pressure", "pressure at the foot of the column", "pressure", "psi")],
    source="density x standard gravity x true vertical depth",
    range=f"{FLUID_RANGE}; true vertical depth 0 to 15,000 m",
)
def hydrostatic_pressure(density: float, true_vertical_depth: float) -> float:
    """Return the pressure at the foot of a standing column of one fluid.

    Parameters
    ----------
    density : float
        Density of the fluid, [kg/m^3]
    true_vertical_depth : float
        Vertical height of the column (not the length along the hole), [m]

    Returns
    -------
    pressure : float
        Pressure above that at the top of the column, [Pa]

    Raises
    ------
    DomainError
        If the density is not from 0 to 3,000 kg/m^3 or the depth not from 0 to 15,000 m.

    Notes
    -----
    density * g * depth with standard gravity. The field constant 0.052 (lb/gal, ft, psi) is
    12/231 = 0.051948 rounded up by one part in a thousand, 8 psi in 8,400, so a handbook
    answer made with it lies that much above this one. Density is taken as the same from top
    to bottom: no heat, no compression.

    Examples
    --------
    >>> round(hydrostatic_pressure(1200.0, 3000.0))
    35303940
    """
    require_range("True vertical depth", true_vertical_depth, 0.0, 15_000.0, "m")
    return pressure_gradient(density) * true_vertical_depth
