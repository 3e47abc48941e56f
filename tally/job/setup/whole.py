"""Everything the job was set up with, as typed."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from tally.job.limits import LIMITS
from tally.job.setup.fluids import Additive, Dial, Fluid, OwnMaterial
from tally.job.setup.lowering import Filling, Weights
from tally.job.setup.people import Equipment, Limit, Person
from tally.job.setup.pumping import Pumping
from tally.job.setup.string import (
    CentralizerKind,
    CentralizerLoad,
    KeepClear,
    Lengths,
    Pipe,
    Planned,
    RackRules,
    Rule,
    SpaceOut,
)
from tally.job.setup.waiting import StrengthReading, Waiting, WaitingRule
from tally.job.setup.well import Hole, HoleSection, PreviousCasing, Station, Well, Zone
from tally.units import FIELD, Measure, TallyStep, UnitSet, read, read_exact, tally_step, unit_set


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
    filling: Filling = field(default_factory=Filling)
    weights: Weights = field(default_factory=Weights)
    zones: tuple[Zone, ...] = ()
    equipment: tuple[Equipment, ...] = ()
    rack: RackRules = field(default_factory=RackRules)
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
    materials: tuple[OwnMaterial, ...] = ()
    """The job's own, before those that come with the program."""
    centralizers: tuple[CentralizerKind, ...] = ()
    centralizer_loads: tuple[CentralizerLoad, ...] = ()
    space_out: SpaceOut = field(default_factory=SpaceOut)
    keep_clear: tuple[KeepClear, ...] = ()
    strengths: tuple[StrengthReading, ...] = ()
    waiting_rules: tuple[WaitingRule, ...] = ()
    """The job's own, beside those that are shipped."""
    waiting: Waiting = field(default_factory=Waiting)

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
