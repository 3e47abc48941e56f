"""What a round hole holds, with and without pipe in it."""

from __future__ import annotations

from math import pi

from tally.formula import Term, formula, require_range
from tally.pipe.capacity import (
    CAPACITY,
    LENGTH,
    LENGTH_RANGE,
    OUTER_DIAMETER,
    OUTER_RANGE,
    VOLUME,
    closed_end_displacement,
    require_gap,
    volume_over_length,
)

HOLE = Term("hole", "diameter of the hole, or inside of the outer casing", "diameter", "in")
HOLE_RANGE = "hole diameter 0.05 to 1.5 m"
ANNULUS_RANGE = f"{HOLE_RANGE}; {OUTER_RANGE}; pipe less than hole"
ANNULUS_SOURCE = (
    "pi/4 x (hole squared - pipe squared); Lapeyrouse, Formulas and Calculations for Drilling, "
    "Production and Workover, annular capacity (web copy, netwasgroup.us)"
)


@formula(
    "hole-capacity",
    "Volume that a round hole holds, by length",
    inputs=[HOLE],
    outputs=[CAPACITY],
    source="pi/4 x diameter squared; drillingformulas.com (inner capacity)",
    range=HOLE_RANGE,
)
def hole_capacity(hole_diameter: float) -> float:
    """Return the volume of one metre of empty round hole.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, [m]

    Returns
    -------
    capacity : float
        Volume by length, [m^3/m]

    Raises
    ------
    DomainError
        If the diameter is not a number from 0.05 to 1.5 m.

    Examples
    --------
    >>> round(hole_capacity(0.31), 5)
    0.07548
    """
    require_range("Hole diameter", hole_diameter, 0.05, 1.5, "m")
    return pi / 4 * hole_diameter**2


@formula(
    "annulus",
    "Volume between a hole and the pipe in it, by length",
    inputs=[HOLE, OUTER_DIAMETER],
    outputs=[CAPACITY],
    source=ANNULUS_SOURCE,
    range=ANNULUS_RANGE,
)
def annulus_capacity(hole_diameter: float, outer_diameter: float) -> float:
    """Return the volume between the hole and the pipe in one metre.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe body, [m]

    Returns
    -------
    capacity : float
        Volume by length, [m^3/m]

    Raises
    ------
    DomainError
        If a diameter is out of range, or the pipe is not less than the hole.

    Notes
    -----
    pi/4 * (Dh**2 - D**2) [1]_: hole capacity less closed-end displacement. Couplings,
    centralizers and filter cake are not counted, and the place of the pipe in the hole does
    not matter to the volume.

    Examples
    --------
    >>> round(annulus_capacity(0.31, 0.25), 5)
    0.02639

    References
    ----------
    .. [1] Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, web copy:
       netwasgroup.us, "annular capacity between casing or hole and drill pipe, tubing or casing".
    """
    require_gap(hole_diameter, outer_diameter)
    return hole_capacity(hole_diameter) - closed_end_displacement(outer_diameter)


@formula(
    "annulus-volume",
    "Volume between a hole and the pipe in it, over a length",
    inputs=[HOLE, OUTER_DIAMETER, LENGTH],
    outputs=[VOLUME],
    source=ANNULUS_SOURCE,
    range=f"{ANNULUS_RANGE}; {LENGTH_RANGE}",
)
def annulus_volume(hole_diameter: float, outer_diameter: float, length: float) -> float:
    """Return the volume between the hole and the pipe over a length.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe body, [m]
    length : float
        Length along the hole, [m]

    Returns
    -------
    volume : float
        Volume of the annulus, without excess, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Examples
    --------
    >>> round(annulus_volume(0.31, 0.25, 1000.0), 2)
    26.39
    """
    return volume_over_length(annulus_capacity(hole_diameter, outer_diameter), length)


@formula(
    "annulus-length-filled",
    "Length of annulus that a volume fills",
    inputs=[HOLE, OUTER_DIAMETER, VOLUME],
    outputs=[Term("length", "length filled", "length", "ft")],
    source=ANNULUS_SOURCE,
    range=f"{ANNULUS_RANGE}; volume 0 to 10,000 m3",
)
def annulus_length_filled(hole_diameter: float, outer_diameter: float, volume: float) -> float:
    """Return how much length of annulus a volume fills.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe body, [m]
    volume : float
        Volume in the annulus, [m^3]

    Returns
    -------
    length : float
        Length filled, along the hole, [m]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Examples
    --------
    >>> round(annulus_length_filled(0.31, 0.25, 1.0), 2)
    37.89
    """
    require_range("Volume", volume, 0.0, 10_000.0, "m3")
    return volume / annulus_capacity(hole_diameter, outer_diameter)
