"""Surge by the short method of a handbook, kept to reproduce it."""

from __future__ import annotations

from tally.fluids.clinging import HANDBOOK
from tally.fluids.flow import ANNULUS_RANGE, HOLE
from tally.fluids.rheology import POUND_PER_100_FT2, R300, R600, power_law_from_readings
from tally.fluids.surge_velocity import BORE, SPEED, SPEED_RANGE, require_speed, taken_in
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import LENGTH, LENGTH_RANGE, OUTER_DIAMETER, require_gap

PEAK = 1.5
"""Greatest over mean speed of a stand, as the handbook has it."""


@formula(
    "handbook-surge",
    "Surge by the short handbook method, power-law mud, plugged or open (to reproduce the book)",
    inputs=[HOLE, OUTER_DIAMETER, LENGTH, SPEED, R600, R300, BORE],
    outputs=[
        Term("pressure", "surge over the length", "pressure", "psi"),
        Term("velocity", "velocity of the mud, clinging counted", "velocity", "ft/min"),
        Term("peak", "the same at the greatest speed", "velocity", "ft/min"),
    ],
    source="N.J. Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, "
    "surge and swab, method 1",
    range=f"{ANNULUS_RANGE}; {LENGTH_RANGE}; {SPEED_RANGE}; laminar; an inside diameter of 0 is "
    "plugged pipe",
)
def handbook_surge(
    hole_diameter: float,
    outer_diameter: float,
    length: float,
    speed: float,
    reading_600: float,
    reading_300: float,
    inner_diameter: float = 0.0,
) -> tuple[float, float, float]:
    """Return surge as a handbook works it out from two readings.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    length : float
        Length along the hole, [m]
    speed : float
        Mean speed of the pipe, [m/s]
    reading_600, reading_300 : float
        Readings at 600 and 300 rpm, [degrees of the dial]
    inner_diameter : float
        Inside diameter of open pipe; 0 for plugged pipe, [m]

    Returns
    -------
    pressure : float
        Surge over the length, [Pa]
    velocity : float
        Velocity of the mud, clinging counted, [m/s]
    peak : float
        The same at the greatest speed, [m/s]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    V = (0.45 + od**2/(hole**2 - od**2)) * speed plugged, with (od**2 - id**2) over
    (hole**2 - od**2 + id**2) open [1]_; 1.5 V; then ((2.4 V/D)(2n+1)/(3n))**n * K L/(300 D) with
    ft/min, in, ft and degrees. A power-law mud without a yield stress, always laminar: it is here
    to reproduce the book.

    Examples
    --------
    >>> values = handbook_surge(0.2, 0.1143, 1000.0, 1.37, 140.0, 80.0)
    >>> [round(value, 3) for value in values]
    [1133037.555, 1.281, 1.921]

    References
    ----------
    .. [1] Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2002.
    """
    gap = require_gap(hole_diameter, outer_diameter)
    require_range("Length", length, 0.0, 20_000.0, "m")
    require_speed(speed)
    inside = taken_in(outer_diameter, inner_diameter, float(inner_diameter != 0))
    room = hole_diameter**2 - outer_diameter**2 + inside
    velocity = (HANDBOOK + (outer_diameter**2 - inside) / room) * speed
    index, _ = power_law_from_readings(reading_600, reading_300)
    consistency = reading_300 * POUND_PER_100_FT2 / 511**index
    rate = 12 * PEAK * velocity / gap * (2 * index + 1) / (3 * index)
    return 4 * consistency * rate**index / gap * length, velocity, PEAK * velocity
