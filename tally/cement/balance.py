"""Where the fluids are in the tube, what they weigh against each other, and their friction."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence
from itertools import accumulate, pairwise
from math import exp, floor, log

from tally.cement.plan import Fluid, Plan
from tally.cement.tube import Gap, Tube
from tally.fluids.friction import annulus_loss, pipe_loss
from tally.pipe.weight import STANDARD_GRAVITY

Friction = Callable[[Fluid, Gap, float], float]
"""The pressure lost by length [Pa/m] by a fluid in a gap at a rate [m^3/s]."""

Mark = tuple[float, int, float]
"""A volume of the tube, the node before it, and how far on to the next it lies, from 0 to 1."""

Column = tuple[int, Mark, Mark]
"""A fluid by its place, and where in the tube it begins and ends."""

RATE_STEP = 0.04
"""Friction while falling is taken between rates that are 4 % apart, by the power law that joins
them; it is exact at the pump's own rate."""

SLOWEST = 1e-3
"""Share of the pump's rate below which returns have stopped."""


def flow_friction(fluid: Fluid, gap: Gap, rate: float) -> float:
    """Return the friction by length of a fluid by its flow curve, [Pa/m]."""
    if fluid.curve is None or rate <= 0:
        return 0.0
    if gap.pipe:
        return annulus_loss(fluid.curve, fluid.flows_as, rate, gap.wide, gap.pipe).gradient
    return pipe_loss(fluid.curve, fluid.flows_as, rate, gap.wide).gradient


