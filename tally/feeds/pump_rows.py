"""The rows of a recorded pump file: times and numbers, cell by cell, with faults in sentences."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from math import isfinite

from tally.errors import InputError
from tally.feeds.pump_columns import QUANTITIES, TIMES, Column, unit_for
from tally.units import from_unit, read, shown

_PLAIN = re.compile(r"-?\d{1,12}(?:\.\d{1,9})?", re.ASCII)
_OF_DAY = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?", re.ASCII)
_DAY = 86_400.0
_LONG_GAP = 600.0
"""[s]; with more between two rows, the clock was set or the recording stood still."""
_NOTHING = {"", "-999.25", "-9999", "nan", "null", "n/a", "-", "--"}


@dataclass(frozen=True, slots=True)
class PumpRow:
    """One row, in SI; the time counts from wherever the file counts."""

    line: int
    time: float
    volume: float | None = None
    pressure: float | None = None
    rate: float | None = None
    density: float | None = None
    strokes: float | None = None


class RowReader:
    """Makes a row of cells; follows the clock from the last row only."""

    def __init__(
        self, known: Mapping[str, Column], asked: Mapping[str, str], last: PumpRow | None
    ) -> None:
        self._known = known
        self._time = next((known[each] for each in ("elapsed", *TIMES) if each in known), None)
        self._time_unit = self._unit_of_time(asked)
        self.last = last
        self.untouched = True
        self._shift = 0.0
        self._step = 1.0
        self.doubts: dict[str, str] = {}
        if self._time is None:
            self.doubts["column of time"] = "Which column is the time? None is titled so."

    def _unit_of_time(self, asked: Mapping[str, str]) -> str:
        if self._time is None:
            return ""
        told = asked.get(f"unit of {self._time.meaning}") or asked.get("unit of time") or ""
        named = {"seconds": "s", "minutes": "min"}.get(self._time.title.casefold(), "")
        return unit_for("elapsed", told or self._time.unit or named)

    def first(self, cells: Sequence[str]) -> None:
        """Look at a row while other questions are open, so that all are asked at once."""
        self.untouched = False
        self._seconds(cells)

    def row(self, line: int, cells: Sequence[str]) -> tuple[PumpRow | None, list[str]]:
        """Return the row of one line, or the faults for which it is left out."""
        self.untouched = False
        faults: list[str] = []
        time = self._seconds(cells)
        if time is None:
            if not self.doubts:
                faults.append(f"{self._at(line, self._time)} {self._cell(cells)} is no time.")
            return None, faults
        values: dict[str, float | None] = {}
        for meaning, quantity in QUANTITIES.items():
            if meaning == "elapsed" or meaning not in self._known:
                continue
            column = self._known[meaning]
            text = cells[column.place].strip() if column.place < len(cells) else ""
            try:
                values[meaning] = _number(text, quantity, column.unit)
            except InputError as fault:
                faults.append(f"{self._at(line, column)} {fault}")
        if faults or not any(each is not None for each in values.values()):
            return None, faults or [f"Line {line} has a time and no reading; it is left out."]
        row = PumpRow(line, self._on(line, time, faults), **values)
        self.last = row
        return row, faults

    def _at(self, line: int, column: Column | None) -> str:
        title = shown(column.title, 40) if column else ""
        return f'Line {line}, column "{title}":'

    def _cell(self, cells: Sequence[str]) -> str:
        place = self._time.place if self._time else 0
        return f'"{shown(cells[place], 40)}"' if place < len(cells) else "nothing"

    def _seconds(self, cells: Sequence[str]) -> float | None:
        """Return the time of a row, [s]; a bare number without a unit is asked for."""
        if self._time is None or self._time.place >= len(cells):
            return None
        text = cells[self._time.place].strip()
        if ":" in text:
            return _clock(text)
        if not self._time_unit:
            if _PLAIN.fullmatch(text):
                title = shown(self._time.title, 40)
                self.doubts[f"unit of {self._time.meaning}"] = (
                    f'In which unit is the column "{title}": s or min or h?'
                )
            return None
        try:
            return _number(text, "time", self._time_unit)
        except InputError:
            return None

    def _on(self, line: int, time: float, faults: list[str]) -> float:
        """Return the time carried on evenly where the clock was set, and say so."""
        if self.last is None:
            return time
        step = time + self._shift - self.last.time
        if step < -_DAY / 2 and time < _DAY:
            self._shift += _DAY  # past midnight
            step += _DAY
        at = f"{self._at(line, self._time)} the clock"
        if step < 0:
            self._shift += self._step - step
            faults.append(f"{at} goes back by {-step:,.0f} s; time is carried on evenly from here.")
            step = self._step
        elif step > _LONG_GAP:
            faults.append(f"{at} jumps on by {step:,.0f} s: it was set, or nothing was recorded.")
        elif step > 0:
            self._step = step
        return self.last.time + step


def _clock(text: str) -> float | None:
    """Return the seconds of a date and time, or of a time of day or an elapsed time.

    >>> _clock("10:05:30"), _clock("00:02:00.5"), _clock("25:61")
    (36330.0, 120.5, None)
    """
    of_day = _OF_DAY.fullmatch(text)
    if of_day:
        hours, minutes = int(of_day[1]), int(of_day[2])
        seconds = float((of_day[3] or "0").replace(",", "."))
        if minutes >= 60 or seconds >= 60:
            return None
        return hours * 3600 + minutes * 60 + seconds
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        return None
    since = datetime(2000, 1, 1, tzinfo=moment.tzinfo)
    return (moment - since).total_seconds()


def _number(text: str, quantity: str, unit: str) -> float | None:
    """Return a number in SI; an empty cell and the usual marks for nothing are none."""
    if text.casefold() in _NOTHING:
        return None
    if _PLAIN.fullmatch(text) and (quantity == "pressure" or not text.startswith("-")):
        return from_unit(float(text), unit) if unit else float(text)
    signed = f"{quantity} difference" if quantity == "pressure" else quantity
    value = read(text, signed, unit or None).value
    if not isfinite(value):
        raise InputError(f'"{shown(text, 40)}" is no number that can be read.')
    return value
