"""Many numbers of items in a few words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import takewhile


def in_short(numbers: Iterable[str]) -> str:
    """Return numbers with each run of three or more as its first and last.

    >>> in_short(["1", "2", "3", "7", "A8", "A9", "A10"])
    '1-3, 7, A8-A10'
    """
    return ", ".join(_runs(tuple(numbers)))


def parted(number: str) -> tuple[str, int]:
    """Return the letters before a number and the number, so that 9 comes before 10.

    >>> sorted(["A10", "10", "A9", "9", "shoe"], key=parted)
    ['9', '10', 'A9', 'A10', 'shoe']
    """
    digits = "".join(reversed(list(takewhile(_digit, reversed(number)))))
    return number[: len(number) - len(digits)], int(digits) if digits else -1


def _digit(letter: str) -> bool:
    return letter.isascii() and letter.isdigit()


def _runs(numbers: Sequence[str]) -> Iterator[str]:
    start = 0
    while start < len(numbers):
        end = start + 1
        while end < len(numbers) and _follows(numbers[end - 1], numbers[end]):
            end += 1
        if end - start > 2:
            yield f"{numbers[start]}-{numbers[end - 1]}"
        else:
            yield from numbers[start:end]
        start = end


def _follows(one: str, other: str) -> bool:
    (letters, number), (same, after) = parted(one), parted(other)
    return letters == same and number >= 0 and after == number + 1
