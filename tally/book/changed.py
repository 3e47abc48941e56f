"""What differs between two jobs, told by the objects they share.

A job shares with the one before it everything that an entry left alone, so only what is another
object is compared. The cost of an ordinary entry then hardly grows with the string.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import compress
from operator import is_not
from typing import Any


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


def changed_names(old: Mapping[str, Any], new: Mapping[str, Any]) -> list[str]:
    """Return the names under which two mappings differ.

    >>> changed_names({"1": "run", "2": "on rack"}, {"1": "run", "2": "run", "3": "on rack"})
    ['2', '3']
    """
    if old is new:
        return []
    names = list(new)
    if names == list(old):
        others = compress(names, map(is_not, old.values(), new.values()))
        return [name for name in others if old[name] != new[name]]
    return [name for name in {**old, **new} if old.get(name) != new.get(name)]
