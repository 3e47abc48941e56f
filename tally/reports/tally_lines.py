"""The lines of the tally: items, tens of joints, what is not run, pieces installed, depths."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.job import Fitting
from tally.job.setup import Pipe


@dataclass(frozen=True, slots=True)
class Row:
    """One item of the string; lengths and depths in whole steps."""

    order: int
    number: str
    kind: str
    description: str
    pipe: Pipe
    joint: int
    """Which joint it is, from the shoe; 0 for an item that is no joint."""
    length: int
    cumulative: int
    top: int
    bottom: int
    fittings: tuple[Fitting, ...]
    at: str
    by: str
    remarks: str


@dataclass(frozen=True, slots=True)
class Block:
    """Ten joints, and the other items between them, with the total brought forward."""

    number: int
    rows: tuple[Row, ...]
    brought_forward: int

    @property
    def joints(self) -> int:
        """Joints in the block."""
        return sum(1 for row in self.rows if row.joint)

    @property
    def length(self) -> int:
        """Length of the block."""
        return sum(row.length for row in self.rows)

    @property
    def to_here(self) -> int:
        """Length from the shoe to the top of the block."""
        return self.brought_forward + self.length


@dataclass(frozen=True, slots=True)
class NotRun:
    """An item that is in the book but not in the string."""

    number: str
    kind: str
    description: str
    pipe: Pipe
    length: int
    state: str
    reason: str
    at: str
    by: str
    remeasured: str = ""
    """How its length was corrected, if it was."""


@dataclass(frozen=True, slots=True)
class Installed:
    """Pieces of one kind: installed, wanted on the joints run, and in the whole programme."""

    what: str
    installed: int
    wanted: int
    programme: int

    @property
    def difference(self) -> int:
        """Installed less wanted."""
        return self.installed - self.wanted


@dataclass(frozen=True, slots=True)
class Depths:
    """Where the string stands, in whole steps; below the datum is positive."""

    string: int
    stick_up: int
    shoe: int
    hole: int
    casing_point: int

    @property
    def pocket(self) -> int:
        """Hole below the shoe."""
        return self.hole - self.shoe

    @property
    def to_go(self) -> int:
        """Shoe above the casing point; negative once it is past."""
        return self.casing_point - self.shoe
