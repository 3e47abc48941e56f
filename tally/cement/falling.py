"""Free fall: columns so unlike that they move faster than the pump, carried by friction alone."""

from __future__ import annotations

from math import inf, sqrt
from typing import NamedTuple

from tally.cement.balance import Balance
from tally.errors import DomainError
from tally.fluids.root import bracketed_root

PART = 1 - 1 / sqrt(2)
"""Where in a step its first stage stands: both stages then damp alike, however little friction."""

FASTEST = 0.95
"""[m3/s]; no returns come faster."""

CLOSE = 1e-6
"""Share of the rate at which a search for it ends; what is then left is a square of that."""

_NEVER = 1e12
"""[Pa]; stands for a balance that no rate can have."""


class Fallen(NamedTuple):
    """After a step: the gap above the level [m^3], and the rate of returns [m^3/s]."""

    gap: float
    out: float


def fall(
    balance: Balance, pumped: float, gap: float, rate: float, time: float, over: float, guess: float
) -> Fallen:
    """Return gap and returns after a time [s] in which the columns fall.

    Parameters
    ----------
    balance : Balance
        Columns and friction of the plan
    pumped, gap : float
        Volume pumped and gap at the beginning, [m^3]
    rate : float
        Rate of the pump, [m^3/s]
    time : float
        Length of the step, [s]
    over : float
        Pressure of the gap less back pressure, [Pa]
    guess : float
        Rate of returns to begin the search with, [m^3/s]

    Returns
    -------
    fallen : Fallen
        Gap, below zero where the pump has caught up within the step, and rate of returns

    Raises
    ------
    DomainError
        If the casing would empty to the shoe

    Notes
    -----
    d(gap)/d(time) = returns - rate; the returns are those whose friction carries the push of the
    columns, none where the push is less than what starts them (the floats hold, nothing flows
    backwards). No inertia: the first seconds of a fast fall are smoothed. Two implicit stages of
    second order (SDIRK2, L-stable), because with little friction the level follows the balance
    within seconds.
    """
    part = PART * time
    first = _returns(balance, pumped + rate * part, gap, rate, part, over, guess)
    base = gap + (time - part) * (first - rate)
    second = _returns(balance, pumped + rate * time, base, rate, part, over, first or guess)
    fallen = Fallen(base + part * (second - rate), second)
    if fallen.gap > 0.999 * balance.room:
        raise DomainError(
            "The columns are so unlike that the casing would empty to the shoe; check the "
            "densities and the depth."
        )
    return fallen


def _returns(
    balance: Balance,
    pumped: float,
    base: float,
    rate: float,
    part: float,
    over: float,
    guess: float,
) -> float:
    """Return the rate of returns that ends its part of the step in balance."""

    def left(out: float) -> tuple[float, float]:
        """Return what of the push no friction carries, and how fast that shrinks with the rate."""
        gap = base + part * (out - rate)
        if gap > balance.room:
            return -_NEVER, 0.0
        columns = balance.columns(pumped, gap)
        lost, power = balance.lost_falling(columns, out)
        shrinks = power * lost / out + part * balance.level_weight(columns)
        return balance.push(columns) + over - lost, shrinks

    least = balance.slowest()
    low, high, here = 0.0, inf, min(max(guess, 2 * least), FASTEST)
    before = value_before = 0.0
    for _ in range(60):
        value, slope = left(here)
        low, high = (here, high) if value > 0 else (low, here)
        if before and value != value_before:
            slope = (value_before - value) / (here - before)
        before, value_before = here, value
        then = here + value / slope if slope > 0 else (low + min(high, 2 * here)) / 2
        if then <= least and not low:
            if left(least)[0] <= 0:
                return 0.0
            low = least
        if not low <= then <= high or then > FASTEST:
            then = min((low + min(high, 4 * here)) / 2, FASTEST)
        if abs(then - here) <= CLOSE * here:
            return then
        here = then
    return bracketed_root(lambda out: left(out)[0], low or least, min(high, FASTEST))
