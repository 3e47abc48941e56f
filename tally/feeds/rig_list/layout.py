"""The rows of a list sorted: headings, items, sums, notes, and what is blank."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from tally.feeds.opening import unread
from tally.feeds.rig_list.cells import Cell, Row
from tally.feeds.rig_list.columns import (
    KIND,
    LENGTH,
    NUMBER,
    Columns,
    as_item_number,
    columns_of,
    names_a_column,
)
from tally.feeds.rig_list.plain_columns import plain_columns
from tally.feeds.rig_list.words import kind_of, only_unit, says_page, says_total, unit_of
from tally.units import shown

_BEFORE_HEADINGS = 200
"""Rows in which headings are looked for; a list that has none by then has none."""


@dataclass(frozen=True, slots=True)
class Line:
    """One row of one list: an item or a sum."""

    row: Row
    columns: Columns
    is_sum: bool = False

    @property
    def place(self) -> int:
        """Its place as a spreadsheet counts rows."""
        return self.row.place

    def cell(self, part: str) -> Cell:
        """Return the cell of a part."""
        return self.columns.cell(self.row, part)

    @property
    def filled(self) -> tuple[int, ...]:
        """Its own columns that have something in them."""
        first, end = self.columns.span
        return tuple(column for column in self.row.filled if first <= column < end)

    @property
    def beyond(self) -> int:
        """How many cells of the row stand behind the last heading."""
        return sum(1 for column in self.row.filled if column >= self.columns.width)

    @property
    def words(self) -> str:
        """Return everything that stands in it."""
        return " ".join(self.row.cell(column).text for column in self.filled)

    @property
    def remarks(self) -> str:
        """Return every remark of the row."""
        cells = (self.row.cell(column).text for column in self.columns.remarks)
        return "; ".join(text for text in cells if text)


@dataclass(frozen=True, slots=True)
class Layout:
    """What the rows of a file are."""

    lines: tuple[Line, ...]
    columns: tuple[Columns, ...]
    notes: tuple[tuple[int, str], ...]
    """Rows that are words only."""
    repeated: tuple[int, ...]
    """Rows that name the columns once more."""

    def under(self, columns: Columns) -> tuple[Line, ...]:
        """Return the lines that stand in these columns."""
        return tuple(line for line in self.lines if line.columns is columns)


def is_list(rows: Sequence[Row]) -> bool:
    """Return whether rows have the columns of a pipe list."""
    return next(_headings(rows, "ft"), None) is not None or _plain(rows) is not None


def layout_of(rows: Sequence[Row], name: str, unit: str) -> Layout:
    """Return the rows of a list, sorted.

    Raises
    ------
    JobFileError
        If no row names a column of numbers and one of lengths, and two plain columns are not
        all that there is.
    """
    found = list(_headings(rows, unit))
    if not found:
        columns = _plain(rows)
        if columns is None:
            raise _no_headings(rows, name)
        return _sorted(rows, [(0, 0, (columns,))])
    return _sorted(rows, found)


def _plain(rows: Sequence[Row]) -> Columns | None:
    """Return two plain columns, unless a row names the one and leaves the other in doubt."""
    named = any(names_a_column(row) for row in rows[:_BEFORE_HEADINGS])
    return None if named else plain_columns(rows)


def _headings(rows: Sequence[Row], unit: str) -> Iterator[tuple[int, int, tuple[Columns, ...]]]:
    """Yield where headings stand, where the rows under them begin, and what they name."""
    first: tuple[Columns, ...] = ()
    for place, row in enumerate(rows):
        if not first and place >= _BEFORE_HEADINGS:
            return
        columns = columns_of(row, rows[place + 1 : place + 61], unit)
        if columns and not (first and _bare_unit(columns) != _bare_unit(first)):
            first = first or columns
            yield place, *_with_units(rows, place + 1, columns)


def _bare_unit(columns: Sequence[Columns]) -> str:
    """Return the heading of the lengths where it is a unit and nothing else.

    Such a heading may be a remark as well, so one that comes later must be the same.
    """
    title = columns[0].titles.get(LENGTH, "")
    return title if only_unit(title) else ""


def _with_units(
    rows: Sequence[Row], place: int, columns: tuple[Columns, ...]
) -> tuple[int, tuple[Columns, ...]]:
    """Return where the items begin, and the columns with the units of a row of units."""
    below = rows[place] if place < len(rows) else None
    first = columns[0]
    if below is None or not only_unit(first.cell(below, LENGTH).text):
        return place, columns
    if any(char.isdigit() for char in first.cell(below, NUMBER).text):
        return place, columns
    return place + 1, tuple(
        replace(each, unit=unit_of(each.cell(below, LENGTH).text)) for each in columns
    )


def _no_headings(rows: Sequence[Row], name: str) -> Exception:
    first = next((row for row in rows if len(row.filled) > 1), rows[0])
    cells = ", ".join(shown(cell.text, 16) for cell in first.cells[:6] if cell.text)
    return unread(
        f"The list '{name}' has no row that names a column of joint numbers and one of lengths; "
        f"write such a row over them, like number and length (row {first.place} reads: {cells})."
    )


def _sorted(rows: Sequence[Row], found: Sequence[tuple[int, int, tuple[Columns, ...]]]) -> Layout:
    lines: list[Line] = []
    kept: list[Columns] = []
    notes = [(row.place, _words(row)) for row in rows[: found[0][0]]]
    ends = [place for place, _, _ in found[1:]] + [len(rows)]
    for (_, begin, columns), end in zip(found, ends, strict=True):
        for each in (_once(one, kept) for one in columns):
            for line in (Line(row, each) for row in rows[begin:end]):
                if (made := _item_or_sum(line)) is not None:
                    lines.append(made)
                elif line.filled:
                    notes.append((line.place, line.words))
    repeated = tuple(rows[place].place for place, _, _ in found[1:])
    return Layout(tuple(lines), tuple(kept), tuple(notes), repeated)


def _once(columns: Columns, kept: list[Columns]) -> Columns:
    """Return the columns of an earlier heading that says the same, or these, kept from now on."""
    for each in kept:
        if each == columns:
            return each
    kept.append(columns)
    return columns


def _words(row: Row) -> str:
    return " ".join(cell.text for cell in row.cells if cell.text)


def _item_or_sum(line: Line) -> Line | None:
    """Return a line as an item or a sum; nothing where it is blank or words only."""
    if not line.filled:
        return None
    if _is_sum(line):
        return replace(line, is_sum=True)
    return line if _is_item(line) else None


def _is_sum(line: Line) -> bool:
    number = line.cell(NUMBER).text
    if number:
        return says_total(number)
    labels = (line.row.cell(column).text for column in line.filled)
    return any(says_total(text) for text in labels)


def _is_item(line: Line) -> bool:
    number, length = line.cell(NUMBER).text, line.cell(LENGTH).text
    if says_page(number):
        return False
    if _has_digit(length):
        return True
    if number and line.cell(KIND).text and kind_of(line.cell(KIND).text):
        return True
    return bool(as_item_number(number)) and (_has_digit(number) or bool(length))


def _has_digit(text: str) -> bool:
    return any(char.isdigit() for char in text)
