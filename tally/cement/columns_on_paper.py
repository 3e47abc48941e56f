"""Pressures and balances of a cementing job as they are worked by hand."""

from __future__ import annotations

from collections.abc import Sequence

from tally.errors import DomainError
from tally.fluids.hydrostatic import hydrostatic_pressure
from tally.formula import Term, formula, require_range
from tally.hole.annulus import ANNULUS_RANGE, HOLE, annulus_capacity, hole_capacity
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    LENGTH,
    LENGTH_RANGE,
    OUTER_DIAMETER,
    VOLUME,
    open_end_displacement,
    pipe_capacity,
)

GEL = Term("gel", "gel strength of the mud, after as long a stand as it has had", "yield point",
           "lbf/100ft2")  # fmt: skip
GEL_RANGE = "gel strength 0 to 200 Pa"
GEL_SOURCE = (
    "4 x gel x length / gap; drillingformulas.com (pressure required to break "
    "circulation), citing Lapeyrouse, Formulas and Calculations"
)
BROKEN = Term("pressure", "pressure that breaks the gel", "pressure", "psi")


@formula(
    "gel-pressure-pipe",
    "Pressure that breaks the gel inside a pipe",
    inputs=[GEL, INNER_DIAMETER, LENGTH],
    outputs=[BROKEN],
    source=f"{GEL_SOURCE} (inside; the divisor 300 in field units)",
    range=f"{GEL_RANGE}; {INNER_RANGE}; {LENGTH_RANGE}",
)
def gel_pressure_pipe(gel: float, inner_diameter: float, length: float) -> float:
    """Return the pressure that breaks the gel inside a pipe.

    Parameters
    ----------
    gel : float
        Gel strength after as long a stand as the mud has had, [Pa]
    inner_diameter : float
        Inside diameter, [m]
    length : float
        Length of pipe full of it, [m]

    Returns
    -------
    pressure : float
        Pressure from end to end that sets it moving, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    4 tau L / d: the gel on the wall against the pressure on the bore. To break circulation in a
    well, that of the annulus comes to it.

    Examples
    --------
    >>> round(gel_pressure_pipe(6.0, 0.22, 1000.0))
    109091
    """
    require_range("Gel strength", gel, 0.0, 200.0, "Pa")
    require_range("Length", length, 0.0, 20_000.0, "m")
    pipe_capacity(inner_diameter)
    return 4 * gel * length / inner_diameter


@formula(
    "gel-pressure-annulus",
    "Pressure that breaks the gel in an annulus",
    inputs=[GEL, HOLE, OUTER_DIAMETER, LENGTH],
    outputs=[BROKEN],
    source=f"{GEL_SOURCE} (annulus; the divisor 300 in field units)",
    range=f"{GEL_RANGE}; {ANNULUS_RANGE}; {LENGTH_RANGE}",
)
def gel_pressure_annulus(
    gel: float, hole_diameter: float, outer_diameter: float, length: float
) -> float:
    """Return the pressure that breaks the gel in an annulus.

    Parameters
    ----------
    gel : float
        Gel strength after as long a stand as the mud has had, [Pa]
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    length : float
        Length of annulus full of it, [m]

    Returns
    -------
    pressure : float
        Pressure from end to end that sets it moving; it also comes on the hole, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Examples
    --------
    >>> round(gel_pressure_annulus(6.0, 0.311, 0.2445, 1000.0))
    360902
    """
    require_range("Gel strength", gel, 0.0, 200.0, "Pa")
    require_range("Length", length, 0.0, 20_000.0, "m")
    annulus_capacity(hole_diameter, outer_diameter)
    return 4 * gel * length / (hole_diameter - outer_diameter)


Column = tuple[float, float]
"""Density [kg/m^3] and true vertical height [m] of one fluid."""


def columns_pressure(columns: Sequence[Column]) -> float:
    """Return the pressure at the foot of fluids standing on one another, [Pa].

    >>> round(columns_pressure([(1200.0, 1000.0), (1900.0, 200.0)]))
    15494507
    """
    return sum(hydrostatic_pressure(density, height) for density, height in columns)


def _fluid(name: str, where: str, default: bool = True) -> list[Term]:
    return [
        Term(name, f"density of the {where}", "density", "lb/gal",
             "8.33 lb/gal" if default else None),
        Term(f"{name}-height", f"true vertical height of the {where}", "length", "ft",
             "0 ft" if default else None),
    ]  # fmt: skip


