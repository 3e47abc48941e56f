"""What charts are made of: scales in round steps, curves and marks that read without colour."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil, floor, log10

from tally.reports.pdf.letters import REGULAR, width
from tally.reports.pdf.pen import BLACK, PALE, SOLID, Dash, Pen, Point
from tally.reports.pump_curve import runs

SMALL = 7.0
_MARK = 2.4
DASHED: Dash = (4.0, 2.0)
DOTTED: Dash = (1.0, 1.6)


@dataclass(frozen=True, slots=True)
class Scale:
    """Numbers along a side of a chart, in round steps; it may run down as well as up."""

    low: float
    high: float
    step: float
    start: float
    """The place of the lowest number, in points."""
    end: float

    def at(self, number: float) -> float:
        """Return the place of a number."""
        return self.start + (self.end - self.start) * (number - self.low) / (self.high - self.low)

    def ticks(self) -> Iterable[tuple[float, str]]:
        """Return the places of the round numbers, and how they are written."""
        digits = max(0, -floor(log10(self.step) + 1e-9))
        for place in range(round((self.high - self.low) / self.step) + 1):
            number = self.low + place * self.step
            yield self.at(number), f"{number:,.{digits}f}"


def scale(
    numbers: Iterable[float], start: float, end: float, most: int = 8, *, nothing: bool = True
) -> Scale:
    """Return a scale from nothing, or lower, to beyond the greatest number.

    Without `nothing` it begins at a round number under the least.

    >>> one = scale([3, 118], 0, 120)
    >>> one.low, one.high, one.step, one.at(60)
    (0.0, 120.0, 20.0, 60.0)
    >>> one = scale([12.1, 15.8], 0, 120, nothing=False)
    >>> one.low, one.high, one.step
    (12.0, 16.0, 0.5)
    """
    known = [*([0.0] if nothing else []), *numbers] or [0.0]
    step = round_step((max(known) - min(known)) / most or 1.0)
    low = step * floor(min(known) / step)
    high = step * max(ceil(max(known) / step - 1e-9), floor(low / step) + 1)
    return Scale(low, high, step, start, end)


def round_step(least: float) -> float:
    """Return the next number of 1, 2 or 5 and a power of ten.

    >>> [round_step(number) for number in (0.03, 14.75, 20.0, 21.0)]
    [0.05, 20.0, 20.0, 50.0]
    """
    power = floor(log10(least))
    return next(
        float(f"{nice}e{power}") for nice in (1, 2, 5, 10) if nice * 10.0**power >= least * 0.999999
    )


def frame(pen: Pen, across: Scale, down: Scale, label: str, side: str) -> None:
    """Draw the frame of a chart with its grid, its numbers and what they are."""
    left, right = sorted((across.start, across.end))
    low, high = sorted((down.start, down.end))
    for place, number in across.ticks():
        pen.line([(place, low), (place, high)], grey=PALE)
        pen.centred(place, low - 9, number, size=SMALL)
    for place, number in down.ticks():
        pen.line([(left, place), (right, place)], grey=PALE)
        pen.right(left - 3, place - 2.5, number, size=SMALL)
    pen.box((left, low), (right, high), wide=0.7)
    pen.centred((left + right) / 2, low - 19, label, size=SMALL)
    pen.upright(left - 48, (low + high) / 2, side, size=SMALL)


def right_side(pen: Pen, across: Scale, up: Scale, side: str) -> None:
    """Draw the numbers of a second scale at the right."""
    right = max(across.start, across.end)
    for place, number in up.ticks():
        pen.line([(right, place), (right + 3, place)])
        pen.text(right + 5, place - 2.5, number, size=SMALL)
    pen.upright(right + 36, (up.start + up.end) / 2, side, size=SMALL)


def curve(pen: Pen, points: Sequence[Point], *, dash: Dash = SOLID, wide: float = 1.0) -> None:
    """Draw a curve; one point alone has none."""
    if len(points) > 1:
        pen.line(points, wide=wide, grey=BLACK, dash=dash)


def mark(pen: Pen, kind: str, at: Point) -> None:
    """Draw a mark: dot, ring, square, up, down or diamond."""
    x, y = at
    if kind in ("dot", "ring"):
        pen.ring(at, _MARK * 0.8, fill=BLACK if kind == "dot" else 1.0)
    elif kind == "square":
        pen.box((x - 2, y - 2), (x + 2, y + 2), fill=1.0, wide=0.6)
    else:
        pen.shape([(x + _MARK * a, y + _MARK * b) for a, b in _SHAPES[kind]], fill=_FILLS[kind])


_SHAPES = {
    "up": ((-1.0, -0.8), (1.0, -0.8), (0.0, 1.1)),
    "down": ((-1.0, 0.8), (1.0, 0.8), (0.0, -1.1)),
    "diamond": ((-1.0, 0.0), (0.0, 1.0), (1.0, 0.0), (0.0, -1.0)),
}
_FILLS = {"up": None, "down": BLACK, "diamond": BLACK}


def readings(
    pen: Pen,
    points: Sequence[tuple[float, float | None]],
    across: Scale,
    up: Scale,
    kind: str,
    dash: Dash,
) -> None:
    """Draw what was read as a curve with a mark at each reading, with gaps where nothing was."""
    for run in runs(points):
        placed = [(across.at(x), up.at(y)) for x, y in run]
        curve(pen, placed, dash=dash)
        for point in placed:
            mark(pen, kind, point)


def key(pen: Pen, left: float, y: float, entries: Sequence[tuple[str, str, Dash | None]]) -> None:
    """Write what each mark and curve stands for, side by side."""
    for kind, text, dash in entries:
        if dash is not None:
            pen.line([(left, y + 2.3), (left + 22, y + 2.3)], wide=1.0, grey=BLACK, dash=dash)
        if kind:
            mark(pen, kind, (left + 11, y + 2.3))
        pen.text(left + 26, y, text, size=SMALL)
        left += 26 + width(text, REGULAR, SMALL) + 16
