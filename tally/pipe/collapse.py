"""Collapse of the pipe body: four regimes, with tension, with pressure inside.

The constants are in psi, as published; pressures go in and come out in SI.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import sqrt

from tally.errors import DomainError
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import OUTER_DIAMETER, OUTER_RANGE
from tally.pipe.ratings import (
    HANDBOOK,
    PRESSURE,
    PSI,
    RATED,
    WALL,
    WALL_RANGE,
    YIELD,
    require_body,
    to_nearest,
)

ELASTIC = 46.95e6
"""[psi], published constant of elastic collapse."""

LEAST_YIELD = 16_000.0
"""[psi]; below some 15,300 psi the published polynomials turn, so nothing is worked out there."""

MOST_YIELD = 125_000.0
"""[psi], Q125, the highest grade that the factors were held against."""

SLENDERNESS = Term("slenderness", "outside diameter over wall", "number", "")
REGIME = Term("regime", "1 yield, 2 plastic, 3 transition, 4 elastic", "count", "")
FACTOR_RANGE = "yield strength 16,000 to 125,000 psi"
SOURCE = f"{HANDBOOK}, eq. 7.2 to 7.5; factors as quoted from API Bulletin 5C3 (6th ed., 1994)"


@dataclass(frozen=True, slots=True)
class Factors:
    """The published factors at one yield strength, and where the regimes meet (c in psi)."""

    a: float
    b: float
    c: float
    f: float
    g: float
    yield_limit: float
    plastic_limit: float
    transition_limit: float


@lru_cache(maxsize=256)
def factors_psi(strength: float) -> Factors:
    """Return factors and regime limits for a yield strength in psi, by the full polynomials."""
    y = strength
    a = 2.8762 + 0.10679e-5 * y + 0.21301e-10 * y**2 - 0.53132e-16 * y**3
    b = 0.026233 + 0.50609e-6 * y
    c = -465.93 + 0.030867 * y - 0.10483e-7 * y**2 + 0.36989e-13 * y**3
    r = b / a
    x = 3 * r / (2 + r)
    f = ELASTIC * x**3 / (y * (x - r) * (1 - x) ** 2)
    g = f * r
    slope = b + c / y
    yield_limit = (sqrt((a - 2) ** 2 + 8 * slope) + a - 2) / (2 * slope)
    plastic_limit = y * (a - f) / (c + y * (b - g))
    return Factors(a, b, c, f, g, yield_limit, plastic_limit, (2 + r) / (3 * r))


@formula(
    "collapse-factors",
    "Factors of the collapse formulas at a yield strength, and where the regimes meet",
    inputs=[YIELD],
    outputs=[
        Term("a", "factor A of plastic collapse", "number", ""),
        Term("b", "factor B of plastic collapse", "number", ""),
        Term("c", "factor C of plastic collapse", "pressure difference", "psi"),
        Term("f", "factor F of transition collapse", "number", ""),
        Term("g", "factor G of transition collapse", "number", ""),
        Term("yield-limit", "outside diameter over wall where plastic collapse begins", "number",
             ""),
        Term("plastic-limit", "outside diameter over wall where transition begins", "number", ""),
        Term("transition-limit", "outside diameter over wall where elastic collapse begins",
             "number", ""),
    ],
    source=SOURCE,
    range=FACTOR_RANGE,
)  # fmt: skip
def collapse_factors(
    yield_strength: float,
) -> tuple[float, float, float, float, float, float, float, float]:
    """Return the factors A, B, C, F and G and the three limits of the regimes.

    Parameters
    ----------
    yield_strength : float
        Specified minimum yield strength, or what tension leaves of it, [Pa]

    Returns
    -------
    a, b : float
        Factors of plastic collapse, [-]
    c : float
        Factor of plastic collapse, [Pa]
    f, g : float
        Factors of transition collapse, [-]
    yield_limit, plastic_limit, transition_limit : float
        Outside diameter over wall at which each regime ends, [-]

    Raises
    ------
    DomainError
        If the yield strength is not from 16,000 to 125,000 psi.

    Notes
    -----
    Full polynomials in the yield strength, not rounded [1]_: factors rounded to four figures
    give 4,760 psi for 9-5/8 in 47 lb/ft N80 where the full ones give 4,754, printed as 4,750.

    Examples
    --------
    >>> [round(value, 3) for value in collapse_factors(80_000 * PSI)[:2]]
    [3.071, 0.067]

    References
    ----------
    .. [1] Coefficients quoted with reference to API Bulletin 5C3, 6th ed., 1994.
    """
    _require_strength(yield_strength)
    known = factors_psi(yield_strength / PSI)
    limits = (known.yield_limit, known.plastic_limit, known.transition_limit)
    return known.a, known.b, known.c * PSI, known.f, known.g, *limits


@formula(
    "collapse",
    "Collapse pressure of the pipe body without pull",
    inputs=[OUTER_DIAMETER, WALL, YIELD],
    outputs=[PRESSURE, RATED, REGIME, SLENDERNESS],
    source=SOURCE,
    range=f"{OUTER_RANGE}; {WALL_RANGE}; outside diameter over wall 5 to 100; "
    "yield strength 200 MPa to 125,000 psi; standard grades only, no high-collapse mill grade",
)
def collapse(
    outer_diameter: float, wall: float, yield_strength: float
) -> tuple[float, float, float, float]:
    """Return the collapse pressure, not rounded and as published, the regime and D/t.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter, [m]
    wall : float
        Nominal wall, [m]
    yield_strength : float
        Specified minimum yield strength, [Pa]

    Returns
    -------
    pressure : float
        Collapse pressure, [Pa]
    rated : float
        The same to the nearest 10 psi, as tables print it, [Pa]
    regime : float
        1 yield, 2 plastic, 3 transition, 4 elastic, [-]
    slenderness : float
        Outside diameter over wall, [-]

    Raises
    ------
    DomainError
        If a number is out of range, or the wall leaves no bore.

    Notes
    -----
    The regime follows from D/t; at their limits two regimes give the same pressure. Tables made
    with factors of four figures differ by 10 psi here and there; that is no error. A mill's
    high-collapse grade has a rating of its own, from its data sheet.

    Examples
    --------
    9-5/8 in of 0.472 in wall, 80,000 psi: plastic collapse.

    >>> pressure, rated, regime, slenderness = collapse(0.244475, 0.0119888, 80_000 * PSI)
    >>> round(pressure / PSI), round(rated / PSI), regime, round(slenderness, 2)
    (4754, 4750, 2, 20.39)

    References
    ----------
    .. [1] Petroleum Engineering Handbook, Vol. II (SPE), ch. 7, pp. II-290 to II-292.
    """
    require_body(outer_diameter, wall, yield_strength)
    _require_strength(yield_strength)
    return _collapse(outer_diameter / wall, yield_strength)


@formula(
    "collapse-under-tension",
    "Collapse pressure of the pipe body with a pull on it",
    inputs=[
        OUTER_DIAMETER,
        WALL,
        YIELD,
        Term("stress", "stress along the pipe from the buoyed weight below", "pressure", "psi"),
    ],
    outputs=[
        PRESSURE,
        RATED,
        REGIME,
        Term("left", "yield strength that the pull leaves", "pressure", "psi"),
    ],
    source=f"{HANDBOOK}, eq. 7.14 (historical method; a later addendum to API TR 5C3 gives other, "
    "higher values)",
    range=f"{OUTER_RANGE}; {WALL_RANGE}; outside diameter over wall 5 to 100; yield strength "
    "200 MPa to 125,000 psi; what the pull leaves of it 16,000 psi or more",
)
def collapse_under_tension(
    outer_diameter: float, wall: float, yield_strength: float, stress: float
) -> tuple[float, float, float, float]:
    """Return the collapse pressure with a pull on the pipe body.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter, [m]
    wall : float
        Nominal wall, [m]
    yield_strength : float
        Specified minimum yield strength, [Pa]
    stress : float
        Stress along the pipe from the buoyed weight below, tension only, [Pa]

    Returns
    -------
    pressure : float
        Collapse pressure, [Pa]
    rated : float
        The same to the nearest 10 psi, [Pa]
    regime : float
        1 yield, 2 plastic, 3 transition, 4 elastic, [-]
    left : float
        Yield strength that the pull leaves, put in place of the specified one, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the pull leaves less than 16,000 psi of yield strength.

    Notes
    -----
    Ypa = (sqrt(1 - 0.75*(Sa/Yp)**2) - 0.5*Sa/Yp) * Yp takes the place of Yp in the formulas,
    in their factors and in their limits [1]_. Below 16,000 psi the published polynomials turn
    and a weaker pipe would seem stronger, so nothing is given there. Compression gives no
    credit: take a stress of 0.

    Examples
    --------
    >>> pull = collapse_under_tension(0.244475, 0.0119888, 80_000 * PSI, 20_000 * PSI)
    >>> [round(pull[place] / PSI) for place in (0, 1, 3)]
    [4389, 4390, 68102]

    References
    ----------
    .. [1] Petroleum Engineering Handbook, Vol. II (SPE), ch. 7, eq. 7.14, p. II-296.
    """
    require_body(outer_diameter, wall, yield_strength)
    _require_strength(yield_strength)
    left = yield_under_tension(yield_strength, stress)
    pressure, rated, regime, _ = _collapse(outer_diameter / wall, left)
    return pressure, rated, regime, left


@formula(
    "collapse-load",
    "Outside pressure that counts against collapse when there is pressure inside",
    inputs=[
        OUTER_DIAMETER,
        WALL,
        Term("outside", "pressure outside", "pressure", "psi"),
        Term("inside", "pressure inside", "pressure", "psi"),
    ],
    outputs=[Term("load", "pressure to hold against the collapse rating", "pressure difference",
                  "psi")],
    source=f"{HANDBOOK}, eq. 7.6 and 7.7",
    range=f"{OUTER_RANGE}; {WALL_RANGE}; pressures 0 to 300 MPa",
)  # fmt: skip
def collapse_load(outer_diameter: float, wall: float, outside: float, inside: float) -> float:
    """Return the pressure to hold against the collapse rating when there is pressure inside.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter, [m]
    wall : float
        Nominal wall, [m]
    outside : float
        Pressure outside, [Pa]
    inside : float
        Pressure inside, [Pa]

    Returns
    -------
    load : float
        Equivalent outside pressure; below zero the pipe is loaded from inside, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the wall leaves no bore.

    Notes
    -----
    po - (1 - 2/(D/t)) * pi: the pressure inside works on the smaller diameter, so it relieves
    less than its own amount [1]_.

    Examples
    --------
    >>> round(collapse_load(0.1778, 0.00805, 40e6, 10e6) / 1e6, 2)
    30.91

    References
    ----------
    .. [1] Petroleum Engineering Handbook, Vol. II (SPE), ch. 7, eq. 7.6 and 7.7.
    """
    require_body(outer_diameter, wall, 500e6)
    require_range("Pressure outside", outside, 0.0, 300e6, "Pa")
    require_range("Pressure inside", inside, 0.0, 300e6, "Pa")
    return outside - (1 - 2 * wall / outer_diameter) * inside


def yield_under_tension(yield_strength: float, stress: float) -> float:
    """Return the yield strength that a stress along the pipe leaves for collapse, [Pa].

    Raises DomainError where less than 16,000 psi is left.

    >>> round(yield_under_tension(110_000 * PSI, 30_000 * PSI) / PSI)
    91888
    """
    require_range("Stress along the pipe", stress, 0.0, yield_strength, "Pa")
    share = stress / yield_strength
    left = (sqrt(1 - 0.75 * share**2) - share / 2) * yield_strength
    if left < LEAST_YIELD * PSI:
        raise DomainError(
            f"Stress along the pipe {stress / PSI:,.0f} psi leaves {left / PSI:,.0f} psi of a "
            f"yield strength of {yield_strength / PSI:,.0f} psi, less than the "
            f"{LEAST_YIELD:,.0f} psi down to which collapse under tension can be worked out; "
            "take the load off this pipe or ask for its data sheet."
        )
    return left


def _collapse(slenderness: float, yield_strength: float) -> tuple[float, float, float, float]:
    require_range("Outside diameter over wall", slenderness, 5.0, 100.0, "")
    regime, psi = _regime_and_pressure(slenderness, yield_strength / PSI)
    return psi * PSI, to_nearest(psi, 10.0) * PSI, regime, slenderness


def _regime_and_pressure(ratio: float, strength: float) -> tuple[int, float]:
    """Return the regime and the collapse pressure in psi."""
    known = factors_psi(strength)
    at_yield = (1, 2 * strength * (ratio - 1) / ratio**2)
    if ratio <= known.yield_limit:
        return at_yield
    if ratio <= known.plastic_limit:
        return 2, strength * (known.a / ratio - known.b) - known.c
    if ratio <= known.transition_limit:
        transition = (3, strength * (known.f / ratio - known.g))
        # under some 17,100 psi no plastic range is left: there the lower of its neighbours holds
        return min(transition, at_yield, key=lambda each: each[1])
    return 4, ELASTIC / (ratio * (ratio - 1) ** 2)


def _require_strength(yield_strength: float) -> None:
    slack = 1 + 1e-9
    require_range(
        "Yield strength", yield_strength, LEAST_YIELD * PSI / slack, MOST_YIELD * PSI * slack, "Pa"
    )
