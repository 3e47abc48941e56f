"""What is doubtful in a list: the row, the kind of doubt, a sentence, and whether it stops."""

from __future__ import annotations

from dataclasses import dataclass

NO_NUMBER = "no number"
NUMBER = "number"
TWICE = "number twice"
IN_BOOK = "number in the book"
NO_LENGTH = "no length"
LENGTH = "not a length"
OUTSIDE = "outside the range"
SAME = "same as before"
SWAP = "digits swapped"
POINT = "point slipped"
UNIT = "unit"
PIPE = "pipe"
KIND = "kind"
TEXT = "text"
CELLS = "too many cells"
TOTAL = "total"
COUNT = "count"
MEAN = "mean"
LENGTHS = "overall or running"

WHOLE_LIST = 0
"""The row of a doubt about the list as a whole."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """One thing that a person should look at."""

    place: int
    """Its row as a spreadsheet counts rows; `WHOLE_LIST` where it is about no single row."""
    what: str
    sentence: str
    stops: bool = False
    """The row cannot be taken into the book as it is."""
