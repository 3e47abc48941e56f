"""Amounts as the tables of the smaller reports have them: digits alone, the unit in the heading."""

from __future__ import annotations

from tally.reports.sheet import Column, number
from tally.units import Measure, UnitSet, to_unit

NOTHING = "-"
FINER = 2
"""Decimals beyond those of the page, so that rows add up to the total that is shown."""


def headed(units: UnitSet, name: str, quantity: str, wide: int = 9) -> Column:
    """Return a column of numbers with the unit of its quantity."""
    return number(f"{name}, {units.unit(quantity)}", wide)


def digits(units: UnitSet, value: float | None, quantity: str) -> str:
    """Return an SI value as a number in the unit shown."""
    return NOTHING if value is None else units.number(value, quantity)


def read_as(units: UnitSet, measure: Measure | None) -> str:
    """Return a measure as a number: as it was typed where that is the unit shown."""
    if measure is None:
        return NOTHING
    typed, _, unit = measure.text.partition(" ")
    plainly = unit == units.unit(measure.quantity) and typed.replace(".", "").isdigit()
    return typed if plainly else units.number(measure.value, measure.quantity)


def finer(units: UnitSet, value: float | None, quantity: str) -> str:
    """Return an SI value with more decimals than the page has, so that a column adds up."""
    if value is None:
        return NOTHING
    shown = units.number(value, quantity)
    decimals = len(shown.partition(".")[2]) + FINER
    text = f"{to_unit(value, units.unit(quantity)):.{decimals}f}"
    return text if text.strip("-0.") else text.lstrip("-")
