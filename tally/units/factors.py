"""Exact factors to SI, taken from pint through our own definitions.

Those of the units in which figures are usually shown also stand in a file, taken from pint
beforehand, so that a book opens without waiting for it.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from math import isfinite
from typing import Any

from tally.units.spellings import unit_anywhere

_SPECIAL = {
    "": "dimensionless",
    "%": "percent",
    "strokes": "stroke",
    "strokes/min": "stroke/min",
    "strokes/s": "stroke/s",
    "%/1000psi": "percent/(1000*psi)",
    "%/100bar": "percent/(100*bar)",
    "degF/100ft": "degF_step/(100*ft)",
    "degC/100m": "degC_step/(100*m)",
}
_WITH_A_ZERO = frozenset({"degC", "degF"})


@lru_cache(maxsize=1)
def _registry() -> Any:
    from pathlib import Path

    from pint import UnitRegistry

    lines = Path(__file__).with_name("units.txt").read_text("ascii").splitlines()
    return UnitRegistry(lines, non_int_type=Fraction)


def _expression(unit: str) -> str:
    """Return the unit as pint writes it: "bbl/100ft" is bbl/(100*ft)."""
    products = unit.replace(" ", "*").replace("-", "*")
    return _SPECIAL.get(unit, re.sub(r"/(\d+)([A-Za-z]\w*)", r"/(\1*\2)", products))


@lru_cache(maxsize=512)
def scale_and_zero(unit: str) -> tuple[Fraction, Fraction]:
    """Return the SI size of one step of the unit and the SI value of its zero, both exact."""
    name = unit_anywhere(unit)
    return at_hand().get(name) or by_pint(name)


@lru_cache(maxsize=1)
def at_hand() -> dict[str, tuple[Fraction, Fraction]]:
    """Return the units whose size and zero stand in the file."""
    from pathlib import Path

    lines = Path(__file__).with_name("at_hand.txt").read_text("ascii").splitlines()
    parted = (line.rsplit(" ", 2) for line in lines if not line.startswith("#"))
    return {unit: (Fraction(scale), Fraction(zero)) for unit, scale, zero in parted}


def by_pint(name: str) -> tuple[Fraction, Fraction]:
    """Return size and zero of a unit as pint works them out."""
    registry = _registry()
    if name not in _WITH_A_ZERO:
        return Fraction(registry.parse_expression(_expression(name)).to_base_units().m), Fraction(0)
    zero, one = (Fraction(registry.Quantity(Fraction(n), name).to_base_units().m) for n in (0, 1))
    return one - zero, zero


@lru_cache(maxsize=512)
def _floats(unit: str) -> tuple[float, float]:
    scale, zero = scale_and_zero(unit)
    return float(scale), float(zero)


def factor(unit: str) -> Fraction:
    """Return how much SI one step of the unit is, exactly.

    >>> factor("bbl"), float(factor("bbl"))
    (Fraction(9936705933, 62500000000), 0.158987294928)
    """
    return scale_and_zero(unit)[0]


def step_size(unit: str) -> float:
    """Return the factor of the unit as a float, for differences and for speed."""
    return _floats(unit)[0]


def to_unit(value_si: float, unit: str) -> float:
    """Return an SI value in the unit.

    >>> round(to_unit(1222.2516, "lb/gal"), 3)
    10.2
    """
    scale, zero = _floats(unit)
    if zero and isfinite(value_si):
        exact, start = scale_and_zero(unit)
        return float((Fraction(value_si) - start) / exact)
    return value_si / scale


def from_unit(number: float, unit: str) -> float:
    """Return the SI value of a number in the unit.

    >>> from_unit(212, "degF")
    373.15
    """
    scale, zero = _floats(unit)
    if zero and isfinite(number):
        exact, start = scale_and_zero(unit)
        return float(Fraction(number) * exact + start)
    return number * scale
