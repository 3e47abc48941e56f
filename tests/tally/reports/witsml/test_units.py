"""Figures in the units of a book as each version spells them, held against pint's own definitions.

Ours are definitions of our own; here the default registry of pint reads the symbols as they stand
in the Energistics Unit of Measure Dictionary 1.0.
"""

from __future__ import annotations

from dataclasses import replace
from math import tau

import pint
import pytest

from tally.reports.witsml.uom import Units, spelled
from tally.units import QUANTITIES, from_unit
from tests.tally.reports.witsml.documents import run

PINT = pint.UnitRegistry()
# Symbol: the same for pint. bbl is its oil barrel; its own "barrel" is another one.
SAME = {
    "ft": "foot", "in": "inch", "m": "meter", "mm": "millimeter",
    "bbl": "oil_barrel", "galUS": "gallon", "gal[US]": "gallon",
    "ft3": "foot**3", "m3": "meter**3", "L": "liter",
    "bbl/min": "oil_barrel/minute", "galUS/min": "gallon/minute", "gal[US]/min": "gallon/minute",
    "m3/min": "meter**3/minute", "L/min": "liter/minute",
    "psi": "psi", "kPa": "kilopascal", "bar": "bar", "MPa": "megapascal", "Pa": "pascal",
    "lbf/100ft2": "force_pound/(100*foot**2)", "0.01 lbf/ft2": "0.01*force_pound/foot**2",
    "lbm/galUS": "pound/gallon", "lbm/gal[US]": "pound/gallon", "lbm/ft3": "pound/foot**3",
    "kg/m3": "kilogram/meter**3", "g/cm3": "gram/centimeter**3",
    "ft3/sack94": "foot**3/(94*pound)", "ft3/sack[94lbm]": "foot**3/(94*pound)",
    "galUS/sack94": "gallon/(94*pound)", "gal[US]/sack[94lbm]": "gallon/(94*pound)",
    "m3/t": "meter**3/metric_ton",
    "klbf": "1000*force_pound", "lbf": "force_pound", "kN": "kilonewton", "daN": "decanewton",
    "Mgf": "1000*force_kilogram",
    "ft.lbf": "foot*force_pound", "lbf.ft": "foot*force_pound",
    "kft.lbf": "1000*foot*force_pound", "1000 lbf.ft": "1000*foot*force_pound",
    "N.m": "newton*meter", "kN.m": "kilonewton*meter",
    "lbm/ft": "pound/foot", "kg/m": "kilogram/meter",
    "lbm": "pound", "kg": "kilogram", "t": "metric_ton",
    "cP": "centipoise", "mPa.s": "millipascal*second",
    "h": "hour", "min": "minute", "s": "second", "d": "day",
    "rpm": "revolution/minute",
}  # fmt: skip
TURN = {"rotary speed": tau}
"""Ours counts turns in a second, pint radians."""
SETUP = run().tally.setup
ROWS = [(quantity, unit) for quantity, rows in spelled().items() for unit in rows]


@pytest.mark.parametrize(("quantity", "unit"), ROWS)
@pytest.mark.parametrize("newer", [False, True], ids=["1.4.1.1", "2.1"])
def test_a_figure_is_worth_the_same_in_pint(quantity: str, unit: str, *, newer: bool) -> None:
    lengths = replace(SETUP.lengths, unit=unit) if quantity == "length" else SETUP.lengths
    units = Units(replace(SETUP, lengths=lengths, shown_in={quantity: unit}), newer)
    value = from_unit(3.7, unit)
    symbol, number = units.symbol(quantity), float(units.number(value, quantity))
    by_pint = (number * PINT.parse_expression(SAME[symbol])).to_base_units().magnitude
    assert by_pint == pytest.approx(value * TURN.get(quantity, 1.0), rel=1e-11)


def test_every_unit_of_the_book_has_a_symbol() -> None:
    for quantity, rows in spelled().items():
        assert rows.keys() == QUANTITIES[quantity].units.keys(), quantity


def test_what_is_typed_comes_back_without_a_bit_of_dust() -> None:
    units = Units(SETUP, newer=True)
    assert units.number(12.25 * 0.0254, "diameter") == "12.25"
    assert units.number(4127 * 0.003048, "length") == "41.27"
    assert units.symbol("density") == "lbm/gal[US]"
    assert Units(SETUP, newer=False).symbol("density") == "lbm/galUS"
