"""The last values of a rig stream by what they are used for, each with its age.

A value is live for a short while only: older than that it is told with its age and never offered.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from tally.errors import InputError
from tally.feeds.rig_stream import Heard
from tally.feeds.wits_items import items
from tally.feeds.wits_values import Value
from tally.units import shown

LIVE_SECONDS = 10.0
"""A value older than this is no reading of now, unless its item comes more seldom than that."""
LONGEST_LIVE = 60.0
MISSED = 2.5
"""How many times its usual interval a value may be old: one may be missed, two may not."""

ROLES: Mapping[str, tuple[str, ...]] = {
    "hook load": ("0114", "0514", "0623", "1713"),
    "block position": ("0112", "0515", "1714"),
    "trip tank": ("1129",),
    "active tank": ("0126", "1111"),
    "flow out": ("0129",),
    "flow in": ("0130",),
    "flow out share": ("0128",),
    "standpipe pressure": ("0121",),
    "strokes": ("0137",),
    "stroke rate": ("0123", "0124", "0125"),
    "cement pressure": ("1712",),
    "cement rate": ("1716", "1715"),
    "cement density": ("1719",),
    "cement returns": ("1717",),
    "returned volume": ("1727",),
    "volume pumped": ("1730",),
}
"""By what a value is used for, the items that say it, the first one that comes before the others.
Which tank a crew displaces from is theirs: `displacement tank` has no item until it is chosen."""
CHOSEN = "displacement tank"


@dataclass(frozen=True, slots=True)
class Live:
    """A value with its age."""

    value: Value
    age: float
    at: datetime
    fresh: bool
    """Whether it may be taken for what is now."""


@dataclass(slots=True)
class _Last:
    value: Value
    seconds: float
    at: datetime
    interval: float = 0.0
    """How far apart the last two were."""


def chosen_items(text: str) -> dict[str, tuple[str, ...]]:
    """Return what items were chosen otherwise than by the standard.

    >>> chosen_items("trip tank=1130, displacement tank=1117")
    {'trip tank': ('1130',), 'displacement tank': ('1117',)}

    Raises
    ------
    InputError
        If a part is no use with a known item.
    """
    found: dict[str, tuple[str, ...]] = {}
    for part in (each.strip() for each in text.split(",")):
        role, mark, code = (each.strip() for each in part.partition("="))
        if not part:
            continue
        if not mark or role not in (*ROLES, CHOSEN):
            uses = ", ".join((*ROLES, CHOSEN))
            raise InputError(f'"{shown(part, 40)}" is no use and item; the uses are: {uses}.')
        if code not in items():
            raise InputError(f'"{shown(code, 20)}" is no item of the standard; say four digits.')
        found[role] = (code,)
    return found


class LastValues:
    """The last value of each item, and when it came."""

    def __init__(
        self,
        chosen: Mapping[str, tuple[str, ...]] | None = None,
        live_seconds: float = LIVE_SECONDS,
    ) -> None:
        self.live_seconds = live_seconds
        """How old a value may be that comes often."""
        self._roles = {**ROLES, **(chosen or {})}
        self._last: dict[str, _Last] = {}
        self.last_came: float | None = None
        """When the last reading came, by the steady clock here."""

    def take(self, heard: Heard) -> None:
        """Keep what a reading said."""
        self.last_came = heard.seconds
        for code, value in heard.reading.values.items():
            before = self._last.get(code)
            apart = heard.seconds - before.seconds if before else 0.0
            self._last[code] = _Last(value, heard.seconds, heard.at, apart)

    def of(self, role: str, seconds: float) -> Live | None:
        """Return the value for a use as it stands now, fresh or old; nothing if none came."""
        found = [self._live(code, seconds) for code in self._roles.get(role, ())]
        there = [each for each in found if each is not None]
        return min(there, key=lambda each: not each.fresh, default=None)

    def _live(self, code: str, seconds: float) -> Live | None:
        last = self._last.get(code)
        if last is None:
            return None
        age = max(0.0, seconds - last.seconds)
        limit = max(self.live_seconds, min(LONGEST_LIVE, MISSED * last.interval))
        return Live(last.value, age, last.at, age <= limit)
