"""What a pump delivers: volume a stroke, strokes for a volume, time at a rate."""

from __future__ import annotations

from math import pi

from tally.errors import DomainError
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import VOLUME

LINER = Term("liner", "diameter of the liner", "diameter", "in")
STROKE_LENGTH = Term("stroke", "length of the stroke", "diameter", "in")
EFFICIENCY = Term("efficiency", "share of the swept volume that is delivered", "ratio", "%")
STROKE_VOLUME = Term("delivered", "volume delivered by a stroke", "volume per stroke", "bbl/stroke")

PUMP_SOURCE = (
    "swept volume x efficiency; drillingformulas.com (pump output, duplex and triplex), citing "
    "Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2002"
)
PUMP_RANGE = "liner 0.05 to 0.4 m; stroke 0.05 to 1 m; efficiency 0.3 to 1; cylinders 1 to 7"


@formula(
    "pump-stroke",
    "Volume delivered by a stroke of a single-acting pump (triplex)",
    inputs=[
        LINER,
        STROKE_LENGTH,
        EFFICIENCY,
        Term("cylinders", "number of cylinders", "count", "", "3"),
    ],
    outputs=[STROKE_VOLUME],
    source=PUMP_SOURCE,
    range=PUMP_RANGE,
)
def single_acting_stroke(
    liner_diameter: float, stroke_length: float, efficiency: float, cylinders: float = 3
) -> float:
    """Return the volume that a single-acting pump delivers in one stroke of all its cylinders.

    Parameters
    ----------
    liner_diameter : float
        Inside diameter of the liner, [m]
    stroke_length : float
        Length of the stroke, [m]
    efficiency : float
        Share of the swept volume that is delivered, [-]
    cylinders : float
        Number of cylinders, 3 for a triplex, [-]

    Returns
    -------
    stroke_volume : float
        Volume delivered by one turn of the crank, which the counter calls a stroke, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    n * pi/4 * D**2 * S * efficiency [1]_. The handbook factor 0.000243 (in, bbl) is this for a
    triplex, rounded up by six parts in ten thousand. Use the efficiency measured, or the one
    that made the last bump agree.

    Examples
    --------
    >>> round(single_acting_stroke(0.15, 0.30, 0.96), 5)
    0.01527

    References
    ----------
    .. [1] drillingformulas.com, "pump output calculation for duplex pump and triplex pump".
    """
    _require_pump(liner_diameter, stroke_length, efficiency, cylinders)
    return cylinders * pi / 4 * liner_diameter**2 * stroke_length * efficiency


@formula(
    "pump-stroke-double-acting",
    "Volume delivered by a stroke of a double-acting pump (duplex)",
    inputs=[
        LINER,
        Term("rod", "diameter of the piston rod", "diameter", "in"),
        STROKE_LENGTH,
        EFFICIENCY,
        Term("cylinders", "number of cylinders", "count", "", "2"),
    ],
    outputs=[STROKE_VOLUME],
    source=PUMP_SOURCE,
    range=f"{PUMP_RANGE}; rod less than liner",
)
def double_acting_stroke(
    liner_diameter: float,
    rod_diameter: float,
    stroke_length: float,
    efficiency: float,
    cylinders: float = 2,
) -> float:
    """Return the volume that a double-acting pump delivers in one stroke out and back.

    Parameters
    ----------
    liner_diameter : float
        Inside diameter of the liner, [m]
    rod_diameter : float
        Diameter of the piston rod, [m]
    stroke_length : float
        Length of the stroke, [m]
    efficiency : float
        Share of the swept volume that is delivered, [-]
    cylinders : float
        Number of cylinders, 2 for a duplex, [-]

    Returns
    -------
    stroke_volume : float
        Volume delivered by one turn of the crank, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range, or the rod is not less than the liner.

    Notes
    -----
    n * pi/4 * (2*D**2 - d**2) * S * efficiency: the rod takes its room on one side only.

    Examples
    --------
    >>> round(double_acting_stroke(0.15, 0.05, 0.30, 0.85), 5)
    0.01702
    """
    _require_pump(liner_diameter, stroke_length, efficiency, cylinders)
    if not 0 <= rod_diameter < liner_diameter:
        raise DomainError(
            f"Rod diameter {rod_diameter:.6g} m is outside 0 to the liner diameter "
            f"{liner_diameter:.6g} m; check which is which."
        )
    swept = 2 * liner_diameter**2 - rod_diameter**2
    return cylinders * pi / 4 * swept * stroke_length * efficiency


