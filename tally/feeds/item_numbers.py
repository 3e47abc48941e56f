"""The numbers painted on the pipe: what one may look like, and which two look the same."""

from __future__ import annotations

from collections.abc import Iterable

from tally.errors import InputError
from tally.units import shown

LONGEST = 12


def item_number(text: str) -> str:
    """Return the number of an item: letters, digits and hyphens, so that it can be typed.

    >>> item_number("A12")
    'A12'
    """
    plain = text.replace("-", "")
    if len(text) > LONGEST or text[:1] == "-" or not (plain.isascii() and plain.isalnum()):
        raise InputError(
            f'"{shown(text)}" is no number of an item: use letters, digits and hyphens only, '
            f"{LONGEST} at most and no spaces."
        )
    return text


def as_painted(number: str) -> str:
    """Return what two numbers have in common that a person would take for the same.

    >>> as_painted("007") == as_painted("7"), as_painted("a1") == as_painted("A1")
    (True, True)
    """
    return number.casefold().lstrip("0") or "0"


def look_alikes(numbers: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Return the pairs that a person would take for the same number.

    >>> look_alikes(["1", "2", "01"])
    (('1', '01'),)
    """
    seen: dict[str, str] = {}
    pairs = []
    for number in numbers:
        key = as_painted(number)
        if key in seen:
            pairs.append((seen[key], number))
        seen.setdefault(key, number)
    return tuple(pairs)
