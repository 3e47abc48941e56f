"""The tables of a job file as pydantic models: strict, and nothing in them that is not known.

Every number is a text with its unit ("8260 ft"), read by the grammar of tally.units. This module
is imported where a job file is read and nowhere else, so that pydantic costs nothing at a start.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field
from pydantic_core import PydanticCustomError

from tally.errors import InputError
from tally.feeds.item_numbers import item_number
from tally.feeds.short_forms import read_joints
from tally.job.setup import (
    CENTRALIZER_KINDS,
    EXCESS_ON,
    FILL_SOURCES,
    FLUID_KINDS,
    ITEM_KINDS,
    MUD,
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


def _measure(quantity: str, most: str = "") -> BeforeValidator:
    """Return a reader of one quantity with its unit, above nothing and up to `most` if named."""

    def look(text: str) -> Measure:
        measure = read(text, quantity)
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
Share = Annotated[Measure, _measure("ratio", "100 %"), Means("ratio")]
Excess = Annotated[Measure, _measure("ratio", "400 %"), Means("ratio")]
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


class Table(BaseModel):
    """A table of the file."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)


class WellTable(Table):
    """[well]"""

    name: Name
    string: Name
    rig: Text = ""
    operator: Text = ""
    location: Text = ""
    datum: Name = "rotary table"
    datum_elevation: Length | None = None


class HoleTable(Table):
    """[hole]"""

    diameter: Diameter
    depth: Length
    casing_point: Length


class HoleSectionTable(Table):
    """[[hole_section]]"""

    top: Length
    bottom: Length
    diameter: Diameter
    excess: Excess | None = None
    caliper: Diameter | None = None


class PreviousTable(Table):
    """[previous_casing]"""

    name: Name
    shoe: Length
    inner_diameter: Diameter
    top: Length | None = None
    weak_at: Density | None = None


class OtherCasingTable(PreviousTable):
    """[[other_casing]]"""


class ZoneTable(Table):
    """[[zone]]"""

    name: Name
    top: Length
    bottom: Length
    weak_at: Density | None = None
    fluid: ZoneFluid = ""
    pore: Density | None = None


class SurveyTable(Table):
    """[[survey]]"""

    measured_depth: Length
    inclination: Inclination
    azimuth: Azimuth


class TallyTable(Table):
    """[tally]"""

    unit: TallyUnit
    lengths: Measured = "running"
    make_up_loss: TallyLength = ""
    stick_up: TallyLength = ""


class PipeTable(Table):
    """[[pipe]]"""

    name: Name
    outer_diameter: Diameter
    inner_diameter: Diameter | None = None
    weight: Weight
    grade: Text = ""
    connection: Text = ""
    length_range: Range | None = Field(default=None, alias="range")
    shortest: Length | None = None
    longest: Length | None = None
    collapse_rating: Pressure | None = None
    connection_strength: Force | None = None
    torque_minimum: Torque | None = None
    torque_optimum: Torque | None = None
    torque_maximum: Torque | None = None


class MudTable(Table):
    """[mud]"""

    weight: Density
    plastic_viscosity: Viscosity | None = None
    yield_point: YieldPoint | None = None
    conditioning_rate: FlowRate | None = None
    gel_strength: YieldPoint | None = None


class PumpTable(Table):
    """[pump]"""

    volume_per_stroke: StrokeVolume | None = None
    efficiency: Share | None = None
    rate: FlowRate | None = None
    relief: Pressure | None = None


class HeadTable(Table):
    """[head]"""

    volume: Volume
    rating: Pressure | None = None


class ProgrammeTable(Table):
    """[programme]"""

    bottom_plugs: Plugs
    spacer_volume: Volume | None = None
    slurry_volume: Volume | None = None
    final_pressure: Pressure | None = None
    excess_applies_to: ExcessOn = ""
    pocket_filled: bool = True
    line_volume: Volume | None = None
    line_full_at_zero: bool = True
    wash_up_volume: Volume | None = None
    dead_volume: Volume | None = None
    reserve: Share | None = None
    batch_mixed: bool = False
    mixing_rate: FlowRate | None = None
    plug_time: Time | None = None
    compressibility: Compressibility | None = None
    plug_rating: Pressure | None = None
    collar_rating: Pressure | None = None


class FillingTable(Table):
    """[filling]"""

    closed_end: bool = True
    source: Source = "active pit"
    interval: Interval | None = None
    design_factor: DesignFactor | None = None
    float_rating: Pressure | None = None
    auto_fill: Share | None = None


