"""A chart of dots between two axes, in ASCII: what every chart on a screen is drawn with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from textual.content import Content

from screens.ink import BOLD, INK, QUIET, Line

LEFT = 7
"""Columns that the numbers beside a chart take."""
LEAST_ROWS = 6
EVERY = 3
"""Rows from one number of the upright axis to the next."""
PARTS = 5
CLOSE = 20
"""An axis shorter than this is numbered with a decimal."""
STEPS = (1, 1.5, 2, 3, 4, 5, 6, 8, 10)

Dot = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Axis:
    """What an axis counts in, and the numbers at its two ends; the last may be the smaller."""

    unit: str
    first: float
    last: float

    def told(self, share: float) -> str:
        """Return the number at a share of its length from its first."""
        value = self.first + (self.last - self.first) * share
        return f"{value:,.1f}" if abs(self.last - self.first) < CLOSE else f"{value:,.0f}"

    def step(self, value: float, steps: int) -> int:
        """Return the step of so many at which a value stands; outside the axis, its end."""
        share = (value - self.first) / (self.last - self.first)
        return int(min(1.0, max(0.0, share)) * (steps - 1) + 0.5)


@dataclass(frozen=True, slots=True)
class Dots:
    """Places to mark alike, each across and then up, and what the mark means."""

    mark: str
    means: str
    places: Sequence[Dot]
    bold: bool = False


def chart(across: Axis, up: Axis, drawn: Sequence[Dots], width: int, rows: int) -> list[Content]:
    """Return a chart in so many rows, heading and axis among them; a later mark covers another."""
    if rows < LEAST_ROWS:
        return []
    high, wide = rows - 3, width - LEFT - 1
    cells = {
        (high - 1 - up.step(y, high), across.step(x, wide)): dots
        for dots in drawn
        for x, y in dots.places
    }
    return [
        _heading(up, drawn, width),
        *(_row(cells, row, width, _label(up, row, high)) for row in range(high)),
        Line(width).put(LEFT, "+" + "-" * (wide - 1), QUIET).content(),
        _foot(across, wide, width),
    ]


def evenly(first: float, last: float, parts: int) -> Iterator[float]:
    """Yield numbers evenly apart from the first to the last, both among them."""
    for part in range(parts + 1):
        yield first + (last - first) * part / parts


def round_up(value: float) -> float:
    """Return the next number that divides into even parts.

    >>> round_up(1193.0), round_up(597.1), round_up(0.7)
    (1500.0, 600.0, 0.8)
    """
    power = 1.0
    while power * 10 < value:
        power *= 10
    while power > value:
        power /= 10
    return next(step * power for step in STEPS if step * power >= value)


def _label(up: Axis, row: int, high: int) -> str:
    return up.told((high - 1 - row) / (high - 1)) if row % EVERY == 0 else ""


def _heading(up: Axis, drawn: Sequence[Dots], width: int) -> Content:
    key = "   ".join(f"{dots.mark} {dots.means}" for dots in drawn)
    return Line(width).put(1, up.unit, QUIET).end(width, key, QUIET).content()


def _row(cells: dict[tuple[int, int], Dots], row: int, width: int, label: str) -> Content:
    drawn = Line(width).end(LEFT - 1, label, QUIET).put(LEFT, "|", QUIET)
    for column, dots in sorted(
        ((column, dots) for (at, column), dots in cells.items() if at == row),
        key=lambda each: each[0],
    ):
        drawn.put(LEFT + 1 + column, dots.mark, BOLD if dots.bold else INK)
    return drawn.content()


def _foot(across: Axis, wide: int, width: int) -> Content:
    marks = Line(width)
    for part in range(PARTS):
        marks.put(LEFT + int(wide * part / PARTS), across.told(part / PARTS), QUIET)
    return marks.end(width, across.unit, QUIET).content()