@formula(
    "column-difference",
    "Pressure by which the columns outside press harder than those inside",
    inputs=[
        *_fluid("inside", "fluid inside", default=False),
        *_fluid("mud", "mud outside", default=False),
        *_fluid("spacer", "spacer outside"),
        *_fluid("lead", "lead slurry outside"),
        *_fluid("tail", "tail slurry outside"),
        *_fluid("track", "slurry inside, in the shoe track"),
    ],
    outputs=[
        Term("difference", "outside less inside, below zero when the inside presses harder",
             "pressure difference", "psi"),
        Term("outside-pressure", "pressure at the foot of the columns outside", "pressure", "psi"),
        Term("inside-pressure", "pressure at the foot of the columns inside", "pressure", "psi"),
    ],
    source="sum of density x standard gravity x true vertical height, outside less inside",
    range="densities 0 to 3,000 kg/m3; heights 0 to 15,000 m; both sides equally high to 1 m",
)  # fmt: skip
def column_difference(
    inside: float, inside_height: float, mud: float, mud_height: float,
    spacer: float, spacer_height: float, lead: float, lead_height: float,
    tail: float, tail_height: float, track: float, track_height: float,
) -> tuple[float, float, float]:  # fmt: skip
    """Return outside less inside, and the pressures at the foot of both.

    Parameters
    ----------
    inside, mud, spacer, lead, tail, track : float
        Density of the fluid inside, of the four outside from the top down, and of the slurry in
        the shoe track, [kg/m^3]
    inside_height, mud_height, spacer_height, lead_height, tail_height, track_height : float
        True vertical height of each, [m]

    Returns
    -------
    difference : float
        Outside less inside: what the float holds, or the head when it leaks, [Pa]
    outside_pressure : float
        Pressure at the foot of the columns outside, [Pa]
    inside_pressure : float
        Pressure at the foot of the columns inside, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the two sides are not equally high.

    Notes
    -----
    Heights are true vertical, not along the hole. Friction is not in it.

    Examples
    --------
    >>> one = column_difference(1000.0, 500.0, 1200.0, 100.0, 1000.0, 0.0, 1000.0, 0.0,
    ...                         1900.0, 400.0, 1000.0, 0.0)
    >>> round(one[0])
    3726527
    """
    outer = [(mud, mud_height), (spacer, spacer_height), (lead, lead_height), (tail, tail_height)]
    inner = [(inside, inside_height), (track, track_height)]
    outside_pressure, inside_pressure = columns_pressure(outer), columns_pressure(inner)
    high_out, high_in = (sum(height for _, height in side) for side in (outer, inner))
    if abs(high_out - high_in) > 1.0:
        raise DomainError(
            f"The columns outside are {high_out:,.6g} m high and those inside {high_in:,.6g} m; "
            "both must reach from the head to the same depth."
        )
    return outside_pressure - inside_pressure, outside_pressure, inside_pressure


@formula(
    "balanced-columns",
    "Slurry set through open pipe so that it stands as high inside as outside",
    inputs=[
        VOLUME,
        HOLE,
        OUTER_DIAMETER,
        INNER_DIAMETER,
        Term("depth", "depth of the end of the pipe, along the hole", "length", "ft"),
        Term("spacer", "spacer pumped ahead", "volume", "bbl", "0 bbl"),
    ],
    outputs=[
        Term("with-pipe", "height of the slurry with the pipe in it", "length", "ft"),
        Term("without-pipe", "height of the slurry when the pipe is out", "length", "ft"),
        Term("spacer-behind", "spacer behind, as high inside as that ahead", "volume", "bbl"),
        Term("displacement", "fluid pumped behind it all to balance", "volume", "bbl"),
    ],
    source="height = volume / (annulus + bore); spacer and displacement from equal heights; common "
    "practice of balanced plugs (method from memory: Lapeyrouse, setting a balanced plug)",
    range=f"{ANNULUS_RANGE}; {INNER_RANGE}; inside less than outside; depth 0 to 20,000 m; "
    "volumes 0 to 10,000 m3",
)
def balanced_columns(
    volume: float,
    hole_diameter: float,
    outer_diameter: float,
    inner_diameter: float,
    depth: float,
    spacer: float = 0.0,
) -> tuple[float, float, float, float]:
    """Return the heights of a slurry balanced inside and outside, and what balances it.

    Parameters
    ----------
    volume : float
        Volume of slurry, [m^3]
    hole_diameter : float
        Diameter of the hole, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    inner_diameter : float
        Inside diameter of the pipe, [m]
    depth : float
        Depth of the end of the pipe, along the hole, [m]
    spacer : float
        Spacer pumped ahead, [m^3]

    Returns
    -------
    with_pipe : float
        Height of the slurry with the pipe in it, along the hole, [m]
    without_pipe : float
        Height of the slurry when the pipe is out, [m]
    spacer_behind : float
        Spacer behind that stands as high inside as the spacer ahead does outside, [m^3]
    displacement : float
        Fluid behind the spacer that fills the pipe down to it, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range, or slurry and spacer reach above the top of the hole.

    Examples
    --------
    >>> made = balanced_columns(3.0, 0.2159, 0.127, 0.1086, 2000.0, 2.0)
    >>> [round(value, 2) for value in made]
    [90.35, 81.95, 0.77, 16.92]
    """
    for name, amount in (("Volume of slurry", volume), ("Volume of spacer", spacer)):
        require_range(name, amount, 0.0, 10_000.0, "m3")
    require_range("Depth", depth, 0.0, 20_000.0, "m")
    open_end_displacement(outer_diameter, inner_diameter)  # refuses a bore wider than its pipe
    outside, bore = annulus_capacity(hole_diameter, outer_diameter), pipe_capacity(inner_diameter)
    with_pipe, spacer_height = volume / (outside + bore), spacer / outside
    left = depth - with_pipe - spacer_height
    if left < 0:
        raise DomainError(
            f"Slurry and spacer stand {with_pipe + spacer_height:,.6g} m high, above the top of a "
            f"hole of {depth:,.6g} m; check the volumes."
        )
    return with_pipe, volume / hole_capacity(hole_diameter), spacer_height * bore, left * bore
