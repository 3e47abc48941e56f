"""What stands on a page: lines of a table, plain text, rules, pictures; each has its height."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from typing import Protocol

from tally.reports.pdf.letters import BOLD, REGULAR, drawable, width, wrapped
from tally.reports.pdf.paper import MARGIN
from tally.reports.pdf.pen import GREY, SIZE, Pen

LEADING = 10.0
GAP = 6.0
"""Between the columns of a table."""


class Piece(Protocol):
    """Something of a height that can be drawn at a place down the page."""

    @property
    def height(self) -> float:
        """How much of the page it takes."""
        ...

    def draw(self, pen: Pen, top: float) -> None:
        """Draw it, from this height of the page down."""
        ...


Pieces = tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class Space:
    """Nothing, of a height; a rule across the page if asked."""

    height: float = LEADING / 2
    ruled: float = 0.0

    def draw(self, pen: Pen, top: float) -> None:
        """Draw the rule."""
        if self.ruled:
            middle = top - self.height / 2
            pen.line([(MARGIN, middle), (MARGIN + self.ruled, middle)], grey=GREY)


@dataclass(frozen=True, slots=True)
class Line:
    """One line: texts with their places, from the left or up to a place."""

    texts: tuple[tuple[float, str, bool], ...]
    bold: bool = False
    size: float = SIZE
    height: float = LEADING

    def draw(self, pen: Pen, top: float) -> None:
        """Write it."""
        base = top - self.height + 2.6
        for place, text, right in self.texts:
            write = pen.right if right else pen.text
            write(MARGIN + place, base, text, bold=self.bold, size=self.size)


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing of a height; it is told its lower left corner."""

    height: float
    drawn: Callable[[Pen, float, float], None]

    def draw(self, pen: Pen, top: float) -> None:
        """Draw it."""
        self.drawn(pen, MARGIN, top - self.height)


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading, its width in points, and whether it lines up on the right."""

    heading: str
    width: float
    right: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """Columns side by side, from the left margin."""

    columns: tuple[Column, ...]

    def row(self, cells: Sequence[str], *, bold: bool = False) -> Pieces:
        """Return the lines of a row; a long cell goes on in the lines below."""
        font = BOLD if bold else REGULAR
        wide = [
            wrapped(cell, column.width, font, SIZE) if cell else ("",)
            for column, cell in zip(self.columns, cells, strict=True)
        ]
        return tuple(self._line(each, bold) for each in zip_longest(*wide, fillvalue=""))

    def _line(self, texts: Sequence[str], bold: bool) -> Line:
        placed, left = [], 0.0
        for column, text in zip(self.columns, texts, strict=True):
            if text:
                placed.append((left + column.width * column.right, text, column.right))
            left += column.width + GAP
        return Line(tuple(placed), bold)

    def heading(self) -> Pieces:
        """Return the headings over a rule."""
        names = self.row([column.heading for column in self.columns], bold=True)
        return (*names, Space(4.0, ruled=self.width))

    @property
    def width(self) -> float:
        """Width of all columns."""
        return sum(column.width for column in self.columns) + GAP * (len(self.columns) - 1)


def table(room: float, *columns: tuple[str, float] | tuple[str, float, bool]) -> Table:
    """Return a table that fills the room; a column of width 0 takes what the others leave."""
    used = sum(column[1] for column in columns) + GAP * (len(columns) - 1)
    rest = (room - used) / max(1, sum(1 for column in columns if not column[1]))
    return Table(
        tuple(Column(name, wide or rest, *right) for name, wide, *right in columns),
    )


def paragraph(text: str, room: float, *, bold: bool = False, indent: float = 0.0) -> Pieces:
    """Return text as lines; those after the first are set in."""
    font = BOLD if bold else REGULAR
    lines = wrapped(text, room - indent, font, SIZE)
    return tuple(
        Line(((indent if place else 0.0, line, False),), bold) for place, line in enumerate(lines)
    )


def title(text: str, room: float) -> Pieces:
    """Return the title of a section over a rule."""
    lines = wrapped(text, room, BOLD, 9.5)
    written = (Line(((0.0, line, False),), True, 9.5, 13.0) for line in lines)
    return (Space(), *written, Space(4.0, ruled=room))


def widest(texts: Sequence[str], *, bold: bool = False) -> float:
    """Return the width of the widest of some texts."""
    font = BOLD if bold else REGULAR
    return max((width(drawable(text), font, SIZE) for text in texts), default=0.0) + 1.0


def height(pieces: Sequence[Piece]) -> float:
    """Return how much of a page some pieces take."""
    return sum(piece.height for piece in pieces)
