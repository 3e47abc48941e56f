"""What the frames of a WITS level 0 stream say: numbers with units, the rig's clock, sequence."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from tally.errors import InputError
from tally.feeds.wits_frames import Faults, Frame
from tally.feeds.wits_items import RANGES, SETS, Item, items
from tally.units import shown

RECORD, SEQUENCE, DATE, TIME, ACTIVITY = 3, 4, 5, 6, 7
"""Places of the items that head every record."""
NULLS = frozenset({-999.25, -999.0, -9999.0, -9999.25, -8888.0})
"""What senders put where they have no reading."""
CLOCK_JUMP = 60.0
"""[s] between the rig's clock and the time that passed here, from which a jump is told."""
_NUMBER = re.compile(r"[+-]?\d{1,9}(\.\d{0,6})?|[+-]?\.\d{1,6}", re.ASCII)
_PADDED = re.compile(r"[+-]?00\d", re.ASCII)
_SIX = re.compile(r"\d{5,6}", re.ASCII)


@dataclass(frozen=True, slots=True)
class Value:
    """What one item said: the number as sent, and in SI where it has a unit."""

    item: Item
    number: float
    si: float
    quantity: str
    """Empty for a plain count."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What one frame said, and when the rig says that it was."""

    values: Mapping[str, Value]
    """By item code; an item without a reading is not there."""
    words: Mapping[str, str]
    """The items that are text."""
    rig_time: datetime | None
    """By the rig's own clock, without an offset; nothing where the frame has none."""


class WitsReader:
    """Takes frames one after the other; keeps the clock and the sequences, no readings."""

    def __init__(self, units: str, faults: Faults | None = None) -> None:
        if units not in SETS:
            raise InputError(f'"{shown(units)}" is no unit set of a stream: use field or metric.')
        self.units = units
        self.faults = Faults() if faults is None else faults
        self.nulls = 0
        """How often an item came without a reading."""
        self._sequences: dict[int, int] = {}
        self._clock: tuple[datetime, float] | None = None

    def read(self, frame: Frame, seconds: float) -> Reading:
        """Return what a frame says that came after so many seconds of a steady clock here."""
        values: dict[str, Value] = {}
        words: dict[str, str] = {}
        times: dict[int, str] = {}
        for code, text in frame.lines:
            item = items().get(code)
            if item is None:
                self.faults.tell("unknown item", f"Item {code} is not known; it is passed over.")
            elif item.place in (DATE, TIME):
                times.setdefault(item.place, text)
            elif item.kind == "A":
                words[code] = shown(text, 60)
            elif (value := self._value(item, text)) is not None:
                self._in_sequence(item, value)
                values[code] = value
        return Reading(values, words, self._rig_time(times, seconds))

    def _value(self, item: Item, text: str) -> Value | None:
        if not text:
            self.nulls += 1
            return None
        number = _number(text)
        if number is None:
            self.faults.tell("wrong number", f'{item.name}: "{shown(text)}" is no number.')
            return None
        if number in NULLS:
            self.nulls += 1
            return None
        unit = item.unit(self.units)
        quantity, si = (unit.quantity, unit.si(number)) if unit else ("", number)
        low, high = RANGES[quantity]
        if not low <= si <= high:
            said = f"{shown(text)} {unit.words if unit else ''}".strip()
            self.faults.tell(
                "outside any range", f"{item.name}: {said} cannot be; the item is passed over."
            )
            return None
        return Value(item, number, si, quantity)

    def _in_sequence(self, item: Item, value: Value) -> None:
        """Tell where frames of a record are missing by its own count."""
        if item.place != SEQUENCE:
            return
        last, now = self._sequences.get(item.record), int(value.number)
        self._sequences[item.record] = now
        if last is not None and now > last + 1:
            self.faults.tell(
                "frames missing",
                f"Record {item.record}: after {last:,} came {now:,}; {now - last - 1:,} between "
                "them did not come.",
            )

    def _rig_time(self, times: Mapping[int, str], seconds: float) -> datetime | None:
        if not times.keys() >= {DATE, TIME}:
            return None
        found = _moment(times[DATE], times[TIME])
        if found is None:
            told = f"{shown(times[DATE], 12)} {shown(times[TIME], 12)}"
            self.faults.tell("wrong time", f'The rig\'s date and time "{told}" are none.')
            return None
        if self._clock is not None:
            self._jumped(found, found - self._clock[0], seconds - self._clock[1])
        self._clock = (found, seconds)
        return found

    def _jumped(self, now: datetime, by_rig: timedelta, here: float) -> None:
        apart = by_rig.total_seconds() - here
        if abs(apart) >= CLOCK_JUMP:
            way = "forward" if apart > 0 else "back"
            self.faults.tell(
                "clock jump",
                f"The rig's clock jumped {abs(apart):,.0f} s {way}, to {now:%Y-%m-%d %H:%M:%S}; "
                "times here are those of this machine.",
            )


def _number(text: str) -> float | None:
    """Return a plain number; nothing for one padded with noughts, as lines run together make."""
    if _NUMBER.fullmatch(text) is None or _PADDED.match(text):
        return None
    return float(text)


def _moment(date: str, time: str) -> datetime | None:
    """Return YYMMDD and HHMMSS as a moment; a leading nought may be missing."""
    if not (_SIX.fullmatch(date) and time.isascii() and time.isdigit() and len(time) <= 6):
        return None
    try:
        return datetime.strptime(f"{date:0>6} {time:0>6}", "%y%m%d %H%M%S")
    except ValueError:
        return None
