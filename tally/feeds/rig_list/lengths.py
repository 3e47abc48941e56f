"""The lengths of a list: each cell read exactly, in the unit and with the mark of its column."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from tally.errors import InputError
from tally.feeds.rig_list.columns import INCHES, LENGTH
from tally.feeds.rig_list.layout import Line
from tally.feeds.rig_list.marks import POINT, plain_number
from tally.feeds.rig_list.words import only_unit, unit_of
from tally.units import read_exact, shown

_ONE = re.compile(
    r"([0-9]{1,3}(?:[ '\u2019][0-9]{3})+(?:[.,][0-9]+)?|[0-9]+(?:[.,][0-9]+)*)"
    r"\s*([^\W\d_]*|['\"\u2032\u2033]{1,2})\.?"
)
_WORD = re.compile(r"[^\W\d_]+")
_COMMA_IN_NUMBER = re.compile(r"(?<=\d),(?=\d)")


@dataclass(frozen=True, slots=True)
class Reader:
    """How the lengths of a column are read: the unit of bare numbers and the decimal mark."""

    unit: str
    mark: str

    def exact(self, line: Line) -> Fraction:
        """Return the length of a line, [m].

        Raises
        ------
        InputError
            If it cannot be read in one way only.
        """
        return read_exact(self.typed(line), "length")

    def typed(self, line: Line) -> str:
        """Return the length of a line as it stands there, with a point and with its unit."""
        if INCHES in line.columns.at:
            return self._feet_and_inches(line)
        cell = line.cell(LENGTH)
        if cell.number:
            return f"{cell.text} {self.unit}"
        return self.text(cell.text)

    def text(self, text: str) -> str:
        """Return a typed length with a point and with its unit.

        >>> Reader("m", ",").text("12,60"), Reader("ft", ".").text("41' 4\\"")
        ('12.60 m', '41\\' 4"')
        """
        found = _ONE.fullmatch(text)
        if found is None:
            return self._left(text)
        number, unit = found.groups()
        if unit:
            named = _unit(unit)
            if not named:
                raise InputError(f'"{shown(text)}" is no length: "{shown(unit)}" is no unit of it.')
            return f"{plain_number(number, self.mark)} {named}"
        return f"{plain_number(number, self.mark)} {self.unit}"

    def _left(self, text: str) -> str:
        """Return feet and inches and the like, which the grammar of lengths reads itself."""
        pointed = _WORD.sub(lambda word: _unit(word[0]) or word[0], text)
        pointed = pointed if self.mark == POINT else _COMMA_IN_NUMBER.sub(".", pointed)
        read_exact(pointed, "length", self.unit)
        try:
            read_exact(pointed, "length")
        except InputError:
            return f"{pointed} {self.unit}"
        return pointed

    def _feet_and_inches(self, line: Line) -> str:
        cells = (line.cell(LENGTH), line.cell(INCHES))
        feet, inches = (
            cell.text if cell.number else _COMMA_IN_NUMBER.sub(".", cell.text) for cell in cells
        )
        if not inches:
            return f"{feet} ft"
        return f"{feet or 0} ft {inches} in"


def _unit(typed: str) -> str:
    if typed in ("''", "\u2032\u2032"):
        return "in"
    if typed in ("\u2032", "\u2033"):
        return "ft" if typed == "\u2032" else "in"
    return unit_of(typed) if only_unit(typed) else ""
