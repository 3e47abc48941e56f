"""The rules by which a running list is built."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.stored import measured
from tally.units import Measure

BY_NUMBER = "by number"
AS_IT_LIES = "as the rack lies"
LAST_FIRST = "as the rack lies, last first"
SORTINGS = (BY_NUMBER, AS_IT_LIES, LAST_FIRST)
"""In which order joints follow one another; the rack lies as its joints were received."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where an item is wanted: on top of a joint, or with its bottom nearest to a depth."""

    number: str
    above: int = 0
    """The joint under it, counted from the shoe."""
    depth: Measure | None = measured("length", optional=True)
    """With the shoe at the casing point."""

    def __str__(self) -> str:
        """Return the place as it is typed."""
        where = f"at {self.depth.text}" if self.depth else f"above {self.above}"
        return f"{self.number} {where}"


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderRules:
    """What a running list is built by."""

    sorting: str = BY_NUMBER
    shoe_track: int = 2
    """Joints between the shoe and the collar."""
    track: tuple[str, ...] = ()
    """The joints of the shoe track by number, where they are named."""
    places: tuple[Place, ...] = ()
    pipes: tuple[str, ...] = ()
    """The pipe of each section, from the shoe up; a section ends under its crossover."""
    left_out: tuple[str, ...] = ()
    """Joints set aside, as those kept for the slips."""
