"""The well as one tube: down the casing to the shoe, then up the annulus, by the volume in it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from math import ceil, pi, sqrt

from tally.errors import DomainError
from tally.formula import require_range
from tally.hole.sections import Hole, HoleSection
from tally.hole.survey import Survey
from tally.pipe.interval import PipeInterval
from tally.string.columns import vertical

LONGEST_CHORD = 5.0
"""[m]; where the hole turns or widens, the way down between two points so far apart is a straight
line within 3 cm, also at 3 degrees in 30 m in a hole that a caliper found to widen."""


@dataclass(frozen=True, slots=True)
class Gap:
    """What a fluid flows through: inside diameter, and that of the pipe in it (0 for none), [m].

    A hole with excess is as wide as its volume says.
    """

    wide: float
    pipe: float = 0.0


@dataclass(frozen=True, slots=True)
class Well:
    """Casing from the top down, the hole it hangs in, its path, and the float collar's depth [m].

    `head` is the volume from where the pump counts, and the plugs start, to the top of the
    casing, [m^3]: it stays full whatever the columns do.
    """

    pipe: tuple[PipeInterval, ...]
    hole: Hole
    survey: Survey
    collar: float
    head: float = 0.0

    def __post_init__(self) -> None:
        if not self.pipe:
            raise DomainError("There is no casing in the hole; run it before placing fluids.")
        require_range("Float collar", self.collar, self.pipe[0].top, self.shoe, "m")
        require_range("Shoe", self.shoe, self.hole.top, self.hole.bottom + 1e-6, "m")
        require_range("Volume of line and head", self.head, 0.0, 20.0, "m3")

    @property
    def shoe(self) -> float:
        """Measured depth of the shoe, [m]."""
        return self.pipe[-1].bottom


@dataclass(frozen=True, slots=True)
class Piece:
    """A length of the tube with the flow from `near` to `far` (measured depths, [m]).

    It begins at the volume `start`; its cross-section changes evenly from `area` to `far_area`.
    """

    start: float
    near: float
    far: float
    area: float
    far_area: float
    gap: Gap

    @property
    def length(self) -> float:
        """Length along the hole, [m]."""
        return abs(self.far - self.near)

    @property
    def volume(self) -> float:
        """Volume of the whole piece, [m^3]."""
        return (self.area + self.far_area) / 2 * self.length

    def volume_to(self, depth: float) -> float:
        """Return the volume of the tube down, or round and up, to a depth of the piece."""
        run = abs(depth - self.near)
        return self.start + run * (self.area + self._widening * run / 2)

    def depth_at(self, volume: float) -> float:
        """Return the measured depth at a volume of the tube that lies in the piece."""
        over = volume - self.start
        root = sqrt(max(0.0, self.area * self.area + 2 * self._widening * over))
        run = 2 * over / (self.area + root)
        return self.near + run if self.far > self.near else self.near - run

    @property
    def _widening(self) -> float:
        return (self.far_area - self.area) / self.length if self.length else 0.0


class Tube:
    """The well as one tube, both ways between a volume from its beginning and a measured depth.

    Examples
    --------
    >>> pipe = (PipeInterval(0.0, 1000.0, 0.2445, 0.2205, 70.0),)
    >>> hole = Hole([HoleSection(0.0, 400.0, 0.32, cased=True), HoleSection(400.0, 1010.0, 0.311)])
    >>> tube = Tube(Well(pipe, hole, Survey(), collar=980.0, head=0.3))
    >>> round(tube.shoe, 3), round(tube.collar, 3), round(tube.end, 3)
    (38.486, 37.723, 69.284)
    >>> round(tube.depth(tube.inside(700.0)), 6), round(tube.depth(tube.outside(700.0)), 6)
    (700.0, 700.0)
    """

    def __init__(self, well: Well) -> None:
        self.well = well
        self.top = well.head
        """Volume at the top of the casing, [m^3]."""
        self.casing = tuple(_down(well))
        self.shoe = self.casing[-1].start + self.casing[-1].volume
        """Volume at the shoe, [m^3]."""
        self.annulus = tuple(_up(well, self.shoe))
        self.end = self.annulus[-1].start + self.annulus[-1].volume
        """Volume at the top of the annulus, [m^3]."""
        self.collar = self.inside(well.collar)
        """Volume at the float collar, [m^3]."""
        self.pieces = self.casing + self.annulus
        self._starts = [piece.start for piece in self.pieces]

    def inside(self, depth: float) -> float:
        """Return the volume of the tube down to a measured depth in the casing, [m^3]."""
        require_range("Depth in the casing", depth, self.casing[0].near, self.well.shoe, "m")
        piece = next(each for each in self.casing if depth <= each.far)
        return piece.volume_to(depth)

    def outside(self, depth: float) -> float:
        """Return the volume of the tube round the shoe and up to a depth in the annulus, [m^3]."""
        require_range("Depth in the annulus", depth, self.annulus[-1].far, self.well.shoe, "m")
        piece = next(each for each in self.annulus if depth >= each.far)
        return piece.volume_to(depth)

    def depth(self, volume: float) -> float:
        """Return the measured depth at a volume of the tube; the casing's top in the head."""
        require_range("Volume of the tube", volume, 0.0, self.end * (1 + 1e-9), "m3")
        piece = self.pieces[max(0, bisect_right(self._starts, volume) - 1)]
        return piece.depth_at(max(volume, piece.start))

    def vertical(self, volume: float) -> float:
        """Return the true vertical depth at a volume of the tube, [m]."""
        return vertical(self.depth(volume), self.well.survey)

    @cached_property
    def nodes(self) -> tuple[Node, ...]:
        """Points along the tube between which the way down is a straight line of the volume."""
        points = [Node(0.0, vertical(self.casing[0].near, self.well.survey), 0.0, None)]
        for piece in self.pieces:
            points.extend(self._within(piece))
        return tuple(points)

    def _within(self, piece: Piece) -> Iterator[Node]:
        above = piece.near
        if piece is self.casing[0] and self.top > 0:
            yield Node(piece.start, vertical(above, self.well.survey), 0.0, None)
        for depth in _cuts(piece, self.well.survey):
            at, down = piece.volume_to(depth), vertical(depth, self.well.survey)
            yield Node(at, down, abs(depth - above), piece.gap)
            above = depth


