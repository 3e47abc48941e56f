"""Couplings: what they add to displacement and to weight, and the sizes found in print."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from math import pi

from tally.errors import DomainError, InputError
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    LENGTH,
    OUTER_DIAMETER,
    OUTER_RANGE,
    closed_end_displacement,
    open_end_displacement,
)
from tally.pipe.sizes import OD_TOLERANCE
from tally.pipe.weight import MILL_STEEL_DENSITY, plain_end_weight
from tally.units import from_unit, to_unit

COUPLING = Term("coupling", "outside diameter of the coupling", "diameter", "in")
COUPLING_LENGTH = Term("coupling-length", "length of the coupling", "diameter", "in")
COUPLING_RANGE = (
    "coupling not less than the pipe and at most 1.2 m; length of the coupling 0 to 0.6 m"
)
JOINT_RANGE = "length of the joint 0.5 to 20 m"
CYLINDERS = (
    "pi/4 x diameters squared; a coupling takes the room between its own outside and the pipe's"
)


@dataclass(frozen=True, slots=True)
class CouplingSize:
    """A round-thread coupling as found in print, in SI; None where nothing was found."""

    pipe_diameter: float
    diameter: float
    length_short: float | None
    length_long: float | None
    mass_short: float | None
    mass_long: float | None
    source: str


@lru_cache(maxsize=1)
def coupling_sizes() -> tuple[CouplingSize, ...]:
    """Return the table of couplings, by the outside diameter of the pipe.

    >>> len(coupling_sizes())
    7
    """
    text = (files("tally.pipe") / "couplings.csv").read_text("utf-8")
    return tuple(_size(row) for row in csv.DictReader(text.splitlines()))


def find_coupling(outer_diameter: float) -> CouplingSize:
    """Return the round-thread coupling of a pipe size.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter of the pipe body, [m]

    Returns
    -------
    coupling : CouplingSize
        Outside diameter, least lengths [m] and masses [kg] as printed

    Raises
    ------
    InputError
        If no coupling of that size was found in print; it is then typed from the data sheet.

    Examples
    --------
    >>> round(find_coupling(5.5 * 0.0254).diameter / 0.0254, 3)
    6.05
    """
    for size in coupling_sizes():
        if abs(size.pipe_diameter - outer_diameter) <= OD_TOLERANCE:
            return size
    known = ", ".join(f"{to_unit(size.pipe_diameter, 'in'):g}" for size in coupling_sizes())
    raise InputError(
        f"The table has no coupling for {to_unit(outer_diameter, 'in'):g} in casing, only for "
        f"{known} in; type its outside diameter and length from the data sheet."
    )


@formula(
    "coupling-displacement",
    "Volume that a coupling pushes aside beyond the pipe body",
    inputs=[OUTER_DIAMETER, COUPLING, COUPLING_LENGTH],
    outputs=[Term("volume", "volume beyond the pipe body", "volume", "gal")],
    source=CYLINDERS,
    range=f"{OUTER_RANGE}; {COUPLING_RANGE}",
)
def coupling_displacement(
    outer_diameter: float, coupling_diameter: float, coupling_length: float
) -> float:
    """Return what one coupling pushes aside beyond the pipe body.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter of the pipe body, [m]
    coupling_diameter : float
        Outside diameter of the coupling, [m]
    coupling_length : float
        Length of the coupling, [m]

    Returns
    -------
    volume : float
        Volume between the outside of the coupling and that of the pipe, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range, or the coupling is less than the pipe.

    Notes
    -----
    pi/4 * (W**2 - D**2) * NL. Bevels and the gap between the pins are not counted. Flush pipe
    has the coupling as wide as the pipe, or a length of 0.

    Examples
    --------
    >>> round(coupling_displacement(0.25, 0.27, 0.27), 6)
    0.002205
    """
    body = closed_end_displacement(outer_diameter)
    require_range("Coupling diameter", coupling_diameter, 0.05, 1.2, "m")
    require_range("Length of the coupling", coupling_length, 0.0, 0.6, "m")
    if coupling_diameter < outer_diameter:
        raise DomainError(
            f"Coupling diameter {coupling_diameter:.6g} m is less than the outside diameter "
            f"{outer_diameter:.6g} m; check which is which."
        )
    return (pi / 4 * coupling_diameter**2 - body) * coupling_length


@formula(
    "joint-displacement",
    "Volume that a joint with its coupling pushes aside, closed and open end",
    inputs=[OUTER_DIAMETER, INNER_DIAMETER, LENGTH, COUPLING, COUPLING_LENGTH],
    outputs=[
        Term("closed", "pushed aside with a closed float", "volume", "bbl"),
        Term("open", "pushed aside when the pipe is open or kept full", "volume", "bbl"),
        Term("closed-by-length", "closed end, by length with the coupling shared out",
             "volume per length", "bbl/ft"),
        Term("open-by-length", "open end, by length with the coupling shared out",
             "volume per length", "bbl/ft"),
    ],
    source=CYLINDERS,
    range=f"{OUTER_RANGE}; {INNER_RANGE}; {JOINT_RANGE}; {COUPLING_RANGE}, less than the joint",
)  # fmt: skip
def joint_displacement(
    outer_diameter: float,
    inner_diameter: float,
    length: float,
    coupling_diameter: float,
    coupling_length: float,
) -> tuple[float, float, float, float]:
    """Return what a joint pushes aside with its coupling, closed and open end.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter of the pipe body, [m]
    inner_diameter : float
        Inside diameter of the pipe body, [m]
    length : float
        Running length of the joint, its coupling in it, [m]
    coupling_diameter : float
        Outside diameter of the coupling, [m]
    coupling_length : float
        Length of the coupling, [m]

    Returns
    -------
    closed : float
        Volume pushed aside with a closed float, [m^3]
    open : float
        Volume pushed aside by the steel alone, [m^3]
    closed_by_length : float
        Closed end by length, the coupling shared out, [m^3/m]
    open_by_length : float
        Open end by length, the coupling shared out, [m^3/m]

    Raises
    ------
    DomainError
        If a number is out of range, or the parts do not fit into one another.

    Notes
    -----
    Volumes worked out for endless plain pipe leave the couplings out: 1 to 2 % of the closed-end
    displacement and a tenth of the open-end one. The bore is taken as even through the coupling.

    Examples
    --------
    >>> closed, open_end, _, _ = joint_displacement(0.25, 0.22, 12.0, 0.27, 0.27)
    >>> round(closed, 4), round(open_end, 4)
    (0.5913, 0.1351)
    """
    require_range("Length of the joint", length, 0.5, 20.0, "m")
    added = coupling_displacement(outer_diameter, coupling_diameter, coupling_length)
    if coupling_length >= length:
        raise DomainError(
            f"Length of the coupling {coupling_length:.6g} m is not less than the length of the "
            f"joint {length:.6g} m; check which is which."
        )
    steel = open_end_displacement(outer_diameter, inner_diameter) * length + added
    closed = closed_end_displacement(outer_diameter) * length + added
    return closed, steel, closed / length, steel / length


@formula(
    "joint-weight",
    "Weight of a joint with its coupling, in air",
    inputs=[
        OUTER_DIAMETER,
        Term("wall", "wall thickness", "diameter", "in"),
        LENGTH,
        Term("gain", "weight gained at both ends: coupling added, metal cut off", "mass", "lb"),
        Term("steel", "density of the steel", "density", "lb/gal", "7850 kg/m3"),
    ],
    outputs=[
        Term("mass", "weight of the joint", "mass", "lb"),
        Term("weight", "weight by length, the coupling shared out", "mass per length", "lb/ft"),
    ],
    source="plain-end weight x length + gain at the ends (form of API Specification 5CT, from "
    "memory; gains are printed in its tables of masses)",
    range=f"{OUTER_RANGE}; wall 0.003 to 0.1 m; {JOINT_RANGE}; gain 0 to 500 kg",
)
def joint_weight(
    outer_diameter: float,
    wall: float,
    length: float,
    gain: float,
    steel_density: float = MILL_STEEL_DENSITY,
) -> tuple[float, float]:
    """Return the weight of a joint with its coupling, and that weight by length.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter of the pipe body, [m]
    wall : float
        Wall thickness, [m]
    length : float
        Length of the joint with its coupling, [m]
    gain : float
        Mass gained at both ends by end finish: coupling added less metal cut off, [kg]
    steel_density : float
        Density of the steel, [kg/m^3]

    Returns
    -------
    mass : float
        Mass of the joint, [kg]
    weight : float
        Mass by length, the coupling shared out, [kg/m]

    Raises
    ------
    DomainError
        If a number is out of range, or the wall leaves no bore.

    Notes
    -----
    w * L + em. The gain is printed beside each thread in the tables of masses and is less than
    the mass of the coupling, because threads are cut and the coupling stands in the length.

    Examples
    --------
    >>> [round(value, 2) for value in joint_weight(0.25, 0.015, 12.0, 20.0)]
    [1063.18, 88.6]
    """
    require_range("Length of the joint", length, 0.5, 20.0, "m")
    require_range("Gain at the ends", gain, 0.0, 500.0, "kg")
    mass = plain_end_weight(outer_diameter, wall, steel_density) * length + gain
    return mass, mass / length


def _size(row: dict[str, str]) -> CouplingSize:
    return CouplingSize(
        pipe_diameter=from_unit(float(row["pipe_od_in"]), "in"),
        diameter=from_unit(float(row["coupling_od_in"]), "in"),
        length_short=_si(row["length_short_in"], "in"),
        length_long=_si(row["length_long_in"], "in"),
        mass_short=_si(row["mass_short_lb"], "lb"),
        mass_long=_si(row["mass_long_lb"], "lb"),
        source=row["source"],
    )


def _si(text: str, unit: str) -> float | None:
    return from_unit(float(text), unit) if text else None
