"""Pages of plain text: cells wrapped into columns, groups kept together, head and foot on each."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from textwrap import wrap

WIDTH = 100
LINES = 60

Lines = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its heading, its width, and whether it lines up on the right."""

    heading: str
    width: int
    right: bool = False

    def set(self, text: str) -> str:
        """Return text in the width of the column."""
        return text.rjust(self.width) if self.right else text.ljust(self.width)


@dataclass(frozen=True, slots=True)
class Section:
    """Groups of lines; a group is not parted while it fits a page.

    The heading comes again on each page.
    """

    heading: Lines
    groups: tuple[Lines, ...]


def wrapped(text: str, width: int = WIDTH, hang: int = 0) -> Lines:
    """Return text in lines of at most a width, those after the first set in by `hang`.

    >>> wrapped("thread damaged when stabbed", 14, hang=2)
    ('thread damaged', '  when stabbed')
    """
    lines = wrap(text, width, subsequent_indent=" " * hang, break_on_hyphens=False)
    return tuple(lines) or ("",)


def row(columns: Sequence[Column], cells: Sequence[str]) -> Lines:
    """Return cells set in their columns; a long cell goes on in the lines below.

    >>> row((Column("no.", 4), Column("ft", 6, right=True)), ("7", "41.35"))
    ('7     41.35',)
    """
    pieces = [wrapped(cell, column.width) for column, cell in zip(columns, cells, strict=True)]
    return tuple(
        " ".join(column.set(piece) for column, piece in zip(columns, line, strict=True)).rstrip()
        for line in zip_longest(*pieces, fillvalue="")
    )


def headings(columns: Sequence[Column]) -> Lines:
    """Return the headings of columns over a rule."""
    names = row(columns, [column.heading for column in columns])
    return (*names, " ".join("-" * column.width for column in columns))


def rule(title: str = "") -> str:
    """Return a rule across the page, with a title in it.

    >>> rule("DEPTHS")[:14]
    '-- DEPTHS ----'
    """
    return (f"-- {title} " if title else "").ljust(WIDTH, "-")


def pages(
    sections: Sequence[Section],
    head: Callable[[int, int], Lines],
    foot: Callable[[int, int], Lines],
) -> tuple[Lines, ...]:
    """Return the sections as pages of equal length; head and foot are told page and pages."""
    room = LINES - len(head(1, 1)) - len(foot(1, 1))
    bodies = _bodies(sections, room)
    count = len(bodies)
    return tuple(
        (*head(page, count), *body, *[""] * (room - len(body)), *foot(page, count))
        for page, body in enumerate(bodies, start=1)
    )


def paged(
    sections: Sequence[Section],
    head: Callable[[int, int], Lines],
    foot: Callable[[int, int], Lines],
) -> str:
    """Return the pages of the sections as one text, one under the other."""
    return "".join(f"{line}\n" for page in pages(sections, head, foot) for line in page)


def _bodies(sections: Sequence[Section], room: int) -> list[Lines]:
    bodies: list[list[str]] = [[]]
    for section in sections:
        opened = False
        for group in _fitting(section, room):
            wanted = len(group) + (0 if opened else len(section.heading))
            if len(bodies[-1]) + wanted > room:
                if not any(group):
                    continue  # a gap after the last group needs no page, and no heading, of its own
                bodies.append([])
                opened = False
            if not opened:
                bodies[-1] += section.heading
                opened = True
            bodies[-1] += group
    return [tuple(body) for body in bodies]


def _fitting(section: Section, room: int) -> list[Lines]:
    """Return the groups of a section, one longer than a page parted into pages."""
    most = room - len(section.heading)
    return [
        group[start : start + most]
        for group in section.groups
        for start in range(0, max(1, len(group)), most)
    ]