@dataclass(frozen=True, slots=True)
class Node:
    """A point of the tube: volume and true vertical depth, and the length and gap before it."""

    at: float
    down: float
    length: float
    gap: Gap | None


def _down(well: Well) -> Iterator[Piece]:
    start = well.head
    for each in well.pipe:
        if each.length > 0:
            gap = Gap(each.inner_diameter)
            yield Piece(start, each.top, each.bottom, each.bore, each.bore, gap)
            start += each.bore * each.length


def _up(well: Well, start: float) -> Iterator[Piece]:
    for each in reversed(well.pipe):
        for section in reversed(well.hole.sections):
            bottom, top = min(each.bottom, section.bottom), max(each.top, section.top)
            if bottom > top:
                piece = _between(section, each, bottom, top, start)
                yield piece
                start += piece.volume


def _between(
    section: HoleSection, pipe: PipeInterval, bottom: float, top: float, start: float
) -> Piece:
    """Return the annulus between hole and pipe from one depth up to another."""
    section.volume(top, bottom, pipe.closed)  # refuses pipe that does not go in
    more = 1 + section.excess
    area = (section.area(bottom) - pipe.closed) * more
    far_area = (section.area(top) - pipe.closed) * more
    middle = (area + far_area) / 2
    wide = sqrt(middle * 4 / pi + pipe.outer_diameter**2)
    if section.lower_diameter is not None:
        # a caliper gives hundreds of diameters; to the millimetre they share their friction
        wide = max(round(wide, 3), round(pipe.outer_diameter, 3) + 0.001)
    return Piece(start, bottom, top, area, far_area, Gap(wide, pipe.outer_diameter))


def _cuts(piece: Piece, survey: Survey) -> Iterator[float]:
    """Return the depths in a piece, with the flow, that its nodes stand at; its end is the last."""
    top, bottom = sorted((piece.near, piece.far))
    stops = {top, bottom, *(s.depth for s in survey.stations if top < s.depth < bottom)}
    if piece.area != piece.far_area:
        stops |= _chords(top, bottom)
    for leg in survey.legs:
        if leg.angle > 1e-9:
            stops |= _chords(max(top, leg.top), min(bottom, leg.top + leg.length))
    stops.discard(piece.near)
    yield from sorted(stops, reverse=piece.far < piece.near)


def _chords(upper: float, lower: float) -> set[float]:
    """Return depths between two that are no further apart than a chord may be long."""
    parts = ceil((lower - upper) / LONGEST_CHORD)
    return {upper + (lower - upper) * part / parts for part in range(1, parts)}
