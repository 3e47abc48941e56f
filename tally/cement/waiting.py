"""Waiting on cement: strength by the laboratory, and the time that a rule asks for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from tally.errors import DomainError
from tally.formula import require_range

ALL, ANY = "all", "any"
"""Whether both the time and the strength of a rule are wanted, or one of them."""
LONGEST = 60 * 86400.0
STRONGEST = 200e6


@dataclass(frozen=True, slots=True)
class StrengthCurve:
    """Compressive strength [Pa] at times since mixing [s], as a laboratory has read it.

    Between two readings it is taken along a straight line; before the first and past the last
    one nothing is known.
    """

    readings: tuple[tuple[float, float], ...]

    def __post_init__(self) -> None:
        if not self.readings:
            raise DomainError("No strength reading is given; a laboratory has to read one.")
        for time, strength in self.readings:
            require_range("Time of a strength reading", time, 0.0, LONGEST, "s")
            require_range("Strength", strength, 0.0, STRONGEST, "Pa")
        for (first, weaker), (then, stronger) in pairwise(self.readings):
            if then <= first:
                raise DomainError(
                    f"The strength readings at {first:g} s and {then:g} s do not follow each other."
                )
            if stronger < weaker:
                raise DomainError(
                    f"The strength falls from {weaker:.4g} Pa to {stronger:.4g} Pa between two "
                    "readings; look at both."
                )

    def at(self, time: float) -> float | None:
        """Return the strength at a time, [Pa]; nothing outside the readings.

        >>> curve = StrengthCurve(((28800.0, 2e6), (57600.0, 6e6)))
        >>> curve.at(43200.0), curve.at(3600.0), curve.at(86400.0)
        (4000000.0, None, None)
        """
        for time_read, strength in self.readings:
            if time == time_read:
                return strength
        for (first, weaker), (then, stronger) in pairwise(self.readings):
            if first < time < then:
                return weaker + (stronger - weaker) * (time - first) / (then - first)
        return None

    def reaches(self, strength: float) -> float | None:
        """Return when a strength is there, [s]; nothing where the readings end below it.

        A strength that the first reading exceeds already is there from that reading on and not
        before: what comes before it is not known.

        >>> curve = StrengthCurve(((28800.0, 2e6), (57600.0, 6e6)))
        >>> curve.reaches(4e6), curve.reaches(1e6), curve.reaches(7e6)
        (43200.0, 28800.0, None)
        """
        if self.readings[0][1] >= strength:
            return self.readings[0][0]
        for (first, weaker), (then, stronger) in pairwise(self.readings):
            if weaker < strength <= stronger:
                return first + (then - first) * (strength - weaker) / (stronger - weaker)
        return None


@dataclass(frozen=True, slots=True)
class Wait:
    """What a rule comes to from the moment that the cement is in place.

    `time` is what has to pass, [s]; nothing where it cannot be told, and then `lacks` says why.
    """

    time: float | None
    lacks: str = ""


def wait_of(
    hours: float | None, strength: float | None, need: str, curve: StrengthCurve | None
) -> Wait:
    """Return how long a rule asks to wait.

    Parameters
    ----------
    hours : float or None
        Time that the rule asks for, [s]
    strength : float or None
        Strength that it asks for, [Pa]
    need : str
        "all" where it asks for both, "any" where one of them will do
    curve : StrengthCurve or None
        What the laboratory read, if it did

    Returns
    -------
    wait : Wait
        Time from the moment that the cement is in place

    Notes
    -----
    The laboratory counts from mixing and the clock from the cement in place, which is later, so
    counted from there the strength is never reached sooner than said.

    Examples
    --------
    >>> curve = StrengthCurve(((21600.0, 1e6), (43200.0, 5e6)))
    >>> wait_of(28800.0, 3e6, ALL, curve).time, wait_of(28800.0, 3e6, ANY, curve).time
    (32400.0, 28800.0)
    >>> wait_of(28800.0, 3e6, ALL, None).lacks
    'no laboratory strength is in the job set-up'
    """
    if need not in (ALL, ANY):
        raise DomainError(
            f"'{need}' is not known; a rule needs '{ALL}' or '{ANY}' of what it asks."
        )
    found = [] if hours is None else [Wait(hours)]
    if strength is not None:
        found.append(_by_strength(strength, curve))
    if not found:
        return Wait(None, "the rule gives neither a time nor a strength")
    known = [each.time for each in found if each.time is not None]
    if len(known) == len(found) or (need == ANY and known):
        return Wait(min(known) if need == ANY else max(known))
    return next(each for each in found if each.time is None)


def _by_strength(strength: float, curve: StrengthCurve | None) -> Wait:
    if curve is None:
        return Wait(None, "no laboratory strength is in the job set-up")
    time = curve.reaches(strength)
    return Wait(time, "" if time is not None else "the laboratory readings end below the strength")


def longest(waits: Sequence[Wait]) -> int | None:
    """Return the place of the wait that governs: one that cannot be told comes before all.

    >>> longest([Wait(3600.0), Wait(7200.0)]), longest([Wait(7200.0), Wait(None, "no readings")])
    (1, 1)
    """
    if not waits:
        return None
    return max(range(len(waits)), key=lambda n: _rank(waits[n]))


def _rank(wait: Wait) -> float:
    return float("inf") if wait.time is None else wait.time
