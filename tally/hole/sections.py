"""The hole as it lies: previous casings and open hole, gauge, with excess or by caliper."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import pi, sqrt

from tally.errors import DomainError
from tally.formula import require_range
from tally.pipe.interval import PipeInterval, overlap

_TOUCHING = 1e-6
"""[m]; sections this close follow one another."""


@dataclass(frozen=True, slots=True)
class HoleSection:
    """A length of hole: measured depths and diameter [m], cased or open, excess as a share.

    A caliper gives another diameter at the bottom (`lower_diameter`); between the two the
    area changes evenly. The excess is a share of the volume between hole and pipe; where there
    is no pipe, of the whole hole.
    """

    top: float
    bottom: float
    diameter: float
    cased: bool = False
    excess: float = 0.0
    lower_diameter: float | None = None

    def __post_init__(self) -> None:
        require_range("Top of the section", self.top, 0.0, 30_000.0, "m")
        require_range("Bottom of the section", self.bottom, self.top, 30_000.0, "m")
        require_range("Hole diameter", self.diameter, 0.05, 1.5, "m")
        require_range("Hole diameter", self.foot, 0.05, 1.5, "m")
        require_range("Excess", self.excess, 0.0, 5.0, "")
        if self.cased and self.excess:
            raise DomainError(
                f"The casing at {self.top:.6g} m has an excess of {self.excess:.0%}; excess "
                "belongs to open hole."
            )

    @property
    def foot(self) -> float:
        """Diameter at the bottom, [m]."""
        return self.diameter if self.lower_diameter is None else self.lower_diameter

    def area(self, depth: float) -> float:
        """Return the cross-section without excess at a depth of the section, [m^2]."""
        upper, lower = pi / 4 * self.diameter**2, pi / 4 * self.foot**2
        if self.bottom == self.top:
            return upper
        return upper + (lower - upper) * (depth - self.top) / (self.bottom - self.top)

    def volume(self, top: float, bottom: float, less: float = 0.0) -> float:
        """Return the volume between two depths, excess counted, less a pipe of that area."""
        upper, lower = max(top, self.top), min(bottom, self.bottom)
        if upper >= lower:
            return 0.0
        at_top, at_foot = self.area(upper), self.area(lower)
        if less >= min(at_top, at_foot):
            depth = upper if at_top <= at_foot else lower
            raise DomainError(
                f"The pipe of {sqrt(4 * less / pi):.4g} m (couplings shared out) does not go "
                f"into the hole of {sqrt(4 * self.area(depth) / pi):.4g} m at {depth:.6g} m; "
                "check the diameters."
            )
        return ((at_top + at_foot) / 2 - less) * (lower - upper) * (1 + self.excess)


class Hole:
    """The hole from top to bottom, section below section.

    Parameters
    ----------
    sections : sequence of HoleSection
        From the top down, each beginning where the one above ends

    Raises
    ------
    DomainError
        If there is none, or two do not meet.

    Examples
    --------
    A previous casing of 0.315 m inside, 500 m of open hole below it with a fifth of excess.

    >>> hole = Hole([
    ...     HoleSection(0.0, 1000.0, 0.315, cased=True),
    ...     HoleSection(1000.0, 1500.0, 0.311, excess=0.2),
    ... ])
    >>> hole.previous_shoe, hole.bottom
    (1000.0, 1500.0)
    >>> pipe = [PipeInterval(0.0, 1490.0, 0.2445, 0.2205, 70.0)]
    >>> round(hole.annulus(pipe, 900.0, 1490.0), 2), round(hole.pocket(1490.0), 2)
    (20.16, 0.91)
    """

    def __init__(self, sections: Sequence[HoleSection]) -> None:
        if not sections:
            raise DomainError("The hole has no section; type its diameter and depths.")
        for above, below in pairwise(sections):
            if abs(above.bottom - below.top) > _TOUCHING:
                raise DomainError(
                    f"The section from {below.top:.6g} m does not begin where the one above ends, "
                    f"at {above.bottom:.6g} m; check the depths of the hole."
                )
        self.sections = tuple(sections)

    @property
    def top(self) -> float:
        """Measured depth of the top, [m]."""
        return self.sections[0].top

    @property
    def bottom(self) -> float:
        """Measured depth of the bottom, [m]."""
        return self.sections[-1].bottom

    @property
    def previous_shoe(self) -> float:
        """Measured depth of the shoe of the deepest casing, [m]; the top where there is none."""
        return max((each.bottom for each in self.sections if each.cased), default=self.top)

    def volume(self, top: float, bottom: float) -> float:
        """Return the volume of the empty hole between two measured depths, [m^3]."""
        self._require(top, bottom)
        return sum(each.volume(top, bottom) for each in self.sections)

    def annulus(self, pipe: Iterable[PipeInterval], top: float, bottom: float) -> float:
        """Return the volume between hole and pipe between two measured depths, [m^3].

        Couplings are counted. Where there is no pipe nothing is counted: that is the pocket.
        """
        self._require(top, bottom)
        return sum(
            section.volume(max(top, each.top), min(bottom, each.bottom), each.closed)
            for each in pipe
            if overlap(top, bottom, each.top, each.bottom) > 0
            for section in self.sections
        )

    def pocket(self, shoe: float) -> float:
        """Return the volume of the hole below the shoe, [m^3]."""
        return self.volume(shoe, self.bottom)

    def _require(self, top: float, bottom: float) -> None:
        require_range("Upper depth", top, self.top, self.bottom + _TOUCHING, "m")
        require_range("Lower depth", bottom, top, self.bottom + _TOUCHING, "m")


def caliper_sections(
    readings: Sequence[tuple[float, float]], excess: float = 0.0
) -> tuple[HoleSection, ...]:
    """Return open hole by caliper: readings of measured depth and diameter [m], from the top down.

    >>> [section.foot for section in caliper_sections([(10.0, 0.31), (20.0, 0.33), (25.0, 0.32)])]
    [0.33, 0.32]
    """
    return tuple(
        HoleSection(top, bottom, diameter, excess=excess, lower_diameter=lower)
        for (top, diameter), (bottom, lower) in pairwise(readings)
    )
