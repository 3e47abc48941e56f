"""The ways in which a unit may be spelled: case, plurals, spaces and floor abbreviations."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

from tally.errors import InputError
from tally.units.quantities import QUANTITIES, named
from tally.units.text import shown

_ATOMS = {
    "'": "ft", "feet": "ft", "foot": "ft", "ft.": "ft", '"': "in", "inch": "in", "inches": "in",
    "ins": "in", "in.": "in",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    "barrel": "bbl", "barrels": "bbl", "bbls": "bbl", "gals": "gal", "gallon": "gal",
    "gallons": "gal", "galus": "gal", "cu ft": "ft3", "cuft": "ft3", "litre": "l",
    "litres": "l", "liter": "l", "liters": "l", "cc": "cm3",
    "lbs": "lb", "lbm": "lb", "pound": "lb", "pounds": "lb", "klbs": "klb", "klbm": "klb",
    "tonne": "t", "tonnes": "t", "sack": "sk", "sacks": "sk", "sks": "sk", "sx": "sk",
    "sec": "s", "second": "s", "seconds": "s", "mins": "min", "minute": "min", "minutes": "min",
    "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "day": "d", "days": "d",
    "strokes": "stroke", "stk": "stroke", "stks": "stroke",
    "degree": "deg", "degrees": "deg", "deg f": "degf", "deg c": "degc", "f": "degf", "c": "degc",
    "percent": "%", "mgf": "tf",
}  # fmt: skip


def spelling(unit: str) -> str:
    """Return the key under which a unit is looked up: case, plurals and spaces put aside."""
    folded = re.sub(r" ?/ ?", "/", " ".join(unit.casefold().split())).replace("^", "")
    folded = re.sub(r"(?<=\d) (?=[a-z])", "", folded)
    return "/".join(_atom(part) for part in folded.split("/"))


def _atom(part: str) -> str:
    size, name = re.fullmatch(r"(\d*)(.*)", part, re.DOTALL).groups()  # type: ignore[union-attr]
    return str(size) + _ATOMS.get(name, name)


@lru_cache(maxsize=256)
def _spellings(quantity: str) -> Mapping[str, str]:
    kind = named(quantity)
    usual = {spelling(unit): unit for unit in kind.units}
    return {spelling(typed): unit for typed, unit in kind.also.items()} | usual


def unit_in(quantity: str, typed: str) -> str | None:
    """Return the unit that the typed name means in this quantity, or None."""
    return _spellings(quantity).get(spelling(typed))


@lru_cache(maxsize=1024)
def unit_anywhere(name: str) -> str:
    """Return the unit that a name means when no quantity is given ("lb" is a mass)."""
    for kind in QUANTITIES.values():
        if name in kind.units:
            return name
    found = {unit for kind in QUANTITIES if (unit := unit_in(kind, name)) is not None}
    if len(found) != 1:
        raise InputError(f'"{shown(name)}" is no unit known here.')
    return found.pop()
