"""What was done at a zone: cement over it, fluids past it, scratchers that meet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from tally.cement.programme import SLURRY, Placed
from tally.errors import DomainError
from tally.pipe.interval import overlap

_NOTHING = 1e-6
"""[m]; less is no length."""


@dataclass(frozen=True, slots=True)
class Cover:
    """One slurry over a zone: the length of the zone that it fills, [m]."""

    name: str
    length: float


@dataclass(frozen=True, slots=True)
class Covered:
    """The cement at a zone; lengths [m].

    `above` and `below` say how far cement goes on beyond the zone: below zero where it ends inside.
    """

    covers: tuple[Cover, ...]
    share: float
    """Of the zone that has cement over it."""
    above: float
    below: float


def covered(placed: Sequence[Placed], top: float, bottom: float, end: float) -> Covered:
    """Return the cement over a zone.

    Parameters
    ----------
    placed : sequence of Placed
        The fluids as they end in the annulus
    top, bottom : float
        Measured depths of the zone, [m]
    end : float
        The depth down to which there is cement below the shoe as well, [m]

    Examples
    --------
    >>> lead = Placed("lead", SLURRY, 9.0, 600.0, 800.0)
    >>> tail = Placed("tail", SLURRY, 9.0, 800.0, 1000.0)
    >>> found = covered([lead, tail], 780.0, 820.0, 1000.0)
    >>> [(each.name, each.length) for each in found.covers], found.above, found.below
    ([('lead', 20.0), ('tail', 20.0)], 180.0, 180.0)
    """
    _require_zone(top, bottom)
    slurries = [each for each in placed if each.kind == SLURRY and each.length > _NOTHING]
    if not slurries:
        return Covered((), 0.0, 0.0, 0.0)
    lowest = slurries[-1]
    reach = [(each, each.bottom if each is not lowest else end) for each in slurries]
    covers = tuple(
        Cover(each.name, length)
        for each, foot in reach
        if (length := overlap(each.top, foot, top, bottom)) > _NOTHING
    )
    share = sum(each.length for each in covers) / (bottom - top)
    return Covered(covers, share, top - slurries[0].top, end - bottom)


def contact_time(fluid: Placed, top: float, bottom: float, rate: float) -> float | None:
    """Return how long a fluid flowed past a zone, [s]; nothing where it did not pass all of it.

    It has passed the zone when all of it has come to lie above it. The volume that came up the
    annulus is counted, at the rate it was pumped with; free fall makes it come faster at first.

    >>> contact_time(Placed("spacer", "spacer", 6.0, 100.0, 400.0), 500.0, 520.0, 0.01)
    600.0
    """
    _require_zone(top, bottom)
    if rate <= 0:
        raise DomainError(f"A rate of {rate:g} m3/s is none; a contact time wants a rate.")
    if fluid.bottom > top + _NOTHING:
        return None
    return (fluid.volume - fluid.within) / rate


def scratchers_that_meet(depths: Sequence[float], stroke: float) -> int:
    """Return how many scratchers wipe up to the next one: the stroke is at least their spacing.

    Each is held against the next one above it, the uppermost against the one below; one alone
    meets none.

    >>> scratchers_that_meet([100.0, 105.0, 110.0, 130.0], 6.0)
    3
    """
    ordered = sorted(depths)
    gaps = [below - above for above, below in pairwise(ordered)]
    if not gaps:
        return 0
    each = [gaps[0], *gaps]
    return sum(1 for gap in each if gap <= stroke + _NOTHING)


def _require_zone(top: float, bottom: float) -> None:
    if not top < bottom:
        raise DomainError(f"The zone from {top:.6g} m to {bottom:.6g} m has no length.")
