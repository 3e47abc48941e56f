"""Joints to the limit for a vertical string of one pipe: the calculation by itself."""

from __future__ import annotations

from math import isfinite

from tally.errors import DomainError
from tally.formula import Term, formula, require_range
from tally.hole.sections import Hole, HoleSection
from tally.hole.survey import Survey
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    OUTER_DIAMETER,
    OUTER_RANGE,
)
from tally.pipe.ratings import YIELD
from tally.string.empty_pipe import FACTOR, HOLE
from tally.string.filling import ORDER, FillLimits, FillState, joints_to_limit
from tally.string.pieces import StringPiece
from tally.string.weights import FLUID_RANGE, INSIDE_DENSITY, OUTSIDE_DENSITY, WEIGHT, WEIGHT_RANGE

MOST = 200


@formula(
    "joints-to-limit",
    "Joints that may be run before a vertical string must be filled, and what governs",
    inputs=[
        OUTER_DIAMETER,
        INNER_DIAMETER,
        WEIGHT,
        YIELD,
        HOLE,
        Term("shoe", "depth of the shoe, the string full to the top", "length", "ft"),
        Term("joint", "length of a joint", "length", "ft"),
        OUTSIDE_DENSITY,
        INSIDE_DENSITY,
        FACTOR,
        Term("float", "rated pressure difference of the float", "pressure", "psi"),
        Term("interval", "joints from fill to fill by the programme", "count", ""),
        Term("slips", "least weight that holds the slips", "force", "klbf"),
        Term("fall", "greatest loss of pressure in the annulus if the float lets go", "pressure",
             "psi"),
        Term("filled", "share that an auto-fill float lets in", "ratio", "%", "0 %"),
    ],
    outputs=[
        Term("joints", "joints that may be run unfilled", "count", ""),
        Term("governs", "1 collapse, 2 float, 3 interval, 4 slips, 5 fall of the annulus, 0 none "
             "within 200 joints", "count", ""),
        Term("difference", "pressure difference at the float then", "pressure difference", "psi"),
        Term("load", "weight hanging then, without blocks", "force difference", "klbf"),
        Term("level-falls", "how far the annulus falls if the float lets go then", "length", "ft"),
        Term("loses", "pressure that the annulus loses if the float lets go then", "pressure",
             "psi"),
    ],
    source="least of five limits, joint by joint: collapse under the pull on the pipe (Petroleum "
    "Engineering Handbook, Vol. II, eq. 7.14), the float's rating, the interval, the slips, the "
    "levels that meet",
    range=f"{OUTER_RANGE}; {INNER_RANGE}; inside < outside < hole, hole to 1.5 m; {WEIGHT_RANGE}; "
    "yield strength 200 MPa to 125,000 psi; shoe 0 to 15,000 m; joint 0.5 to 20 m; "
    f"{FLUID_RANGE}; factor 1 to 5; float and fall 0 to 200 MPa; slips 0 to 10 MN",
)  # fmt: skip
def fill_limit(
    outer_diameter: float,
    inner_diameter: float,
    weight: float,
    yield_strength: float,
    hole_diameter: float,
    shoe_depth: float,
    joint_length: float,
    outside_density: float,
    inside_density: float,
    design_factor: float,
    float_rating: float,
    interval: float,
    least_load: float,
    greatest_fall: float,
    self_filled: float = 0.0,
) -> tuple[float, float, float, float, float, float]:
    """Return the joints that may be run unfilled, what governs, and the figures then.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter of the pipe, [m]
    inner_diameter : float
        Inside diameter of the pipe, [m]
    weight : float
        Mass by length in air, [kg/m]
    yield_strength : float
        Specified minimum yield strength, [Pa]
    hole_diameter : float
        Inside of the outer casing, or of the hole, where the level falls, [m]
    shoe_depth : float
        Depth of the shoe with the string full to the top, [m]
    joint_length : float
        Length of a joint, [m]
    outside_density, inside_density : float
        Densities of the fluids outside and inside, [kg/m^3]
    design_factor : float
        Design factor set for collapse, [-]
    float_rating : float
        Rated pressure difference of the float, [Pa]
    interval : float
        Joints from fill to fill by the programme, [-]
    least_load : float
        Least weight that holds the slips, without blocks, [N]
    greatest_fall : float
        Greatest loss of pressure in the annulus if the float lets go, [Pa]
    self_filled : float
        Share that an auto-fill float lets in until it is converted, [-]

    Returns
    -------
    joints : float
        Joints that may be run unfilled, [-]
    governs : float
        1 collapse, 2 float, 3 interval, 4 slips, 5 fall of the annulus, 0 none found, [-]
    difference : float
        Pressure difference at the float then, [Pa]
    load : float
        Weight hanging then, [N]
    level_falls : float
        How far the annulus falls if the float lets go then, [m]
    loses : float
        Pressure that the annulus loses then, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the pull leaves no strength to rate collapse by.

    Notes
    -----
    A vertical string of one pipe in one hole. The string of the job, with its survey, its pipes
    and its hole, is worked out by the same steps in the figures.

    Examples
    --------
    >>> values = fill_limit(0.2445, 0.2205, 70.0, 550e6, 0.315, 1500.0, 12.0, 1200.0, 1200.0,
    ...                     1.125, 5e6, 20, 100e3, 1e6)
    >>> [round(value, 1) for value in values]
    [12, 5, 1694589.1, 894265.8, 79.5, 935574.3]
    """
    _require(shoe_depth, float_rating, interval, least_load, greatest_fall)
    require_range("Yield strength", yield_strength, 200e6, 862e6, "Pa")
    joint = StringPiece(
        joint_length, outer_diameter, inner_diameter, weight, yield_strength=yield_strength
    )
    string = StringPiece(
        shoe_depth, outer_diameter, inner_diameter, weight, yield_strength=yield_strength
    )
    hole = Hole([HoleSection(0.0, 30_000.0, hole_diameter)])
    state = FillState(
        (string,), joint, shoe_depth, Survey(), hole, outside_density, inside_density,
        self_filled=self_filled,
    )  # fmt: skip
    limits = FillLimits(design_factor, float_rating, int(interval), least_load, greatest_fall)
    answer = joints_to_limit(state, limits, MOST)
    first = answer.governs.split(" and ")[0]
    governs = ORDER.index(first) + 1 if first else 0
    at = answer.at
    return answer.joints, governs, at.difference, at.load, at.fall, at.fall_pressure


def _require(
    shoe_depth: float, float_rating: float, interval: float, least_load: float, fall: float
) -> None:
    require_range("Shoe depth", shoe_depth, 0.0, 15_000.0, "m")
    require_range("Rating of the float", float_rating, 0.0, 200e6, "Pa")
    require_range("Least weight in the slips", least_load, 0.0, 10e6, "N")
    require_range("Fall of the annulus", fall, 0.0, 200e6, "Pa")
    if not (isfinite(interval) and 0 <= interval <= 1000 and interval == int(interval)):
        raise DomainError(f"Interval {interval:g} is not a whole number of joints to 1,000.")
