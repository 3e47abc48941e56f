"""Slips of the pen: a length that its neighbours would not have, and the one that was meant."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise
from statistics import median

from tally.feeds.rig_list import doubts
from tally.feeds.rig_list.doubts import Doubt
from tally.feeds.rig_list.items import ListItem
from tally.units import factor

AROUND = 8
"""How many joints before and behind are neighbours."""
FEWEST = 4
"""Fewer neighbours than this say nothing."""
_NEAR = 0.25
"""A neighbour this far off the middle, as a share of it, is itself a slip and is left out."""
_MARGIN = 0.05
"""What the band of the neighbours is widened by, as a share of their middle."""
_TYPED = re.compile(r"(\d*\.?\d+) (ft|m|mm)", re.ASCII)
_POWERS = (1, -1, 2, -2, 3, -3)


@dataclass(frozen=True, slots=True)
class Band:
    """The lengths that the neighbours of a joint have, widened a little, [m]."""

    least: float
    most: float

    def holds(self, length: float) -> bool:
        """Return whether a length is like those of the neighbours."""
        return self.least <= length <= self.most


def slips(joints: Sequence[ListItem]) -> Iterator[tuple[ListItem, Doubt]]:
    """Yield the joints whose length a slip explains: other unit, slipped point, swapped digits.

    Parameters
    ----------
    joints : Sequence[ListItem]
        The joints with a length that could be read, in the order of the list
    """
    lengths = [float(item.exact) for item in joints if item.exact is not None]
    for place, item in enumerate(joints):
        band = _band(lengths, place)
        if band is None or band.holds(lengths[place]):
            continue
        doubt = _explained(item, band)
        if doubt is not None:
            yield item, doubt


def _band(lengths: Sequence[float], place: int) -> Band | None:
    around = [*lengths[max(0, place - AROUND) : place], *lengths[place + 1 : place + 1 + AROUND]]
    if len(around) < FEWEST:
        return None
    middle = median(around)
    near = [each for each in around if abs(each - middle) <= _NEAR * middle]
    if len(near) < FEWEST:
        return None
    margin = _MARGIN * middle
    return Band(min(near) - margin, max(near) + margin)


def _explained(item: ListItem, band: Band) -> Doubt | None:
    typed = _TYPED.fullmatch(item.plain)
    if typed is None:
        return None
    number, unit = typed.groups()
    for what, meant in _meant(number, unit):
        value, in_unit = meant.split(" ")
        if band.holds(float(value) * float(factor(in_unit))):
            said = f"{item.plain} is unlike its neighbours; {_WORDS[what]} {meant} would be."
            return Doubt(item.place, what, said)
    return None


_WORDS = {
    doubts.UNIT: "with another unit",
    doubts.POINT: "with the point moved",
    doubts.SWAP: "with two digits swapped",
}


def _meant(number: str, unit: str) -> Iterator[tuple[str, str]]:
    for other in ("ft", "m", "mm"):
        if other != unit:
            yield doubts.UNIT, f"{number} {other}"
    for power in _POWERS:
        yield doubts.POINT, f"{Decimal(number).scaleb(power):f} {unit}"
    for swapped in _swapped(number):
        yield doubts.SWAP, f"{swapped} {unit}"


def _swapped(number: str) -> Iterator[str]:
    """Yield a number with each two digits beside one another swapped.

    >>> list(_swapped("14.35"))
    ['41.35', '13.45', '14.53']
    """
    places = [place for place, char in enumerate(number) if char != "."]
    for left, right in pairwise(places):
        chars = list(number)
        chars[left], chars[right] = chars[right], chars[left]
        if chars[left] != chars[right]:
            yield "".join(chars)
