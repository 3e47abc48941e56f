"""From text to rows: commas, semicolons, tabs or bars, whichever part the lines alike."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from itertools import islice

from tally.feeds.opening import unread
from tally.feeds.rig_list.cells import Cell, Row, tidy
from tally.feeds.rig_list.limits import MOST_COLUMNS, MOST_ROWS
from tally.feeds.rig_list.words import senses
from tally.units import shown

MARKS = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "bars"}
_LOOKED_AT = 100
"""Lines that are looked at to tell what parts the cells."""


def csv_rows(text: str, name: str) -> tuple[tuple[Row, ...], str]:
    """Return the rows with something in them, and what parts their cells.

    >>> rows, parted = csv_rows("Nr;L\\u00e4nge\\n1;12,60\\n", "list.csv")
    >>> parted, [cell.text for cell in rows[1].cells]
    ('semicolons', ['1', '12,60'])
    """
    text, mark = _told(text)
    mark = mark or _best_mark(text)
    rows: list[Row] = []
    for place, cells in _parted(text, mark, name):
        if len(cells) > MOST_COLUMNS:
            raise unread(
                f"Row {place} of '{name}' has {len(cells):,} cells, more than {MOST_COLUMNS}; "
                "a pipe list has a few columns."
            )
        tidied = tuple(Cell(tidy(cell)) for cell in cells)
        if any(cell.text for cell in tidied):
            rows.append(Row(place, tidied))
        if len(rows) > MOST_ROWS:
            raise unread(f"The list '{name}' has more than {MOST_ROWS:,} rows and is not read.")
    return tuple(rows), MARKS[mark]


def _told(text: str) -> tuple[str, str]:
    """Return the text, and the mark that its first line names ("sep=;")."""
    first, _, rest = text.partition("\n")
    told = first.strip().strip('"')
    if told.lower().startswith("sep=") and told[4:] in MARKS:
        return f"\n{rest}", told[4:]
    if first.rstrip("\r").lower() == "sep=\t":
        return f"\n{rest}", "\t"
    return text, ""


def _best_mark(text: str) -> str:
    """Return the mark that parts the headings, else the one that parts most lines alike."""
    lines = [line for line in islice(io.StringIO(text, newline=None), _LOOKED_AT) if line.strip()]
    return max(MARKS, key=lambda mark: _fit(lines, mark))


def _fit(lines: list[str], mark: str) -> tuple[int, int, int]:
    """Return how well a mark parts some lines: by headings, by lines parted, by likeness."""
    parted = [next(csv.reader([line[:5000]], delimiter=mark), []) for line in lines]
    headings = max((_headings(cells) for cells in parted), default=0)
    counts = [len(cells) for cells in parted if len(cells) > 1]
    alike = max((counts.count(each) for each in set(counts)), default=0)
    return (headings if headings > 1 else 0, alike, len(counts))


def _headings(cells: list[str]) -> int:
    return sum(1 for cell in cells if senses(cell.strip()))


def _parted(text: str, mark: str, name: str) -> Iterator[tuple[int, list[str]]]:
    place = 0
    try:
        for cells in csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True):
            place += 1
            yield place, cells
    except csv.Error as error:
        raise unread(
            f"Row {place + 1} of '{name}' is no CSV ({shown(str(error), 80)}); "
            "look at its quotation marks."
        ) from None
