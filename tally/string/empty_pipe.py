"""What empty pipe means: how deep it may be, the difference at the float, a float that lets go."""

from __future__ import annotations

from math import pi

from tally.errors import DomainError
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import INNER_DIAMETER, INNER_RANGE, OUTER_DIAMETER, OUTER_RANGE
from tally.pipe.weight import STANDARD_GRAVITY
from tally.string.weights import FLUID_RANGE, INSIDE_DENSITY, OUTSIDE_DENSITY

FACTOR = Term("factor", "design factor set for collapse", "number", "")
RATING = Term("rating", "collapse rating, with the pull on the pipe taken off", "pressure", "psi")
EMPTY = Term("empty", "true vertical length of empty pipe at the top", "length", "ft")
HOLE = Term("hole", "inside of the outer casing or hole where the level falls", "diameter", "in")
DIFFERENCE = Term(
    "difference", "pressure outside less pressure inside", "pressure difference", "psi"
)


@formula(
    "greatest-empty-length",
    "How deep a string may be empty before its collapse rating, with a design factor, is used up",
    inputs=[RATING, FACTOR, OUTSIDE_DENSITY],
    outputs=[
        Term("allowed", "pressure outside that is allowed", "pressure", "psi"),
        Term("length", "true vertical length that may be empty", "length", "ft"),
    ],
    source="rating / factor / gradient of the fluid outside; university casing design review, "
    "slides 35-37 (coursehero.com/file/7341145)",
    range="rating 0.1 to 300 MPa; factor 1 to 5; density 100 to 3,000 kg/m3",
)
def greatest_empty_length(rating: float, factor: float, density: float) -> tuple[float, float]:
    """Return the pressure outside that is allowed, and the length that may be empty.

    Parameters
    ----------
    rating : float
        Collapse rating, with the pull on the pipe taken off, [Pa]
    factor : float
        Design factor set for collapse, [-]
    density : float
        Density of the fluid outside, [kg/m^3]

    Returns
    -------
    allowed : float
        Pressure outside that is allowed, [Pa]
    length : float
        True vertical length that may be empty, [m]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    With like mud inside below a level, the same length counts from surface to the level. The
    rating falls with the pull on the pipe: take `collapse-under-tension` for it.

    Examples
    --------
    >>> [round(value, 1) for value in greatest_empty_length(30e6, 1.125, 1500.0)]
    [26666666.7, 1812.8]
    """
    require_range("Collapse rating", rating, 0.1e6, 300e6, "Pa")
    require_factor(factor)
    require_range("Density outside", density, 100.0, 3000.0, "kg/m3")
    allowed = rating / factor
    return allowed, allowed / (density * STANDARD_GRAVITY)


@formula(
    "float-difference",
    "Pressure difference at the float with part of the string empty",
    inputs=[
        Term("tvd", "true vertical depth of the float", "length", "ft"),
        EMPTY,
        OUTSIDE_DENSITY,
        INSIDE_DENSITY,
    ],
    outputs=[DIFFERENCE],
    source="column outside less column inside, both to the float",
    range=f"true vertical depth 0 to 15,000 m; empty not more than that; {FLUID_RANGE}",
)
def float_difference(
    true_vertical_depth: float, empty: float, outside_density: float, inside_density: float
) -> float:
    """Return the pressure outside less the pressure inside at the float.

    Parameters
    ----------
    true_vertical_depth : float
        True vertical depth of the float, [m]
    empty : float
        True vertical length of empty pipe at the top, [m]
    outside_density : float
        Density of the fluid outside, [kg/m^3]
    inside_density : float
        Density of the fluid inside below the level, [kg/m^3]

    Returns
    -------
    difference : float
        Pressure outside less pressure inside, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range or more is empty than there is.

    Examples
    --------
    >>> round(float_difference(2000.0, 300.0, 1200.0, 1200.0))
    3530394
    """
    require_range("True vertical depth", true_vertical_depth, 0.0, 15_000.0, "m")
    require_range("Empty pipe", empty, 0.0, true_vertical_depth, "m")
    require_range("Density outside", outside_density, 0.0, 3000.0, "kg/m3")
    require_range("Density inside", inside_density, 0.0, 3000.0, "kg/m3")
    outside = outside_density * true_vertical_depth
    inside = inside_density * (true_vertical_depth - empty)
    return (outside - inside) * STANDARD_GRAVITY


@formula(
    "annulus-fall",
    "How far the annulus falls, and the pressure lost, if the float lets go",
    inputs=[
        EMPTY,
        INNER_DIAMETER,
        OUTER_DIAMETER,
        HOLE,
        Term("density", "density of the mud, inside and outside", "density", "lb/gal"),
    ],
    outputs=[
        Term("fall", "how far the level in the annulus falls", "length", "ft"),
        Term("pressure", "pressure that the annulus loses", "pressure", "psi"),
        Term("volume", "mud that enters the pipe", "volume", "bbl"),
    ],
    source="levels come to rest where the volume lost outside fills the pipe inside; derived",
    range=f"empty 0 to 15,000 m; {INNER_RANGE}; {OUTER_RANGE}; inside < outside < hole, hole to "
    "1.5 m; density 0 to 3,000 kg/m3",
)
def annulus_fall(
    empty: float,
    inner_diameter: float,
    outer_diameter: float,
    hole_diameter: float,
    density: float,
) -> tuple[float, float, float]:
    """Return how far the annulus falls if the float lets go, what it loses, what goes in.

    Parameters
    ----------
    empty : float
        True vertical length of empty pipe at the top, [m]
    inner_diameter : float
        Inside diameter, [m]
    outer_diameter : float
        Outside diameter, [m]
    hole_diameter : float
        Inside diameter of the outer casing, or of the hole, where the level falls, [m]
    density : float
        Density of the mud, the same inside and outside, [kg/m^3]

    Returns
    -------
    fall : float
        How far the level in the annulus falls, [m]
    pressure : float
        Pressure that the annulus loses at every depth below, [Pa]
    volume : float
        Mud that enters the pipe, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range or the diameters do not fit into one another.

    Notes
    -----
    Level inside and outside meet: fall * (bore + annulus) = empty * bore. The hole is taken as
    vertical and of one diameter down to the level, and nobody fills the annulus meanwhile.

    Examples
    --------
    >>> [round(value, 2) for value in annulus_fall(300.0, 0.2205, 0.2445, 0.315, 1200.0)]
    [165.63, 1949113.03, 5.13]
    """
    require_range("Empty pipe", empty, 0.0, 15_000.0, "m")
    require_range("Hole diameter", hole_diameter, 0.05, 1.5, "m")
    require_range("Outside diameter", outer_diameter, 0.05, 1.1, "m")
    require_range("Inside diameter", inner_diameter, 0.05, 1.0, "m")
    require_range("Density", density, 0.0, 3000.0, "kg/m3")
    if not inner_diameter < outer_diameter < hole_diameter:
        raise DomainError(
            f"Inside {inner_diameter:.6g} m, outside {outer_diameter:.6g} m and hole "
            f"{hole_diameter:.6g} m do not fit into one another; check which is which."
        )
    bore = inner_diameter**2
    annulus = hole_diameter**2 - outer_diameter**2
    fall = empty * bore / (bore + annulus)
    return fall, density * STANDARD_GRAVITY * fall, pi / 4 * annulus * fall


def require_factor(factor: float) -> None:
    """Refuse what is no design factor."""
    require_range("Design factor", factor, 1.0, 5.0, "")
