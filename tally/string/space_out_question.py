"""What a space-out is asked and what it answers; every length and depth in whole tally steps.

Depths are counted down from the datum, so that what lies above it is negative. The top of the
string stands a stick-up above the datum, its shoe a pocket above the bottom of the hole.
"""

from __future__ import annotations

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Wish:
    """A value wanted, and the least and the greatest one that will do."""

    wanted: int
    low: int
    high: int

    def widened(self, by: int) -> Wish:
        """Return the wish with both its ends moved out."""
        return Wish(self.wanted, self.low - by, self.high + by)

    def inner(self, part: int) -> Wish:
        """Return the wish with both its ends moved in to a part of the way from the value wanted.

        >>> Wish(100, 80, 140).inner(4)
        Wish(wanted=100, low=95, high=110)
        """
        below, above = max(0, self.wanted - self.low), max(0, self.high - self.wanted)
        return Wish(
            self.wanted,
            max(self.low, self.wanted - below // part),
            min(self.high, self.wanted + above // part),
        )


@dataclass(frozen=True, slots=True)
class Stretch:
    """Depths from top to bottom at which no part of a coupling may lie, both ends included."""

    name: str
    top: int
    bottom: int

    def narrowed(self, by: int) -> Stretch:
        """Return the stretch with both its ends moved in."""
        return Stretch(self.name, self.top + by, self.bottom - by)


@dataclass(frozen=True, slots=True)
class Candidate:
    """A joint, a pup or another item that may go in."""

    number: str
    length: int
    must: bool = False
    """Whether it has to go in."""
    listed: bool = False
    """Of a pup, whether the running list has it in already."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What there is to choose from, and what is wanted."""

    hole: int
    """Depth of the bottom of the hole."""
    pocket: Wish
    stick_up: Wish
    run: int = 0
    """Length of the string as run."""
    couplings: tuple[int, ...] = ()
    """The top of each item run, counted from the shoe up."""
    joints: tuple[Candidate, ...] = ()
    """In running order, the lowest first; what must not be used is not among them."""
    pups: tuple[Candidate, ...] = ()
    top: tuple[int, ...] = ()
    """Lengths of what goes on top of all in any case, the lowest first."""
    coupling: int = 0
    """Length of a coupling, down from the top of its joint."""
    keep_clear: tuple[Stretch, ...] = ()
    marker: Wish | None = None
    """Depth of the bottom of the marker."""
    marker_run: int | None = None
    """Where the bottom of the marker is, counted from the shoe up, once it is run."""
    marker_number: str = ""
    """Which of the joints is the marker, until it is run."""

    def inner(self, part: int) -> Question:
        """Return the question with every wish kept to a part of its band."""
        return replace(
            self,
            pocket=self.pocket.inner(part),
            stick_up=self.stick_up.inner(part),
            marker=None if self.marker is None else self.marker.inner(part),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One way to make up the rest of the string, and what it gives."""

    used: tuple[str, ...]
    left_out: tuple[str, ...]
    """The joints passed over below the last one used."""
    pups: tuple[str, ...]
    """The lowest first."""
    changes: int
    off: int
    """How far pocket, stick-up and marker are from what is wanted, added up."""
    length: int
    """Of the whole string."""
    stick_up: int
    shoe: int
    pocket: int
    marker: int | None
    clear: tuple[tuple[str, int], ...]
    """How far the nearest coupling is from each stretch to keep clear."""


@dataclass(frozen=True, slots=True)
class Hindrance:
    """A wish that alone would have to give for something to fit."""

    wish: str
    miss: int | None
    """How far its ends would have to move at the least; nothing where it is a yes or no."""
