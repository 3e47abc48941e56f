"""A sentence about numbers of our own units, with the numbers beside them as they were typed."""

from __future__ import annotations

import re
from collections.abc import Iterable
from math import isclose

from tally.errors import ShoedownError
from tally.units.reading import Measure, read

_NUMBER = re.compile(
    r"(?<![\w.,])(?P<number>-?\d[\d,]*(?:\.\d+)?(?:e[-+]?\d+)?) (?P<unit>[^\s;,]+)"
)
_AS_NEAR = 1e-5
"""Six figures are shown of a number."""


def beside_typed(sentence: str, typed: Iterable[Measure]) -> str:
    """Return a sentence with each number that was typed told as typed, and in its own unit.

    >>> beside_typed("Outside diameter 0.2286 m is too much.", [read("9 in", "diameter")])
    'Outside diameter 9 in (0.2286 m) is too much.'
    >>> beside_typed("Inside diameter 0.5 m is too much.", [read("0.5 m", "diameter")])
    'Inside diameter 0.5 m is too much.'
    """
    measures = tuple(typed)

    def told(found: re.Match[str]) -> str:
        for one in measures:
            if one.text != found[0] and _same(found, one):
                return f"{one.text} ({found[0]})"
        return found[0]

    return _NUMBER.sub(told, sentence)


def _same(found: re.Match[str], typed: Measure) -> bool:
    try:
        meant = read(f"{found['number'].replace(',', '')} {found['unit']}", typed.quantity)
    except ShoedownError:
        return False
    return isclose(meant.value, typed.value, rel_tol=_AS_NEAR)