@formula(
    "stroke-at-efficiency",
    "Volume delivered by a stroke, from the volume at 100 % and the efficiency",
    inputs=[
        Term("full", "volume of a stroke at 100 %", "volume per stroke", "bbl/stroke"),
        EFFICIENCY,
    ],
    outputs=[STROKE_VOLUME],
    source=PUMP_SOURCE,
    range="volume of a stroke 0.0001 to 0.5 m3; efficiency 0.3 to 1",
)
def stroke_at_efficiency(full_stroke: float, efficiency: float) -> float:
    """Return the volume delivered by a stroke of a pump whose full stroke is known.

    Parameters
    ----------
    full_stroke : float
        Volume of a stroke at 100 %, as the pump table gives it, [m^3]
    efficiency : float
        Share of it that is delivered, [-]

    Returns
    -------
    stroke_volume : float
        Volume delivered by a stroke, [m^3]

    Raises
    ------
    DomainError
        If the volume is not from 0.0001 to 0.5 m^3 or the efficiency not from 0.3 to 1.

    Examples
    --------
    >>> round(stroke_at_efficiency(0.016, 0.96), 5)
    0.01536
    """
    _require_stroke_volume(full_stroke)
    _require_efficiency(efficiency)
    return full_stroke * efficiency


@formula(
    "strokes-for-volume",
    "Strokes that pump a volume",
    inputs=[VOLUME, STROKE_VOLUME],
    outputs=[Term("strokes", "strokes of the pump", "strokes", "strokes")],
    source="volume / volume of a stroke; petroleumsupport.com (displacement volume required)",
    range="volume 0 to 10,000 m3; volume of a stroke 0.0001 to 0.5 m3",
)
def strokes_for_volume(volume: float, stroke_volume: float) -> float:
    """Return the number of strokes that pump a volume.

    Parameters
    ----------
    volume : float
        Volume to be pumped, [m^3]
    stroke_volume : float
        Volume delivered by a stroke, efficiency included, [m^3]

    Returns
    -------
    strokes : float
        Strokes, not rounded, [-]

    Raises
    ------
    DomainError
        If the volume is not from 0 to 10,000 m^3 or the stroke not from 0.0001 to 0.5 m^3.

    Examples
    --------
    >>> round(strokes_for_volume(50.0, 0.016), 1)
    3125.0
    """
    require_range("Volume", volume, 0.0, 10_000.0, "m3")
    _require_stroke_volume(stroke_volume)
    return volume / stroke_volume


@formula(
    "time-at-rate",
    "Time to pump a volume at a steady rate",
    inputs=[VOLUME, Term("rate", "pump rate", "flow rate", "bbl/min")],
    outputs=[Term("time", "time to pump the volume", "time", "min")],
    source="volume / rate",
    range="volume 0 to 10,000 m3; rate 0.00001 to 1 m3/s",
)
def time_at_rate(volume: float, rate: float) -> float:
    """Return the time that a volume takes at a steady rate.

    Parameters
    ----------
    volume : float
        Volume to be pumped, [m^3]
    rate : float
        Pump rate, [m^3/s]

    Returns
    -------
    time : float
        Time, [s]

    Raises
    ------
    DomainError
        If the volume is not from 0 to 10,000 m^3 or the rate not from 0.00001 to 1 m^3/s.

    Examples
    --------
    >>> round(time_at_rate(24.0, 0.02), 1)
    1200.0
    """
    require_range("Volume", volume, 0.0, 10_000.0, "m3")
    require_range("Pump rate", rate, 0.000_01, 1.0, "m3/s")
    return volume / rate


@formula(
    "pump-rate",
    "Pump rate from the strokes in a minute",
    inputs=[
        Term("speed", "strokes of the pump in a time", "stroke rate", "strokes/min"),
        STROKE_VOLUME,
    ],
    outputs=[Term("rate", "pump rate", "flow rate", "bbl/min")],
    source="strokes in a minute x volume of a stroke",
    range="speed 0 to 10 strokes/s; volume of a stroke 0.0001 to 0.5 m3",
)
def pump_rate(stroke_rate: float, stroke_volume: float) -> float:
    """Return the rate that a pump delivers at a number of strokes in a time.

    Parameters
    ----------
    stroke_rate : float
        Strokes in a time, [1/s]
    stroke_volume : float
        Volume delivered by a stroke, efficiency included, [m^3]

    Returns
    -------
    rate : float
        Pump rate, [m^3/s]

    Raises
    ------
    DomainError
        If the speed is not from 0 to 10 strokes/s or the stroke not from 0.0001 to 0.5 m^3.

    Examples
    --------
    >>> round(pump_rate(1.25, 0.016), 4)
    0.02
    """
    require_range("Pump speed", stroke_rate, 0.0, 10.0, "strokes/s")
    _require_stroke_volume(stroke_volume)
    return stroke_rate * stroke_volume


def _require_efficiency(efficiency: float) -> None:
    require_range("Efficiency", efficiency, 0.3, 1.0, "")


def _require_stroke_volume(stroke_volume: float) -> None:
    require_range("Volume of a stroke", stroke_volume, 0.0001, 0.5, "m3")


def _require_pump(liner: float, stroke: float, efficiency: float, cylinders: float) -> None:
    require_range("Liner diameter", liner, 0.05, 0.4, "m")
    require_range("Stroke length", stroke, 0.05, 1.0, "m")
    _require_efficiency(efficiency)
    if cylinders not in range(1, 8):
        raise DomainError(f"{cylinders:g} cylinders is not a whole number from 1 to 7.")
