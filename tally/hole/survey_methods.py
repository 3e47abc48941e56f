"""Older methods of survey calculation, to reproduce listings that were made by them.

Positions of the hole come from minimum curvature (survey.py) and from nothing here.
"""

from __future__ import annotations

from math import cos, pi, sin

from tally.errors import DomainError
from tally.formula import formula
from tally.hole.survey import Station
from tally.hole.survey_leg import ANGLE_RANGE, DEPTH_RANGE, EAST, LEG, NORTH, TVD, only_leg

BOOK = (
    "Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, directional "
    "survey calculations (web copy, netwasgroup.us)"
)
RANGE = f"{DEPTH_RANGE}; {ANGLE_RANGE}"


@formula(
    "survey-leg-average-angle",
    "Way between two survey stations by the average angle method (old listings)",
    inputs=LEG,
    outputs=[TVD, NORTH, EAST],
    source=BOOK,
    range=RANGE,
)
def average_angle(
    upper: float,
    upper_inclination: float,
    upper_azimuth: float,
    lower: float,
    lower_inclination: float,
    lower_azimuth: float,
) -> tuple[float, float, float]:
    """Return the way from one survey station to the next by the average angle method.

    Parameters
    ----------
    upper, lower : float
        Measured depth of the two stations, [m]
    upper_inclination, lower_inclination : float
        Inclination from the vertical, [rad]
    upper_azimuth, lower_azimuth : float
        Direction from north, clockwise, [rad]

    Returns
    -------
    true_vertical, north, east : float
        Way down, to the north and to the east, [m]

    Raises
    ------
    DomainError
        If a number is out of range or the lower station is not below the upper.

    Notes
    -----
    A straight line at the mean of the two inclinations and of the two azimuths [1]_. It strays
    where the azimuth passes through north, because 359 and 1 deg do not average to 0.

    Examples
    --------
    >>> [round(value, 2) for value in average_angle(1000.0, 0.25, 0.4, 1030.0, 0.35, 0.6)]
    [28.66, 7.78, 4.25]

    References
    ----------
    .. [1] Lapeyrouse, directional survey calculations (web copy, netwasgroup.us).
    """
    above = Station(upper, upper_inclination, upper_azimuth)
    below = Station(lower, lower_inclination, lower_azimuth)
    length, inclination, azimuth = _averaged(above, below)
    level = length * sin(inclination)
    return length * cos(inclination), level * cos(azimuth), level * sin(azimuth)


@formula(
    "survey-leg-balanced-tangential",
    "Way between two survey stations by the balanced tangential method (old listings)",
    inputs=LEG,
    outputs=[TVD, NORTH, EAST],
    source="drillingformulas.com, balanced tangential method",
    range=RANGE,
)
def balanced_tangential(
    upper: float,
    upper_inclination: float,
    upper_azimuth: float,
    lower: float,
    lower_inclination: float,
    lower_azimuth: float,
) -> tuple[float, float, float]:
    """Return the way from one survey station to the next by the balanced tangential method.

    Parameters
    ----------
    upper, lower : float
        Measured depth of the two stations, [m]
    upper_inclination, lower_inclination : float
        Inclination from the vertical, [rad]
    upper_azimuth, lower_azimuth : float
        Direction from north, clockwise, [rad]

    Returns
    -------
    true_vertical, north, east : float
        Way down, to the north and to the east, [m]

    Raises
    ------
    DomainError
        If a number is out of range or the lower station is not below the upper.

    Notes
    -----
    Half the length along each of the two directions: minimum curvature without its ratio
    factor [1]_.

    Examples
    --------
    >>> [round(value, 2) for value in balanced_tangential(1000.0, 0.25, 0.4, 1030.0, 0.35, 0.6)]
    [28.62, 7.66, 4.35]

    References
    ----------
    .. [1] drillingformulas.com, "balanced tangential method calculation".
    """
    above = Station(upper, upper_inclination, upper_azimuth)
    below = Station(lower, lower_inclination, lower_azimuth)
    half = _length(above, below) / 2
    pairs = zip(above.direction, below.direction, strict=True)
    north, east, down = (half * (one + two) for one, two in pairs)
    return down, north, east


@formula(
    "survey-leg-radius-of-curvature",
    "Way between two survey stations by the radius of curvature method (old listings)",
    inputs=LEG,
    outputs=[TVD, NORTH, EAST],
    source=f"{BOOK}; drillingformulas.com, radius of curvature method",
    range=RANGE,
)
def radius_of_curvature(
    upper: float,
    upper_inclination: float,
    upper_azimuth: float,
    lower: float,
    lower_inclination: float,
    lower_azimuth: float,
) -> tuple[float, float, float]:
    """Return the way from one survey station to the next by the radius of curvature method.

    Parameters
    ----------
    upper, lower : float
        Measured depth of the two stations, [m]
    upper_inclination, lower_inclination : float
        Inclination from the vertical, [rad]
    upper_azimuth, lower_azimuth : float
        Direction from north, clockwise, [rad]

    Returns
    -------
    true_vertical, north, east : float
        Way down, to the north and to the east, [m]

    Raises
    ------
    DomainError
        If a number is out of range or the lower station is not below the upper.

    Notes
    -----
    Inclination and azimuth each turn evenly: dMD * (cos I1 - cos I2) * (sin A2 - sin A1) /
    ((I2 - I1) * (A2 - A1)) for north, and so on [1]_. Written here as mean angle times
    sin(x)/x, so that equal angles need no rule of their own. Take azimuths across north so that
    they do not jump by 360 deg.

    Examples
    --------
    >>> [round(value, 2) for value in radius_of_curvature(1000.0, 0.25, 0.4, 1030.0, 0.35, 0.6)]
    [28.65, 7.76, 4.24]

    References
    ----------
    .. [1] Lapeyrouse, directional survey calculations (web copy, netwasgroup.us).
    """
    above = Station(upper, upper_inclination, upper_azimuth)
    below = Station(lower, lower_inclination, lower_azimuth)
    length, inclination, azimuth = _averaged(above, below)
    steady = length * _shrink((lower_inclination - upper_inclination) / 2)
    level = steady * sin(inclination) * _shrink((lower_azimuth - upper_azimuth) / 2)
    return steady * cos(inclination), level * cos(azimuth), level * sin(azimuth)


def _averaged(upper: Station, lower: Station) -> tuple[float, float, float]:
    """Return the length between two stations, their mean inclination and mean azimuth."""
    inclination = (upper.inclination + lower.inclination) / 2
    azimuth = (upper.azimuth + lower.azimuth) / 2
    return _length(upper, lower), inclination, azimuth


def _length(upper: Station, lower: Station) -> float:
    if abs(lower.azimuth - upper.azimuth) > pi:
        raise DomainError(
            "The azimuths lie more than 180 deg apart across north, which this old method cannot "
            "average; use survey-leg."
        )
    return only_leg(upper, lower).length


def _shrink(half: float) -> float:
    """Return sin(x)/x."""
    return sin(half) / half if abs(half) > 1e-8 else 1.0