class Balance:
    """The columns of a plan in its tube at any volume pumped and any gap left by falling.

    Everything about the tube is summed up once from its beginning, and friction by fluid and
    rate too, so a balance costs a search by fluid and not a walk along the well.
    """

    def __init__(self, plan: Plan, tube: Tube, friction: Friction = flow_friction) -> None:
        self.tube = tube
        self.fluids: tuple[Fluid, ...] = (*(each.fluid for each in plan.slugs), plan.mud)
        self.starts = plan.starts()
        self._friction = friction
        self._weights = [fluid.density * STANDARD_GRAVITY for fluid in self.fluids]
        self._kinds = [
            next(p for p, other in enumerate(self.fluids) if _same(fluid, other))
            for fluid in self.fluids
        ]
        nodes = tube.nodes
        self._at = [node.at for node in nodes]
        self._down = [node.down for node in nodes]
        self._over = [1 / (b - a) if b > a else 0.0 for a, b in pairwise(self._at)]
        self._last = len(nodes) - 2
        self._gaps = tuple({node.gap for node in nodes if node.gap is not None})
        places = {gap: place for place, gap in enumerate(self._gaps)}
        self._lengths = [(places[n.gap] if n.gap else 0, n.length) for n in nodes]
        self._end = self.mark(tube.end)
        self._along: dict[float, dict[int, list[float]]] = {}
        self._known: tuple[tuple[float, float], list[Column]] = (-1.0, -1.0), []
        self.room = tube.shoe - tube.top
        """Volume of the casing, which a gap cannot exceed, [m^3]."""
        self.anchor = 1e-3
        """Rate that the steps of rate are counted from; at it friction is exact, [m^3/s]."""

    def mark(self, volume: float) -> Mark:
        """Return a volume of the tube with its place among the nodes."""
        node = bisect_right(self._at, volume, 1, self._last + 1) - 1
        return volume, node, (volume - self._at[node]) * self._over[node]

    def columns(self, pumped: float, gap: float) -> list[Column]:
        """Return the fluids below the line and head, from the top of the casing on."""
        if self._known[0] != (pumped, gap):
            self._known = (pumped, gap), self._columns(pumped, gap)
        return self._known[1]

    def _columns(self, pumped: float, gap: float) -> list[Column]:
        tube = self.tube
        top, end = tube.top, tube.end
        found: list[Column] = []
        here, place = self.mark(top + gap), -1
        for place in range(len(self.starts) - 1, -1, -1):
            run = pumped - self.starts[place]
            if run <= top:
                continue
            at = run + gap
            if at >= end:
                found.append((place, here, self._end))
                return found
            mark = self.mark(at)
            found.append((place, here, mark))
            here = mark
        found.append((len(self.fluids) - 1, here, self._end))
        return found

    def push(self, columns: Sequence[Column]) -> float:
        """Return how much heavier the columns inside are than those outside, [Pa]."""
        down, weights = self._down, self._weights
        total = 0.0
        for fluid, (_, i, f), (_, j, g) in columns:
            upper = down[i] + f * (down[i + 1] - down[i])
            lower = down[j] + g * (down[j + 1] - down[j])
            total += weights[fluid] * (lower - upper)
        return total

    def lost(self, columns: Sequence[Column], rate: float) -> float:
        """Return the friction from the level to the top of the annulus at a rate, [Pa]."""
        if rate <= 0:
            return 0.0
        if rate != self.anchor:
            return self.lost_falling(columns, rate)[0]
        along, kinds = self._at_rate(rate), self._kinds
        total = 0.0
        for fluid, (_, i, f), (_, j, g) in columns:
            kind = kinds[fluid]
            sums = along.get(kind) or self._summed(along, kind, rate)
            total += sums[j] + g * (sums[j + 1] - sums[j])
            total -= sums[i] + f * (sums[i + 1] - sums[i])
        return total

    def lost_falling(self, columns: Sequence[Column], rate: float) -> tuple[float, float]:
        """Return the friction at any rate and the power of the rate it grows with."""
        slower, faster, share = self._steps(rate)
        low, high = self._lost_twice(columns, slower, faster)
        if low <= 0 or high <= 0:
            return 0.0, 1.0
        power = log(high / low) / RATE_STEP
        return low * exp(power * share * RATE_STEP), power

    def slowest(self) -> float:
        """Return the rate below which nothing flows, [m^3/s]."""
        return self.anchor * SLOWEST

    def level_weight(self, columns: Sequence[Column]) -> float:
        """Return what a volume fallen at the level takes off the push, [Pa/m^3]."""
        fluid, (_, i, _), _ = columns[0]
        return self._weights[fluid] * (self._down[i + 1] - self._down[i]) * self._over[i]

    def outside(
        self, columns: Sequence[Column], rate: float, points: Sequence[Mark]
    ) -> list[float]:
        """Return the pressure at points of the annulus, the one nearest its top first, [Pa]."""
        apart = rate > 0 and rate != self.anchor
        slower, faster, share = self._steps(rate) if apart else (rate, rate, 0.0)
        return [
            weight + (low * (high / low) ** share if low > 0 else 0.0)
            for weight, low, high in self._outside(columns, slower, faster, points)
        ]

    def _outside(
        self, columns: Sequence[Column], slower: float, faster: float, points: Sequence[Mark]
    ) -> Iterator[tuple[float, float, float]]:
        """Return weight, and friction at two rates, from the top of the annulus to each point."""
        weight, low, high, next_point = 0.0, 0.0, 0.0, 0
        for fluid, start, end in reversed(columns):
            heavy = self._weights[fluid]
            slow, fast = self._friction_along(fluid, slower), self._friction_along(fluid, faster)
            down_end = _value(self._down, end)
            low_end, high_end = _value(slow, end), _value(fast, end)
            while points[next_point][0] >= start[0]:
                point = points[next_point]
                yield (
                    weight + heavy * (_value(self._down, point) - down_end),
                    low + low_end - _value(slow, point),
                    high + high_end - _value(fast, point),
                )
                next_point += 1
                if next_point == len(points):
                    return
            weight += heavy * (_value(self._down, start) - down_end)
            low += low_end - _value(slow, start)
            high += high_end - _value(fast, start)

    def _lost_twice(
        self, columns: Sequence[Column], slower: float, faster: float
    ) -> tuple[float, float]:
        """Return the friction at two rates in one go; most of a fall's time is spent here."""
        slows, fasts, kinds = self._at_rate(slower), self._at_rate(faster), self._kinds
        low = high = 0.0
        for fluid, (_, i, f), (_, j, g) in columns:
            kind = kinds[fluid]
            slow = slows.get(kind) or self._summed(slows, kind, slower)
            fast = fasts.get(kind) or self._summed(fasts, kind, faster)
            low += slow[j] + g * (slow[j + 1] - slow[j]) - slow[i] - f * (slow[i + 1] - slow[i])
            high += fast[j] + g * (fast[j + 1] - fast[j]) - fast[i] - f * (fast[i + 1] - fast[i])
        return low, high

    def _friction_along(self, fluid: int, rate: float) -> list[float]:
        along, kind = self._at_rate(rate), self._kinds[fluid]
        return along.get(kind) or self._summed(along, kind, rate)

    def _steps(self, rate: float) -> tuple[float, float, float]:
        """Return the rates of the steps below and above a rate, and how far on it lies."""
        steps = log(rate / self.anchor) / RATE_STEP
        step = floor(steps + 1e-9)
        slower = self.anchor * exp(RATE_STEP * step)
        return slower, self.anchor * exp(RATE_STEP * (step + 1)), steps - step

    def _at_rate(self, rate: float) -> dict[int, list[float]]:
        known = self._along.get(rate)
        if known is None:
            known = self._along[rate] = {}
        return known

    def _summed(self, along: dict[int, list[float]], kind: int, rate: float) -> list[float]:
        """Return the friction of a fluid from the beginning of the tube to each node, [Pa]."""
        gradients = [self._friction(self.fluids[kind], gap, rate) for gap in self._gaps]
        sums = list(accumulate(gradients[gap] * length for gap, length in self._lengths))
        along[kind] = sums
        return sums


def _value(along: Sequence[float], mark: Mark) -> float:
    _, node, share = mark
    return along[node] + share * (along[node + 1] - along[node])


def _same(one: Fluid, other: Fluid) -> bool:
    return one.flows_as == other.flows_as and one.curve == other.curve
