"""The well drawn to scale: depth to one scale, diameters to another, names at the right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from tally.reports.final_tally import FinalTally
from tally.reports.pdf.chart import SMALL, Scale, mark, scale
from tally.reports.pdf.document import Section
from tally.reports.pdf.letters import shortened
from tally.reports.pdf.pen import GREY, PALE, Pen
from tally.reports.pdf.pieces import Picture, Pieces, paragraph, table
from tally.reports.pdf.well import OPEN, Fluid, Stretch, Well, well_of
from tally.units import to_unit

HEIGHT = 430.0
_HALF = 62.0
"""Half of the widest hole, in points."""
_MIDDLE = 146.0
_APART = 9.0
"""Between two names, in points."""
_MARKS = ("diamond", "ring", "up", "square", "dot", "down")
_FILLS = (0.55, 0.75, 0.65, 0.85)
"""Greys of slurries, in pumping order; each has its name beside it as well."""


def well_section(tally: FinalTally, room: float) -> Section:
    """Return the picture of the well with what its marks mean."""
    well = well_of(tally)

    def drawn(pen: Pen, left: float, low: float) -> None:
        _Drawing(pen, tally, well, left, low, room).draw()

    told = (
        "Depth is measured depth, to scale; diameters are to a scale of their own. A centralizer "
        "or scratcher stands at the middle of its joint."
    )
    return Section(
        "The well to scale", ((*paragraph(told, room), Picture(HEIGHT, drawn), *_key(well, room)),)
    )


def _key(well: Well, room: float) -> Pieces:
    columns = table(room, ("", 22.0), ("", 0.0))
    lines: Pieces = ()
    for place, (what, depths) in enumerate(well.pieces):
        row = columns.row(["", f"{what}: on {len(depths)} joints"])
        lines += (_Keyed(_MARKS[place % len(_MARKS)]), *row)
    if well.lacks:
        lines += paragraph(f"Fluids around the pipe are not drawn: {well.lacks}", room)
    return lines


@dataclass(frozen=True, slots=True)
class _Keyed:
    """A mark beside the line that follows."""

    kind: str
    height: float = 0.0

    def draw(self, pen: Pen, top: float) -> None:
        """Draw it."""
        mark(pen, self.kind, (50.0, top - 5.0))


@dataclass(frozen=True, slots=True)
class _Drawing:
    pen: Pen
    tally: FinalTally
    well: Well
    left: float
    low: float
    room: float

    def draw(self) -> None:
        down = self._depths()
        for place, fluid in enumerate(self._slurries()):
            self._fluid(down, fluid, _FILLS[place % len(_FILLS)])
        for fluid in self.well.fluids:
            if fluid not in self._slurries():
                self._fluid(down, fluid, PALE)
        self._walls(down)
        self._pipe(down)
        self._pieces(down)
        if self.well.pipe:
            foot = self._y(down, self.well.shoe)
            self._feet(self._x(self.well.pipe[-1].outer), foot, 4.0)
        self._names(down)

    def _slurries(self) -> list[Fluid]:
        return [one for one in self.well.fluids if one.kind == "slurry"]

    def _depths(self) -> Scale:
        unit = self.tally.setup.step.unit
        deepest = to_unit(self.well.deepest, unit)
        down = scale([deepest], self.low + HEIGHT - 10, self.low + 8, most=16)
        side = self.left + 60
        self.pen.line([(side, down.start), (side, down.end)])
        for place, number in down.ticks():
            self.pen.line([(side - 3, place), (side, place)])
            self.pen.right(side - 5, place - 2.5, number, size=SMALL)
        self.pen.upright(
            self.left + 6, (down.start + down.end) / 2, f"measured depth, {unit}", size=SMALL
        )
        return down

    def _y(self, down: Scale, depth: float) -> float:
        return down.at(to_unit(max(0.0, depth), self.tally.setup.step.unit))

    def _x(self, diameter: float) -> float:
        """Return how far from the middle the wall of a diameter is."""
        widest = max(each.outer for each in (*self.well.casings, *self.well.hole))
        return _HALF * diameter / widest

    @property
    def _middle(self) -> float:
        return self.left + _MIDDLE

    def _both(self, down: Scale, one: Stretch, diameter: float, wide: float, grey: float) -> None:
        """Draw a wall at both sides."""
        for side in (-1, 1):
            x = self._middle + side * self._x(diameter)
            ends = [(x, self._y(down, one.top)), (x, self._y(down, one.bottom))]
            self.pen.line(ends, wide=wide, grey=grey)

    def _walls(self, down: Scale) -> None:
        bare = [part for part in self.well.hole if part.what == OPEN]
        for part in bare:
            self._both(down, part, part.outer, 0.7, GREY)
        for upper, lower in pairwise(bare):
            for side in (-1, 1):
                self._ledge(down, lower.top, side * upper.outer, side * lower.outer)
        if bare:
            self._ledge(down, bare[-1].bottom, -bare[-1].outer, bare[-1].outer)
        for casing in self.well.casings:
            self._both(down, casing, casing.outer, 1.6, 0.0)
            self._feet(self._x(casing.outer), self._y(down, casing.bottom), 5.0)

    def _ledge(self, down: Scale, depth: float, one: float, other: float) -> None:
        """Draw the hole from one wall to another, across."""
        y = self._y(down, depth)
        self.pen.line([(self._middle + self._x(each), y) for each in (one, other)], grey=GREY)

    def _feet(self, out: float, y: float, big: float) -> None:
        """Draw the two halves of a shoe."""
        for side in (-1, 1):
            x = self._middle + side * out
            self.pen.shape([(x, y), (x + side * big, y), (x, y + big)])

    def _pipe(self, down: Scale) -> None:
        for part in self.well.pipe:
            half = self._x(part.outer)
            lower = (self._middle - half, self._y(down, part.bottom))
            self.pen.box(lower, (self._middle + half, self._y(down, part.top)), fill=1.0, wide=0.0)
            self._both(down, part, part.outer, 1.0, 0.0)
        if self.well.pipe:
            half = self._x(self.well.pipe[-1].outer)
            if self.well.collar is not None:
                y = self._y(down, self.well.collar)
                self.pen.box((self._middle - half, y - 2), (self._middle + half, y), fill=0.0)

    def _fluid(self, down: Scale, fluid: Fluid, grey: float) -> None:
        """Fill the annulus with a fluid, from wall to wall; the pipe is drawn over it."""
        for part in self.well.hole:
            top, bottom = max(part.top, fluid.top), min(part.bottom, fluid.bottom)
            if top < bottom:
                out = self._x(part.outer)
                lower = (self._middle - out, self._y(down, bottom))
                upper = (self._middle + out, self._y(down, top))
                self.pen.box(lower, upper, fill=grey, wide=0.0)
        y, out = self._y(down, fluid.top), self._widest_at(fluid.top)
        self.pen.line([(self._middle - out, y), (self._middle + out, y)], wide=0.8)

    def _widest_at(self, depth: float) -> float:
        parts = self.well.hole
        return max(
            (self._x(one.outer) for one in parts if one.top <= depth < one.bottom), default=0
        )

    def _pieces(self, down: Scale) -> None:
        out = self._x(max((one.outer for one in self.well.pipe), default=0.0)) + 3
        for place, (_, depths) in enumerate(self.well.pieces):
            for depth in depths:
                for side in (-1, 1):
                    at = (self._middle + side * (out + 5 * (place // 2)), self._y(down, depth))
                    mark(self.pen, _MARKS[place % len(_MARKS)], at)

    def _names(self, down: Scale) -> None:
        names = sorted(self.well.names, key=lambda one: one.depth)
        most = int((HEIGHT - 20) / _APART)
        wanted = [self._y(down, one.depth) for one in names[:most]]
        edge, text = self._middle + _HALF + 8, self._middle + _HALF + 50
        for one, y, place in zip(names, wanted, spread(wanted, down.start, down.end), strict=False):
            self.pen.line([(edge, y), (text - 14, place), (text - 3, place)], grey=GREY)
            told = shortened(one.text, self.left + self.room - text, size=SMALL)
            self.pen.text(text, place - 2.5, told, size=SMALL)
        if len(names) > most:
            told = f"and {len(names) - most} more, see the tables"
            self.pen.text(text, self.low - 2, told, size=SMALL)


def spread(wanted: Sequence[float], high: float, low: float) -> list[float]:
    """Return places down the page, each near what is wanted, none too near another.

    >>> spread([100.0, 99.0, 10.0], 110.0, 8.0)
    [100.0, 91.0, 10.0]
    >>> spread([12.0, 11.0, 10.0], 110.0, 8.0)
    [26.0, 17.0, 8.0]
    """
    places: list[float] = []
    for want in wanted:
        places.append(min([high, want, *(place - _APART for place in places[-1:])]))
    floor = low
    for at in range(len(places) - 1, -1, -1):
        places[at] = max(places[at], floor)
        floor = places[at] + _APART
    return places
