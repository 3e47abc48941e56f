"""What every list is before it is understood: rows of cells, each row with its place."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from tally.units.text import unprintable

_BLANKS = re.compile("\r\n|[\t\n\v\f\r\u00a0\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000]")


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: its text, and whether a spreadsheet held it as a number."""

    text: str
    number: bool = False
    """Its text is plain digits with a decimal point then, whatever the other cells look like."""


EMPTY = Cell("")


@dataclass(frozen=True, slots=True)
class Row:
    """The cells of one row, with its place as a spreadsheet counts rows."""

    place: int
    cells: tuple[Cell, ...]

    def cell(self, column: int) -> Cell:
        """Return the cell of a column; an empty one beyond the end of the row."""
        return self.cells[column] if column < len(self.cells) else EMPTY

    @property
    def filled(self) -> tuple[int, ...]:
        """The columns that have something in them."""
        return tuple(place for place, cell in enumerate(self.cells) if cell.text)


@dataclass(frozen=True, slots=True)
class ListFile:
    """A file as it was opened: its name, its fingerprint, how it was read, and its rows."""

    name: str
    sha256: str
    read_as: str
    rows: tuple[Row, ...]
    notes: tuple[str, ...] = field(default=())
    parted: str = ""
    """The marks that part its cells, in words; nothing where they cannot be mistaken."""


def tidy(text: str) -> str:
    """Return the text of a cell with its line breaks, tabs and wide blanks as plain blanks.

    >>> tidy("  bent\\n at the pin ")
    'bent  at the pin'
    """
    return _BLANKS.sub(" ", text).strip(" ")


def legible(text: str, limit: int) -> str:
    """Return text of a cell as it may be shown: what cannot be is a question mark, long is cut.

    >>> legible("L\u00e4nge\x1b[31m", 8)
    'L\xe4nge?[3..'
    """
    kept = "".join("?" if unprintable(char) else char for char in text[: limit + 1])
    return kept if len(kept) <= limit else f"{kept[:limit]}.."
