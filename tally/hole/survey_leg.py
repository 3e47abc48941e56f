"""The way from one survey station to the next, and to a depth between them."""

from __future__ import annotations

from tally.formula import Term, formula, require_range
from tally.hole.survey import Leg, Station, angles, make_leg, ratio_factor

DEPTH_RANGE = "measured depths 0 to 30,000 m, the lower below the upper"
ANGLE_RANGE = "inclination 0 to 180 deg; azimuth 0 to 360 deg; turn in one leg less than 175 deg"
SOURCE = (
    "minimum curvature; Sawaryn and Thorogood, A Compendium of Directional Calculations Based on "
    "the Minimum Curvature Method, SPE 84246 (abstract seen); drillingformulas.com, minimum "
    "curvature method"
)

UPPER_DEPTH = Term("upper", "measured depth of the upper station", "length", "ft")
LOWER_DEPTH = Term("lower", "measured depth of the lower station", "length", "ft")
UPPER_INC = Term("upper-inc", "inclination at the upper station", "angle", "deg")
LOWER_INC = Term("lower-inc", "inclination at the lower station", "angle", "deg")
UPPER_AZ = Term("upper-az", "azimuth at the upper station", "angle", "deg")
LOWER_AZ = Term("lower-az", "azimuth at the lower station", "angle", "deg")
LEG = (UPPER_DEPTH, UPPER_INC, UPPER_AZ, LOWER_DEPTH, LOWER_INC, LOWER_AZ)
TVD = Term("tvd", "rise of true vertical depth", "length difference", "ft")
NORTH = Term("north", "way to the north", "length difference", "ft")
EAST = Term("east", "way to the east", "length difference", "ft")


@formula(
    "survey-leg",
    "True vertical depth, north, east and dogleg between two survey stations",
    inputs=LEG,
    outputs=[
        TVD,
        NORTH,
        EAST,
        Term("dogleg", "angle between the two directions", "angle", "deg"),
        Term("severity", "dogleg severity", "angle per length", "deg/100ft"),
        Term("ratio-factor", "length of the arc over its two half chords", "number", ""),
    ],
    source=SOURCE,
    range=f"{DEPTH_RANGE}; {ANGLE_RANGE}",
)
def survey_leg(
    upper: float,
    upper_inclination: float,
    upper_azimuth: float,
    lower: float,
    lower_inclination: float,
    lower_azimuth: float,
) -> tuple[float, float, float, float, float, float]:
    """Return the way from one survey station to the next by minimum curvature.

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
    dogleg : float
        Angle between the two directions, [rad]
    severity : float
        Dogleg by length, [rad/m]
    ratio_factor : float
        Length of the arc over its two half chords, [-]

    Raises
    ------
    DomainError
        If a number is out of range, the lower station is not below the upper, or the hole turns
        by 175 degrees or more between them.

    Notes
    -----
    The hole is one arc, tangent to both directions. The dogleg comes from
    2*asin(sqrt(sin((I2-I1)/2)**2 + sin(I1)*sin(I2)*sin((A2-A1)/2)**2)), which keeps its digits
    when it is small. Where one station is upright its azimuth does not matter.

    Examples
    --------
    >>> values = survey_leg(1000.0, 0.25, 0.4, 1030.0, 0.35, 0.6)
    >>> [round(value, 3) for value in values]
    [28.656, 7.672, 4.354, 0.116, 0.004, 1.001]

    References
    ----------
    .. [1] drillingformulas.com, "minimum curvature method" (its printed ratio factor 1.00408
       is a misprint for 1.00428; the printed coordinates follow from the right one).
    """
    leg = only_leg(
        Station(upper, upper_inclination, upper_azimuth),
        Station(lower, lower_inclination, lower_azimuth),
    )
    north, east, down = leg.position(1.0)
    return down, north, east, leg.angle, leg.severity, ratio_factor(leg.angle)


@formula(
    "survey-between",
    "Position and direction at a depth between two survey stations",
    inputs=[*LEG, Term("depth", "measured depth wanted", "length", "ft")],
    outputs=[
        TVD,
        NORTH,
        EAST,
        Term("inclination", "inclination there", "angle", "deg"),
        Term("azimuth", "azimuth there", "angle", "deg"),
    ],
    source=f"{SOURCE}; direction between the stations turned evenly along the arc",
    range=f"{DEPTH_RANGE}; depth wanted from the upper to the lower; {ANGLE_RANGE}",
)
def survey_between(
    upper: float,
    upper_inclination: float,
    upper_azimuth: float,
    lower: float,
    lower_inclination: float,
    lower_azimuth: float,
    depth: float,
) -> tuple[float, float, float, float, float]:
    """Return position from the upper station, and direction, at a depth between two stations.

    Parameters
    ----------
    upper, lower : float
        Measured depth of the two stations, [m]
    upper_inclination, lower_inclination : float
        Inclination from the vertical, [rad]
    upper_azimuth, lower_azimuth : float
        Direction from north, clockwise, [rad]
    depth : float
        Measured depth wanted, [m]

    Returns
    -------
    true_vertical, north, east : float
        Way down, to the north and to the east from the upper station, [m]
    inclination, azimuth : float
        Direction there, [rad]

    Raises
    ------
    DomainError
        If a number is out of range or the depth does not lie between the stations.

    Notes
    -----
    The direction at a share s of the leg is (sin((1-s)*b)*t1 + sin(s*b)*t2) / sin(b) with the
    dogleg b and the directions t1 and t2; the position follows from it by minimum curvature.

    Examples
    --------
    >>> values = survey_between(1000.0, 0.25, 0.4, 1030.0, 0.35, 0.6, 1015.0)
    >>> [round(value, 3) for value in values]
    [14.439, 3.629, 1.812, 0.299, 0.516]
    """
    leg = only_leg(
        Station(upper, upper_inclination, upper_azimuth),
        Station(lower, lower_inclination, lower_azimuth),
    )
    require_range("Depth wanted", depth, upper, lower, "m")
    share = (depth - upper) / (lower - upper)
    north, east, down = leg.position(share)
    azimuth = upper_azimuth if share < 0.5 else lower_azimuth
    return down, north, east, *angles(leg.direction(share), azimuth)


def only_leg(upper: Station, lower: Station) -> Leg:
    """Return the leg between two stations, from the upper one as its origin."""
    return make_leg(upper, lower, (0.0, 0.0, 0.0))
