"""The quantities of the floor and the units that each may be typed in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from types import MappingProxyType

from tally.errors import InputError
from tally.units.text import shown

DIFFERENCE = " difference"
_NO_ARTICLE = ("strokes", "mix water")


@dataclass(frozen=True, slots=True)
class Quantity:
    """What kind of number it is; `units` gives the decimals shown in each unit."""

    name: str
    units: Mapping[str, int]
    example: str
    also: Mapping[str, str] = field(default_factory=dict)
    signed: bool = False
    whole: bool = False
    parts: tuple[str, ...] = ()

    @property
    def in_words(self) -> str:
        """The quantity in a sentence: "a length", "an area", "strokes"."""
        if self.name.startswith(_NO_ARTICLE) and not self.name.endswith(DIFFERENCE):
            return self.name
        return f"{'an' if self.name[0] in 'aeiou' else 'a'} {self.name}"

    @property
    def units_in_words(self) -> str:
        """The units as a person reads them: "ft, in or m"."""
        names = [unit for unit in self.units if unit]
        return " or ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


_WEIGHTS = {"lb": "lbf", "klb": "klbf", "kip": "klbf", "kips": "klbf", "kg": "kgf", "t": "tf"}
_TORQUES = {
    "ft lbf": "ft-lbf", "ft.lbf": "ft-lbf", "lbf.ft": "ft-lbf", "lbf-ft": "ft-lbf",
    "lbf ft": "ft-lbf", "ft-lb": "ft-lbf", "ft lb": "ft-lbf", "ft-lbs": "ft-lbf",
    "ft lbs": "ft-lbf", "ft.lb": "ft-lbf", "lb-ft": "ft-lbf", "lb ft": "ft-lbf",
    "kft.lbf": "kft-lbf", "kft lbf": "kft-lbf", "kft-lb": "kft-lbf", "kft lb": "kft-lbf",
    "nm": "N m", "n.m": "N m", "n-m": "N m", "n*m": "N m",
    "knm": "kN m", "kn.m": "kN m", "kn-m": "kN m", "kn*m": "kN m",
}  # fmt: skip
_VOLUMES_PER_MASS = {
    "ft3/sk": 2, "gal/sk": 2, "l/sk": 1, "gal/lb": 4,
    "m3/t": 3, "l/t": 0, "l/kg": 4, "m3/kg": 6,
}  # fmt: skip

_VOLUMES_PER_SACK = {
    "ft3/sk": "ft3", "gal/sk": "gal", "l/sk": "l", "bbl/sk": "bbl", "m3/sk": "m3",
}  # fmt: skip

_ALL = (
    Quantity(
        "length", {"ft": 2, "in": 3, "m": 2, "cm": 1, "mm": 0}, "41.35 ft", parts=("ft", "in")
    ),
    Quantity(
        "diameter", {"in": 3, "mm": 2, "cm": 2, "m": 4, "ft": 3}, "9-5/8 in", parts=("ft", "in")
    ),
    Quantity("area", {"in2": 3, "ft2": 3, "m2": 5, "cm2": 2, "mm2": 0}, "15.55 in2"),
    Quantity("volume", {"bbl": 1, "gal": 0, "ft3": 1, "m3": 2, "l": 0, "in3": 1}, "84.2 bbl"),
    Quantity(
        "volume per length",
        {"bbl/ft": 5, "bbl/100ft": 3, "gal/ft": 4, "ft3/ft": 4, "l/m": 2, "m3/m": 5},
        "0.0732 bbl/ft",
    ),
    Quantity(
        "length per volume",
        {"ft/bbl": 2, "ft/gal": 4, "ft/ft3": 4, "m/m3": 2, "m/l": 4},
        "13.66 ft/bbl",
    ),
    Quantity(
        "volume per stroke",
        {"bbl/stroke": 4, "gal/stroke": 3, "ft3/stroke": 4, "l/stroke": 2, "m3/stroke": 5},
        "0.1005 bbl/stroke",
    ),
    Quantity(
        "density",
        {"lb/gal": 1, "lb/ft3": 1, "kg/m3": 0, "sg": 2, "g/cm3": 2, "kg/l": 2},
        "10.2 lb/gal",
        also={"ppg": "lb/gal", "pcf": "lb/ft3", "s.g.": "sg", "g/cc": "g/cm3"},
    ),
    Quantity("concentration", {"lb/bbl": 2, "kg/m3": 1, "lb/gal": 3}, "15 lb/bbl"),
    Quantity(
        "mass per length",
        {"lb/ft": 2, "kg/m": 2},
        "47 lb/ft",
        also={"ppf": "lb/ft", "#/ft": "lb/ft", "#": "lb/ft"},
    ),
    Quantity("mass", {"lb": 0, "klb": 1, "kg": 0, "t": 2, "g": 1, "sk": 0}, "4520 lb"),
    Quantity(
        "force",
        {"klbf": 0, "lbf": 0, "kN": 0, "daN": 0, "N": 0, "tf": 1, "kgf": 0},
        "245 klbf",
        also=_WEIGHTS,
    ),
    Quantity(
        "force per length",
        {"lbf/ft": 2, "N/m": 0, "daN/m": 1, "kN/m": 3},
        "38.5 lbf/ft",
        also={"lb/ft": "lbf/ft"},
    ),
    Quantity(
        "pressure",
        {"psi": 0, "kPa": 0, "bar": 1, "MPa": 2, "Pa": 0, "ksi": 1, "GPa": 1},
        "1240 psi",
    ),
    Quantity(
        "pressure gradient",
        {"psi/ft": 3, "psi/100ft": 1, "kPa/m": 2, "bar/m": 4, "bar/10m": 3, "Pa/m": 0},
        "0.53 psi/ft",
    ),
    Quantity(
        "flow rate",
        {
            "bbl/min": 1, "gal/min": 0, "ft3/min": 1, "bbl/h": 0, "m3/min": 2, "l/min": 0,
            "l/s": 1, "m3/h": 1, "m3/s": 4,
        },
        "6.5 bbl/min",
        also={"bpm": "bbl/min", "gpm": "gal/min", "lpm": "l/min"},
    ),
    Quantity(
        "velocity",
        {"ft/min": 0, "ft/s": 2, "ft/h": 0, "m/min": 1, "m/s": 2, "m/h": 0},
        "90 ft/min",
        also={"fpm": "ft/min"},
    ),
    Quantity(
        "time", {"min": 0, "s": 0, "h": 1, "d": 1}, "2 h 34 min", parts=("d", "h", "min", "s")
    ),
    Quantity("lowering time", {"s": 0, "min": 1}, "32 s", parts=("min", "s")),
    Quantity("angle", {"deg": 2, "rad": 4}, "30.25 deg"),
    Quantity(
        "angle per length",
        {"deg/100ft": 2, "deg/30m": 2, "deg/10m": 2, "rad/m": 6},
        "1.5 deg/100ft",
    ),
    Quantity("temperature", {"degF": 0, "degC": 1, "K": 1}, "120 degF", signed=True),
    Quantity("temperature gradient", {"degF/100ft": 2, "degC/100m": 2, "K/m": 4}, "1.6 degF/100ft"),
    Quantity(
        "torque",
        {"ft-lbf": 0, "kft-lbf": 1, "N m": 0, "kN m": 1},
        "8500 ft-lbf",
        also=_TORQUES,
    ),
    Quantity("strokes", {"strokes": 0}, "384"),
    Quantity(
        "stroke rate",
        {"strokes/min": 0, "strokes/s": 2},
        "60 strokes/min",
        also={"spm": "strokes/min"},
    ),
    Quantity("ratio", {"%": 1, "": 3}, "96 %"),
    Quantity("count", {"": 0}, "12", whole=True),
    Quantity("number", {"": 3}, "1.125"),
    Quantity("slurry yield", _VOLUMES_PER_MASS, "1.18 ft3/sk"),
    Quantity("mix water", _VOLUMES_PER_MASS, "5.2 gal/sk"),
    Quantity("specific volume", _VOLUMES_PER_MASS, "0.0382 gal/lb"),
    Quantity(
        "volume per sack",
        {"ft3": 3, "gal": 3, "l": 2, "bbl": 4, "m3": 4},
        "1.15 ft3",
        also=_VOLUMES_PER_SACK,
    ),
    Quantity(
        "compressibility", {"%/1000psi": 3, "%/100bar": 3}, "0.3 %/1000psi"
    ),
    Quantity(
        "viscosity",
        {"cP": 0, "mPa s": 0, "Pa s": 3},
        "18 cP",
        also={"mpa.s": "mPa s", "pa.s": "Pa s"},
    ),
    Quantity(
        "yield point",
        {"lbf/100ft2": 0, "Pa": 1},
        "12 lbf/100ft2",
        also={"lb/100ft2": "lbf/100ft2"},
    ),
    Quantity("rotary speed", {"rpm": 0, "rev/s": 2}, "20 rpm"),
    Quantity("shear rate", {"1/s": 0}, "511 1/s"),
    Quantity("text", {}, "a word"),
)  # fmt: skip
QUANTITIES: Mapping[str, Quantity] = MappingProxyType({each.name: each for each in _ALL})


@lru_cache(maxsize=1024)
def named(name: str) -> Quantity:
    """Return the quantity; "volume difference" is a volume that may carry a sign."""
    if name in QUANTITIES:
        return QUANTITIES[name]
    base = QUANTITIES.get(name.removesuffix(DIFFERENCE))
    if base is None:
        raise InputError(f'There is no quantity named "{shown(name)}".')
    return Quantity(
        name, base.units, base.example, base.also, signed=True, whole=base.whole, parts=base.parts
    )


def known_units(quantity: str) -> tuple[str, ...]:
    """Return the units of a quantity by name, the most usual first.

    >>> known_units("volume per length")
    ('bbl/ft', 'bbl/100ft', 'gal/ft', 'ft3/ft', 'l/m', 'm3/m')
    """
    return tuple(named(quantity).units)
