"""What the job was set up with: the well, the hole, the pipe, the programme and the limits."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from tally.job.limits import LIMITS
from tally.job.stored import measured
from tally.units import FIELD, Measure, TallyStep, UnitSet, read, read_exact, tally_step, unit_set

ITEM_KINDS = (
    "joint",
    "shoe",
    "collar",
    "pup",
    "crossover",
    "marker",
    "hanger",
    "landing joint",
)
ROLES = (
    "casing crew lead",
    "cementer",
    "company representative",
    "driller",
    "mud engineer",
    "tally keeper",
)
FILL_SOURCES = ("active pit", "trip tank")
FLUID_KINDS = ("preflush", "spacer", "slurry", "displacement")
BEHIND = FLUID_KINDS[-1]
"""The kind of fluid that follows behind the top plug."""
ZONE_FLUIDS = ("oil", "gas", "water", "other")
CENTRALIZER_KINDS = ("bow", "rigid")
SHARE_OF = ("cement", "water")
EXCESS_ON = ("annulus", "hole")
WAITING_NEEDS = ("all", "any")
MUD = "mud"
"""The fluid in the hole, where a fluid is named."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Well:
    """Where the job is and what string is run."""

    name: str
    string: str
    rig: str = ""
    operator: str = ""
    location: str = ""
    datum: str = "rotary table"
    datum_elevation: Measure | None = measured("length", optional=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """The open hole and the depth at which the shoe is wanted."""

    diameter: Measure = measured("diameter")
    depth: Measure = measured("length")
    casing_point: Measure = measured("length")


@dataclass(frozen=True, slots=True, kw_only=True)
class PreviousCasing:
    """A casing already set, and its shoe; one that does not reach surface has a top."""

    name: str
    shoe: Measure = measured("length")
    inner_diameter: Measure = measured("diameter")
    top: Measure | None = measured("length", optional=True)
    weak_at: Measure | None = measured("density", optional=True)
    """The density, standing or circulating, at which the hole at its shoe takes fluid."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleSection:
    """A part of the hole drilled with one bit, and how much larger it is than the bit."""

    top: Measure = measured("length")
    bottom: Measure = measured("length")
    diameter: Measure = measured("diameter")
    excess: Measure | None = measured("ratio", optional=True)
    """Volume of the annulus over that in gauge hole, as far as anybody said."""
    caliper: Measure | None = measured("diameter", optional=True)
    """Mean diameter of the hole as it was logged."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """One survey station."""

    measured_depth: Measure = measured("length")
    inclination: Measure = measured("angle")
    azimuth: Measure = measured("angle")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pipe:
    """One size, weight, grade and connection of casing."""

    name: str
    outer_diameter: Measure = measured("diameter")
    inner_diameter: Measure = measured("diameter")
    weight: Measure = measured("mass per length")
    grade: str = ""
    connection: str = ""
    shortest: Measure | None = measured("length", optional=True)
    longest: Measure | None = measured("length", optional=True)
    collapse_rating: Measure | None = measured("pressure", optional=True)
    """From the data sheet, for pipe that is no standard grade."""
    connection_strength: Measure | None = measured("force", optional=True)
    """From the data sheet of the connection."""
    torque_minimum: Measure | None = measured("torque", optional=True)
    torque_optimum: Measure | None = measured("torque", optional=True)
    torque_maximum: Measure | None = measured("torque", optional=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """An item of the string that is not a joint off the rack list: shoe, collar, pup …"""

    number: str
    kind: str
    length: int
    typed: str
    pipe: str = ""
    description: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A part of the hole by depth that has a name."""

    name: str
    top: Measure = measured("length")
    bottom: Measure = measured("length")
    weak_at: Measure | None = measured("density", optional=True)
    """The density, standing or circulating, at which it is expected to take fluid."""
    fluid: str = ""
    """What it holds."""
    pore: Measure | None = measured("density", optional=True)
    """The density of a standing column that presses as the fluid in it does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One line of the centralizer and scratcher programme: by joint, by depth, or by zone.

    By depth and by zone it means every joint of which a part lies there when the shoe is at the
    casing point; which joints those are follows from the lengths as listed and as run.
    """

    what: str
    joints: tuple[int, ...] = ()
    """Counted from the shoe."""
    position: str = "mid-joint"
    count: int = 1
    top: Measure | None = measured("length", optional=True)
    bottom: Measure | None = measured("length", optional=True)
    zone: str = ""
    """The name of a zone, in place of top and bottom."""
    every: int = 1
    """Every second, every third joint of an interval or a zone, from its bottom up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CentralizerKind:
    """A centralizer of the programme as its data sheet has it; `what` is its name there."""

    what: str
    kind: str
    outer_diameter: Measure = measured("diameter")
    restoring_force: Measure | None = measured("force", optional=True)
    """Of a bow, at a standoff of 67 %."""
    starting_force: Measure | None = measured("force", optional=True)
    """What it takes to push one of them into the previous casing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CentralizerLoad:
    """One line of the table of load and deflection of a bow centralizer."""

    what: str
    deflection: Measure = measured("length")
    load: Measure = measured("force")


@dataclass(frozen=True, slots=True, kw_only=True)
class Dial:
    """One reading of the viscometer, of the mud or of a fluid of the programme."""

    fluid: str = MUD
    speed: Measure = measured("rotary speed")
    dial: Measure = measured("number")
    """Degrees of the dial."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fluid:
    """A fluid of the cementing programme; how much of it is said in one way."""

    name: str
    kind: str
    density: Measure | None = measured("density", optional=True)
    plastic_viscosity: Measure | None = measured("viscosity", optional=True)
    yield_point: Measure | None = measured("yield point", optional=True)
    volume: Measure | None = measured("volume", optional=True)
    length: Measure | None = measured("length", optional=True)
    """Of annulus that it fills."""
    top: Measure | None = measured("length", optional=True)
    """Measured depth of its top in the annulus when the job is done."""
    contact: Measure | None = measured("time", optional=True)
    """How long it passes a point of the annulus at its rate."""
    rate: Measure | None = measured("flow rate", optional=True)
    cement: str = ""
    """Of a slurry, the cement by its name among the materials."""
    sack: Measure | None = measured("mass", optional=True)
    slurry_yield: Measure | None = measured("slurry yield", optional=True)
    mix_water: Measure | None = measured("mix water", optional=True)
    thickening_time: Measure | None = measured("time", optional=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Additive:
    """What is mixed into a slurry, as a share of the cement or the water, or by the sack."""

    fluid: str
    material: str
    share: Measure | None = measured("ratio", optional=True)
    of: str = "cement"
    per_sack: Measure | None = measured("mix water", optional=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Equipment:
    """One thing of the equipment list, and who brings it."""

    name: str
    supplier: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RackRules:
    """What the rack is held to."""

    drift_records: bool = False
    """Whether a joint without a drift that it passed stops and asks when its turn comes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SpaceOut:
    """How the string is to land, and how far from that it may; a band goes to either side."""

    pocket: Measure | None = measured("length", optional=True)
    """Hole below the shoe; without it what the casing point leaves."""
    pocket_band: Measure | None = measured("length", optional=True)
    stick_up_band: Measure | None = measured("length", optional=True)
    hang_off: Measure | None = measured("length", optional=True)
    """Depth of the top of the hanger, in place of the stick-up."""
    marker: Measure | None = measured("length", optional=True)
    """Depth of the bottom of the marker."""
    marker_band: Measure | None = measured("length", optional=True)
    coupling: Measure | None = measured("length", optional=True)
    """Length of a coupling, down from the top of its joint."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepClear:
    """Where no coupling may lie when the string is landed: slips, rams, wellhead seal."""

    name: str
    top: Measure | None = measured("length", optional=True)
    above: Measure | None = measured("length", optional=True)
    """Of one that begins above the datum, how far above, in place of its top."""
    bottom: Measure = measured("length")


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthReading:
    """One reading of the laboratory: compressive strength of a slurry at a time since mixing."""

    fluid: str = ""
    """The slurry; nothing: the one at the coldest point."""
    time: Measure = measured("time")
    strength: Measure = measured("pressure")
    temperature: Measure | None = measured("temperature", optional=True)
    """At which it was cured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitingRule:
    """A rule for waiting on cement, in our own words: a time, a strength, or both."""

    name: str
    place: str
    clause: str = ""
    strings: str = ""
    """Which strings it is for; nothing: all."""
    time: Measure | None = measured("time", optional=True)
    strength: Measure | None = measured("pressure", optional=True)
    where: str = ""
    """Where, or how, the strength is wanted."""
    need: str = "all"
    """Whether time and strength are both wanted, or one of them will do."""
    says: str = ""
    meanwhile: str = ""
    """What is not allowed until then."""
    edition: str = ""
    """The edition seen, or that it was not read in a document."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """What the waiting on cement is reckoned with."""

    coldest: Measure | None = measured("temperature", optional=True)
    """At the coldest point that matters: the shallowest cement that has to hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A limit with the person who set it and where it comes from; none is a constant in code."""

    text: str
    owner: str
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Somebody on the job."""

    name: str
    role: str


def same_name(one: str, other: str) -> bool:
    """Whether two names can only be one person's: capitals and spaces tell nobody apart.

    >>> same_name("Ama Osei", "ama  osei"), same_name("Ama Osei", "Ana Osei")
    (True, False)
    """
    return one.casefold().split() == other.casefold().split()


@dataclass(frozen=True, slots=True, kw_only=True)
class Lengths:
    """The tally unit of the book, and how the joints were measured."""

    unit: str = "ft"
    measured_as: str = "running"
    make_up_loss: str = ""
    stick_up: int = 0
    stick_up_typed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pumping:
    """The mud, the pump that displaces, the head, and the cementing programme in short."""

    mud_weight: Measure = measured("density")
    plastic_viscosity: Measure | None = measured("viscosity", optional=True)
    yield_point: Measure | None = measured("yield point", optional=True)
    conditioning_rate: Measure | None = measured("flow rate", optional=True)
    """The rate at which the mud is conditioned before cementing."""
    gel_strength: Measure | None = measured("yield point", optional=True)
    """Of the mud after as long as it stands while a joint is made up."""
    volume_per_stroke: Measure | None = measured("volume per stroke", optional=True)
    efficiency: Measure | None = measured("ratio", optional=True)
    rate: Measure | None = measured("flow rate", optional=True)
    head_volume: Measure | None = measured("volume", optional=True)
    slurry_volume: Measure | None = measured("volume", optional=True)
    spacer_volume: Measure | None = measured("volume", optional=True)
    final_pressure: Measure | None = measured("pressure", optional=True)
    bottom_plugs: int = 1
    relief: Measure | None = measured("pressure", optional=True)
    """The pressure at which the relief valve of the pump opens."""
    head_rating: Measure | None = measured("pressure", optional=True)
    plug_rating: Measure | None = measured("pressure", optional=True)
    collar_rating: Measure | None = measured("pressure", optional=True)
    excess_applies_to: str = ""
    """What the excess of a hole section is a share of; sources differ, so nobody assumes it."""
    pocket_filled: bool = True
    """Whether slurry is counted for the hole below the shoe."""
    line_volume: Measure | None = measured("volume", optional=True)
    """Of the surface line, from where the pumped volume is counted to the head."""
    line_full_at_zero: bool = True
    """Whether the line stands full when the count is zeroed; full, it is no part of the count."""
    wash_up_volume: Measure | None = measured("volume", optional=True)
    """Pumped behind the top plug first, from washing up; it counts."""
    dead_volume: Measure | None = measured("volume", optional=True)
    """Of mix fluid that stays in the tanks."""
    reserve: Measure | None = measured("ratio", optional=True)
    """Of mix fluid, over what the programme takes."""
    batch_mixed: bool = False
    """Whether each slurry is mixed whole before it is pumped."""
    mixing_rate: Measure | None = measured("flow rate", optional=True)
    plug_time: Measure | None = measured("time", optional=True)
    """What it takes to release the top plug."""
    compressibility: Measure | None = measured("compressibility", optional=True)
    """Of the fluid behind the top plug."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Filling:
    """Whether the pipe runs in closed, and where its fill comes from."""

    closed_end: bool = True
    source: str = "active pit"
    interval: int | None = None
    """Joints from fill to fill by the programme."""
    design_factor: Measure | None = measured("number", optional=True)
    """The collapse ratings are divided by it."""
    float_rating: Measure | None = measured("pressure", optional=True)
    """The pressure difference that the float is rated for."""
    auto_fill: Measure | None = measured("ratio", optional=True)
    """Share of its contents that the pipe takes in at its foot until the float is converted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """What the weights on the indicator are worked out with, and what may be pulled with."""

    block_weight: Measure | None = measured("force", optional=True)
    friction_cased: Measure | None = measured("number", optional=True)
    friction_open: Measure | None = measured("number", optional=True)
    elevator_rating: Measure | None = measured("force", optional=True)
    """Elevators and spider, the lesser."""
    hoisting_rating: Measure | None = measured("force", optional=True)
    """The hoisting gear as rigged."""
    tension_share: Measure | None = measured("ratio", optional=True)
    """Share of the body yield and of the connection that may be used."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setup:
    """Everything the job was set up with, as typed."""

    well: Well
    hole: Hole
    lengths: Lengths
    pipes: tuple[Pipe, ...]
    pumping: Pumping
    previous: PreviousCasing | None = None
    survey: tuple[Station, ...] = ()
    items: tuple[Planned, ...] = ()
    order: tuple[str, ...] = ()
    programme: tuple[Rule, ...] = ()
    people: tuple[Person, ...] = ()
    limits: dict[str, Limit] = field(default_factory=dict)
    filling: Filling = Filling()
    weights: Weights = Weights()
    zones: tuple[Zone, ...] = ()
    equipment: tuple[Equipment, ...] = ()
    rack: RackRules = RackRules()
    units: str = "field"
    shown_in: dict[str, str] = field(default_factory=dict)
    sections: tuple[HoleSection, ...] = ()
    """The hole part by part, from the top; none: gauge hole of one diameter."""
    other_casings: tuple[PreviousCasing, ...] = ()
    """The casings set before the previous one."""
    dials: tuple[Dial, ...] = ()
    fluids: tuple[Fluid, ...] = ()
    """The cementing programme in pumping order."""
    additives: tuple[Additive, ...] = ()
    centralizers: tuple[CentralizerKind, ...] = ()
    centralizer_loads: tuple[CentralizerLoad, ...] = ()
    space_out: SpaceOut = SpaceOut()
    keep_clear: tuple[KeepClear, ...] = ()
    strengths: tuple[StrengthReading, ...] = ()
    waiting_rules: tuple[WaitingRule, ...] = ()
    """The job's own, beside those that are shipped."""
    waiting: Waiting = Waiting()

    @property
    def step(self) -> TallyStep:
        """The unit and step in which lengths are counted."""
        return tally_step(self.lengths.unit)

    @property
    def make_up_loss(self) -> Fraction | None:
        """The make-up loss taken off each measured joint, [m]; nothing if running was measured."""
        if self.lengths.measured_as == "running":
            return None
        return read_exact(self.lengths.make_up_loss, "length", self.lengths.unit)

    @property
    def shown(self) -> UnitSet:
        """The units in which figures are shown."""
        base = unit_set(self.units) if self.units else FIELD
        return base.with_units(self.shown_in) if self.shown_in else base

    def pipe(self, name: str) -> Pipe:
        """Return the pipe of a name; the first one if none is named."""
        return next((pipe for pipe in self.pipes if pipe.name == name), self.pipes[0])

    def limit(self, key: str) -> Measure | None:
        """Return a limit as set, or nothing where the job has none."""
        limit = self.limits.get(key)
        return None if limit is None else read(limit.text, LIMITS[key].quantity)
