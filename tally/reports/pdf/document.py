"""A document: sections parted into pages, with the head and the foot of each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tally.reports.pdf.letters import BOLD, REGULAR, shortened, width
from tally.reports.pdf.paper import MARGIN, Paper
from tally.reports.pdf.pen import Pen
from tally.reports.pdf.pieces import Piece, Pieces, height, title
from tally.reports.progress import page_drawn

_EXPLAINED = (
    "A character that cannot be printed is written as its number: \\u and four digits, or \\U and "
    "eight."
)


@dataclass(frozen=True, slots=True)
class Section:
    """Groups of pieces under a title; a group is not parted while it fits a page.

    The title and the heading of its table come again on each page.
    """

    title: str
    groups: tuple[Pieces, ...]
    heading: Pieces = ()


@dataclass(frozen=True, slots=True)
class Document:
    """What stands on every page, and what the pages say."""

    title: str
    about: str
    """The well and the string."""
    standing: str
    """What a reader must know of every page: that it is not final, what is open."""
    entries: int
    head: str
    until: str
    """When the last entry was made."""
    sections: tuple[Section, ...]


def written(document: Document, paper: Paper) -> bytes:
    """Return a document as a file."""
    pen = Pen((paper.across, paper.down), document.title, document.about)
    draw(document, paper, pen)
    return pen.done()


def draw(document: Document, paper: Paper, pen: Pen) -> None:
    """Draw every page of a document."""
    bodies = parted(document.sections, paper)
    for number, body in enumerate(bodies, start=1):
        _head(document, paper, pen, f"page {number} of {len(bodies)}")
        top = paper.top
        for piece in body:
            piece.draw(pen, top)
            top -= piece.height
        _foot(document, paper, pen)
        pen.turn()
        page_drawn(number, len(bodies))


def parted(sections: Sequence[Section], paper: Paper) -> list[list[Piece]]:
    """Return the pieces of each page; a title never stands at the foot with nothing under it."""
    bodies: list[list[Piece]] = [[]]
    used = 0.0
    for section in sections:
        opening, again = _openings(section, paper)
        opened = False
        for group in _fitting(section, paper.height - height(again)):
            wanted = height(group) + (0.0 if opened else height(opening))
            if used and used + wanted > paper.height:
                bodies.append([])
                used, opened = 0.0, False
            if not opened:
                bodies[-1] += opening
                used += height(opening)
                opening, opened = again, True
            bodies[-1] += group
            used += height(group)
    return bodies


def _openings(section: Section, paper: Paper) -> tuple[Pieces, Pieces]:
    first = title(section.title, paper.width)
    again = title(f"{section.title}, continued", paper.width)
    return (*first, *section.heading), (*again, *section.heading)


def _fitting(section: Section, room: float) -> list[Pieces]:
    """Return the groups of a section, one that is higher than the room parted into several."""
    groups: list[Pieces] = []
    for group in section.groups:
        begun: list[Piece] = []
        used = 0.0
        for piece in group:
            if begun and used + piece.height > room:
                groups.append(tuple(begun))
                begun, used = [], 0.0
            begun.append(piece)
            used += piece.height
        groups.append(tuple(begun))
    return groups


def _head(document: Document, paper: Paper, pen: Pen, number: str) -> None:
    """Draw the head of a page."""
    left, right = MARGIN, MARGIN + paper.width
    line = paper.down - MARGIN - 9
    named = shortened(document.title, paper.width - 80, BOLD, 11)
    pen.text(left, line, named, bold=True, size=11)
    pen.right(right, line, number)
    pen.text(left, line - 13, shortened(document.about, paper.width))
    if document.standing:
        standing = shortened(document.standing, paper.width, BOLD)
        pen.text(left, line - 24, standing, bold=True)
    pen.line([(left, paper.top + 4), (right, paper.top + 4)], wide=0.8)


def _foot(document: Document, paper: Paper, pen: Pen) -> None:
    """Draw the foot of a page; letters written as numbers anywhere on it are explained."""
    left, right = MARGIN, MARGIN + paper.width
    chain = f"{document.entries} entries, the last at {document.until}; chain ends {document.head}"
    pen.line([(left, MARGIN + 22), (right, MARGIN + 22)], wide=0.8)
    size = min(7.0, 7.0 * paper.width / width(chain, REGULAR, 7.0))
    pen.text(left, MARGIN + 12, chain, size=size)
    if pen.escaped:
        pen.text(left, MARGIN, _EXPLAINED, size=6.5)
