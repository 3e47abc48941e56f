"""The items of WITS level 0: what each code means, its unit in both unit sets, its plausible range.

The codes stand in wits_items.csv with their source.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from tally.units import from_unit, to_unit

FIELD, METRIC = "field", "metric"
SETS = (FIELD, METRIC)


@dataclass(frozen=True, slots=True)
class WitsUnit:
    """A unit as the standard writes it: how many of which of our units it is."""

    quantity: str
    unit: str
    times: float = 1.0

    def si(self, number: float) -> float:
        """Return a number of this unit in SI."""
        return from_unit(number * self.times, self.unit)

    def number(self, si: float) -> float:
        """Return an SI value as a number of this unit."""
        return to_unit(si, self.unit) / self.times

    @property
    def words(self) -> str:
        """The unit as it is written: "klbf", "10 kN"."""
        return self.unit if self.times == 1 else f"{self.times:g} {self.unit}"


UNITS: Mapping[str, WitsUnit] = MappingProxyType(
    {
        "M": WitsUnit("length", "m"),
        "F": WitsUnit("length", "ft"),
        "KDN": WitsUnit("force", "kN", 10.0),
        "KLB": WitsUnit("force", "klbf"),
        "KPA": WitsUnit("pressure", "kPa"),
        "PSI": WitsUnit("pressure", "psi"),
        "M3": WitsUnit("volume", "m3"),
        "BBL": WitsUnit("volume", "bbl"),
        "L/M": WitsUnit("flow rate", "l/min"),
        "GPM": WitsUnit("flow rate", "gal/min"),
        "M3/M": WitsUnit("flow rate", "m3/min"),
        "BPM": WitsUnit("flow rate", "bbl/min"),
        "KGM3": WitsUnit("density", "kg/m3"),
        "PPG": WitsUnit("density", "lb/gal"),
        "DEGC": WitsUnit("temperature", "degC"),
        "DEGF": WitsUnit("temperature", "degF"),
        "KNM": WitsUnit("torque", "kN m"),
        "KFLB": WitsUnit("torque", "kft-lbf"),
        "M/S": WitsUnit("velocity", "m/s"),
        "M/HR": WitsUnit("velocity", "m/h"),
        "FPM": WitsUnit("velocity", "ft/min"),
        "F/HR": WitsUnit("velocity", "ft/h"),
        "RPM": WitsUnit("rotary speed", "rpm"),
        "SPM": WitsUnit("stroke rate", "strokes/min"),
        "SEC": WitsUnit("time", "s"),
        "%": WitsUnit("ratio", "%"),
    }
)
"""By the standard's name of the unit; a kilodecanewton is 10 kN."""

RANGES: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "length": (-100.0, 15_000.0),
        "force": (-0.3e6, 15e6),
        "pressure": (-1e6, 250e6),
        "volume": (-1_000.0, 3_000.0),
        "flow rate": (-0.3, 0.5),
        "density": (0.0, 4_000.0),
        "temperature": (200.0, 600.0),
        "torque": (-2e5, 2e5),
        "velocity": (-10.0, 10.0),
        "rotary speed": (-100.0, 100.0),
        "stroke rate": (0.0, 10.0),
        "time": (0.0, 1e6),
        "ratio": (-0.5, 2.5),
        "": (0.0, 999_999.0),
    }
)
"""Within what a reading can be one at all, in SI, by quantity: outside it is a fault of the stream
(house limits, some times over what rigs have; plain counts have no quantity)."""


@dataclass(frozen=True, slots=True)
class Item:
    """One item of the standard."""

    code: str
    meaning: str
    kind: str
    """A for text, S and L for whole numbers, F for a number."""
    metric: str
    field: str

    @property
    def record(self) -> int:
        """The number of the record that it belongs to."""
        return int(self.code[:2])

    @property
    def place(self) -> int:
        """Its place in the record; the first seven are the same in every one."""
        return int(self.code[2:])

    @property
    def name(self) -> str:
        """How a person is told of it: "Hookload (avg), item 0114"."""
        return f"{self.meaning}, item {self.code}"

    def unit(self, units: str) -> WitsUnit | None:
        """Return its unit in a unit set; nothing for counts and text."""
        return UNITS.get(self.metric if units == METRIC else self.field)


@cache
def items() -> Mapping[str, Item]:
    """Return the items by code."""
    text = files(__package__).joinpath("wits_items.csv").read_text("ascii")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    found = (
        Item(row["item"], row["meaning"], row["type"], row["unit_metric"], row["unit_field"])
        for row in rows
    )
    return MappingProxyType({item.code: item for item in found})
