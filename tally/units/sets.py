"""Unit sets: which unit each quantity is shown in, and with how many decimals."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import isfinite
from types import MappingProxyType

from tally.errors import InputError
from tally.units.factors import step_size, to_unit
from tally.units.quantities import DIFFERENCE, QUANTITIES, named
from tally.units.spellings import unit_in
from tally.units.text import shown as quoted

NO_FIGURE = "--"
# A few last bits up, so that 244.475 mm, which no float holds, is shown as 244.48.
_HALVES_UP = 1 + 1e-15


@dataclass(frozen=True, slots=True)
class Shown:
    """How a quantity is shown: its unit and its decimals."""

    unit: str
    digits: int


@dataclass(frozen=True, slots=True)
class UnitSet:
    """One unit for each quantity; "volume difference" is shown like a volume, with its sign."""

    name: str
    shown: Mapping[str, Shown] = field(hash=False)

    def number(self, value: float, quantity: str) -> str:
        """Return an SI value as a number alone: "8,240.00" ("--" for what is no number).

        >>> FIELD.number(0.3048 * 8240, "length"), METRIC.number(-0.02, "volume difference")
        ('8,240.00', '-0.02')
        """
        how, sign = _how(self, quantity)
        if not isfinite(value):
            return NO_FIGURE
        number = value / step_size(how.unit) if sign else to_unit(value, how.unit)
        text = format(number * _HALVES_UP, f"{sign},.{how.digits}f")
        return text if text.strip("+-0.,") else text.lstrip("+-")

    def show(self, value: float, quantity: str) -> str:
        """Return an SI value with its unit: "84.2 bbl"."""
        number, unit = self.number(value, quantity), self.unit(quantity)
        return f"{number} {unit}" if unit else number

    def unit(self, quantity: str) -> str:
        """Return the unit in which the quantity is shown."""
        return _how(self, quantity)[0].unit

    def with_units(self, units: Mapping[str, str]) -> UnitSet:
        """Return the set with single quantities switched: `{"pressure": "bar"}`."""
        switched = {quantity: _shown(quantity, unit) for quantity, unit in units.items()}
        return UnitSet(self.name, MappingProxyType({**self.shown, **switched}))


def _how(units: UnitSet, quantity: str) -> tuple[Shown, str]:
    """Return how to show it and the sign option of its format."""
    how = units.shown.get(quantity)
    if how is not None:
        return how, ""
    how = units.shown.get(quantity.removesuffix(DIFFERENCE))
    if how is None:
        raise InputError(f'There is no quantity named "{quoted(quantity)}".')
    return how, "+"


def _shown(quantity: str, unit: str) -> Shown:
    kind, found = named(quantity), unit_in(quantity, unit)
    if found is None:
        raise InputError(
            f'"{quoted(unit)}" is no unit of {quantity}: use {kind.units_in_words or "none"}.'
        )
    return Shown(found, kind.units[found])


_FIELD = {"specific volume": "gal/lb", "mix water": "gal/sk"}
_METRIC = {
    "length": "m", "diameter": "mm", "area": "cm2", "volume": "m3", "volume per length": "l/m",
    "length per volume": "m/m3", "volume per stroke": "l/stroke", "density": "kg/m3",
    "concentration": "kg/m3", "mass per length": "kg/m", "mass": "kg", "force": "kN",
    "force per length": "N/m", "pressure": "kPa", "pressure gradient": "kPa/m",
    "flow rate": "m3/min", "velocity": "m/min", "angle per length": "deg/30m",
    "temperature": "degC", "temperature gradient": "degC/100m", "torque": "N m",
    "slurry yield": "m3/t", "mix water": "m3/t", "specific volume": "l/kg",
    "volume per sack": "l", "compressibility": "%/100bar",
    "viscosity": "mPa s", "yield point": "Pa",
}  # fmt: skip


def _full(name: str, units: Mapping[str, str]) -> UnitSet:
    first = {kind.name: next(iter(kind.units)) for kind in QUANTITIES.values() if kind.units}
    chosen = {**first, **units}
    return UnitSet(
        name,
        MappingProxyType({quantity: _shown(quantity, unit) for quantity, unit in chosen.items()}),
    )


FIELD = _full("field", _FIELD)
METRIC = _full("metric", _METRIC)


def unit_set(name: str) -> UnitSet:
    """Return the unit set of that name.

    >>> unit_set("metric").unit("density")
    'kg/m3'
    """
    for units in (FIELD, METRIC):
        if units.name == name:
            return units
    raise InputError(f'"{quoted(name)}" is no unit set: use field or metric.')
