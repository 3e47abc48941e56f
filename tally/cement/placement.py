"""What a placement comes to: rows by volume pumped, events, and where the fluids are."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from tally.cement.plan import Fluid, Plan, Point
from tally.cement.tube import Tube
from tally.errors import DomainError
from tally.pipe.weight import STANDARD_GRAVITY
from tally.string.columns import FluidColumn, Layer

LANDS, OPENS, TURNS, FALLS, CAUGHT_UP, SLOWS, BUMPS, ROUND = (
    "bottom plug lands", "bottom plug opens", "turns the shoe", "free fall begins",
    "free fall ends", "slow-down", "top plug bumps", "comes to surface",
)  # fmt: skip

_SAME = 1e-6
"""[m3]; volumes closer than this are one."""


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happens on the way: what, to which fluid, and when.

    `pressure` is that at the head, the rise that opens a plug counted, [Pa]; volume pumped [m^3],
    time since the first fluid [s].
    """

    what: str
    name: str
    volume: float
    time: float
    pressure: float


@dataclass(frozen=True, slots=True)
class Watched:
    """A depth that is watched: the point, true vertical depth [m], pressure there by row [Pa]."""

    point: Point
    true_vertical: float
    pressure: tuple[float, ...]

    @property
    def equivalent(self) -> tuple[float, ...]:
        """Equivalent density by row, [kg/m^3]."""
        per_density = STANDARD_GRAVITY * self.true_vertical
        return tuple(pressure / per_density for pressure in self.pressure)


@dataclass(frozen=True, slots=True)
class Extreme:
    """Greatest and least equivalent density of a point [kg/m^3], the volume pumped at each [m^3],
    and what is left to its strength and to the pore pressure (None where not known)."""

    greatest: float
    greatest_at: float
    least: float
    least_at: float
    to_weak: float | None
    to_pore: float | None


@dataclass(frozen=True, slots=True)
class Moment:
    """The job at one volume pumped, between rows in proportion; SI, as in Placement."""

    volume: float
    time: float
    rate: float
    pressure: float
    returns: float
    returned: float
    empty: float
    level: float
    """Measured depth of the level in the casing; its top where it is full, [m]."""
    points: tuple[float, ...]
    """Pressure at each watched depth, [Pa]."""


