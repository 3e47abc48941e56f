"""The string: its pipe and items, how they are measured and spaced out, and what is fitted."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.stored import measured
from tally.units import Measure

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
CENTRALIZER_KINDS = ("bow", "rigid")


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
class Lengths:
    """The tally unit of the book, and how the joints were measured."""

    unit: str = "ft"
    measured_as: str = "running"
    make_up_loss: str = ""
    stick_up: int = 0
    stick_up_typed: str = ""


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
    centralizer: bool = False
    """Whether it is one although its name does not say so: it stands among the centralizers."""


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
