"""The items of a list: each row read as far as it can be, with what is wrong with it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from tally.errors import InputError
from tally.feeds.item_numbers import as_painted
from tally.feeds.rig_list import doubts
from tally.feeds.rig_list.columns import (
    HEAT,
    INCHES,
    KIND,
    LENGTH,
    NUMBER,
    PARTS,
    PIPE,
    SERIAL,
    as_item_number,
)
from tally.feeds.rig_list.doubts import Doubt
from tally.feeds.rig_list.layout import Line
from tally.feeds.rig_list.lengths import Reader
from tally.feeds.rig_list.pipe_match import matched_pipe
from tally.feeds.rig_list.rules import Rules
from tally.feeds.rig_list.words import kind_of
from tally.job.setup import ITEM_KINDS
from tally.units import clean, shown
from tally.units.spreadsheet import unguarded
from tally.units.steps import LONGEST_METRES


@dataclass(frozen=True, slots=True)
class ListItem:
    """One row of a list as it was understood."""

    place: int
    number: str
    kind: str
    exact: Fraction | None
    """The length as measured, [m]; nothing where it could not be read."""
    plain: str
    """The same with a point and with its unit, as it was written: "41.35 ft"."""
    length: int
    """What enters the book, in whole steps."""
    typed: str
    pipe: str = ""
    serial: str = ""
    heat: str = ""
    description: str = ""


@dataclass(slots=True)
class Items:
    """Rows being read, one after the other."""

    rules: Rules
    loss: Fraction | None
    """What is taken off each length, [m]."""
    pipe: str = ""
    """The pipe of rows that name none, by answer."""
    numbers: dict[str, int] = field(default_factory=dict)
    found: list[tuple[ListItem, list[Doubt]]] = field(default_factory=list)

    def add(self, line: Line, reader: Reader, *, shifted: bool = False) -> ListItem:
        """Read one row, and note everything that is doubtful about it by itself."""
        noted: list[Doubt] = []
        if shifted:
            said = "has more cells than there are headings; its cells may have moved."
            _note(noted, line, doubts.CELLS, said)
        kind = _kind(line, noted)
        exact, plain, length = self._length(line, reader, noted)
        item = ListItem(
            place=line.place,
            number=self._number(line, noted),
            kind=kind,
            exact=exact,
            plain=plain,
            length=length,
            typed=_typed(line, reader, self.rules),
            pipe=self._pipe(line, noted),
            serial=_text(line, SERIAL, noted),
            heat=_text(line, HEAT, noted),
            description=_remarks(line, noted),
        )
        self.found.append((item, noted))
        return item

    def _number(self, line: Line, noted: list[Doubt]) -> str:
        typed = unguarded(line.cell(NUMBER).text)
        if not typed:
            _note(noted, line, doubts.NO_NUMBER, "has no number; read it off the pipe.")
            return ""
        number = as_item_number(typed)
        if not number:
            said = (
                f"'{shown(typed)}' is no number of an item: letters, digits and hyphens only, "
                "12 at most and no spaces."
            )
            _note(noted, line, doubts.NUMBER, said)
            return ""
        self._twice(line, number, noted)
        return number

    def _twice(self, line: Line, number: str, noted: list[Doubt]) -> None:
        painted = as_painted(number)
        first = self.numbers.setdefault(painted, len(self.found))
        if first != len(self.found):
            row = self.found[first][0].place
            said = f"number {number} stands on row {row} already; look which of them it is."
            _note(noted, line, doubts.TWICE, said)
        elif painted in self.rules.taken:
            said = f"number {number} is in the book already ({self.rules.taken[painted]})."
            _note(noted, line, doubts.IN_BOOK, said)

    def _length(
        self, line: Line, reader: Reader, noted: list[Doubt]
    ) -> tuple[Fraction | None, str, int]:
        if not line.cell(LENGTH).text and not line.cell(INCHES).text:
            _note(noted, line, doubts.NO_LENGTH, "has no length; measure it.")
            return None, "", 0
        try:
            plain = reader.typed(line)
            exact = reader.exact(line)
        except InputError as fault:
            _note(noted, line, doubts.LENGTH, str(fault))
            return None, "", 0
        left = exact - (self.loss or 0)
        length = self.rules.step.steps(left)
        if exact > LONGEST_METRES:
            _note(noted, line, doubts.LENGTH, f"{shown(plain)} is longer than any well.")
            return None, plain, 0
        if length <= 0:
            less = " less the make-up loss" if self.loss else ""
            _note(noted, line, doubts.LENGTH, f"{shown(plain)}{less} leaves nothing; measure it.")
            return exact, plain, 0
        return exact, plain, length

    def _pipe(self, line: Line, noted: list[Doubt]) -> str:
        named = unguarded(line.cell(PIPE).text)
        parts = {part: line.cell(part).text for part in PARTS}
        if not named and not any(parts.values()):
            return self.pipe
        try:
            return matched_pipe(named, parts, self.rules.pipes).name
        except InputError as fault:
            _note(noted, line, doubts.PIPE, str(fault))
            return ""


def _note(noted: list[Doubt], line: Line, what: str, said: str, *, stops: bool = True) -> None:
    noted.append(Doubt(line.place, what, said, stops))


def _kind(line: Line, noted: list[Doubt]) -> str:
    typed = line.cell(KIND).text
    if not typed:
        return kind_of(line.cell(NUMBER).text) or _kind_in_remarks(line) or "joint"
    kind = kind_of(typed)
    if not kind:
        said = f"'{shown(typed)}' is no kind of item; use one of {', '.join(ITEM_KINDS)}."
        _note(noted, line, doubts.KIND, said)
    return kind or "joint"


def _kind_in_remarks(line: Line) -> str:
    kinds = {kind_of(line.row.cell(column).text) for column in line.columns.remarks} - {""}
    return kinds.pop() if len(kinds) == 1 else ""


def _typed(line: Line, reader: Reader, rules: Rules) -> str:
    """Return a length as it stands in the file, with its unit where it is not the tally's."""
    text = line.cell(LENGTH).text
    if INCHES in line.columns.at:
        return f"{text or 0} ft {line.cell(INCHES).text or 0} in"
    bare = not any(char.isalpha() or char in "'\"\u2032\u2033" for char in text)
    return f"{text} {reader.unit}" if bare and reader.unit != rules.step.unit else text


def _text(line: Line, part: str, noted: list[Doubt]) -> str:
    try:
        return clean(unguarded(line.cell(part).text))
    except InputError as fault:
        _note(noted, line, doubts.TEXT, f"{part}: {fault}")
        return ""


def _remarks(line: Line, noted: list[Doubt]) -> str:
    """Return the remarks of a row; what cannot be kept is left off, and said."""
    cells = (unguarded(line.row.cell(column).text) for column in line.columns.remarks)
    try:
        return clean("; ".join(cell for cell in cells if cell))
    except InputError as fault:
        _note(noted, line, doubts.TEXT, f"the remark is left off: {fault}", stops=False)
        return ""


def joints(items: Sequence[ListItem]) -> tuple[ListItem, ...]:
    """Return the joints whose length could be read."""
    return tuple(item for item in items if item.kind == "joint" and item.exact is not None)