@dataclass(frozen=True, slots=True)
class Lying:
    """A fluid as it lies: from and to a volume of the tube, [m^3], in the order of the flow.

    `slug` is its place in the order of pumping, from 0; None is the mud that stood in the hole.
    """

    fluid: Fluid
    slug: int | None
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Placement:
    """A job worked out: rows in the order of pumping, the same place in each tuple is one row.

    At a change of rate, and where free fall ends, two rows stand at one volume: before and after.
    """

    plan: Plan
    tube: Tube
    volume: tuple[float, ...]
    """Volume pumped, [m^3]."""
    time: tuple[float, ...]
    """Since the first fluid, [s]."""
    rate: tuple[float, ...]
    """Of the pump, [m^3/s]."""
    pressure: tuple[float, ...]
    """At the head, [Pa]."""
    returns: tuple[float, ...]
    """Rate of returns, [m^3/s]."""
    empty: tuple[float, ...]
    """Volume of the empty casing above the level, [m^3]."""
    points: tuple[Watched, ...]
    events: tuple[Event, ...]
    bumped: bool

    @property
    def returned(self) -> tuple[float, ...]:
        """Volume returned, [m^3]: what was pumped and what the empty casing lacks."""
        return tuple(v + gap for v, gap in zip(self.volume, self.empty, strict=True))

    @property
    def greatest_pressure(self) -> float:
        """Greatest pressure at the head before the bump, opening of plugs counted, [Pa]."""
        return max((*self.pressure, *(event.pressure for event in self.events)))

    @property
    def level(self) -> tuple[float, ...]:
        """Measured depth of the level in the casing by row, [m]."""
        return tuple(self.tube.depth(self.tube.top + max(0.0, gap)) for gap in self.empty)

    def at(self, volume: float) -> Moment:
        """Return the job at a volume pumped; before the first row and after the last, those."""
        return self._moment(*_place(self.volume, volume))

    def at_time(self, time: float) -> Moment:
        """Return the job so long after the first fluid [s]; while the pump stands the columns may
        still fall."""
        return self._moment(*_place(self.time, time))

    def standing(self, volume: float) -> tuple[Moment, ...]:
        """Return the job while the pump stands at a volume pumped; nothing where it does not."""
        first = bisect_left(self.volume, volume - _SAME)
        after = bisect_right(self.volume, volume + _SAME)
        return tuple(self._moment(n, 0.0) for n in range(first, after) if self.rate[n] <= 0)

    def _moment(self, place: int, share: float) -> Moment:
        def between(values: Sequence[float]) -> float:
            if not share:
                return values[place]
            return values[place] + share * (values[place + 1] - values[place])

        pumped, empty = between(self.volume), max(0.0, between(self.empty))
        return Moment(
            volume=pumped,
            time=between(self.time),
            rate=self.rate[place],
            pressure=between(self.pressure),
            returns=between(self.returns),
            returned=pumped + empty,
            empty=empty,
            level=self.tube.depth(self.tube.top + empty),
            points=tuple(between(point.pressure) for point in self.points),
        )

    def lying(self, volume: float) -> tuple[Lying, ...]:
        """Return the fluids in the tube at a volume pumped, line and head first."""
        moment, tube = self.at(volume), self.tube
        start, found = 0.0, []
        starts = self.plan.starts()
        for place in range(len(starts) - 1, -1, -1):
            run = moment.volume - starts[place]
            if run <= 0:
                continue
            end = min(run + moment.empty if run > tube.top else run, tube.end)
            for upper, lower in self._split(start, end, moment.empty):
                found.append(Lying(self.plan.slugs[place].fluid, place, upper, lower))
            start = end
        if start < tube.end:
            ends = self._split(start, tube.end, moment.empty)
            found += [Lying(self.plan.mud, None, upper, lower) for upper, lower in ends]
        return tuple(found)

    def plug(self, ahead_of: int, volume: float) -> float | None:
        """Return the measured depth of the plug ahead of a fluid; None before it is let go."""
        moment, tube = self.at(volume), self.tube
        run = moment.volume - self.plan.starts()[ahead_of]
        if run < 0:
            return None
        return tube.depth(min(tube.collar, run + moment.empty if run > tube.top else run))

    def inside(self, volume: float) -> FluidColumn:
        """Return the fluids in the casing, from the level down."""
        moment, tube = self.at(volume), self.tube
        layers = [
            Layer(tube.depth(min(each.end, tube.shoe)), each.fluid.density)
            for each in self.lying(volume)
            if each.start < tube.shoe and each.end > tube.top
        ]
        return FluidColumn(tuple(layers), moment.level)

    def outside(self, volume: float) -> FluidColumn:
        """Return the fluids in the annulus, from its top down."""
        tube = self.tube
        layers = [
            Layer(tube.well.shoe if each.start <= tube.shoe else tube.depth(each.start),
                  each.fluid.density)
            for each in reversed(self.lying(volume))
            if each.end > tube.shoe
        ]  # fmt: skip
        return FluidColumn(tuple(layers), tube.well.hole.top)

    def extreme(self, name: str) -> Extreme:
        """Return the greatest and least equivalent density of a watched depth."""
        watched = next((each for each in self.points if each.point.name == name), None)
        if watched is None:
            known = ", ".join(each.point.name for each in self.points)
            raise DomainError(f"{name} is not among the depths watched: {known}.")
        densities, point = watched.equivalent, watched.point
        most, least = max(densities), min(densities)
        return Extreme(
            most,
            self.volume[densities.index(most)],
            least,
            self.volume[densities.index(least)],
            None if point.weak_at is None else point.weak_at - most,
            None if point.pore is None else least - point.pore,
        )

    def _split(self, start: float, end: float, empty: float) -> list[tuple[float, float]]:
        """Return a stretch of the tube without the gap that the level leaves in it."""
        top = self.tube.top
        if not empty or start > top or end <= top:
            return [(start, end)] if end > start else []
        parts = [(start, top), (top + empty, end)]
        return [(upper, lower) for upper, lower in parts if lower > upper]


def _place(values: Sequence[float], wanted: float) -> tuple[int, float]:
    """Return the row at or before a value, and how far on to the next it lies."""
    place = bisect_right(values, wanted) - 1
    if place < 0:
        return 0, 0.0
    if place >= len(values) - 1:
        return len(values) - 1, 0.0
    return place, (wanted - values[place]) / (values[place + 1] - values[place])
