"""Figures with their unit as WITSML spells it: in the units of the book, each version its own."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from tally.job.setup import Setup
from tally.units import Measure, to_unit

DIGITS = 12
"""Significant digits: more than any gauge has, fewer than where floats show their last bits."""


@dataclass(frozen=True, slots=True)
class Amount:
    """A figure in SI with its quantity."""

    value: float
    quantity: str


def amount(measure: Measure | None) -> Amount | None:
    """Return a typed value as an amount; nothing stays nothing."""
    return None if measure is None else Amount(measure.value, measure.quantity)


def worth(value: float | None, quantity: str) -> Amount | None:
    """Return an SI value as an amount; nothing stays nothing."""
    return None if value is None else Amount(value, quantity)


@dataclass(frozen=True, slots=True)
class Units:
    """The units of a book as a version of the standard spells them."""

    setup: Setup
    newer: bool

    def symbol(self, quantity: str) -> str:
        """Return the symbol that figures of a quantity bear."""
        _, older, newer = self._row(quantity)
        return newer if self.newer else older

    def number(self, value: float, quantity: str) -> str:
        """Return an SI value as a number in the unit of that symbol."""
        return format(to_unit(value, self._row(quantity)[0]), f".{DIGITS}g")

    def _row(self, quantity: str) -> tuple[str, str, str]:
        return spelled()[quantity][self._of_book(quantity)]

    def _of_book(self, quantity: str) -> str:
        """Return the unit of the book; lengths are in that of its tally."""
        return self.setup.lengths.unit if quantity == "length" else self.setup.shown.unit(quantity)


@lru_cache(maxsize=1)
def spelled() -> Mapping[str, Mapping[str, tuple[str, str, str]]]:
    """Return the table of units: the one written in, its symbol in 1.4.1.1 and in 2.1."""
    table = tomllib.loads(Path(__file__).with_name("uom.toml").read_text("ascii"))
    return {
        quantity: {unit: (row[0], row[1], row[2]) for unit, row in rows.items()}
        for quantity, rows in table.items()
    }
