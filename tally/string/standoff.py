"""Standoff along a string: at each centralizer, and in the middle between two."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from math import pi, sqrt

from tally.formula import require_range
from tally.hole.sections import Hole
from tally.hole.survey import Survey, Vector
from tally.pipe.capacity import require_gap
from tally.pipe.weight import STANDARD_GRAVITY
from tally.string.centralizer import Centralizer, require_fit
from tally.string.columns import vertical
from tally.string.pieces import StringPiece
from tally.string.sag import bending_stiffness, sag
from tally.string.side_force import magnitude, side_vector

IN_ONE_PLACE = 0.3
"""[m]; centralizers closer than this count as one."""

_HALVINGS = 30


@dataclass(frozen=True, slots=True)
class Support:
    """A centralizer in its place in the hole, and what the string is there.

    Measured depth [m], direction of the hole, effective tension [N], the weights by length below
    it added up [N], outside diameter and clearance [m], bending stiffness [N m^2].
    """

    depth: float
    along: Vector
    tension: float
    weight_below: float
    outer_diameter: float
    clearance: float
    stiffness: float
    centralizer: Centralizer


@dataclass(frozen=True, slots=True)
class Length:
    """A length between two neighbouring centralizers: what loads it and how it bends.

    Load across it as a vector [N], the share of it that its centralizers carry, sag and
    clearance in its middle [m].
    """

    length: float
    load: Vector
    carried: float
    sag: float
    clearance: float


@dataclass(frozen=True, slots=True)
class Standoff:
    """The standoff between two neighbouring centralizers, as shares of the gap of centred pipe.

    Measured depths [m]; the load on the centralizer at each end [N]; `known` says that neither
    load lies past the last line of its table.
    """

    top: float
    bottom: float
    at_top: float
    middle: float
    at_bottom: float
    load_top: float
    load_bottom: float
    known: bool = True

    @property
    def least(self) -> float:
        """The least of the three."""
        return min(self.at_top, self.middle, self.at_bottom)

    @property
    def contact(self) -> bool:
        """Whether the pipe lies on the wall somewhere in it."""
        return self.least <= 0.0

    @property
    def where(self) -> float:
        """Measured depth of the least, [m]."""
        if self.middle <= min(self.at_top, self.at_bottom):
            return (self.top + self.bottom) / 2
        return self.top if self.at_top < self.at_bottom else self.bottom


@dataclass(frozen=True, slots=True)
class _Foot:
    """What hangs below an item: its bottom [m], tension and summed weight by length [N]."""

    depth: float
    tension: float
    weight: float
    supports: int


class Centring:
    """A string with its centralizers, item on item from the shoe up.

    Parameters
    ----------
    survey : Survey
        Path of the hole
    hole : Hole
        Casings and open hole; where it was logged, by caliper
    shoe : float
        Measured depth of the shoe, [m]
    inside, outside : float
        Densities of the fluids, [kg/m^3]

    Raises
    ------
    DomainError
        If a number is out of range, or pipe or centralizer do not go into the hole.

    Notes
    -----
    By the recommended-practice beam model: every length between two centralizers is a beam built
    in at both ends, under the load across it and the effective tension in its middle. Each
    centralizer carries half the load, as a vector, of the lengths on both sides. Where a length
    lies on the wall the wall carries its middle, and each centralizer half of the longest length
    that would hang free. Below the lowest and above the highest centralizer the pipe counts as
    far as half the length next to it; its own standoff is not worked out.

    The effective tension starts from 0 at the shoe, open or closed, and grows upward by the
    weight in the fluids, without friction. Where that weight is below zero the pipe is in
    compression and lies on the high side. The place of an item does not change when others are
    added over it, so what was worked out below stands.

    Examples
    --------
    >>> from tally.hole.sections import HoleSection
    >>> from tally.hole.survey import Station
    >>> from tally.string.centralizer import straight_bow
    >>> survey = Survey([Station(0.0, 0.7, 0.0), Station(2000.0, 0.7, 0.0)])
    >>> string = Centring(survey, Hole([HoleSection(0.0, 2000.0, 0.3112)]), 1500.0, 1200.0, 1200.0)
    >>> bow = straight_bow(0.34, 7117.0, 0.03335)
    >>> for _ in range(3):
    ...     string.add(StringPiece(12.0, 0.2445, 0.2205, 70.0), [(0.5, bow)])
    >>> [(each.top, each.bottom, round(each.middle, 3)) for each in string.rows()]
    [(1482.0, 1494.0, 0.741), (1470.0, 1482.0, 0.742)]
    """

    def __init__(
        self, survey: Survey, hole: Hole, shoe: float, inside: float, outside: float
    ) -> None:
        require_range("Shoe depth", shoe, 0.0, 30_000.0, "m")
        require_range("Density inside", inside, 0.0, 3000.0, "kg/m3")
        require_range("Density outside", outside, 0.0, 3000.0, "kg/m3")
        self.survey, self.hole = survey, hole
        self.inside, self.outside = inside, outside
        self._section_ends = [section.bottom for section in hole.sections]
        self._feet = [_Foot(shoe, 0.0, 0.0, 0)]
        self.supports: list[Support] = []
        self._lengths: list[Length] = []
        self._settled: list[Standoff] = []

    @property
    def items(self) -> int:
        """How many items the string has."""
        return len(self._feet) - 1

    @property
    def top(self) -> float:
        """Measured depth of the top of the string, below zero above the datum, [m]."""
        return self._feet[-1].depth

    @property
    def tension(self) -> float:
        """Effective tension at the top of the string, [N]."""
        return self._feet[-1].tension

    def reach(self, item: int) -> tuple[float, float]:
        """Return the measured depths of top and bottom of an item, counted from 0, [m]."""
        return self._feet[item + 1].depth, self._feet[item].depth

    def weight(self, piece: StringPiece) -> float:
        """Return the weight by length of a pipe in the fluids, [N/m]."""
        pipe = piece.hung(0.0, 0.0)
        fluids = pipe.bore * self.inside - pipe.closed * self.outside
        return (pipe.weight + fluids) * STANDARD_GRAVITY

    def keep(self, items: int) -> None:
        """Take off everything over so many items."""
        del self._feet[items + 1 :]
        left = self._feet[-1].supports
        del self.supports[left:]
        del self._lengths[max(0, left - 1) :]
        del self._settled[max(0, left - 2) :]

    def add(self, piece: StringPiece, centralizers: Sequence[tuple[float, Centralizer]]) -> None:
        """Add an item on top, with its centralizers: each at a share of its length from below."""
        foot, weight = self._feet[-1], self.weight(piece)
        for share, centralizer in sorted(centralizers, key=lambda one: one[0]):
            self._hold(piece, foot, weight, foot.depth - share * piece.length, centralizer)
        top = foot.depth - piece.length
        self._feet.append(
            _Foot(
                top,
                foot.tension + weight * self._rise(foot.depth, top),
                foot.weight + weight * piece.length,
                len(self.supports),
            )
        )

    def rows(self) -> tuple[Standoff, ...]:
        """Return the standoff between every two neighbours, from the shoe up."""
        if not self._lengths:
            return ()
        return (*self._settled, self._row(len(self._lengths) - 1))

    def hole_diameter(self, depth: float) -> float:
        """Return the diameter of the hole at a measured depth, without excess, [m]."""
        place = min(bisect_left(self._section_ends, depth), len(self._section_ends) - 1)
        return sqrt(self.hole.sections[place].area(depth) * 4 / pi)

    def _rise(self, lower: float, upper: float) -> float:
        return vertical(lower, self.survey) - vertical(upper, self.survey)

    def _hold(
        self,
        piece: StringPiece,
        foot: _Foot,
        weight: float,
        depth: float,
        centralizer: Centralizer,
    ) -> None:
        """Set a centralizer, if it is in the hole and not where another one is."""
        if depth <= 0 or (self.supports and self.supports[-1].depth - depth < IN_ONE_PLACE):
            return
        require_fit(centralizer.outer_diameter, piece.outer_diameter)
        leg, share = self.survey.leg_at(depth)
        self.supports.append(
            Support(
                depth,
                leg.direction(share),
                foot.tension + weight * self._rise(foot.depth, depth),
                foot.weight + weight * (foot.depth - depth),
                piece.outer_diameter,
                require_gap(self.hole_diameter(depth), piece.outer_diameter) / 2,
                bending_stiffness(piece.outer_diameter, piece.inner_diameter),
                centralizer,
            )
        )
        if len(self.supports) > 1:
            self._lengths.append(self._length(*self.supports[-2:]))
        if len(self.supports) > 2:
            self._settled.append(self._row(len(self.supports) - 3))

    def _length(self, lower: Support, upper: Support) -> Length:
        """Return what lies between two neighbours; where the pipe changes, the weaker bends."""
        length = lower.depth - upper.depth
        tension = (lower.tension + upper.tension) / 2
        load = side_vector(
            upper.along, lower.along, upper.weight_below - lower.weight_below, tension
        )
        side, stiffness = magnitude(load) / length, min(lower.stiffness, upper.stiffness)
        outer = max(lower.outer_diameter, upper.outer_diameter)
        clearance = require_gap(self.hole_diameter((lower.depth + upper.depth) / 2), outer) / 2
        bent = sag(side, length, tension, stiffness)
        carried = 1.0
        if bent > clearance:
            carried = _free_length(side, length, tension, stiffness, clearance) / length
        return Length(length, load, carried, bent, clearance)

    def _row(self, place: int) -> Standoff:
        """Return the standoff of one length, the loads of its neighbours counted."""
        lower, upper, between = self.supports[place], self.supports[place + 1], self._lengths[place]
        low, high = self._load(place), self._load(place + 1)
        at_bottom, at_top = _gap(lower, low), _gap(upper, high)
        off = (lower.clearance - at_bottom + upper.clearance - at_top) / 2
        middle = max(0.0, between.clearance - off - between.sag)
        return Standoff(
            upper.depth,
            lower.depth,
            at_top / upper.clearance,
            middle / between.clearance,
            at_bottom / lower.clearance,
            high,
            low,
            low <= lower.centralizer.greatest_load and high <= upper.centralizer.greatest_load,
        )

    def _load(self, place: int) -> float:
        """Return the load on one centralizer, half from the length on either side, [N]."""
        support = self.supports[place]
        if place == 0:
            parts = [self._half(0), self._end(0, self._feet[0].depth - support.depth)]
        elif place == len(self._lengths):
            parts = [self._half(place - 1), self._end(place - 1, support.depth - self.top)]
        else:
            parts = [self._half(place - 1), self._half(place)]
        one, two = parts
        return magnitude((one[0] + two[0], one[1] + two[1], one[2] + two[2]))

    def _half(self, place: int) -> Vector:
        each = self._lengths[place]
        return _times(each.load, each.carried / 2)

    def _end(self, place: int, rest: float) -> Vector:
        """Return the load of the pipe past the outermost centralizer, as it is next to it."""
        each = self._lengths[place]
        return _times(each.load, min(rest / each.length, each.carried / 2))


def _gap(support: Support, load: float) -> float:
    free = support.centralizer.gap(load, support.clearance, support.outer_diameter)
    return max(0.0, free)


def _times(vector: Vector, number: float) -> Vector:
    return vector[0] * number, vector[1] * number, vector[2] * number


def _free_length(
    side: float, length: float, tension: float, stiffness: float, clearance: float
) -> float:
    """Return the longest length whose sag just fills the clearance, [m]."""
    short, far = 0.0, length
    for _ in range(_HALVINGS):
        middle = (short + far) / 2
        touches = sag(side, middle, tension, stiffness) > clearance
        short, far = (short, middle) if touches else (middle, far)
    return short
