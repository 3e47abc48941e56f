"""The sums of a list: rows that add up what stands over them, held against the rows themselves."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction

from tally.errors import InputError
from tally.feeds.rig_list import doubts
from tally.feeds.rig_list.checks import about_a_loss
from tally.feeds.rig_list.columns import LENGTH, NUMBER
from tally.feeds.rig_list.doubts import Doubt
from tally.feeds.rig_list.items import ListItem
from tally.feeds.rig_list.layout import Line
from tally.feeds.rig_list.lengths import Reader
from tally.feeds.rig_list.marks import COMMA, POINT
from tally.feeds.rig_list.rules import Rules
from tally.feeds.rig_list.words import JOINT, TUBE, senses
from tally.units import factor, read_exact

_WHOLE = re.compile(r"\d{1,5}", re.ASCII)
_COUNTED = re.compile(r"(\d{1,5})\s*([^\W\d_]+)")
_A_LENGTH = re.compile(r"\d[\d.,' \u2019]*(?:\s*[^\W\d_]+)?$", re.ASCII)
_CHAIN_WITHIN = Fraction("0.002")
"""How far a sum in feet and inches may be off, [m]: half a sixteenth, and its rounding."""


@dataclass(slots=True)
class Sums:
    """What the rows add up to so far, since the last sum and in all, [m]."""

    rules: Rules
    in_all: Fraction = Fraction(0)
    since: Fraction = Fraction(0)
    rows: int = 0
    rows_since: int = 0
    unread: int = 0
    longest: Fraction = Fraction(0)
    agreed: list[tuple[int, str]] = field(default_factory=list)
    found: list[Doubt] = field(default_factory=list)

    def add(self, item: ListItem) -> None:
        """Count a row in."""
        self.rows += 1
        self.rows_since += 1
        if item.exact is None:
            self.unread += 1
            return
        self.in_all += item.exact
        self.since += item.exact
        self.longest = max(self.longest, item.exact)

    def is_sum(self, line: Line, reader: Reader) -> bool:
        """Return whether a row without a number is a sum that nobody labelled."""
        if line.cell(NUMBER).text or self.rows < 2:
            return False
        try:
            stated = reader.exact(line)
        except InputError:
            return False
        return stated > 1.5 * self.longest and self._agrees(stated, _within(line, reader))

    def check(self, line: Line, reader: Reader) -> None:
        """Hold a sum against the rows over it."""
        stated = list(_stated(line, reader))
        if not stated:
            self.agreed.append((line.place, "is a sum without a length"))
        elif any(self._agrees(each, within) for each, within in stated):
            self.agreed.append((line.place, "is a sum; the rows over it add up to it"))
        else:
            self._differs(line, min(stated, key=lambda each: abs(each[0] - self.in_all))[0])
        self._count(line)
        self.since, self.rows_since = Fraction(0), 0

    def _agrees(self, stated: Fraction, within: Fraction) -> bool:
        return any(abs(stated - each) <= within for each in (self.in_all, self.since))

    def _differs(self, line: Line, stated: Fraction) -> None:
        step = self.rules.step
        said, found = (step.with_unit(step.steps(each)) for each in (stated, self.in_all))
        short = step.with_unit(step.steps(abs(stated - self.in_all)))
        unread = f" ({self.unread} of them could not be read)" if self.unread else ""
        self.found.append(
            Doubt(
                line.place,
                doubts.TOTAL,
                f"the sum says {said}, the {self.rows} rows over it add up to {found}{unread}: "
                f"{short} apart.",
            )
        )
        per_joint = float((stated - self.in_all) / step.size) / self.rows if self.rows else 0.0
        if about_a_loss(per_joint, self.rules):
            said = (
                f"the sum is off by about the make-up loss ({self.rules.loss_text}) of each row: "
                "one of them may be overall and the other running."
            )
            self.found.append(Doubt(line.place, doubts.MEAN, said))

    def _count(self, line: Line) -> None:
        counts = set(_counts(line))
        if len(counts) == 1 and not counts & {self.rows, self.rows_since}:
            said = f"the sum counts {counts.pop()} joints, {self.rows} rows stand over it."
            self.found.append(Doubt(line.place, doubts.COUNT, said))


def _stated(line: Line, reader: Reader) -> Iterator[tuple[Fraction, Fraction]]:
    """Yield what a sum may say, and how far it may be off by its last digit, [m]."""
    marks = (reader.mark,) if reader.mark in (COMMA, POINT) else (POINT, COMMA)
    readers = [Reader(reader.unit, mark) for mark in marks]
    if line.cell(LENGTH).text:
        for each in readers:
            try:
                yield each.exact(line), _within(line, each)
            except InputError:
                continue
        return
    for column in line.filled:
        cell = line.row.cell(column)
        found = _A_LENGTH.search(cell.text)
        if found is None or _WHOLE.fullmatch(cell.text) or _counted(cell.text):
            continue
        for each in readers:
            try:
                typed = f"{cell.text} {each.unit}" if cell.number else each.text(found[0])
                yield read_exact(typed, "length"), _last_digit(typed)
            except InputError:
                continue


def _within(line: Line, reader: Reader) -> Fraction:
    try:
        return _last_digit(reader.typed(line))
    except InputError:
        return Fraction(0)


def _last_digit(typed: str) -> Fraction:
    """Return half a unit of the last digit of a length, [m]."""
    number, _, unit = typed.partition(" ")
    if unit not in ("ft", "m", "mm", "cm", "in") or "/" in number:
        return _CHAIN_WITHIN
    decimals = len(number.partition(".")[2])
    return Fraction(1, 2 * 10**decimals) * factor(unit)


def _counts(line: Line) -> Iterator[int]:
    """Yield the counts of joints that a sum gives."""
    length = line.columns.at[LENGTH]
    for column in line.filled:
        text = line.row.cell(column).text
        if column != length and _WHOLE.fullmatch(text):
            yield int(text)
        yield from _counted(text)


def _counted(text: str) -> list[int]:
    found = _COUNTED.findall(text)
    return [int(count) for count, noun in found if senses(noun) & {JOINT, TUBE}]
