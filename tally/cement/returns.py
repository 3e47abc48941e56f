"""What the returns should do, in words, and whether those seen are what free fall explains."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tally.formula import require_range

if TYPE_CHECKING:
    from tally.cement.placement import Placement

FULL, MORE, LESS, NONE, STANDING = (
    "full", "more than pumped", "less than pumped", "none", "pump stopped",
)  # fmt: skip

MEANS = {
    FULL: "What is pumped comes back.",
    MORE: "The slurry falls: more comes back than is pumped, and it is no flow from the hole.",
    LESS: "The casing fills up again: less comes back than is pumped, and it is no loss.",
    NONE: "The casing fills up again and nothing comes back until it is full; it is no loss.",
    STANDING: "Nothing is pumped and nothing should come back.",
}

AS_EXPECTED, TOO_MUCH, TOO_LITTLE = "as expected", "more than expected", "less than expected"

SEEN_MEANS = {
    AS_EXPECTED: "Returns are within what is worked out.",
    TOO_MUCH: "More has come back than free fall explains: look for flow from the hole.",
    TOO_LITTLE: "Less has come back than free fall explains: look for losses.",
}

LIKE = 0.02
"""Returns within this share of the pump's rate are the same as pumped."""


@dataclass(frozen=True, slots=True)
class Bounds:
    """What readings of returns may be off by before they say anything.

    `share` of the volume returned that the reading may be off, `least` the same as a volume
    [m^3]; `early` how far before or behind in volume pumped the fall may come [m^3], and
    `fall_share` how much greater or smaller it may be.
    """

    share: float = 0.01
    least: float = 0.3
    early: float = 1.5
    fall_share: float = 0.15

    def __post_init__(self) -> None:
        require_range("Share that returns may be off", self.share, 0.0, 0.5, "")
        require_range("Volume that returns may be off", self.least, 0.0, 50.0, "m3")
        require_range("Volume that the fall may be early", self.early, 0.0, 100.0, "m3")
        require_range("Share that the fall may be off", self.fall_share, 0.0, 1.0, "")


@dataclass(frozen=True, slots=True)
class Expected:
    """What the returns should do at a volume pumped: in words, rate, volume and its bounds."""

    phase: str
    rate: float
    returned: float
    least: float
    most: float

    @property
    def means(self) -> str:
        """The phase in a sentence."""
        return MEANS[self.phase]


@dataclass(frozen=True, slots=True)
class Compared:
    """Returns seen against those expected: in words, and the difference in volume, [m^3]."""

    word: str
    difference: float
    expected: Expected

    @property
    def means(self) -> str:
        """What it means in a sentence; with the phase where that explains what is seen."""
        if self.word == AS_EXPECTED and self.expected.phase != FULL:
            return f"{SEEN_MEANS[self.word]} {self.expected.means}"
        return SEEN_MEANS[self.word]


def phase(rate: float, returns: float) -> str:
    """Return in words what returns are to the pump's rate.

    >>> phase(0.02, 0.031), phase(0.02, 0.02), phase(0.02, 0.011), phase(0.02, 0.0), phase(0.0, 0.0)
    ('more than pumped', 'full', 'less than pumped', 'none', 'pump stopped')
    """
    if abs(returns - rate) <= LIKE * rate:
        return FULL if rate > 0 else STANDING
    if returns > rate:
        return MORE
    return LESS if returns > LIKE * rate else NONE


def expected(placement: Placement, volume: float, bounds: Bounds | None = None) -> Expected:
    """Return what the returns should do at a volume pumped."""
    bounds = bounds or Bounds()
    moment = placement.at(volume)
    least, most = _empty_near(placement, volume, bounds.early)
    off = max(bounds.least, bounds.share * moment.returned)
    return Expected(
        phase(moment.rate, moment.returns),
        moment.returns,
        moment.returned,
        moment.volume + least * (1 - bounds.fall_share) - off,
        moment.volume + most * (1 + bounds.fall_share) + off,
    )


def compared(
    placement: Placement, volume: float, returned: float, bounds: Bounds | None = None
) -> Compared:
    """Return the volume returned since the first fluid against what is worked out."""
    wanted = expected(placement, volume, bounds)
    word = AS_EXPECTED
    if returned < wanted.least:
        word = TOO_LITTLE
    elif returned > wanted.most:
        word = TOO_MUCH
    return Compared(word, returned - wanted.returned, wanted)


def _empty_near(placement: Placement, volume: float, early: float) -> tuple[float, float]:
    """Return the least and the greatest empty volume within so much pumped before and after."""
    low = bisect_left(placement.volume, volume - early)
    high = bisect_right(placement.volume, volume + early)
    near = [placement.at(volume).empty, *placement.empty[low:high]]
    return min(near), max(near)
