"""What a length of plain pipe holds and what it pushes aside."""

from __future__ import annotations

from math import pi

from tally.errors import DomainError
from tally.formula import Term, formula, require_range

INNER_DIAMETER = Term("id", "inside diameter of the pipe body, not the drift", "diameter", "in")
OUTER_DIAMETER = Term("od", "outside diameter of the pipe body", "diameter", "in")
LENGTH = Term("length", "length along the pipe", "length", "ft")
CAPACITY = Term("capacity", "volume held by a unit of length", "volume per length", "bbl/ft")
VOLUME = Term("volume", "volume", "volume", "bbl")

CYLINDER_SOURCE = (
    "pi/4 x diameter squared; Lapeyrouse, Formulas and Calculations for Drilling, Production "
    "and Workover, 2002, as cited by drillingformulas.com (inner capacity)"
)
DISPLACEMENT_SOURCE = "pi/4 x diameter squared; drillingformulas.com (pipe displacement)"
INNER_RANGE = "inside diameter 0.05 to 1 m"
OUTER_RANGE = "outside diameter 0.05 to 1.1 m"
LENGTH_RANGE = "length 0 to 20,000 m"


@formula(
    "capacity",
    "Volume that a pipe holds inside, by length",
    inputs=[INNER_DIAMETER],
    outputs=[CAPACITY],
    source=CYLINDER_SOURCE,
    range=INNER_RANGE,
)
def pipe_capacity(inner_diameter: float) -> float:
    """Return the volume held by one metre of plain pipe body.

    Parameters
    ----------
    inner_diameter : float
        Inside diameter of the pipe body (not the drift), [m]

    Returns
    -------
    capacity : float
        Volume held inside, [m^3/m]

    Raises
    ------
    DomainError
        If the diameter is not a number from 0.05 to 1.0 m (house limit: catches slipped units).

    Notes
    -----
    pi/4 * d**2 [1]_. Couplings and float equipment are not counted. The handbook divisor
    1029.4 (in, bbl/ft) is 4*42*231/(12*pi) rounded, so it is never used here.

    Examples
    --------
    A pipe of 220 mm bore holds some 38 litres in each metre.

    >>> round(pipe_capacity(0.22), 5)
    0.03801

    References
    ----------
    .. [1] Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2002
       (not opened; cited by drillingformulas.com, "inner capacity", where it was read).
    """
    _require_inner(inner_diameter)
    return pi / 4 * inner_diameter**2


@formula(
    "open-end-displacement",
    "Volume of the steel alone, by length: what pipe that fills itself pushes aside",
    inputs=[OUTER_DIAMETER, INNER_DIAMETER],
    outputs=[Term("displacement", "volume pushed aside", "volume per length", "bbl/ft")],
    source=DISPLACEMENT_SOURCE,
    range=f"{OUTER_RANGE}; {INNER_RANGE}; inside less than outside",
)
def open_end_displacement(outer_diameter: float, inner_diameter: float) -> float:
    """Return the volume of steel in one metre of plain pipe body.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter of the pipe body, [m]
    inner_diameter : float
        Inside diameter of the pipe body, [m]

    Returns
    -------
    displacement : float
        Volume pushed aside when the pipe is open or kept full, [m^3/m]

    Raises
    ------
    DomainError
        If a diameter is out of range, or the inside is not less than the outside.

    Notes
    -----
    pi/4 * (D**2 - d**2) [1]_. Couplings are not counted. With a closed float and no filling the
    returns follow `closed_end_displacement` instead; one handbook prints the two the wrong way
    round.

    Examples
    --------
    >>> round(open_end_displacement(0.25, 0.22), 5)
    0.01107

    References
    ----------
    .. [1] drillingformulas.com, "pipe displacement calculation".
    """
    _require_outer(outer_diameter)
    require_wall(outer_diameter, inner_diameter)
    return pi / 4 * (outer_diameter**2 - inner_diameter**2)


@formula(
    "closed-end-displacement",
    "Volume of steel and bore together, by length: what pipe with a closed float pushes aside",
    inputs=[OUTER_DIAMETER],
    outputs=[Term("displacement", "volume pushed aside", "volume per length", "bbl/ft")],
    source=DISPLACEMENT_SOURCE,
    range=OUTER_RANGE,
)
def closed_end_displacement(outer_diameter: float) -> float:
    """Return the volume that one metre of pipe takes up when nothing may enter it.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter of the pipe body, [m]

    Returns
    -------
    displacement : float
        Volume pushed aside by the closed pipe, [m^3/m]

    Raises
    ------
    DomainError
        If the diameter is not a number from 0.05 to 1.1 m.

    Notes
    -----
    pi/4 * D**2. It is the open-end displacement and the inside capacity together. Couplings are
    not counted.

    Examples
    --------
    >>> round(closed_end_displacement(0.25), 5)
    0.04909
    """
    _require_outer(outer_diameter)
    return pi / 4 * outer_diameter**2


