"""Which lengths can be made of joints in their order, some of them passed over.

The lengths, in whole steps, are the bits of one number: bit 8012 is set where 8,012 steps can be
made. Putting a joint on every one of them is a shift, either of two ways an or, so that all the
2**30 subsets of 30 joints are a few hundred operations on numbers of a few thousand words.
"""

from __future__ import annotations

from collections.abc import Sequence

from tally.string.space_out_question import Candidate
from tally.string.step_ranges import Ranges


class Reachable:
    """The lengths that the lowest joints can have, by how many of them are passed over.

    No joint ends at a length in one of the gaps, as its coupling would lie where none may.
    """

    def __init__(self, joints: Sequence[Candidate], gaps: Ranges = ()) -> None:
        self.joints = joints
        self._gaps = _bits(gaps)
        self._by_passed: list[list[int]] = [[1]]
        for joint in joints:
            self._by_passed.append(self._with(self._by_passed[-1], joint))
        self._any = [_either(lengths) for lengths in self._by_passed]

    def lengths(self, lowest: int, passed: int | None) -> int:
        """Return the lengths of so many of the lowest joints, so many or any number passed over."""
        if passed is None:
            return self._any[lowest]
        of_them = self._by_passed[lowest]
        return of_them[passed] if passed < len(of_them) else 0

    def ended(self, passed: int | None) -> int:
        """Return the lengths of every selection, where what lies above its last joint is spare."""
        found = 0
        for last in self.last_ones():
            if last:
                below = self.lengths(last - 1, passed)
                found |= self._on(below, self.joints[last - 1])
            elif not passed:
                found |= 1
        return found

    def _with(self, lengths: list[int], joint: Candidate) -> list[int]:
        """Return the lengths with one more joint, used or passed over."""
        used = [self._on(each, joint) for each in lengths]
        passed = [0] * len(lengths) if joint.must else lengths
        return [a | b for a, b in zip([*used, 0], [0, *passed], strict=True)]

    def _on(self, lengths: int, joint: Candidate) -> int:
        """Return the lengths with a joint put on each."""
        longer = lengths << joint.length
        return longer & ~self._gaps if self._gaps else longer

    def last_ones(self) -> range:
        """Return how many of the joints may be reached, all of them first: none above has to be."""
        least = max((place for place, each in enumerate(self.joints, 1) if each.must), default=0)
        return range(len(self.joints), least - 1, -1)


def _bits(ranges: Ranges) -> int:
    found = 0
    for low, high in ranges:
        if high >= max(low, 0):
            found |= ((1 << (high - max(low, 0) + 1)) - 1) << max(low, 0)
    return found


def _either(lengths: list[int]) -> int:
    found = 0
    for each in lengths:
        found |= each
    return found


def how_near(lengths: int, low: int, high: int, wanted: int) -> int | None:
    """Return how far the nearest of the lengths from low to high is from one wanted; or nothing.

    >>> how_near(0b100100, 1, 5, 4), how_near(0b100100, 3, 4, 4)
    (1, None)
    """
    low = max(low, 0)
    if high < low:
        return None
    seen = (lengths >> low) & ((1 << (high - low + 1)) - 1)
    if not seen:
        return None
    place = min(max(wanted - low, 0), high - low)
    under, over = seen & ((1 << (place + 1)) - 1), seen >> place
    found = []
    if under:
        found.append(abs(wanted - (low + under.bit_length() - 1)))
    if over:
        found.append(abs(low + place + (over & -over).bit_length() - 1 - wanted))
    return min(found)
