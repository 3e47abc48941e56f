"""What differs between two jobs, told by the objects they share.

A job shares with the one before it everything that an entry left alone, so only what is another
object is compared. The cost of an ordinary entry then hardly grows with the string.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import compress
from operator import is_not
from typing import Any

from tally.job.job import Item


def changed_places(old: tuple[Any, ...], new: tuple[Any, ...]) -> list[int]:
    """Return the places at which two tuples differ.

    >>> changed_places(("a", "b", "c"), ("a", "x"))
    [1, 2]
    """
    shared, longest = sorted((len(old), len(new)))
    differ: list[int] = []
    if old[:shared] != new[:shared]:
        others = compress(range(shared), map(is_not, old, new))
        differ = [at for at in others if old[at] != new[at]]
    return [*differ, *range(shared, longest)]


def changed_numbers(old: Mapping[str, Item], new: Mapping[str, Item]) -> set[str]:
    """Return the numbers under which two mappings of items differ.

    Each item lies under its own number. So where both mappings are of one length, and what is
    new at its place has a number that the old one knows, they hold the same numbers throughout.
    """
    if old is new:
        return set()
    if len(old) == len(new):
        others = list(compress(new.values(), map(is_not, old.values(), new.values())))
        if all(item.number in old for item in others):
            return {item.number for item in others if old[item.number] != item}
    return {number for number in {**old, **new} if old.get(number) != new.get(number)}
