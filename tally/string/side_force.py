"""What presses pipe to the wall between two depths: its weight across and the pull round a bend."""

from __future__ import annotations

from math import cos, sin, sqrt

from tally.formula import Term, formula, require_range
from tally.hole.survey import Vector
from tally.string.sag import (
    SPACING,
    SPACING_RANGE,
    TENSION,
    TENSION_RANGE,
    require_spacing,
    require_tension,
)

UPPER_INC = Term("upper-inc", "inclination at the upper end", "angle", "deg")
LOWER_INC = Term("lower-inc", "inclination at the lower end", "angle", "deg")
UPPER_AZ = Term("upper-az", "azimuth at the upper end", "angle", "deg", "0 deg")
LOWER_AZ = Term("lower-az", "azimuth at the lower end", "angle", "deg", "0 deg")


def side_vector(upper: Vector, lower: Vector, weight: float, tension: float) -> Vector:
    """Return the load across pipe from one direction of the hole to another, as a vector [N].

    `weight` is that of the span in its fluids, below zero where it floats, and `tension` the
    effective tension in its middle, [N]. Directions are unit vectors down the hole.
    """
    mean = upper[0] + lower[0], upper[1] + lower[1], upper[2] + lower[2]
    # the part of the weight along the span is not carried by the wall
    along = weight * mean[2] / (mean[0] ** 2 + mean[1] ** 2 + mean[2] ** 2)
    return (
        tension * (lower[0] - upper[0]) - along * mean[0],
        tension * (lower[1] - upper[1]) - along * mean[1],
        tension * (lower[2] - upper[2]) - along * mean[2] + weight,
    )


def magnitude(vector: Vector) -> float:
    """Return the length of a vector.

    >>> magnitude((2.0, 3.0, 6.0))
    7.0
    """
    return sqrt(vector[0] ** 2 + vector[1] ** 2 + vector[2] ** 2)


@formula(
    "side-force",
    "What presses pipe to the wall over a length: its weight across, and the pull round a bend",
    inputs=[
        Term("weight", "weight in the fluids by length, below zero where it floats",
             "force per length difference", "lbf/ft"),
        SPACING,
        UPPER_INC,
        LOWER_INC,
        UPPER_AZ,
        LOWER_AZ,
        TENSION,
    ],
    outputs=[Term("force", "load across the pipe", "force", "lbf")],
    source="weight and pull added as vectors; in a vertical plane the weight times the sine -/+ "
    "twice the tension times the sine of half the bend, Suman and Ellis, Cementing Handbook, "
    "World Oil, 1977, p. 44 (as reproduced)",
    range=f"weight -15 to 15 kN/m; {SPACING_RANGE}; inclinations 0 to 180 deg; azimuths 0 to "
    f"360 deg; bend less than 90 deg; {TENSION_RANGE}",
)  # fmt: skip
def side_force(
    weight: float,
    spacing: float,
    upper_inclination: float,
    lower_inclination: float,
    upper_azimuth: float = 0.0,
    lower_azimuth: float = 0.0,
    tension: float = 0.0,
) -> float:
    """Return what presses pipe to the wall over a length of hole.

    Parameters
    ----------
    weight : float
        Weight by length in the fluids inside and outside, below zero where it floats, [N/m]
    spacing : float
        Length along the hole, [m]
    upper_inclination, lower_inclination : float
        Inclination at the upper and the lower end, [rad]
    upper_azimuth, lower_azimuth : float
        Direction from north at the upper and the lower end, [rad]
    tension : float
        Effective tension, the pressure of the fluids taken off; compression below zero, [N]

    Returns
    -------
    force : float
        Load across the pipe, shared between the centralizers at both ends, [N]

    Raises
    ------
    DomainError
        If a number is out of range, or the hole turns by 90 degrees or more.

    Notes
    -----
    weight * L * (down less its part along the mean direction) + T * (lower - upper direction).
    The effective tension starts from 0 at a free shoe and grows upward by the weight in the
    fluids; where that is below zero the string is in compression. In a build the pull lifts the
    pipe off the low side, in a drop it adds to the weight.

    Examples
    --------
    >>> round(side_force(500.0, 12.0, 0.5, 0.5), 1)
    2876.6
    >>> round(side_force(500.0, 12.0, 0.5, 0.53, tension=200e3), 1)
    3044.6
    >>> round(side_force(500.0, 12.0, 0.53, 0.5, tension=200e3), 1)
    8955.0
    """
    require_range("Weight by length", weight, -15e3, 15e3, "N/m")
    require_spacing(spacing)
    require_tension(tension)
    upper = _direction(upper_inclination, upper_azimuth)
    lower = _direction(lower_inclination, lower_azimuth)
    alike = sum(one * other for one, other in zip(upper, lower, strict=True))
    require_range("Cosine of the bend", alike, 1e-9, 1 + 1e-9, "")
    return magnitude(side_vector(upper, lower, weight * spacing, tension))


def _direction(inclination: float, azimuth: float) -> Vector:
    require_range("Inclination", inclination, 0.0, 3.141593, "rad")
    require_range("Azimuth", azimuth, 0.0, 6.283186, "rad")
    level = sin(inclination)
    return level * cos(azimuth), level * sin(azimuth), cos(inclination)
