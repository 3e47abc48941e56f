"""The job: what the entries add up to. An immutable snapshot without clock, file or screen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from tally.job.cementing_records import (
    BackIn,
    ListStart,
    MixReading,
    Picked,
    Sample,
    SeenAtSurface,
    ShoeTest,
)
from tally.job.followed_file import FollowedFile, ReadUpTo
from tally.job.happening import FlowCheck, Happening
from tally.job.kept_records import Calibration, Handover, LostTime, Notice, PressureTest
from tally.job.order_rules import OrderRules
from tally.job.pins import Pin
from tally.job.rack_records import BundleCount, CheckMark, EquipmentMark
from tally.job.running_records import (
    Converted,
    Fill,
    HungOff,
    Landing,
    Moved,
    RatePressure,
    TankLevel,
    WeightReading,
)
from tally.job.setup import Person, Setup
from tally.job.signature import Signature
from tally.steps.model import Checklist
from tally.units import Measure

ON_RACK = "on rack"
RUN = "run"
REJECTED = "rejected"
LAID_DOWN = "laid down"
SENT_AWAY = "sent away"


@dataclass(frozen=True, slots=True)
class Item:
    """A joint or another piece that came on location, and where it stands now."""

    number: str
    kind: str
    length: int
    """Running length, in whole steps of the tally."""
    typed: str
    pipe: str = ""
    description: str = ""
    state: str = ON_RACK
    reason: str = ""
    received: int = 0
    """The entry that brought it."""
    serial: str = ""
    heat: str = ""


@dataclass(frozen=True, slots=True)
class Fitting:
    """A centralizer, stop collar or scratcher on one joint."""

    what: str
    position: str = ""
    count: int = 1

    def __str__(self) -> str:
        times = f"{self.count} x " if self.count != 1 else ""
        return f"{times}{self.what}" + (f" {self.position}" if self.position else "")


@dataclass(frozen=True, slots=True)
class Made:
    """An item made up in the string."""

    number: str
    kind: str
    pipe: str
    length: int
    top: int
    """Length of the string up to and with this item, in whole steps."""
    joint: int
    """Which joint it is, counted from the shoe; 0 for an item that is no joint."""
    fittings: tuple[Fitting, ...]
    at: str
    by: str
    seq: int
    lowering: float | None = None
    """How long it was lowered, slips out to slips set, where somebody timed it, [s]."""
    torque: Measure | None = None
    """It was made up with, where somebody read it."""
    position: str = ""
    """Where the coupling stands on the thread, in words."""


@dataclass(frozen=True, slots=True)
class StepRecord:
    """What was entered for one step of a checklist."""

    seq: int
    outcome: str
    """done, not done or not applicable."""
    by: str
    at: str
    state: str = ""
    value: str = ""
    witness: str = ""
    note: str = ""
    passed: str = ""
    """The shut gate that was passed, if one was."""
    signed: tuple[str, ...] = ()
    """Who confirmed it with a PIN."""
    differs: str = ""
    """How what was seen differs from what is wanted, while nobody has given a reason for it."""
    answered: bool = True
    """Whether somebody gave a reason for the shut gate that was passed."""
    given: str = ""
    """The second person, who gave a figure without seeing ours."""


@dataclass(frozen=True, slots=True)
class PumpReading:
    """One look at the two counts of the volume pumped since it was zeroed."""

    seq: int
    tank: Measure | None
    strokes: int | None
    pressure: Measure | None
    rate: Measure | None
    at: str
    returns: Measure | None = None
    """Rate of returns."""
    returns_seen: str = ""
    """How the returns were against the pump, in words."""
    returned: Measure | None = None
    """Volume that has come back since the zero."""
    source: str = ""
    """The file that it was read from; nothing where a person read it."""


@dataclass(frozen=True, slots=True)
class OpenException:
    """A difference that stays in sight until a named person closes it."""

    seq: int
    what: str
    by: str
    at: str
    closed_by: str = ""
    closing: str = ""
    critical: bool = False
    """Of a gate passed, a gain or a loss, a suspect shoe: two people close it."""


@dataclass(frozen=True, slots=True)
class Turn:
    """The first place of a running list that holds something on the rack.

    It holds for this list and these items and no others, so that whatever changes one of them
    makes it void by itself.
    """

    order: tuple[str, ...]
    items: Mapping[str, Item]
    place: int


@dataclass(frozen=True)
class Job:
    """Everything the entries say, added up.

    It has no slots, so that `but` copies its fields in one go: a book of thousands of entries is
    added up in half the time.
    """

    seq: int = 0
    setup: Setup | None = None
    programmed: str = ""
    """Who set up the programme of fluids and the pump as they stand."""
    people: Mapping[str, Person] = field(default_factory=dict)
    pins: Mapping[str, Pin] = field(default_factory=dict)
    items: Mapping[str, Item] = field(default_factory=dict)
    order: tuple[str, ...] = ()
    """The running list, from the shoe up."""
    locked: tuple[str, ...] = ()
    """Items whose place in the running list is kept."""
    aside: tuple[str, ...] = ()
    """Items that the running list leaves out; they are on the rack and have no turn."""
    list_rules: OrderRules | None = None
    """What the running list was built by, if it was built by rules."""
    spaced_out: int | None = None
    """The length of string that the running list was spaced out to, in whole steps."""
    list_set: int = 0
    """The entry that set the running list; 0: it came with the set-up."""
    checks: Mapping[tuple[str, str], CheckMark] = field(default_factory=dict)
    """By the number of the joint and the kind of check."""
    bundles: Mapping[str, BundleCount] = field(default_factory=dict)
    equipment: Mapping[str, EquipmentMark] = field(default_factory=dict)
    received: int = 0
    """Joints that came on location less those sent away, as counted by those entries."""
    received_length: int = 0
    """Their length, in whole steps."""
    string: tuple[Made, ...] = ()
    fills: tuple[Fill, ...] = ()
    spilled: float = 0.0
    """Of the fills, what ran over or came out with items pulled, [m^3]."""
    tank: tuple[TankLevel, ...] = ()
    flow_checks: tuple[FlowCheck, ...] = ()
    happened: tuple[Happening, ...] = ()
    stuck: Happening | None = None
    shut_in: Happening | None = None
    converted: Converted | None = None
    """The auto-fill float let nothing in any more from here on."""
    weighed: tuple[WeightReading, ...] = ()
    landing: Landing | None = None
    hung_off: HungOff | None = None
    rates: tuple[RatePressure, ...] = ()
    moved: Moved | None = None
    picked: Picked | None = None
    lists: Mapping[str, Checklist] = field(default_factory=dict)
    steps: Mapping[tuple[str, str], StepRecord] = field(default_factory=dict)
    pumped: tuple[PumpReading, ...] = ()
    in_doubt: tuple[PumpReading, ...] = ()
    """Readings that are hardly what was pumped: not counted until a second one confirms them."""
    started: Mapping[str, ListStart] = field(default_factory=dict)
    """The lists for trouble that somebody has started."""
    mixing: tuple[MixReading, ...] = ()
    samples: tuple[Sample, ...] = ()
    at_surface: tuple[SeenAtSurface, ...] = ()
    back_in: tuple[BackIn, ...] = ()
    shoe_tests: tuple[ShoeTest, ...] = ()
    followed: FollowedFile | None = None
    read_up_to: Mapping[str, ReadUpTo] = field(default_factory=dict)
    """By source, how far readings are kept."""
    zeroed: StepRecord | None = None
    """The step that zeroed the pumped volume last."""
    signatures: tuple[Signature, ...] = ()
    exceptions: tuple[OpenException, ...] = ()
    corrections: tuple[int, ...] = ()
    notes: tuple[tuple[int, str], ...] = ()
    notices: tuple[Notice, ...] = ()
    calibrations: tuple[Calibration, ...] = ()
    lost: tuple[LostTime, ...] = ()
    pressure_tests: tuple[PressureTest, ...] = ()
    handovers: tuple[Handover, ...] = ()
    last_run: str = ""
    """When the last item was run."""
    last: str = ""
    """When the last entry was made."""
    turn: Turn | None = field(default=None, compare=False, repr=False)
    """Where the running list stands, as it was found last."""

    @property
    def known(self) -> Setup:
        """The set-up; only a job that has one can be asked for it."""
        if self.setup is None:
            raise LookupError("the job has no set-up yet")
        return self.setup

    @property
    def length(self) -> int:
        """Length of the string as run, in whole steps."""
        return self.string[-1].top if self.string else 0

    @property
    def joints_run(self) -> int:
        """Joints in the string."""
        return next((made.joint for made in reversed(self.string) if made.joint), 0)

    @property
    def waiting_handover(self) -> Handover | None:
        """The last handover, while nobody has taken over yet."""
        last = self.handovers[-1] if self.handovers else None
        return last if last and not last.taken_at else None

    def made(self, number: str) -> Made | None:
        """Return the item of that number in the string, if it is there."""
        return next((made for made in reversed(self.string) if made.number == number), None)

    def open_exceptions(self) -> tuple[OpenException, ...]:
        """Return the differences that nobody has closed yet."""
        return tuple(each for each in self.exceptions if not each.closed_by)

    def but(self, **changed: Any) -> Job:
        """Return the job with some fields changed, as dataclasses.replace does, but quickly.

        Raises TypeError for a name that is no field.
        """
        fields = self.__dict__
        if not changed.keys() <= fields.keys():
            raise TypeError(f"A job has no {', '.join(sorted(changed.keys() - fields.keys()))}.")
        job = object.__new__(Job)
        job.__dict__.update(fields, **changed)
        return job

    def with_item(self, item: Item) -> Job:
        """Return the job with one item put in place of the one of the same number."""
        return self.but(items={**self.items, item.number: item})

    def with_exception(
        self, seq: int, what: str, by: str, at: str, *, critical: bool = False
    ) -> Job:
        """Return the job with one more difference in sight."""
        one = OpenException(seq, what, by, at, critical=critical)
        return self.but(exceptions=(*self.exceptions, one))


EMPTY = Job()
