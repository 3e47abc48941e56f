"""What pipe does to the pressure as it starts: the gel that breaks, the mud that is set going."""

from __future__ import annotations

from tally.fluids.equivalent import equivalent_density
from tally.fluids.flow import ANNULUS_RANGE, DENSITY, DENSITY_RANGE, HOLE, require_density
from tally.fluids.surge_velocity import SPEED, SPEED_RANGE, require_speed
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import LENGTH, LENGTH_RANGE, OUTER_DIAMETER, require_gap

PRESSURE = Term("pressure", "pressure over the length", "pressure", "psi")
GEL_RANGE = "gel strength 0 to 200 Pa"


@formula(
    "gel-break-annulus",
    "Pressure that breaks the gel between hole and pipe (not added to the friction of flow)",
    inputs=[HOLE, OUTER_DIAMETER, LENGTH,
            Term("gel", "gel strength after the wait", "yield point", "lbf/100ft2")],
    outputs=[PRESSURE],
    source="balance of forces over both walls, 4 gel / (hole - pipe); printed with 300 in field "
    "units (from memory)",
    range=f"{ANNULUS_RANGE}; {LENGTH_RANGE}; {GEL_RANGE}",
)  # fmt: skip
def gel_break(hole_diameter: float, outer_diameter: float, length: float, gel: float) -> float:
    """Return the pressure that sets gelled mud in an annulus moving.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    length : float
        Length along the hole, [m]
    gel : float
        Gel strength after the time that the mud stood, [Pa]

    Returns
    -------
    pressure : float
        Pressure that breaks the gel, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    4 * gel * length / (hole - pipe). It stands at the start of each joint, before the mud flows;
    the larger of it and the friction counts, never their sum.

    Examples
    --------
    >>> round(gel_break(0.31, 0.25, 1000.0, 6.0))
    400000
    """
    gap = require_gap(hole_diameter, outer_diameter)
    require_range("Length", length, 0.0, 20_000.0, "m")
    require_range("Gel strength", gel, 0.0, 200.0, "Pa")
    return 4 * gel / gap * length


@formula(
    "surge-inertia",
    "Pressure that sets the mud in the annulus going as closed pipe gains speed",
    inputs=[HOLE, OUTER_DIAMETER, LENGTH, DENSITY, SPEED,
            Term("time", "time in which that speed is gained", "time", "s")],
    outputs=[PRESSURE],
    source="mass x acceleration of the mud pushed aside; 0.00162 in field units after Burkhardt, "
    "J. Petroleum Technology, June 1961 (from memory)",
    range=f"{ANNULUS_RANGE}; {LENGTH_RANGE}; {DENSITY_RANGE}; {SPEED_RANGE}; time 0.1 to 1,000 s",
)  # fmt: skip
def surge_inertia(
    hole_diameter: float,
    outer_diameter: float,
    length: float,
    density: float,
    speed: float,
    time: float,
) -> float:
    """Return the pressure that the inertia of the mud adds while closed pipe gains speed.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    length : float
        Length along the hole, [m]
    density : float
        Density of the fluid, [kg/m^3]
    speed : float
        Speed gained, [m/s]
    time : float
        Time in which it is gained, [s]

    Returns
    -------
    pressure : float
        Pressure over the length, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    density * speed/time * od**2/(hole**2 - od**2) * length. A stiff column: mud that gives way
    and a hole that widens take the edge off it. It is no part of the live figures.

    Examples
    --------
    >>> round(surge_inertia(0.31, 0.25, 1000.0, 1200.0, 0.5, 2.0))
    558036
    """
    require_gap(hole_diameter, outer_diameter)
    require_range("Length", length, 0.0, 20_000.0, "m")
    require_density(density)
    require_speed(speed)
    require_range("Time", time, 0.1, 1000.0, "s")
    share = outer_diameter**2 / (hole_diameter**2 - outer_diameter**2)
    return density * speed / time * share * length


@formula(
    "surge-density",
    "Equivalent density at a depth with surge, and with swab of the same size",
    inputs=[DENSITY, Term("pressure", "surge down to there", "pressure", "psi"),
            Term("tvd", "true vertical depth", "length", "ft")],
    outputs=[Term("surge", "going down", "density", "lb/gal"),
             Term("swab", "coming up", "density", "lb/gal")],
    source="density +/- pressure / (gravity x true vertical depth), printed with 0.052 for 12/231",
    range="density 0 to 3,000 kg/m3; pressure 0 to 200 MPa; true vertical depth 1 to 15,000 m",
)  # fmt: skip
def surge_density(
    density: float, pressure: float, true_vertical_depth: float
) -> tuple[float, float]:
    """Return the equivalent density going down and coming up.

    Parameters
    ----------
    density : float
        Density of the fluid, [kg/m^3]
    pressure : float
        Surge from the top down to the depth, [Pa]
    true_vertical_depth : float
        True vertical depth, [m]

    Returns
    -------
    surge : float
        Equivalent density going down, [kg/m^3]
    swab : float
        Equivalent density coming up at the same speed, below zero where the column parts, [kg/m^3]

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> [round(value, 1) for value in surge_density(1200.0, 1.0e6, 2500.0)]
    [1240.8, 1159.2]
    """
    surge = equivalent_density(density, pressure, true_vertical_depth)
    return surge, 2 * density - surge
