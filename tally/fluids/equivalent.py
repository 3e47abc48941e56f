"""Equivalent density: what a pressure adds to a column, said as a density."""

from __future__ import annotations

from tally.fluids.flow import DENSITY
from tally.formula import Term, formula, require_range
from tally.pipe.weight import STANDARD_GRAVITY


@formula(
    "equivalent-circulating-density",
    "Density of the standing column that presses as hard as the column and the friction together",
    inputs=[
        DENSITY,
        Term("pressure", "friction in the annulus above, and pressure held on it", "pressure",
             "psi"),
        Term("tvd", "true vertical depth", "length", "ft"),
    ],
    outputs=[Term("equivalent", "equivalent density", "density", "lb/gal")],
    source="density + pressure / (gravity x true vertical depth); drillingformulas.com (printed "
    "with 0.052 for 12/231)",
    range="density 0 to 3,000 kg/m3; pressure 0 to 200 MPa; true vertical depth 1 to 15,000 m",
)  # fmt: skip
def equivalent_density(density: float, pressure: float, true_vertical_depth: float) -> float:
    """Return the equivalent density at a depth.

    Parameters
    ----------
    density : float
        Mean density of the fluid in the annulus above, [kg/m^3]
    pressure : float
        Pressure lost in the annulus above, and any pressure held on it, [Pa]
    true_vertical_depth : float
        True vertical depth, [m]

    Returns
    -------
    equivalent : float
        Equivalent density, [kg/m^3]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    Pressure works over the true vertical depth, friction comes from the length along the hole.

    Examples
    --------
    >>> round(equivalent_density(1200.0, 1.0e6, 2500.0), 1)
    1240.8
    """
    require_range("Density", density, 0.0, 3000.0, "kg/m3")
    require_range("Pressure", pressure, 0.0, 200e6, "Pa")
    require_range("True vertical depth", true_vertical_depth, 1.0, 15_000.0, "m")
    return density + pressure / (STANDARD_GRAVITY * true_vertical_depth)
