"""Surge along a whole string: every annulus in series, the foot closed, on auto-fill or open."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from tally.errors import DomainError
from tally.fluids.flow_curve import FlowCurve
from tally.fluids.root import bracketed_root
from tally.fluids.surge import Bore, MovingAnnulus, bore, moving_annulus
from tally.fluids.surge_speed import SLOWEST, no_speed
from tally.fluids.surge_velocity import FASTEST
from tally.hole.sections import Hole
from tally.pipe.interval import PipeInterval

_FINE = 1e-7
"""How near the speed is found, of itself; what enters open pipe is found more finely."""


@dataclass(frozen=True, slots=True)
class Mud:
    """What stands in the hole: density [kg/m^3] and how it flows."""

    density: float
    curve: FlowCurve


@dataclass(frozen=True, slots=True)
class Stretch:
    """A length of one pipe in one hole, measured depths [m], with what flows around and in it."""

    top: float
    bottom: float
    annulus: MovingAnnulus
    bore: Bore


@dataclass(frozen=True, slots=True)
class Bound:
    """A pressure that must not be exceeded down to a depth: name, measured depth [m], [Pa]."""

    name: str
    depth: float
    pressure: float


@dataclass(frozen=True, slots=True)
class Greatest:
    """The greatest speed [m/s], and the name of the bound that sets it; none up to FASTEST."""

    speed: float
    governs: str


@dataclass(frozen=True, slots=True)
class MovingString:
    """A string that moves along the hole: its stretches from the top down.

    `taken` is the area by which mud enters at the foot as the pipe goes down, share times bore
    [m^2]; nothing of it for a closed foot, None for open pipe, where both ways share the mud as
    their friction has it (levels alike inside and outside).
    """

    stretches: tuple[Stretch, ...]
    taken: float | None = 0.0

    def pressure(self, speed: float, depth: float) -> float:
        """Return the surge down to a measured depth at a speed, [Pa]; swab is its negative."""
        return self._outside(speed, self.entering(speed), depth)

    def gel_break(self, gel: float, depth: float) -> float:
        """Return what breaks gelled mud down to a measured depth before it flows, [Pa]."""
        return sum(
            4 * gel / each.annulus.gap * (min(each.bottom, depth) - each.top)
            for each in self.stretches
            if each.top < depth
        )

    def entering(self, speed: float) -> float:
        """Return the rate at which mud enters the pipe at its foot, [m^3/s]."""
        if self.taken is not None:
            return self.taken * speed
        if speed == 0 or not self.stretches:
            return 0.0
        most = max(
            each.annulus.pipe_area + each.annulus.turbulent * each.annulus.area
            for each in self.stretches
        )
        foot = self.stretches[-1].bottom

        def short(rate: float) -> float:
            return self._inside(rate) - self._outside(speed, rate, foot)

        return bracketed_root(short, 0.0, 1.01 * most * speed)

    def _outside(self, speed: float, entering: float, depth: float) -> float:
        lost = 0.0
        for each in self.stretches:
            if each.top >= depth:
                break
            ring = each.annulus
            upward = (ring.pipe_area * speed - entering) / ring.area
            lost += ring.gradient(upward, speed) * (min(each.bottom, depth) - each.top)
        return lost

    def _inside(self, rate: float) -> float:
        """Return the friction inside: to the pipe it is mud that goes up at the rate it enters."""
        return sum(each.bore.gradient(rate) * (each.bottom - each.top) for each in self.stretches)

    def held_closed(self) -> MovingString:
        """Return the string coming up: what an auto-fill float may let out is not counted."""
        return self if self.taken is None else replace(self, taken=0.0)

    def greatest_speed(self, bounds: Iterable[Bound]) -> Greatest:
        """Return the greatest speed that keeps every bound, and which one sets it.

        Raises DomainError where a bound is broken at any speed.
        """
        best = Greatest(FASTEST, "")
        for bound in bounds:
            if self.pressure(best.speed, bound.depth) > bound.pressure:
                best = Greatest(self._speed_for(bound, best.speed), bound.name)
        return best

    def _speed_for(self, bound: Bound, too_fast: float) -> float:
        def over(speed: float) -> float:
            return self.pressure(speed, bound.depth) - bound.pressure

        if over(SLOWEST) > 0:
            raise DomainError(no_speed(bound.name))
        return bracketed_root(over, SLOWEST, too_fast, _FINE)


def moving_string(
    pipe: Sequence[PipeInterval], hole: Hole, mud: Mud, share: float | None = 0.0
) -> MovingString:
    """Return a string in a hole as it moves.

    Parameters
    ----------
    pipe : sequence of PipeInterval
        The string where it hangs, from the top down
    hole : Hole
        The hole; the narrower end of a section counts, and no excess
    mud : Mud
        What stands in the hole
    share : float or None
        Share of its contents that the pipe takes in at the foot; None for open pipe, [-]

    Returns
    -------
    string : MovingString
        Its stretches with their annuli; annuli of the same diameters and mud are shared

    Raises
    ------
    DomainError
        If a pipe does not go into the hole, or is less than 0.3 of it.

    Notes
    -----
    Each annulus is worked out once and kept, whatever moves through it: a joint that is added
    changes lengths only. Of a string of several bores the narrowest is what auto-fill lets in,
    which reads high.

    Examples
    --------
    >>> from tally.hole.sections import HoleSection
    >>> cased, bare = HoleSection(0.0, 1000.0, 0.315, True), HoleSection(1000.0, 2000.0, 0.31)
    >>> string = [PipeInterval(-1.0, 1500.0, 0.2445, 0.2205, 70.0)]
    >>> moving = moving_string(string, Hole([cased, bare]), Mud(1200.0, FlowCurve(5.0, 0.02)))
    >>> [round(moving.pressure(0.5, depth)) for depth in (1000.0, 1500.0)]
    [616122, 962970]
    """
    stretches = tuple(
        Stretch(
            max(0.0, each.top, section.top),
            min(each.bottom, section.bottom),
            moving_annulus(
                min(section.diameter, section.foot), each.outer_diameter, mud.density, mud.curve
            ),
            bore(each.inner_diameter, mud.density, mud.curve),
        )
        for each in pipe
        for section in hole.sections
        if max(0.0, each.top, section.top) < min(each.bottom, section.bottom)
    )
    if share is None:
        return MovingString(stretches, None)
    return MovingString(stretches, share * min((each.bore.area for each in stretches), default=0.0))
