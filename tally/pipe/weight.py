"""Weight of pipe in air and in fluid."""

from __future__ import annotations

from math import pi

from tally.formula import Term, formula, require_range
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    LENGTH,
    LENGTH_RANGE,
    OUTER_DIAMETER,
    OUTER_RANGE,
    open_end_displacement,
)

STANDARD_GRAVITY = 9.80665
"""[m/s^2], the conventional value that also defines the pound-force."""

MILL_STEEL_DENSITY = 7850.0
"""[kg/m^3], contained in the published plain-end factor 0.0246615 (mm, kg/m)."""

STEEL_DENSITY = 65.5 * 0.45359237 / (231 * 0.0254**3)
"""[kg/m^3], 65.5 lb/gal, the value most used for buoyancy; 65.4 and 65.36 are also in print."""

STEEL = Term("steel", "density of the steel", "density", "lb/gal", "65.5 lb/gal")
FACTOR = Term("factor", "weight in fluid as a share of the weight in air", "ratio", "")
FLUID_RANGE = "fluid density 0 to 3,000 kg/m3"
STEEL_RANGE = "steel density 7,000 to 9,000 kg/m3"


@formula(
    "steel-area",
    "Cross-section of the steel in a pipe body",
    inputs=[OUTER_DIAMETER, INNER_DIAMETER],
    outputs=[Term("area", "cross-section of the steel", "area", "in2")],
    source="pi/4 x (outside squared - inside squared); Petroleum Engineering Handbook, Vol. II, "
    "ch. 7, eq. 7.8",
    range=f"{OUTER_RANGE}; {INNER_RANGE}; inside less than outside",
)
def steel_area(outer_diameter: float, inner_diameter: float) -> float:
    """Return the cross-section of the steel in a plain pipe body.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter, [m]
    inner_diameter : float
        Inside diameter, [m]

    Returns
    -------
    area : float
        Cross-section, [m^2]

    Raises
    ------
    DomainError
        If a diameter is out of range, or the inside is not less than the outside.

    Examples
    --------
    >>> round(steel_area(0.25, 0.22), 5)
    0.01107
    """
    return open_end_displacement(outer_diameter, inner_diameter)


@formula(
    "plain-end-weight",
    "Weight of pipe without threads and coupling, by length",
    inputs=[
        OUTER_DIAMETER,
        Term("wall", "wall thickness", "diameter", "in"),
        Term("steel", "density of the steel", "density", "lb/gal", "7850 kg/m3"),
    ],
    outputs=[Term("weight", "weight by length", "mass per length", "lb/ft")],
    source="pi x (outside - wall) x wall x density; factors 0.0246615 (mm, kg/m) and 10.69 "
    "(in, lb/ft) in print for 7,850 kg/m3",
    range=f"{OUTER_RANGE}; wall 0.003 to 0.1 m and less than half the outside; {STEEL_RANGE}",
)
def plain_end_weight(
    outer_diameter: float, wall: float, steel_density: float = MILL_STEEL_DENSITY
) -> float:
    """Return the mass of one metre of pipe body without threads and coupling.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter, [m]
    wall : float
        Wall thickness, [m]
    steel_density : float
        Density of the steel, [kg/m^3]

    Returns
    -------
    weight : float
        Mass by length, [kg/m]

    Raises
    ------
    DomainError
        If a number is out of range, or the wall leaves no bore.

    Notes
    -----
    pi * (D - t) * t * density. With 7,850 kg/m^3 this is the published factor 0.0246615 [1]_,
    that is 10.69 in field units; an older 10.68 misses two of the four printed weights it was
    held against. The nominal weight (a name, near the weight with coupling) is another number.

    Examples
    --------
    >>> round(plain_end_weight(0.25, 0.015), 2)
    86.93

    References
    ----------
    .. [1] Weight of threaded and coupled tubing,
       api-pipes-tubes.blogspot.com/2014/07/tubing-with-threaded-non-upset-end-and_31.html
    """
    require_range("Wall", wall, 0.003, 0.1, "m")
    _require_steel(steel_density)
    return steel_area(outer_diameter, outer_diameter - 2 * wall) * steel_density


@formula(
    "buoyancy-factor",
    "Buoyancy factor with the same fluid inside and outside",
    inputs=[Term("fluid", "density of the fluid, inside and outside", "density", "lb/gal"), STEEL],
    outputs=[FACTOR],
    source="1 - fluid / steel; Devereux, Practical Well Planning and Drilling Manual, "
    "sec. 1.4.10, p. 65",
    range=f"{FLUID_RANGE}; {STEEL_RANGE}",
)
def buoyancy_factor(fluid_density: float, steel_density: float = STEEL_DENSITY) -> float:
    """Return the weight in fluid as a share of the weight in air, one fluid all round.

    Parameters
    ----------
    fluid_density : float
        Density of the fluid inside and outside, [kg/m^3]
    steel_density : float
        Density of the steel, [kg/m^3]

    Returns
    -------
    factor : float
        Weight in fluid over weight in air, [-]

    Raises
    ------
    DomainError
        If the fluid is not from 0 to 3,000 or the steel from 7,000 to 9,000 kg/m^3.

    Notes
    -----
    1 - fluid/steel [1]_. It holds only while the same fluid stands inside and outside; during
    a cement job, or with a string not filled, use `buoyancy_factor_two_fluids`. Steel of 65.4,
    65.5 and 65.36 lb/gal are all in print and differ in the fourth figure, hence an input.

    Examples
    --------
    Fluid of 1,200 kg/m^3 carries some 15 % of the string.

    >>> round(buoyancy_factor(1200.0), 4)
    0.8471

    References
    ----------
    .. [1] Devereux, Practical Well Planning and Drilling Manual, sec. 1.4.10, pp. 65-66.
    """
    _require_fluid("Fluid density", fluid_density)
    _require_steel(steel_density)
    return 1 - fluid_density / steel_density


