"""Two short rules for the annulus that handbooks print, kept to reproduce them."""

from __future__ import annotations

from tally.fluids.flow import ANNULUS_RANGE, DENSITY, HOLE, RATE, VELOCITY, annulus_velocity
from tally.fluids.rheology import POUND_PER_100_FT2, R300, R600, power_law_from_readings
from tally.fluids.textbook import FLOW_RANGE, LOSS, require_flow
from tally.formula import Term, formula
from tally.pipe.capacity import LENGTH, OUTER_DIAMETER, require_gap

ROUGH_FACTOR = 0.013_31
"""Friction factor that the printed 1.4327e-7 (lb/gal, ft/min, in, psi) contains."""

_FOOT, _INCH = 0.3048, 0.0254
_PSI = 0.45359237 * 9.80665 / _INCH**2
_POUND_PER_GALLON = 0.45359237 / (231 * _INCH**3)
_GALLON_PER_MINUTE = 231 * _INCH**3 / 60


@formula(
    "rough-annulus-friction",
    "Rough friction in the annulus from the velocity alone (a rule for turbulent mud)",
    inputs=[HOLE, OUTER_DIAMETER, LENGTH, RATE, DENSITY],
    outputs=[LOSS, VELOCITY],
    source="1.4327e-7 x density x length x velocity squared / (hole - pipe) in field units; "
    "drillingformulas.com, drilling engineering calculations",
    range=f"{ANNULUS_RANGE}; {FLOW_RANGE}; turbulent mud, no slurry",
)
def rough_annulus(
    hole_diameter: float, outer_diameter: float, length: float, rate: float, density: float
) -> tuple[float, float]:
    """Return a rough friction in the annulus, as one constant friction factor gives it.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    length : float
        Length along the hole, [m]
    rate : float
        Pump rate, [m^3/s]
    density : float
        Density of the mud, [kg/m^3]

    Returns
    -------
    pressure : float
        Pressure lost, [Pa]
    velocity : float
        Mean velocity, [m/s]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    The rule knows no viscosity: a friction factor of 0.0133, whatever flows [1]_. In slow flow
    and with slurry it is far off.

    Examples
    --------
    >>> [round(value, 2) for value in rough_annulus(0.31, 0.25, 1000.0, 0.02, 1200.0)]
    [305801.58, 0.76]

    References
    ----------
    .. [1] drillingformulas.com, category drilling engineering calculations.
    """
    require_flow(length, rate, density)
    gap = require_gap(hole_diameter, outer_diameter)
    velocity = annulus_velocity(hole_diameter, outer_diameter, rate)
    return 2 * ROUGH_FACTOR * density * velocity**2 / gap * length, velocity


@formula(
    "handbook-annulus-friction",
    "Friction in the annulus from two readings, by the critical velocity of a field handbook",
    inputs=[HOLE, OUTER_DIAMETER, LENGTH, RATE, DENSITY, R600, R300],
    outputs=[
        LOSS,
        VELOCITY,
        Term("critical", "critical velocity", "velocity", "ft/min"),
        Term("regime", "1 laminar, 2 turbulent", "count", ""),
    ],
    source="Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, annular "
    "pressure loss (form from memory; the regimes of an example read on drillingformulas.com)",
    range=f"{ANNULUS_RANGE}; {FLOW_RANGE}; readings 0 to 500, that at 600 rpm above that at 300",
)
def handbook_annulus(
    hole_diameter: float,
    outer_diameter: float,
    length: float,
    rate: float,
    density: float,
    reading_600: float,
    reading_300: float,
) -> tuple[float, float, float, float]:
    """Return the friction in the annulus by the critical velocity of a field handbook.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    length : float
        Length along the hole, [m]
    rate : float
        Pump rate, [m^3/s]
    density : float
        Density of the mud, [kg/m^3]
    reading_600, reading_300 : float
        Readings at 600 and 300 rpm, degrees of the dial, [-]

    Returns
    -------
    pressure : float
        Pressure lost, [Pa]
    velocity : float
        Mean velocity, [m/s]
    critical : float
        Velocity at which the handbook changes to its turbulent line, [m/s]
    regime : float
        1 laminar, 2 turbulent, [-]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    Laminar the power law of two readings in a slot; turbulent
    7.7e-5 * W**0.8 * q**1.8 * PV**0.2 * L / (D**3 * (d2+d1)**1.8) in field units. The two do not
    meet at the critical velocity.

    Examples
    --------
    >>> values = handbook_annulus(0.31, 0.25, 1000.0, 0.02, 1200.0, 60.0, 38.0)
    >>> [round(value, 2) for value in values]
    [604784.12, 0.76, 1.84, 1]

    References
    ----------
    .. [1] Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2002.
    """
    require_flow(length, rate, density)
    gap = require_gap(hole_diameter, outer_diameter)
    velocity = annulus_velocity(hole_diameter, outer_diameter, rate)
    index, _ = power_law_from_readings(reading_600, reading_300)
    consistency = reading_300 * POUND_PER_100_FT2 / 511**index
    shape = (2 * index + 1) / (3 * index)
    critical = _critical(density, consistency, index, gap, shape)
    if velocity <= critical:
        stress: float = consistency * (12 * velocity / gap * shape) ** index
        return 4 * stress / gap * length, velocity, critical, 1
    across = hole_diameter + outer_diameter
    plastic = reading_600 - reading_300
    return _turbulent(density, rate, plastic, length, gap, across), velocity, critical, 2


def _critical(density: float, consistency: float, index: float, gap: float, shape: float) -> float:
    """Return (3.878e4 K/W)**(1/(2-n)) * (2.4/D * shape)**(n/(2-n)), given in ft/min, in m/s."""
    degrees = consistency / POUND_PER_100_FT2
    weight, inches = density / _POUND_PER_GALLON, gap / _INCH
    power = 1 / (2 - index)
    feet: float = (3.878e4 * degrees / weight) ** power * (2.4 / inches * shape) ** (index * power)
    return feet * _FOOT / 60


def _turbulent(
    density: float, rate: float, plastic: float, length: float, gap: float, across: float
) -> float:
    weight, gallons = density / _POUND_PER_GALLON, rate / _GALLON_PER_MINUTE
    psi: float = 7.7e-5 * weight**0.8 * gallons**1.8 * plastic**0.2 * length / _FOOT
    psi /= (gap / _INCH) ** 3 * (across / _INCH) ** 1.8
    return psi * _PSI
