"""Ranges of whole steps: from and to, both included, in order and apart from one another."""

from __future__ import annotations

Ranges = tuple[tuple[int, int], ...]


def spanned(low: int, high: int) -> Ranges:
    """Return one range, or none where it would end before it starts."""
    return ((low, high),) if low <= high else ()


def shared(one: Ranges, low: int, high: int) -> Ranges:
    """Return what lies from low to high.

    >>> shared(((0, 9), (20, 29)), 5, 24)
    ((5, 9), (20, 24))
    """
    cut = ((max(start, low), min(end, high)) for start, end in one)
    return tuple((start, end) for start, end in cut if start <= end)


def without(one: Ranges, low: int, high: int) -> Ranges:
    """Return what does not lie from low to high.

    >>> without(((0, 9),), 3, 5)
    ((0, 2), (6, 9))
    """
    if not one or high < low or one[-1][1] < low or high < one[0][0]:
        return one
    return (*shared(one, one[0][0], low - 1), *shared(one, high + 1, one[-1][1]))


def common(one: Ranges, other: Ranges) -> Ranges:
    """Return what lies in both.

    >>> common(((0, 9), (20, 29)), ((8, 21),))
    ((8, 9), (20, 21))
    """
    return tuple(sorted(each for low, high in other for each in shared(one, low, high)))


def taken_from(total: int, one: Ranges) -> Ranges:
    """Return the ranges of a total less each value.

    >>> taken_from(100, ((0, 9), (20, 29)))
    ((71, 80), (91, 100))
    """
    return tuple((total - high, total - low) for low, high in reversed(one))


def nearest(one: Ranges, values: tuple[int, ...]) -> tuple[int, ...]:
    """Return, in every range, the values in it that are nearest to those given.

    >>> nearest(((0, 9), (20, 29)), (5, 12))
    (5, 9, 20)
    """
    return tuple(sorted({min(max(value, low), high) for low, high in one for value in values}))
