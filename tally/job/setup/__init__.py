"""What the job was set up with: the well, the hole, the pipe, the programme and the limits."""

from tally.job.setup.fluids import (
    BEHIND,
    FLUID_KINDS,
    MUD,
    SHARE_OF,
    Additive,
    Dial,
    Fluid,
    OwnMaterial,
)
from tally.job.setup.lowering import FILL_SOURCES, Filling, Weights
from tally.job.setup.people import ROLES, Equipment, Limit, Person, same_name
from tally.job.setup.pumping import EXCESS_ON, Pumping
from tally.job.setup.string import (
    CENTRALIZER_KINDS,
    ITEM_KINDS,
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
from tally.job.setup.waiting import WAITING_NEEDS, StrengthReading, Waiting, WaitingRule
from tally.job.setup.well import ZONE_FLUIDS, Hole, HoleSection, PreviousCasing, Station, Well, Zone
from tally.job.setup.whole import Setup

__all__ = [
    "BEHIND",
    "CENTRALIZER_KINDS",
    "EXCESS_ON",
    "FILL_SOURCES",
    "FLUID_KINDS",
    "ITEM_KINDS",
    "MUD",
    "ROLES",
    "SHARE_OF",
    "WAITING_NEEDS",
    "ZONE_FLUIDS",
    "Additive",
    "CentralizerKind",
    "CentralizerLoad",
    "Dial",
    "Equipment",
    "Filling",
    "Fluid",
    "Hole",
    "HoleSection",
    "KeepClear",
    "Lengths",
    "Limit",
    "OwnMaterial",
    "Person",
    "Pipe",
    "Planned",
    "PreviousCasing",
    "Pumping",
    "RackRules",
    "Rule",
    "Setup",
    "SpaceOut",
    "Station",
    "StrengthReading",
    "Waiting",
    "WaitingRule",
    "Weights",
    "Well",
    "Zone",
    "same_name",
]
