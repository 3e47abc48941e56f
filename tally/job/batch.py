"""Rows of readings as one text: what a batch holds, hashed whole and never changed.

The first line names the columns with their units; then comes a line for each row, its time in
seconds from the first row and its numbers, with nothing where a column was empty.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from hashlib import sha256
from math import isfinite

from tally.errors import InputError

Row = tuple[float, tuple[float | None, ...]]
"""The time of a row, [s] from the first row of its batch, and its numbers."""
MOST_ROWS = 1_000


@dataclass(frozen=True, slots=True)
class BatchColumn:
    """What one column holds, and the unit of its numbers (empty for a plain count)."""

    name: str
    unit: str = ""

    @property
    def title(self) -> str:
        """How the column is titled in the text."""
        return f"{self.name} ({self.unit})" if self.unit else self.name


def payload_of(columns: Sequence[BatchColumn], rows: Iterable[Row]) -> str:
    """Return rows as the text of a batch.

    >>> payload_of([BatchColumn("pressure", "psi"), BatchColumn("strokes")], [(0.0, (812.5, None))])
    'time (s),pressure (psi),strokes\\n0,812.5,\\n'
    """
    titles = ",".join(["time (s)", *(each.title for each in columns)])
    return "".join(f"{each}\n" for each in (titles, *(_line(time, row) for time, row in rows)))


def rows_of(payload: str) -> Iterator[Row]:
    """Yield the rows that the text of a batch holds.

    >>> list(rows_of("time (s),pressure (psi),strokes\\n0,812.5,\\n"))
    [(0.0, (812.5, None))]
    """
    for line in payload.split("\n")[1:-1]:
        time, *numbers = line.split(",")
        yield float(time), tuple(float(each) if each else None for each in numbers)


def hash_of(payload: str) -> str:
    """Return what a line of the journal says of the text of a batch."""
    return sha256(payload.encode()).hexdigest()


def number_of_rows(payload: str) -> int:
    """Return how many rows the text of a batch holds."""
    return max(0, payload.count("\n") - 1)


def _line(time: float, numbers: Sequence[float | None]) -> str:
    return ",".join([_number(round(time, 3)), *("" if n is None else _number(n) for n in numbers)])


def _number(value: float) -> str:
    """Return a number in ten figures: what a gauge shows comes back as it was read."""
    if not isfinite(value):
        raise InputError(f"A reading of {value} is no number; leave it empty.")
    return f"{value:.10g}"
