"""The root of a function between two bounds, without a library at run time."""

from __future__ import annotations

from collections.abc import Callable
from math import isfinite

from tally.errors import DomainError

_MOST_STEPS = 200


def bracketed_root(
    function: Callable[[float], float], low: float, high: float, relative: float = 1e-13
) -> float:
    """Return where a continuous function is 0 between two bounds at which its signs differ.

    Chandrupatla's method: inverse quadratic steps where they are sound, halving elsewhere, so
    the root stays between the bounds whatever the function does. It is found to `relative` of
    itself, or of a thousandth of the way between the bounds where it is smaller.

    Raises DomainError where the signs at the bounds do not differ.

    >>> round(bracketed_root(lambda x: x * x - 2, 0.0, 2.0), 12)
    1.414213562373
    """
    a, b = high, low
    at_a, at_b = function(a), function(b)
    if at_a == 0 or at_b == 0:
        return a if at_a == 0 else b
    if not (isfinite(at_a) and isfinite(at_b)) or (at_a > 0) == (at_b > 0):
        raise DomainError(f"No root lies between {low:.6g} and {high:.6g}; check the numbers.")
    share, width = 0.5, 1e-3 * abs(high - low)
    for _ in range(_MOST_STEPS):
        here = a + share * (b - a)
        value = function(here)
        if (value > 0) == (at_a > 0):
            c, at_c = a, at_a
        else:
            b, at_b, c, at_c = a, at_a, b, at_b
        a, at_a = here, value
        best = a if abs(at_a) < abs(at_b) else b
        finest = relative * max(abs(best), width)
        closest = finest / abs(b - a) if b != a else 1.0
        if closest > 0.5 or value == 0:
            return best
        share = _next_share(a, at_a, b, at_b, c, at_c)
        share = min(1 - closest, max(closest, share))
    return best


def _next_share(a: float, at_a: float, b: float, at_b: float, c: float, at_c: float) -> float:
    """Return how far to go from a to b: an inverse quadratic step if it is sound, else half."""
    if at_c in (at_a, at_b):
        return 0.5
    xi, phi = (a - b) / (c - b), (at_a - at_b) / (at_c - at_b)
    if phi * phi < xi and (1 - phi) ** 2 < 1 - xi:
        one = at_a / (at_b - at_a) * at_c / (at_b - at_c)
        two = (c - a) / (b - a) * at_a / (at_c - at_a) * at_b / (at_c - at_b)
        return one + two
    return 0.5
