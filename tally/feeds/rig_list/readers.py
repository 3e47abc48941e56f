"""How the lengths of a column are read: unit and decimal mark, and whether they are doubtful."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import median

from tally.errors import InputError
from tally.feeds.rig_list.columns import INCHES, LENGTH, Columns
from tally.feeds.rig_list.layout import Line
from tally.feeds.rig_list.lengths import Reader
from tally.feeds.rig_list.marks import COMMA, EITHER, POINT, UNSURE, decimal_mark
from tally.feeds.rig_list.rules import Rules
from tally.units import factor

UNITS = ("ft", "m", "mm")
_PLAUSIBLE = (Fraction("4.5"), Fraction(16))
"""What joints of casing measure, [m]: length ranges 1 to 3 are 16 to 48 ft."""
_SINGLE = re.compile(r"[0-9][0-9.,' \u2019]*[^\W\d_]*")
_BARE = re.compile(r"[0-9][0-9.,' \u2019]*")


@dataclass(frozen=True, slots=True)
class Chosen:
    """The reader of a column, and what a person is to be told or asked of it."""

    reader: Reader
    named: str
    """Who named the unit: the answer, the heading, or the tally."""
    doubtful: str = ""
    """Why the unit is doubtful, in a sentence; the reader is then the likelier one."""
    note: str = ""


def chosen_reader(
    columns: Columns, lines: Sequence[Line], rules: Rules, answered: str = ""
) -> Chosen:
    """Return how the lengths of a column are read that name no unit.

    Parameters
    ----------
    columns : Columns
        The columns, with the unit of the heading if it names one
    lines : Sequence[Line]
        The rows that stand in these columns
    rules : Rules
        The tally, whose unit is taken where nothing names one, and the pipe of the job
    answered : str
        The unit that a person has said

    Notes
    -----
    Half of the joints of a list are longer than its median, which one slip does not move. A
    median that no casing has in the unit that is named, and that it has in another, makes the
    unit doubtful. It is never changed without asking.
    """
    unit = answered or columns.unit or rules.step.unit
    named = "answer" if answered else "heading" if columns.unit else "tally"
    bare = [each for each in _singles(lines) if _BARE.fullmatch(each[0])]
    every = list(_singles(lines))
    mark = decimal_mark(text for text, number in every if not number)
    if INCHES in columns.at or not bare:
        unit = "ft" if INCHES in columns.at else unit
        found = _fitting(every, mark, unit, rules)
        return Chosen(found or Reader(unit, EITHER if mark == UNSURE else mark), named)
    found = _fitting(bare, mark, unit, rules)
    if found is not None:
        return Chosen(found, named, note=_note(bare, mark, found))
    others = [] if answered else [each for each in UNITS if each != unit]
    likelier = (_fitting(bare, mark, other, rules) for other in others)
    other = next((each for each in likelier if each is not None), None)
    if other is None:
        return Chosen(Reader(unit, EITHER if mark == UNSURE else mark), named)
    return Chosen(other, named, _doubt(bare, unit, other, named))


def _singles(lines: Sequence[Line]) -> Iterator[tuple[str, bool]]:
    """Yield the lengths that are one number, and whether a spreadsheet held them as numbers."""
    for line in lines:
        cell = line.cell(LENGTH)
        if not line.is_sum and (cell.number or _SINGLE.fullmatch(cell.text)):
            yield cell.text, cell.number


def _fitting(bare: Sequence[tuple[str, bool]], mark: str, unit: str, rules: Rules) -> Reader | None:
    """Return the reader with which the median is one that joints have, if there is one."""
    for each in (COMMA, POINT) if mark == UNSURE else (mark,):
        middle = _median(bare, Reader(unit, each))
        if middle is not None and _plausible(middle, rules):
            return Reader(unit, each)
    return None


def _median(bare: Sequence[tuple[str, bool]], reader: Reader) -> Fraction | None:
    values = []
    for text, number in bare:
        try:
            typed = f"{text} {reader.unit}" if number else reader.text(text)
            number_typed, unit = typed.split(" ")
            values.append(Fraction(number_typed) * factor(unit))
        except (InputError, ValueError, ZeroDivisionError):
            continue
    return Fraction(median(values)) if values else None


def _plausible(length: Fraction, rules: Rules) -> bool:
    """Return whether joints have such a length, by the ranges of the pipe if they are known."""
    shortest = [pipe.shortest.value for pipe in rules.pipes if pipe.shortest]
    longest = [pipe.longest.value for pipe in rules.pipes if pipe.longest]
    if len(longest) < len(rules.pipes) or len(shortest) < len(rules.pipes):
        return _PLAUSIBLE[0] <= length <= _PLAUSIBLE[1]
    return 0.9 * min(shortest) <= length <= 1.1 * max(longest)


def _doubt(bare: Sequence[tuple[str, bool]], unit: str, other: Reader, named: str) -> str:
    says = {
        "heading": f"the heading says {unit}",
        "tally": f"the list names no unit and the tally is in {unit}",
    }[named]
    return (
        f"{says}, but {bare[len(bare) // 2][0]} {unit} is no joint of this pipe; "
        f"in {other.unit} it would be one. Which unit is it?"
    )


def _note(bare: Sequence[tuple[str, bool]], mark: str, reader: Reader) -> str:
    if mark != UNSURE:
        return ""
    example = next(text for text, number in bare if not number)
    return f"{example} is read as {reader.text(example)}"
