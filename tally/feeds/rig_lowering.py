"""A joint seen going down: the block comes down by about its length while the string hangs.

From slips out to slips set is the lowering time. Nothing is entered by it: it is proposed, and a
person confirms.
"""

from __future__ import annotations

from dataclasses import dataclass

OUT_SHARE, SET_SHARE = 0.5, 0.25
"""Of the string's weight, over the blocks alone: above the first it hangs on the hook, below the
second it stands in the slips."""
LENGTH_SHARE = 0.15
"""How far the way of the block may be off the item's length, for the stick-up in the slips."""
LONGEST_GAP = 15.0
"""[s] without a reading, after which what was begun is no lowering any more."""


@dataclass(frozen=True, slots=True)
class Lowered:
    """What was seen going down: from slips out to slips set, and how far the block came down."""

    seconds: float
    began: float
    ended: float
    way: float
    """[m]"""


class LoweringWatch:
    """Takes hook load [N] and block position [m] with their time; tells a joint that went down.

    `blocks` is the load of the blocks alone and `string` the weight to expect on top of it.
    """

    def __init__(self) -> None:
        self._began: float | None = None
        self._from = 0.0
        self._last = 0.0
        self._seen_set = False

    def take(
        self, seconds: float, load: float, block: float, *, blocks: float, string: float
    ) -> Lowered | None:
        """Return what went down when the slips are set again, else nothing."""
        gap, self._last = seconds - self._last, seconds
        if gap > LONGEST_GAP:
            self._began, self._seen_set = None, False
        share = (load - blocks) / string if string > 0 else 0.0
        if share <= SET_SHARE:
            return self._set(seconds, block)
        if self._began is None and self._seen_set and share >= OUT_SHARE:
            self._began, self._from = seconds, block
        if self._began is not None:
            self._from = max(self._from, block)  # it is lifted a little to free the slips
        return None

    def _set(self, seconds: float, block: float) -> Lowered | None:
        began, self._began, self._seen_set = self._began, None, True
        if began is None or self._from <= block:
            return None
        return Lowered(seconds - began, began, seconds, self._from - block)


def is_item(lowered: Lowered, length: float) -> bool:
    """Whether the way of the block is about the length of an item [m]."""
    return abs(lowered.way - length) <= LENGTH_SHARE * length
