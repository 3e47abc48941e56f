"""Which column holds what: headings matched by meaning, in any order, in any of the languages."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from tally.errors import InputError
from tally.feeds.item_numbers import item_number
from tally.feeds.rig_list import words
from tally.feeds.rig_list.cells import EMPTY, Cell, Row
from tally.feeds.rig_list.words import kind_of, only_length_words, only_unit, senses, unit_of

NUMBER, LENGTH, INCHES, REMARKS, KIND = "number", "length", "inches", "remarks", "kind"
PIPE, HEAT, SERIAL = words.PIPE, words.HEAT, words.SERIAL
PARTS = (words.SIZE, words.WEIGHT, words.GRADE, words.THREAD)
_BY_VALUES = (words.TUBE, words.ITEM, words.TYPE)
_LOOKED_AT = 60
"""Rows under a heading that are looked at where the heading alone does not tell."""
_DATE = re.compile(r"\d{4}-\d{1,2}-\d{1,2}|\d{1,2}-\d{1,2}-\d{2,4}", re.ASCII)


@dataclass(frozen=True, slots=True)
class Heading:
    """What one heading means."""

    column: int
    title: str
    sense: str
    rank: int = 0
    """Among headings of one sense the higher is meant: "joint no." rather than "no."."""
    unit: str = ""
    measured: str = ""
    """running or overall, where the heading says so."""


@dataclass(frozen=True, slots=True)
class Columns:
    """Where the parts of an item stand in the rows under one heading."""

    at: Mapping[str, int]
    remarks: tuple[int, ...] = ()
    unit: str = ""
    measured: str = ""
    span: tuple[int, int] = (0, 1_000)
    """The columns that belong to these rows; two lists may stand side by side."""
    titles: Mapping[str, str] = field(default_factory=dict)
    unused: tuple[str, ...] = ()
    width: int = 1_000
    """Cells of the row of headings; a cell beyond them stands under none."""

    def cell(self, row: Row, part: str) -> Cell:
        """Return the cell of a part; an empty one where the list has no such column."""
        return row.cell(self.at[part]) if part in self.at else EMPTY


def columns_of(heading: Row, below: Sequence[Row], unit: str) -> tuple[Columns, ...]:
    """Return the columns that a row of headings names; nothing if it is no row of headings.

    Parameters
    ----------
    heading : Row
        The row that may name the columns
    below : Sequence[Row]
        The rows under it, which tell what a column holds where its heading does not
    unit : str
        The unit of the tally: preferred where the list has its lengths in several
    """
    if any(cell.text[:1].isdigit() for cell in heading.cells) or len(heading.filled) < 2:
        return ()
    found = [meaning(column, heading.cell(column).text) for column in heading.filled]
    found = [_by_values(each, below[:_LOOKED_AT], found) for each in found]
    made = (_columns(part, span, unit) for part, span in _side_by_side(found))
    width = len(heading.cells)
    return tuple(replace(each, width=width) for each in made if each is not None)


def names_a_column(row: Row) -> bool:
    """Return whether a row looks like headings, though they may not be enough for a list."""
    texts = [row.cell(column).text for column in row.filled]
    if len(texts) < 2 or any(_has_digit(text) for text in texts):
        return False
    return any(meaning(0, text).sense in (NUMBER, LENGTH) for text in texts)


def meaning(column: int, title: str) -> Heading:
    """Return what a heading means.

    >>> meaning(0, "Rohr-Nr.").sense, meaning(1, "Gesamtl\\u00e4nge (m)").measured
    ('number', 'overall')
    """
    found = senses(title)
    plain = Heading(column, title, _sense(title, found), unit=unit_of(title))
    if plain.sense == LENGTH:
        return _length(plain, found)
    if plain.sense == NUMBER:
        return replace(plain, rank=_rank(found))
    return plain


def _sense(title: str, found: frozenset[str]) -> str:
    if found & {words.LOSS, words.SUM, words.OTHER}:
        return ""
    if words.LENGTH in found:
        return LENGTH
    for sense in (HEAT, SERIAL):
        if sense in found:
            return sense
    if words.REMARK in found:
        return REMARKS
    return _pipe_sense(found) or _number_sense(found) or _weak_length(title)


def _pipe_sense(found: frozenset[str]) -> str:
    parts = [part for part in PARTS if part in found]
    if parts:
        return parts[0] if len(parts) == 1 else PIPE
    typed = words.TYPE in found and words.TUBE in found and words.NUMBER not in found
    return PIPE if words.PIPE in found or typed else ""


def _number_sense(found: frozenset[str]) -> str:
    if found & {words.NUMBER, words.JOINT, words.ORDER}:
        return NUMBER
    return next((sense for sense in _BY_VALUES if sense in found), "")


def _weak_length(title: str) -> str:
    return LENGTH if only_length_words(title) or only_unit(title) else ""


def _rank(found: frozenset[str]) -> int:
    if words.ORDER in found:
        return 1 if words.NUMBER in found else 0
    if words.NUMBER in found:
        return 4 if found & {words.TUBE, words.JOINT} else 2
    return 3


def _length(plain: Heading, found: frozenset[str]) -> Heading:
    measured = ""
    if words.RUNNING in found:
        measured = "running"
    elif found & {words.OVERALL, words.TOTAL}:
        measured = "overall"
    weak = only_unit(plain.title) or (words.TOTAL in found and words.OVERALL not in found)
    return replace(plain, measured=measured, rank=0 if weak else 1)


def _by_values(one: Heading, below: Sequence[Row], beside: Sequence[Heading]) -> Heading:
    """Return a heading whose meaning is told by what stands under it, where it has to be."""
    if one.sense not in _BY_VALUES:
        return one
    texts = [row.cell(one.column).text for row in below]
    texts = [text for text in texts if text]
    numbered = any(each.sense == NUMBER for each in beside)
    if one.sense != words.TYPE and not numbered and _mostly(texts, _as_number):
        return replace(one, sense=NUMBER)
    if _mostly(texts, kind_of):
        return replace(one, sense=KIND)
    if _mostly(texts, _has_digit) and not any(each.sense == PIPE for each in beside):
        return replace(one, sense=PIPE)
    return replace(one, sense=REMARKS if one.sense == words.TYPE else "")


def _mostly(texts: Sequence[str], test: object) -> bool:
    assert callable(test)
    return bool(texts) and sum(1 for text in texts if test(text)) >= 0.8 * len(texts)


def _has_digit(text: str) -> bool:
    return any(char.isdigit() for char in text)


def _as_number(text: str) -> bool:
    return bool(as_item_number(text)) and _has_digit(text)


def as_item_number(text: str) -> str:
    """Return a number as it is painted, without the sign before or the point behind it, or nothing.

    A date is none, though it has digits and hyphens only: a spreadsheet makes 1-2 one.

    >>> as_item_number("#12"), as_item_number("12."), as_item_number("bundle 3")
    ('12', '12', '')
    """
    bare = text.removeprefix("#").strip(" ").removesuffix(".")
    if _DATE.fullmatch(bare):
        return ""
    try:
        return item_number(bare)
    except InputError:
        return ""


def _side_by_side(found: Sequence[Heading]) -> list[tuple[list[Heading], tuple[int, int]]]:
    """Return the headings of each list that stands in the rows, with the columns it has."""
    whole = [(list(found), (0, 1_000))]
    numbers = _best(found, NUMBER)
    lengths = [each.column for each in found if each.sense == LENGTH]
    if len(numbers) < 2 or len(lengths) < len(numbers):
        return whole
    places = [each.column for each in numbers]
    first = places[0] < lengths[0]
    edges = [*places, 1_000] if first else [0, *(place + 1 for place in places)]
    spans = [*pairwise(edges)]
    if not first:
        spans[-1] = (spans[-1][0], 1_000)
    parts = [([one for one in found if a <= one.column < b], (a, b)) for a, b in spans]
    if all(any(one.sense == LENGTH for one in part) for part, _ in parts):
        return parts
    return whole


def _best(found: Sequence[Heading], sense: str) -> list[Heading]:
    these = [each for each in found if each.sense == sense]
    highest = max((each.rank for each in these), default=0)
    return [each for each in these if each.rank == highest]


def _columns(found: Sequence[Heading], span: tuple[int, int], unit: str) -> Columns | None:
    numbers = _best(found, NUMBER)
    length, inches = _chosen_length(found, unit)
    if not numbers or length is None:
        return None
    chosen = {NUMBER: numbers[0], LENGTH: length}
    if inches is not None:
        chosen[INCHES] = inches
    for sense in (KIND, PIPE, HEAT, SERIAL, *PARTS):
        these = [each for each in found if each.sense == sense]
        if these:
            chosen[sense] = these[0]
    remarks = [each for each in found if each.sense == REMARKS]
    used = {each.column for each in (*chosen.values(), *remarks)}
    return Columns(
        at={part: each.column for part, each in chosen.items()},
        remarks=tuple(each.column for each in remarks),
        unit=length.unit,
        measured=length.measured,
        span=span,
        titles={part: each.title for part, each in chosen.items()},
        unused=tuple(each.title for each in found if each.column not in used),
    )


def _chosen_length(found: Sequence[Heading], unit: str) -> tuple[Heading | None, Heading | None]:
    """Return the column of the lengths that count, and that of their inches if there is one."""
    lengths = [each for each in found if each.sense == LENGTH]
    pairs = {
        feet: inches
        for feet in lengths
        for inches in lengths
        if inches.column == feet.column + 1
        and (feet.unit, inches.unit) == ("ft", "in")
        and only_unit(inches.title)
    }
    lengths = [each for each in lengths if each not in pairs.values()]
    if not lengths:
        return None, None
    ways = ("running", "", "overall")
    best = min(lengths, key=lambda one: (-one.rank, ways.index(one.measured), one.unit != unit))
    return best, pairs.get(best)
