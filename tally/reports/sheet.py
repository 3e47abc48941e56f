"""A smaller report as one structure: parts with fields, sentences and tables, written four ways.

A table names its columns once, in letters of the text page; the PDF gives them the same shares of
its page. A column of numbers holds digits in one unit, which its heading names, so that the CSV
has numbers that add up.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import partial

from tally.reports.fields import Field
from tally.reports.final_tally import FinalTally, only_name
from tally.reports.unsigned import lacking, standing_of

TEN = 10
"""Rows to a block of a long table."""
Cells = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading, its letters on the text page (0: what is left), and its kind."""

    name: str
    wide: int = 0
    number: bool = False


@dataclass(frozen=True, slots=True)
class Block:
    """Rows that stay together, and the row that sums them up."""

    rows: tuple[Cells, ...]
    closing: Cells = ()


@dataclass(frozen=True, slots=True)
class Grid:
    """A table in blocks; `file` names its CSV file beside those of the other tables."""

    columns: tuple[Column, ...]
    blocks: tuple[Block, ...]
    file: str = ""

    @property
    def rows(self) -> tuple[Cells, ...]:
        """Every row, without those that sum up."""
        return tuple(row for block in self.blocks for row in block.rows)


@dataclass(frozen=True, slots=True)
class Part:
    """A part under its title: sentences, then fields, then a table; `none` where it is empty."""

    title: str
    said: tuple[str, ...] = ()
    fields: tuple[Field, ...] = ()
    grid: Grid | None = None
    none: str = "Nothing is entered."
    picture: bool = False
    """Whether the PDF draws the displacement here."""

    @property
    def empty(self) -> bool:
        """Whether there is nothing to tell."""
        return not (self.said or self.fields or (self.grid and self.grid.blocks))


@dataclass(frozen=True, slots=True)
class Sheet:
    """One smaller report, ready to be written down."""

    key: str
    title: str
    tally: FinalTally
    parts: tuple[Part, ...]
    standing: str
    """What every page says of it: that it is not final."""
    unfinished: str = ""
    """Why nobody can sign it yet."""
    signing: tuple[tuple[str, str], ...] = ()
    """The roles that sign, each with its name where one person alone has it."""

    @property
    def grids(self) -> tuple[Grid, ...]:
        """The tables that have rows."""
        return tuple(part.grid for part in self.parts if part.grid and part.grid.blocks)


def sheet(
    key: str, title: str, tally: FinalTally, parts: Iterable[Part], signing: Sequence[str]
) -> Sheet:
    """Return a smaller report with what its pages say of its standing."""
    standing, lacks = standing_of(tally, key), lacking(tally, key)
    names = tuple((role, only_name(tally.job, role)) for role in signing)
    return Sheet(key, title, tally, tuple(parts), standing, lacks, names)


def tens(rows: Iterable[Cells]) -> tuple[Block, ...]:
    """Return rows in blocks of ten.

    >>> [len(block.rows) for block in tens([("a",)] * 23)]
    [10, 10, 3]
    """
    every = tuple(rows)
    return tuple(Block(every[start : start + TEN]) for start in range(0, len(every), TEN))


number = partial(Column, number=True)
"""A column of numbers."""
