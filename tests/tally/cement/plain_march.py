"""A two-plug job marched through plain time steps: what the predictions are compared with.

Written for the tests and from the balances alone: it walks through the well cell by cell and knows
nothing of how tally.cement works things out. Only the friction of one fluid in one gap at one rate
is the program's own.

    record = march(well, slugs, mud)                  # a reading each 0.1 minute, to the bump
    record[-1].pressure                               # [Pa] just before the plug bumps

It takes the gap at the top of a casing that falls to be at the pressure `limit`, new fluid to lie
on the level at once, and no flow backwards: the floats hold.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import exp, log, pi, sqrt
from typing import NamedTuple

from tally.fluids.flow_curve import FlowCurve
from tally.fluids.friction import annulus_loss, pipe_loss

GRAVITY = 9.80665
SLOWEST = 1e-6
"""[m3/s]; slower than this is standing still."""


class Fluid(NamedTuple):
    """A fluid: density [kg/m3] and flow curve; without a curve it flows without friction."""

    name: str
    density: float
    curve: FlowCurve | None = None


class Slug(NamedTuple):
    """What is pumped next: fluid, volume [m3], rate [m3/s], then a stop [s]."""

    fluid: Fluid
    volume: float
    rate: float
    stop: float = 0.0


class Casing(NamedTuple):
    """Casing from the one above it (or the surface) down to a measured depth, [m].

    `closed` is what it pushes aside by length with its couplings, [m3/m]; the body unless given.
    """

    bottom: float
    outer: float
    inner: float
    closed: float | None = None


class Bore(NamedTuple):
    """Hole from the one above it (or the surface) down to a measured depth, [m]."""

    bottom: float
    diameter: float
    excess: float = 0.0


class Well(NamedTuple):
    """Casing and hole from the top down; the shoe is the casing's bottom.

    `head` is the volume from where the pump counts to the top of the casing, [m3]; `vertical`
    gives the true vertical depth of a measured depth.
    """

    casing: Sequence[Casing]
    hole: Sequence[Bore]
    collar: float
    head: float = 0.0
    vertical: Callable[[float], float] = float


class Reading(NamedTuple):
    """Time [s], volume pumped [m3], pump rate [m3/s], pressure at the head [Pa], returns [m3]."""

    time: float
    volume: float
    rate: float
    pressure: float
    returns: float


class Cell(NamedTuple):
    """A length of the way: volume, way down (up is below zero), length, and its gap."""

    volume: float
    drop: float
    length: float
    hole: float
    pipe: float
    """Outside diameter of the pipe in the hole, [m]; 0 inside the casing."""


def march(
    well: Well,
    slugs: Sequence[Slug],
    mud: Fluid,
    *,
    top_plug: int | None = -1,
    bottom_plugs: Mapping[int, float] | None = None,
    limit: float = 0.0,
    back_pressure: float = 0.0,
    step: float = 6.0,
) -> list[Reading]:
    """Return a reading each `step` seconds, each change of rate, and the last before the bump.

    `top_plug` is the place in `slugs` of what follows the top plug (the last; None for no plug),
    `bottom_plugs` gives by the place of what follows each the pressure that opens it, [Pa].
    Volumes of displacing fluid beyond the bump are not pumped.
    """
    tour = _March(well, mud, limit, back_pressure, dict(bottom_plugs or {}))
    if top_plug is not None:
        tour.top_plug = range(len(slugs))[top_plug]
    for place, slug in enumerate(slugs):
        tour.begin(place, slug.fluid)
        left = slug.volume
        while left > 1e-12 and not tour.bumped:
            pumped = tour.go(slug.rate, min(step, left / slug.rate))
            left -= pumped
        stop = slug.stop
        while stop > 1e-9 and not tour.bumped:
            tour.go(0.0, min(step, stop))
            stop -= min(step, stop)
    return tour.readings


@dataclass
class _March:
    well: Well
    mud: Fluid
    limit: float
    back: float
    diaphragms: dict[int, float]
    top_plug: int | None = None
    bumped: bool = False
    held_by: int | None = None
    time: float = 0.0
    volume: float = 0.0
    gap: float = 0.0
    readings: list[Reading] = field(default_factory=list)
    started: dict[int, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.cells = _cells(self.well)
        whole = sum(cell.volume for cell in self.cells)
        self.parcels: list[tuple[Fluid, float]] = [(self.mud, self.well.head + whole)]
        self.collar = self.well.head + _inside(self.well, self.well.collar)
        self.tables: dict[tuple[Fluid, float, float], dict[int, float]] = {}
        self.landed: set[int] = set()

    def begin(self, place: int, fluid: Fluid) -> None:
        self.fluid = fluid
        self.started[place] = self.volume

    def go(self, rate: float, step: float) -> float:
        """March one step, cut short where a plug lands; return what was pumped."""
        gap, pressure = self._after(rate, step)
        share, plug = self._landing(rate * step, gap)
        if self.held_by is not None:
            share, plug = self._opening(rate * step, gap), None
        if share < 1:
            step = max(step * share, 1e-9)
            gap, pressure = self._after(rate, step)
        pumped = rate * step
        returned = max(0.0, pumped + gap - self.gap)
        self._put_in(pumped)
        self.time, self.volume, self.gap = self.time + step, self.volume + pumped, gap
        total = (self.readings[-1].returns if self.readings else 0.0) + returned
        self.readings.append(Reading(self.time, self.volume, rate, pressure, total))
        if plug is not None and share <= 1:
            self._lands(plug)
        if self.held_by is not None:
            self._lets_go()
        return pumped

    def _after(self, rate: float, step: float) -> tuple[float, float]:
        """Return the gap and the pressure at the head after a step."""
        self._put_in(rate * step)
        try:
            return self._balanced(rate, step)
        finally:
            self._take_back(rate * step)

    def _balanced(self, rate: float, step: float) -> tuple[float, float]:
        pumped = rate * step
        if self.held_by is not None:
            gap = max(0.0, self.gap - pumped)
            weight, friction = self._walk(gap, 0.0)
            return gap, self.limit if gap else self.back - weight + friction
        full = self.back - self._walk(0.0, 0.0)[0] + self._walk(0.0, rate)[1]
        if self.gap <= pumped and full >= self.limit:
            return 0.0, full
        out = self._falling(pumped, step)
        gap = self.gap + out * step - pumped
        if gap <= 0:
            return 0.0, max(full, self.limit)
        return gap, self.limit

    def _falling(self, pumped: float, step: float) -> float:
        """Return the rate of returns at which the columns after the step carry the friction."""

        def left(out: float) -> float:
            gap = max(0.0, self.gap + out * step - pumped)
            weight, friction = self._walk(gap, out)
            return weight + self.limit - self.back - friction

        low = max(SLOWEST, (pumped - self.gap) / step)
        high = max(2 * low, 0.02)
        at_low = left(low)
        if at_low <= 0:
            return low if low > SLOWEST else 0.0
        at_high = left(high)
        while at_high > 0:
            low, at_low, high = high, at_high, high * 2
            at_high = left(high)
        side = 0
        for _ in range(60):
            here = (low * at_high - high * at_low) / (at_high - at_low)
            value = left(here)
            if abs(value) < 20.0 or high - low < 1e-9:
                break
            if value > 0:
                low, at_low = here, value
                at_high = at_high / 2 if side > 0 else at_high
                side = 1
            else:
                high, at_high = here, value
                at_low = at_low / 2 if side < 0 else at_low
                side = -1
        return here

    def _walk(self, gap: float, rate: float) -> tuple[float, float]:
        """Return what the columns push round the shoe, inside less outside, and the friction."""
        weight = friction = 0.0
        cells = iter(self.cells)
        cell, room = next(cells), 0.0
        room, skip = cell.volume, gap
        while skip > room:
            skip -= room
            cell = next(cells)
            room = cell.volume
        room -= skip
        before = self.well.head
        for fluid, volume in self.parcels:
            line = min(before, volume)
            before -= line
            left = volume - line
            while left > 0:
                share = min(left, room) / cell.volume
                weight += fluid.density * GRAVITY * cell.drop * share
                if rate > 0 and fluid.curve is not None:
                    friction += self._gradient(fluid, cell, rate) * cell.length * share
                if left < room:
                    room -= left
                    break
                left -= room
                following = next(cells, None)
                if following is None:
                    return weight, friction
                cell, room = following, following.volume
        return weight, friction

    def _gradient(self, fluid: Fluid, cell: Cell, rate: float) -> float:
        """Return the friction by length, between rates 4 % apart by the power law that fits."""
        table = self.tables.setdefault((fluid, cell.hole, cell.pipe), {})
        place = log(rate / SLOWEST) / 0.04
        low = int(place)
        for each in (low, low + 1):
            if each not in table:
                table[each] = log(_friction(fluid, cell, SLOWEST * exp(0.04 * each)))
        return exp(table[low] + (place - low) * (table[low + 1] - table[low]))

    def _put_in(self, pumped: float) -> None:
        if pumped > 0:
            self.parcels.insert(0, (self.fluid, pumped))
            if len(self.parcels) > 1 and self.parcels[1][0] is self.fluid:
                self.parcels[:2] = [(self.fluid, pumped + self.parcels[1][1])]

    def _take_back(self, pumped: float) -> None:
        if pumped > 0:
            fluid, volume = self.parcels[0]
            self.parcels[0] = (fluid, volume - pumped)
            if volume - pumped <= 0:
                del self.parcels[0]

    def _plugs(self) -> list[int]:
        plugs = [place for place in (*self.diaphragms, self.top_plug) if place in self.started]
        return [place for place in plugs if place is not None and place not in self.landed]

    def _place(self, plug: int, volume: float, gap: float) -> float:
        run = volume - self.started[plug]
        return run + gap if run > self.well.head else run

    def _landing(self, pumped: float, gap: float) -> tuple[float, int | None]:
        """Return the share of the step at which the first plug lands, and that plug."""
        first: tuple[float, int | None] = (2.0, None)
        for plug in self._plugs():
            old = self._place(plug, self.volume, self.gap)
            new = self._place(plug, self.volume + pumped, gap)
            if new >= self.collar - 1e-9 and new > old:
                first = min(first, (min(1.0, max(0.0, (self.collar - old) / (new - old))), plug))
        return first

    def _opening(self, pumped: float, gap: float) -> float:
        """Return the share of the step after which the casing is full or the held plug opens."""
        if self.gap <= pumped and pumped > 0:
            return max(self.gap / pumped, 1e-9)
        if self.held_by == self.top_plug:
            return 1.0
        assert self.held_by is not None
        before = self._walk(self.gap, 0.0)[0]
        self._put_in(pumped)
        after = self._walk(gap, 0.0)[0]
        self._take_back(pumped)
        wanted = self.diaphragms[self.held_by] + self.back - self.limit
        return min(1.0, max(1e-9, (wanted - before) / (after - before))) if after > wanted else 1.0

    def _lands(self, plug: int) -> None:
        self.landed.add(plug)
        self.held_by = plug

    def _lets_go(self) -> None:
        """See whether the plug that holds the columns gives way, or is the top plug and bumps."""
        if self.held_by == self.top_plug:
            self.bumped = self.gap <= 1e-9
            return
        assert self.held_by is not None
        push = self._walk(self.gap, 0.0)[0] + self.limit - self.back
        if self.gap <= 1e-9 or push >= self.diaphragms[self.held_by]:
            self.held_by = None


def _friction(fluid: Fluid, cell: Cell, rate: float) -> float:
    assert fluid.curve is not None
    if cell.pipe:
        return annulus_loss(fluid.curve, fluid.density, rate, cell.hole, cell.pipe).gradient
    return pipe_loss(fluid.curve, fluid.density, rate, cell.hole).gradient


def _cells(well: Well) -> list[Cell]:
    """Return the way from the top of the casing round the shoe to the top of the annulus."""
    stops = {0.0, *(each.bottom for each in well.casing), *(each.bottom for each in well.hole)}
    stops |= {
        depth
        for depth in (30.0 * place for place in range(1, int(well.casing[-1].bottom / 30)))
        if abs(well.vertical(depth - 30) + well.vertical(depth + 30) - 2 * well.vertical(depth))
        > 1e-6
    }
    depths = sorted(depth for depth in stops if depth <= well.casing[-1].bottom)
    down, up = [], []
    for top, bottom in pairwise(depths):
        pipe = next(each for each in well.casing if each.bottom >= bottom)
        bore = next(each for each in well.hole if each.bottom >= bottom)
        drop, length = well.vertical(bottom) - well.vertical(top), bottom - top
        down.append(Cell(pi / 4 * pipe.inner**2 * length, drop, length, pipe.inner, 0.0))
        closed = pi / 4 * pipe.outer**2 if pipe.closed is None else pipe.closed
        area = (pi / 4 * bore.diameter**2 - closed) * (1 + bore.excess)
        wide = sqrt(area * 4 / pi + pipe.outer**2)
        up.append(Cell(area * length, -drop, length, wide, pipe.outer))
    return down + up[::-1]


def _inside(well: Well, depth: float) -> float:
    """Return the volume inside the casing down to a measured depth."""
    total = top = 0.0
    for pipe in well.casing:
        total += pi / 4 * pipe.inner**2 * max(0.0, min(depth, pipe.bottom) - top)
        top = pipe.bottom
    return total
