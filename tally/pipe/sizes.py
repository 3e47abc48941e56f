"""The table of casing sizes, read from casing.csv: rows that were found in print, each with its
source."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

from tally.errors import InputError
from tally.units import from_unit, to_unit

OD_TOLERANCE = 0.000_2
"""[m]; sizes lie 9 mm and more apart, and metric lists round them to 0.1 mm."""

WEIGHT_TOLERANCE = 0.15
"""[kg/m]; the closest two weights of a size lie 0.45 kg/m apart."""


@dataclass(frozen=True, slots=True)
class CasingSize:
    """One size and weight of casing, in SI; None where nothing was found in print."""

    outer_diameter: float
    nominal_weight: float
    wall: float
    inner_diameter: float
    drift: float | None
    special_drift: float | None
    coupling_diameter: float | None
    source: str
    note: str


@lru_cache(maxsize=1)
def casing_sizes() -> tuple[CasingSize, ...]:
    """Return the whole table, by outside diameter and then by weight.

    >>> len(casing_sizes()) > 80
    True
    """
    text = (files("tally.pipe") / "casing.csv").read_text("utf-8")
    return tuple(_size(row) for row in csv.DictReader(text.splitlines()))


def find_casing(outer_diameter: float, nominal_weight: float) -> CasingSize:
    """Return the row of the table for a size and a nominal weight.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter of the pipe body, [m]
    nominal_weight : float
        Nominal weight, the name of the pipe rather than its mass, [kg/m]

    Returns
    -------
    size : CasingSize
        Wall, inside diameter, drift and coupling, each as printed, [m]

    Raises
    ------
    InputError
        If the table has no such row; the weights that it has for the size are named.

    Examples
    --------
    >>> size = find_casing(9.625 * 0.0254, 69.944)
    >>> round(size.inner_diameter / 0.0254, 3), round(size.drift / 0.0254, 3)
    (8.681, 8.525)
    """
    of_size = [
        row for row in casing_sizes() if abs(row.outer_diameter - outer_diameter) <= OD_TOLERANCE
    ]
    for row in of_size:
        if abs(row.nominal_weight - nominal_weight) <= WEIGHT_TOLERANCE:
            return row
    raise InputError(_not_found(outer_diameter, nominal_weight, of_size))


def _not_found(outer_diameter: float, weight: float, of_size: list[CasingSize]) -> str:
    size = f"{_inches(outer_diameter)} in casing"
    advice = "Give the inside diameter and the drift of the pipe on location instead."
    if not of_size:
        sizes = dict.fromkeys(_inches(row.outer_diameter) for row in casing_sizes())
        return f"The size table has no {size}, only {', '.join(sizes)} in. {advice}"
    weights = ", ".join(_pounds(row.nominal_weight) for row in of_size)
    return f"The size table has no {size} of {_pounds(weight)} lb/ft, only {weights}. {advice}"


def _inches(metres: float) -> str:
    return f"{to_unit(metres, 'in'):.3f}".rstrip("0").rstrip(".")


def _pounds(kilograms_per_metre: float) -> str:
    return f"{to_unit(kilograms_per_metre, 'lb/ft'):.2f}".rstrip("0").rstrip(".")


def _size(row: dict[str, str]) -> CasingSize:
    return CasingSize(
        outer_diameter=from_unit(float(row["od_in"]), "in"),
        nominal_weight=from_unit(float(row["weight_lbft"]), "lb/ft"),
        wall=from_unit(float(row["wall_in"]), "in"),
        inner_diameter=from_unit(float(row["id_in"]), "in"),
        drift=_metres(row["drift_in"]),
        special_drift=_metres(row["special_drift_in"]),
        coupling_diameter=_metres(row["coupling_od_in"]),
        source=row["source"],
        note=row["note"],
    )


def _metres(inches: str) -> float | None:
    return from_unit(float(inches), "in") if inches else None