@formula(
    "pipe-volume",
    "Volume inside a length of one pipe",
    inputs=[INNER_DIAMETER, LENGTH],
    outputs=[VOLUME],
    source=CYLINDER_SOURCE,
    range=f"{INNER_RANGE}; {LENGTH_RANGE}",
)
def pipe_volume(inner_diameter: float, length: float) -> float:
    """Return the volume inside a length of pipe of one bore.

    Parameters
    ----------
    inner_diameter : float
        Inside diameter of the pipe body, [m]
    length : float
        Length along the pipe, [m]

    Returns
    -------
    volume : float
        Volume held, [m^3]

    Raises
    ------
    DomainError
        If the diameter is not from 0.05 to 1.0 m or the length not from 0 to 20,000 m.

    Examples
    --------
    >>> round(pipe_volume(0.22, 1000.0), 2)
    38.01
    """
    return volume_over_length(pipe_capacity(inner_diameter), length)


@formula(
    "pipe-length-filled",
    "Length of a pipe or a round hole that a volume fills",
    inputs=[INNER_DIAMETER, VOLUME],
    outputs=[Term("length", "length filled", "length", "ft")],
    source=CYLINDER_SOURCE,
    range=f"{INNER_RANGE}; volume 0 to 10,000 m3",
)
def pipe_length_filled(inner_diameter: float, volume: float) -> float:
    """Return how much length of pipe of one bore a volume fills.

    Parameters
    ----------
    inner_diameter : float
        Inside diameter, [m]
    volume : float
        Volume pumped or drained, [m^3]

    Returns
    -------
    length : float
        Length filled, [m]

    Raises
    ------
    DomainError
        If the diameter is not from 0.05 to 1.0 m or the volume not from 0 to 10,000 m^3.

    Examples
    --------
    >>> round(pipe_length_filled(0.22, 1.0), 2)
    26.31
    """
    require_range("Volume", volume, 0.0, 10_000.0, "m3")
    return volume / pipe_capacity(inner_diameter)


@formula(
    "volume-over-length",
    "Volume of a length whose capacity by length is known",
    inputs=[CAPACITY, LENGTH],
    outputs=[VOLUME],
    source="capacity by length x length",
    range=f"capacity 0 to 1.8 m3/m; {LENGTH_RANGE}",
)
def volume_over_length(capacity: float, length: float) -> float:
    """Return the volume of a length of pipe, hole or annulus of known capacity.

    Parameters
    ----------
    capacity : float
        Volume held by a unit of length, [m^3/m]
    length : float
        Length along the hole, not true vertical, [m]

    Returns
    -------
    volume : float
        Volume held, [m^3]

    Raises
    ------
    DomainError
        If the capacity is not from 0 to 1.8 m^3/m or the length not from 0 to 20,000 m.

    Notes
    -----
    A printed capacity of four figures times a length can be a quarter barrel out over a casing
    string; the other formulas here start from the diameters and do not round on the way.

    Examples
    --------
    >>> round(volume_over_length(0.038, 1000.0), 2)
    38.0
    """
    require_range("Capacity", capacity, 0.0, 1.8, "m3/m")
    require_range("Length", length, 0.0, 20_000.0, "m")
    return capacity * length


def _require_inner(inner_diameter: float) -> None:
    require_range("Inside diameter", inner_diameter, 0.05, 1.0, "m")


def _require_outer(outer_diameter: float) -> None:
    require_range("Outside diameter", outer_diameter, 0.05, 1.1, "m")


def require_gap(hole_diameter: float, outer_diameter: float) -> float:
    """Return hole less pipe, [m], or refuse a pipe that does not go into the hole."""
    require_range("Hole diameter", hole_diameter, 0.05, 1.5, "m")
    _require_outer(outer_diameter)
    if outer_diameter >= hole_diameter:
        raise DomainError(
            f"Outside diameter {outer_diameter:.6g} m is not less than the hole diameter "
            f"{hole_diameter:.6g} m; check which is which."
        )
    return hole_diameter - outer_diameter


def require_wall(outer_diameter: float, inner_diameter: float) -> None:
    """Refuse an inside diameter that leaves the pipe no wall."""
    _require_inner(inner_diameter)
    if inner_diameter >= outer_diameter:
        raise DomainError(
            f"Inside diameter {inner_diameter:.6g} m is not less than the outside diameter "
            f"{outer_diameter:.6g} m; check which is which."
        )