@formula(
    "buoyancy-factor-two-fluids",
    "Buoyancy factor with unlike fluids inside and outside",
    inputs=[
        OUTER_DIAMETER,
        INNER_DIAMETER,
        Term("outside", "density of the fluid outside", "density", "lb/gal"),
        Term("inside", "density of the fluid inside, 0 for empty pipe", "density", "lb/gal"),
        STEEL,
    ],
    outputs=[FACTOR],
    source="areas and densities inside and outside, derived from a balance of weights; symbols "
    "as listed by drillingformulas.com (buoyancy factor with two fluid weights)",
    range=f"{OUTER_RANGE}; {INNER_RANGE}; inside less than outside; {FLUID_RANGE}; {STEEL_RANGE}",
)
def buoyancy_factor_two_fluids(
    outer_diameter: float,
    inner_diameter: float,
    outside_density: float,
    inside_density: float,
    steel_density: float = STEEL_DENSITY,
) -> float:
    """Return the hanging weight as a share of the weight in air, unlike fluids.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter, [m]
    inner_diameter : float
        Inside diameter, [m]
    outside_density : float
        Density of the fluid outside, [kg/m^3]
    inside_density : float
        Density of the fluid inside, 0 for empty pipe, [kg/m^3]
    steel_density : float
        Density of the steel, [kg/m^3]

    Returns
    -------
    factor : float
        Weight of pipe and contents less the fluid pushed aside, over the weight in air, [-]

    Raises
    ------
    DomainError
        If a number is out of range, or the inside is not less than the outside.

    Notes
    -----
    (Ao*(1 - ro/rs) - Ai*(1 - ri/rs)) / (Ao - Ai) for a closed string, with the areas A of the
    outside and inside diameter [1]_. The factor exceeds 1 with heavy slurry inside and falls
    below 0 when an empty string floats. A partly filled string is the sum over its full and
    its empty length.

    Examples
    --------
    The same fluid on both sides gives the plain factor.

    >>> round(buoyancy_factor_two_fluids(0.25, 0.22, 1200.0, 1200.0), 4)
    0.8471
    >>> round(buoyancy_factor_two_fluids(0.25, 0.22, 1200.0, 0.0), 4)
    0.3223

    References
    ----------
    .. [1] drillingformulas.com/tag/buoyancy-factor/ (symbols read; the balance derived).
    """
    steel = steel_area(outer_diameter, inner_diameter)
    _require_fluid("Density outside", outside_density)
    _require_fluid("Density inside", inside_density)
    _require_steel(steel_density)
    contents = pi / 4 * inner_diameter**2 * inside_density
    pushed_aside = pi / 4 * outer_diameter**2 * outside_density
    return 1 + (contents - pushed_aside) / (steel * steel_density)


@formula(
    "string-weight",
    "Weight of a vertical string hanging in fluid",
    inputs=[
        Term("weight", "weight in air by length", "mass per length", "lb/ft"),
        LENGTH,
        Term("factor", "buoyancy factor, 1 for the weight in air", "ratio", ""),
    ],
    outputs=[Term("load", "weight hanging", "force", "klbf")],
    source="weight by length x length x buoyancy factor",
    range=f"weight 5 to 1,500 kg/m; {LENGTH_RANGE}; factor -3 to 3",
)
def string_weight(weight: float, length: float, factor: float) -> float:
    """Return the weight of a vertical string of one pipe, hanging in fluid.

    Parameters
    ----------
    weight : float
        Mass by length in air, [kg/m]
    length : float
        Length of the string, [m]
    factor : float
        Buoyancy factor; 1 gives the weight in air, [-]

    Returns
    -------
    load : float
        Weight hanging, without blocks and tools, [N]

    Raises
    ------
    DomainError
        If the weight is not from 5 to 1,500 kg/m, the length from 0 to 20,000 m or the factor
        from -3 to 3.

    Notes
    -----
    Friction is not counted. In a deviated hole the weight along the hole is less: there the
    true vertical length takes the place of the length.

    Examples
    --------
    >>> round(string_weight(70.0, 3000.0, 0.85))
    1750487
    """
    require_range("Weight by length", weight, 5.0, 1500.0, "kg/m")
    require_range("Length", length, 0.0, 20_000.0, "m")
    require_range("Buoyancy factor", factor, -3.0, 3.0, "")
    return weight * length * factor * STANDARD_GRAVITY


def _require_fluid(thing: str, density: float) -> None:
    require_range(thing, density, 0.0, 3000.0, "kg/m3")


def _require_steel(density: float) -> None:
    require_range("Steel density", density, 7000.0, 9000.0, "kg/m3")
