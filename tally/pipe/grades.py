"""Casing grades as data: the minimum yield strength that every rating starts from."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from tally.errors import InputError
from tally.units import from_unit, shown

MINIMUM_YIELD_PSI: Mapping[str, int] = MappingProxyType(
    {
        "H40": 40_000,
        "J55": 55_000,
        "K55": 55_000,
        "M65": 65_000,
        "N80": 80_000,
        "L80": 80_000,
        "C90": 90_000,
        "C95": 95_000,
        "T95": 95_000,
        "P110": 110_000,
        "Q125": 125_000,
    }
)
"""Specified minimum yield strength of the standard grades, [psi].

Source: API Bulletin 5C3 grades as the Petroleum Engineering Handbook, Vol. II, ch. 7, and
published lists of pipe ratings use them; the bulletin itself was not opened.
"""

_HIGH_COLLAPSE = "HC"


def minimum_yield(grade: str) -> float:
    """Return the specified minimum yield strength of a standard grade.

    Parameters
    ----------
    grade : str
        Name of the grade as stencilled: "N80", "n-80", "P 110"

    Returns
    -------
    strength : float
        Specified minimum yield strength, [Pa]

    Raises
    ------
    InputError
        If the table has no such grade, or the name is that of a high-collapse mill grade.

    Notes
    -----
    A mill's high-collapse grade shares its yield strength with the standard grade and not its
    collapse rating: in one published list the same pipe is rated 8,650 psi where L80 is 6,350.
    Neither figure says anything about the other, so such a grade is asked for, never guessed.
    J55 and K55 differ only in the strength of their joints.

    Examples
    --------
    >>> round(minimum_yield("n-80") / 1e6, 1)
    551.6
    """
    name = grade.upper().replace(" ", "").replace("-", "")
    if name in MINIMUM_YIELD_PSI:
        return from_unit(MINIMUM_YIELD_PSI[name], "psi")
    if _HIGH_COLLAPSE in name:
        raise InputError(
            f'"{shown(grade)}" is a high-collapse grade of its mill and has no rating of a '
            "standard grade: type its collapse pressure from the mill's data sheet."
        )
    raise InputError(
        f'"{shown(grade)}" is no standard grade of the table ({", ".join(MINIMUM_YIELD_PSI)}): '
        "type its minimum yield strength and its ratings from the data sheet."
    )
