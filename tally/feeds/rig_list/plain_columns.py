"""A list without headings: two plain columns, of which one can only be the numbers."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from statistics import median

from tally.feeds.rig_list.cells import Row
from tally.feeds.rig_list.columns import LENGTH, NUMBER, Columns, as_item_number

_LENGTH = re.compile(r"(\d{1,7})(?:[.,](\d{1,4}))?(?:\s*[A-Za-z'\"].*)?", re.ASCII)
_BANDS = ((16.0, 52.0), (4.5, 16.0), (4_500.0, 16_000.0))
"""What joints measure in feet, in metres and in millimetres."""
_MOST = 0.8


def plain_columns(rows: Sequence[Row]) -> Columns | None:
    """Return the two columns of a list without headings, or nothing if they cannot be told.

    >>> from tally.feeds.rig_list.cells import Cell
    >>> rows = [Row(n, (Cell(f"{40 + n}.35"), Cell(str(n)))) for n in range(1, 6)]
    >>> dict(plain_columns(rows).at)
    {'number': 1, 'length': 0}
    """
    several = [row for row in rows if len(row.filled) > 1]
    pairs = Counter(row.filled for row in several)
    if not pairs:
        return None
    (pair, count), *_ = pairs.most_common(1)
    if len(pair) != 2 or count < _MOST * len(several):
        return None
    these = [row for row in several if row.filled == pair]
    ways = [way for way in (pair, pair[::-1]) if _may_be(these, *way)]
    if len(ways) > 1:
        ways = [way for way in ways if _counts_up(these, way[0])]
    if len(ways) != 1:
        return None
    return Columns(at={NUMBER: ways[0][0], LENGTH: ways[0][1]})


def _may_be(rows: Sequence[Row], number: int, length: int) -> bool:
    numbers = [as_item_number(row.cell(number).text) for row in rows]
    lengths = [_roughly(row.cell(length).text) for row in rows]
    read = [each for each in lengths if each is not None]
    if len(set(filter(None, numbers))) < 0.9 * len(rows) or len(read) < _MOST * len(rows):
        return False
    return any(low <= median(read) <= high for low, high in _BANDS)


def _roughly(text: str) -> float | None:
    found = _LENGTH.fullmatch(text)
    if found is None:
        return None
    whole, after = found.groups()
    return float(f"{whole}.{after or 0}")


def _counts_up(rows: Sequence[Row], column: int) -> bool:
    texts = [as_item_number(row.cell(column).text) for row in rows]
    values = [int(text) for text in texts if text.isdigit()]
    steps = [after - before for before, after in pairwise(values)]
    return bool(steps) and steps.count(1) >= _MOST * len(steps)