class WeightsTable(Table):
    """[weights]"""

    block_weight: Force | None = None
    friction_cased: Friction | None = None
    friction_open: Friction | None = None
    elevator_rating: Force | None = None
    hoisting_rating: Force | None = None
    tension_share: Share | None = None


class ItemTable(Table):
    """[[item]]"""

    number: Number
    kind: Kind
    length: TallyLength
    pipe: Text = ""
    description: Text = ""


class FittingTable(Table):
    """[[centralizer]] and [[fitting]]"""

    what: Name
    joints: Joints = ()
    top: Length | None = None
    bottom: Length | None = None
    zone: Text = ""
    every: Every = 1
    position: Name = "mid-joint"
    count: Count = 1


class CentralizerKindTable(Table):
    """[[centralizer_kind]]"""

    what: Name
    kind: CentralizerSort
    outer_diameter: Diameter
    restoring_force: Force | None = None
    starting_force: Force | None = None


class CentralizerLoadTable(Table):
    """[[centralizer_load]]"""

    what: Name
    deflection: Length
    load: Force


class ViscometerTable(Table):
    """[[viscometer]]"""

    fluid: Name = MUD
    speed: Turns
    dial: Degrees


class FluidTable(Table):
    """[[fluid]]"""

    name: Name
    kind: FluidKind
    density: Density | None = None
    plastic_viscosity: Viscosity | None = None
    yield_point: YieldPoint | None = None
    volume: Volume | None = None
    length: Length | None = None
    top: Length | None = None
    contact: Time | None = None
    rate: FlowRate | None = None
    cement: Text = ""
    sack: Mass | None = None
    slurry_yield: SlurryYield | None = None
    mix_water: MixWater | None = None
    thickening_time: Time | None = None


class AdditiveTable(Table):
    """[[additive]]"""

    fluid: Name
    material: Name
    share: Share | None = None
    of: ShareOf = "cement"
    per_sack: MixWater | None = None


class EquipmentTable(Table):
    """[[equipment]]"""

    name: Name
    supplier: Text = ""


class RackTable(Table):
    """[rack]"""

    drift_records: bool = False


class SpaceOutTable(Table):
    """[space_out]"""

    pocket: Length | None = None
    pocket_band: Length | None = None
    stick_up_band: Length | None = None
    hang_off: Length | None = None
    marker: Length | None = None
    marker_band: Length | None = None
    coupling: Length | None = None


class KeepClearTable(Table):
    """[[keep_clear]]"""

    name: Name
    top: Length | None = None
    above: Length | None = None
    bottom: Length


class StrengthTable(Table):
    """[[strength]]"""

    fluid: Text = ""
    time: Time
    strength: Pressure
    temperature: Temperature | None = None


class WaitingRuleTable(Table):
    """[[waiting_rule]]"""

    name: Name
    place: Name
    clause: Text = ""
    strings: Text = ""
    time: Time | None = None
    strength: Pressure | None = None
    where: Text = ""
    need: WaitingNeed = "all"
    says: Text = ""
    meanwhile: Text = ""
    edition: Text = ""


class WaitingTable(Table):
    """[waiting]"""

    coldest: Temperature | None = None


class PersonTable(Table):
    """[[people]]"""

    name: Name
    role: Role


class LimitTable(Table):
    """One line of [limits]"""

    value: Text
    owner: Name
    source: Text = ""


TABLES: dict[str, type[Table]] = {
    "well": WellTable,
    "hole": HoleTable,
    "previous_casing": PreviousTable,
    "tally": TallyTable,
    "mud": MudTable,
    "pump": PumpTable,
    "head": HeadTable,
    "programme": ProgrammeTable,
    "filling": FillingTable,
    "weights": WeightsTable,
    "rack": RackTable,
    "space_out": SpaceOutTable,
    "waiting": WaitingTable,
}
LISTS: dict[str, type[Table]] = {
    "hole_section": HoleSectionTable,
    "other_casing": OtherCasingTable,
    "zone": ZoneTable,
    "survey": SurveyTable,
    "pipe": PipeTable,
    "item": ItemTable,
    "centralizer": FittingTable,
    "fitting": FittingTable,
    "centralizer_kind": CentralizerKindTable,
    "centralizer_load": CentralizerLoadTable,
    "viscometer": ViscometerTable,
    "fluid": FluidTable,
    "additive": AdditiveTable,
    "equipment": EquipmentTable,
    "keep_clear": KeepClearTable,
    "strength": StrengthTable,
    "waiting_rule": WaitingRuleTable,
    "people": PersonTable,
}
NEEDED = ("well", "hole", "tally", "mud", "pipe")
