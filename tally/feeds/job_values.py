"""What a value of a job file is: a text that is read and held to its kind, quantity and limits.

Every number is a text with its unit ("8260 ft"), read by the grammar of tally.units. This module
is imported where a job file is read and nowhere else, so that pydantic costs nothing at a start.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator
from pydantic_core import PydanticCustomError

from tally.errors import InputError
from tally.feeds.item_numbers import item_number
from tally.feeds.short_forms import read_joints
from tally.fluids.material_rows import KINDS, ORIGINS, WATER_PER
from tally.job.setup import (
    CENTRALIZER_KINDS,
    EXCESS_ON,
    FILL_SOURCES,
    FLUID_KINDS,
    ITEM_KINDS,
    ROLES,
    SHARE_OF,
    WAITING_NEEDS,
    ZONE_FLUIDS,
)
from tally.pipe.length_range import LENGTH_RANGES
from tally.units import Measure, clean, read, shown

LONGEST_NAME = 60


def told(sentence: str) -> PydanticCustomError:
    """Return an error that pydantic gathers with the others and that says one sentence."""
    return PydanticCustomError("told", "{sentence}", {"sentence": sentence})


def _asking(reader: Callable[[str], Any]) -> Callable[[Any], Any]:
    """Return a reader of text whose refusal pydantic gathers."""

    def look(text: Any) -> Any:
        if not isinstance(text, str):
            return text
        try:
            return reader(text)
        except InputError as fault:
            raise told(str(fault)) from None

    return look


def _measure(quantity: str, most: str = "", bare: str | None = None) -> BeforeValidator:
    """Return a reader of one quantity with its unit, above nothing and up to `most` if named.

    `bare` is the unit of a number that names none, where one may be left out.
    """

    def look(text: str) -> Measure:
        measure = read(text, quantity, bare)
        if most and measure.value > read(most, quantity).value:
            raise InputError(f"{measure.text} is more than {most}; look at the number.")
        return measure

    return BeforeValidator(_asking(look))


def _tally_length(text: str) -> str:
    """Return a length as typed; it may leave out its unit, which is then the tally unit."""
    read(text, "length", "ft")
    return clean(text)


def _named(text: str) -> str:
    name = clean(text, LONGEST_NAME)
    if not name:
        raise InputError("is empty; type it.")
    return name


def one_of(names: tuple[str, ...], what: str) -> Callable[[str], str]:
    """Return a reader that takes one of these words only."""

    def look(text: str) -> str:
        if text not in names:
            raise InputError(f'"{shown(text)}" is no {what}: use one of {", ".join(names)}.')
        return text

    return look


def _between(least: int, most: int) -> Callable[[int], int]:
    def look(number: int) -> int:
        if not least <= number <= most:
            raise told(f"{number} is not taken: type a whole number from {least} to {most}.")
        return number

    return look


def _at_least(least: str, quantity: str) -> Callable[[Measure], Measure]:
    def look(measure: Measure) -> Measure:
        if measure.value < read(least, quantity).value:
            raise told(f"{measure.text} is less than {least}; look at the number.")
        return measure

    return look


@dataclass(frozen=True, slots=True)
class Means:
    """What a form has to know of a field beside how it is read."""

    quantity: str = ""
    """What is measured; a bare number may then be typed where the unit is shown."""
    choices: tuple[str, ...] = ()
    tally: bool = False
    """Whether a bare number is in the tally unit."""


TALLY_UNITS = ("ft", "m", "mm")
MEASURED_AS = ("running", "overall")
FEWEST_PLUGS, MOST_PLUGS = 0, 2

Text = Annotated[str, AfterValidator(_asking(clean))]
Name = Annotated[str, AfterValidator(_asking(_named))]
Number = Annotated[str, AfterValidator(_asking(item_number))]
Kind = Annotated[
    str,
    AfterValidator(_asking(one_of(ITEM_KINDS, "kind of item"))),
    Means(choices=tuple(kind for kind in ITEM_KINDS if kind != "joint")),
]
OWN_KINDS = tuple(kind for kind in KINDS if kind not in ("salt", "water"))
"""A salt has a table of its volume by its strength, which a row does not hold."""
MaterialKind = Annotated[
    str,
    AfterValidator(_asking(one_of(OWN_KINDS, "kind of material"))),
    Means(choices=OWN_KINDS),
]
MaterialOrigin = Annotated[
    str, AfterValidator(_asking(one_of(ORIGINS, "origin of a value"))), Means(choices=ORIGINS)
]
WaterPer = Annotated[
    str,
    AfterValidator(_asking(one_of(("", *WATER_PER), "base of the water"))),
    Means(choices=("", *WATER_PER)),
]
Role = Annotated[str, AfterValidator(_asking(one_of(ROLES, "role"))), Means(choices=ROLES)]
Source = Annotated[
    str,
    AfterValidator(_asking(one_of(FILL_SOURCES, "source of fill"))),
    Means(choices=FILL_SOURCES),
]
TallyUnit = Annotated[
    str, AfterValidator(_asking(one_of(TALLY_UNITS, "tally unit"))), Means(choices=TALLY_UNITS)
]
Measured = Annotated[
    str, AfterValidator(_asking(one_of(MEASURED_AS, "kind of length"))), Means(choices=MEASURED_AS)
]
FluidKind = Annotated[
    str, AfterValidator(_asking(one_of(FLUID_KINDS, "kind of fluid"))), Means(choices=FLUID_KINDS)
]
ZoneFluid = Annotated[
    str,
    AfterValidator(_asking(one_of(("", *ZONE_FLUIDS), "fluid of a zone"))),
    Means(choices=ZONE_FLUIDS),
]
CentralizerSort = Annotated[
    str,
    AfterValidator(_asking(one_of(CENTRALIZER_KINDS, "kind of centralizer"))),
    Means(choices=CENTRALIZER_KINDS),
]
ShareOf = Annotated[
    str, AfterValidator(_asking(one_of(SHARE_OF, "base of a share"))), Means(choices=SHARE_OF)
]
WaitingNeed = Annotated[
    str,
    AfterValidator(_asking(one_of(WAITING_NEEDS, "need of a waiting rule"))),
    Means(choices=WAITING_NEEDS),
]
ExcessOn = Annotated[
    str,
    AfterValidator(_asking(one_of(("", *EXCESS_ON), "base of an excess"))),
    Means(choices=EXCESS_ON),
]
Joints = Annotated[tuple[int, ...], BeforeValidator(_asking(read_joints))]
Range = Annotated[int, AfterValidator(_between(min(LENGTH_RANGES), max(LENGTH_RANGES)))]
Plugs = Annotated[int, AfterValidator(_between(FEWEST_PLUGS, MOST_PLUGS))]
Every = Annotated[int, AfterValidator(_between(1, 100))]
Count = Annotated[int, AfterValidator(_between(1, 20))]
TallyLength = Annotated[str, AfterValidator(_asking(_tally_length)), Means(tally=True)]
Length = Annotated[Measure, _measure("length"), Means("length")]
Diameter = Annotated[Measure, _measure("diameter"), Means("diameter")]
Inclination = Annotated[Measure, _measure("angle", "180 deg"), Means("angle")]
Azimuth = Annotated[Measure, _measure("angle", "360 deg"), Means("angle")]
Density = Annotated[Measure, _measure("density"), Means("density")]
Volume = Annotated[Measure, _measure("volume"), Means("volume")]
Pressure = Annotated[Measure, _measure("pressure"), Means("pressure")]
FlowRate = Annotated[Measure, _measure("flow rate"), Means("flow rate")]
Share = Annotated[Measure, _measure("ratio", "100 %", "%"), Means("ratio")]
Excess = Annotated[Measure, _measure("ratio", "400 %", "%"), Means("ratio")]
StrokeVolume = Annotated[Measure, _measure("volume per stroke"), Means("volume per stroke")]
Weight = Annotated[Measure, _measure("mass per length"), Means("mass per length")]
Viscosity = Annotated[Measure, _measure("viscosity"), Means("viscosity")]
YieldPoint = Annotated[Measure, _measure("yield point"), Means("yield point")]
Force = Annotated[Measure, _measure("force"), Means("force")]
Torque = Annotated[Measure, _measure("torque"), Means("torque")]
Time = Annotated[Measure, _measure("time"), Means("time")]
Temperature = Annotated[Measure, _measure("temperature"), Means("temperature")]
Mass = Annotated[Measure, _measure("mass"), Means("mass")]
SlurryYield = Annotated[Measure, _measure("slurry yield"), Means("slurry yield")]
Compressibility = Annotated[Measure, _measure("compressibility"), Means("compressibility")]
MixWater = Annotated[Measure, _measure("mix water"), Means("mix water")]
Turns = Annotated[Measure, _measure("rotary speed"), Means("rotary speed")]
Degrees = Annotated[Measure, _measure("number", "2000"), Means("number")]
Friction = Annotated[Measure, _measure("number", "1"), Means("number")]
DesignFactor = Annotated[
    Measure,
    _measure("number", "5"),
    AfterValidator(_at_least("1", "number")),
    Means("number"),
]
Interval = Annotated[int, AfterValidator(_between(1, 200))]
