"""A job on its way from the first fluid to the bump: step by step, cut where something happens."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from math import floor

from tally.cement.balance import Balance, Friction
from tally.cement.falling import fall
from tally.cement.placement import (
    BUMPS,
    CAUGHT_UP,
    FALLS,
    LANDS,
    OPENS,
    ROUND,
    SLOWS,
    TURNS,
    Event,
    Placement,
    Watched,
)
from tally.cement.plan import Plan, Point
from tally.cement.tube import Tube
from tally.errors import DomainError
from tally.fluids.root import bracketed_root

NEW_SHOE, PREVIOUS_SHOE = "new shoe", "previous shoe"

_TRIFLE = 1.0
"""[Pa]; columns that push less than this beyond the friction do not fall."""

_SPECK = 1e-9
"""[m3]"""


@dataclass(slots=True)
class State:
    """Where the job stands: volume pumped, gap, time, rate of returns."""

    pumped: float
    gap: float
    time: float
    out: float


Crossing = tuple[Callable[[State], float], Callable[[float], None]]
"""A number that turns from below zero to above where something happens, and what happens."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A fluid's front that has still to come to a place of the tube; `plug` opens at a pressure."""

    what: str
    place: int
    target: float
    opens_at: float = 0.0


class Run:
    """One job on its way. `held` is the plug that holds the columns, if one does."""

    def __init__(self, plan: Plan, step: float, friction: Friction) -> None:
        self.plan, self.step = plan, step
        self.tube = Tube(plan.well)
        self.balance = Balance(plan, self.tube, friction)
        self.over = plan.limit - plan.back_pressure
        stages = [stage for each in plan.slugs for stage in each.stages]
        self.usual = next((each for each in stages if not each.seen), stages[0]).rate
        self.state = State(0.0, 0.0, 0.0, 0.0)
        self.falling = False
        self.held: Mark | None = None
        self.events: list[Event] = []
        self.rows: list[tuple[float, ...]] = []
        self.points = sorted(self._points(), key=lambda pair: -pair[1])
        self.marks = [self.balance.mark(volume) for _, volume in self.points]
        self.pressures: list[list[float]] = []
        self.pending = self._pending()
        top = plan.top_plug
        self.bump = None if top is None else self.balance.starts[top] + self.tube.collar

    def placed(self) -> Placement:
        """Pump every stage and return the placement."""
        slow, slowed = self.plan.slow_rate, self.bump is None
        for place, stage in self.plan.stages(self.bump):
            self.balance.anchor = self.usual if stage.seen else stage.rate
            self.state.out = self.state.out if self.falling or self.held else stage.rate
            self._row(stage.rate)
            if stage.rate == slow and not slowed and self._before_bump() <= self._slow_from():
                slowed = True
                self._note(SLOWS, self.plan.slugs[place].fluid.name, stage.rate)
            self._pump(stage.rate, self.state.pumped + stage.volume)
            if stage.stop and not self._at_bump():
                self._stand(stage.stop, stage.rate)
        if self._at_bump():
            self.held, self.falling = None, False
            self.state.gap, self.state.out = 0.0, self.rows[-1][2]
            self._note(BUMPS, "", self.rows[-1][2])
        return self._told()

    def _before_bump(self) -> float:
        return (self.bump or 0.0) - self.state.pumped

    def _slow_from(self) -> float:
        return self.plan.slow_volume + 1e-6

    def _at_bump(self) -> bool:
        return self.bump is not None and self._before_bump() <= 1e-6

    def _pump(self, rate: float, end: float) -> None:
        """Pump to a volume, a row each step and each event."""
        while end - self.state.pumped > _SPECK:
            grid = (floor(self.state.pumped / self.step + 1e-6) + 1) * self.step
            target = min(grid, end)
            while target - self.state.pumped > _SPECK:
                self._advance(rate, (target - self.state.pumped) / rate)
            self.state.pumped = target
            self._row(rate)

    def _stand(self, stop: float, rate: float) -> None:
        """Stand still for a time while the columns may fall on, a row each step."""
        end, part = self.state.time + stop, self.step / rate
        if not self.falling and not self.held:
            self.state.out = 0.0
        self._row(0.0)
        while end - self.state.time > 1e-6:
            left = end - self.state.time
            if self._at_rest():
                self.state.time, self.state.out = end, 0.0
            else:
                self._advance(0.0, min(part, left))
            self._row(0.0)

    def _at_rest(self) -> bool:
        if self.held:
            return True
        columns = self.balance.columns(self.state.pumped, self.state.gap)
        gel = self.balance.lost_falling(columns, self.balance.slowest())[0]
        return self.balance.push(columns) + self.over - gel <= _TRIFLE

    def _advance(self, rate: float, time: float) -> None:
        """Go on for a time, or to the first event before its end."""
        if not self.falling and not self.held and self._excess(self.state, rate) > _TRIFLE:
            self._begins_to_fall(rate)
        then, may_fall = self._after(rate, time), True
        if self.falling and self.state.gap == 0 and then.gap <= 0:
            # the pump catches up within the step that the fall began in
            self._caught_up(rate)
            then, may_fall = self._after(rate, time), False
        crossed = self._crossed(then, rate, may_fall)
        if not crossed:
            self.state = then
            return
        times = [(self._when(of, rate, time), place) for place, (of, _) in enumerate(crossed)]
        first, place = min(times)
        self.state = self._after(rate, first)
        self.state.gap = max(0.0, self.state.gap)
        crossed[place][1](rate)

    def _after(self, rate: float, time: float) -> State:
        """Return the state after a time without looking for events."""
        now = self.state
        pumped, at = now.pumped + rate * time, now.time + time
        if self.held:
            return State(pumped, now.gap - rate * time, at, 0.0)
        if not self.falling:
            return State(pumped, 0.0, at, rate)
        guess = now.out or rate
        gap, out = fall(self.balance, now.pumped, now.gap, rate, time, self.over, guess)
        return State(pumped, gap, at, out)

    def _crossed(self, then: State, rate: float, may_fall: bool) -> list[Crossing]:
        """Return what is crossed on the way to a state: a number that changes its sign there,
        and what happens then."""
        found: list[Crossing] = []
        for mark in self.pending:
            if self._beyond(mark, then) >= 0 and self._counts(mark):
                found.append((partial(self._beyond, mark), partial(self._comes, mark)))
        if self.held:
            if then.gap <= 0:
                found.append((lambda s: -s.gap, self._filled))
            elif self._opened(then) >= 0:
                found.append((self._opened, self._opens))
        elif self.falling:
            if then.gap <= 0:
                found.append((lambda s: -s.gap, self._caught_up))
        elif may_fall and self._excess(then, rate) > _TRIFLE:
            found.append((lambda s: self._excess(s, rate), self._begins_to_fall))
        return found

    def _when(self, of: Callable[[State], float], rate: float, time: float) -> float:
        if of(self.state) >= 0:
            return 0.0
        return bracketed_root(lambda part: of(self._after(rate, part)), 0.0, time, 1e-11)

    def _excess(self, state: State, rate: float) -> float:
        """Return by how much the columns of a full casing push beyond the friction, [Pa]."""
        columns = self.balance.columns(state.pumped, 0.0)
        pushed = self.balance.push(columns) + self.over
        if rate <= 0:
            return pushed - self.balance.lost_falling(columns, self.balance.slowest())[0]
        return pushed - self.balance.lost(columns, rate)

    def _beyond(self, mark: Mark, state: State) -> float:
        run = state.pumped - self.balance.starts[mark.place]
        return (run + state.gap if run > self.tube.top else run) - mark.target

    def _counts(self, mark: Mark) -> bool:
        return mark.what != BUMPS or self.falling

    def _opened(self, state: State) -> float:
        """Return by how much the columns push beyond what opens the plug that holds them."""
        if self.held is None or self.held.what == BUMPS:
            return -1.0
        columns = self.balance.columns(state.pumped, state.gap)
        return self.balance.push(columns) + self.over - self.held.opens_at

    # what happens at an event; each is told the rate of the pump

    def _begins_to_fall(self, rate: float) -> None:
        self.falling = True
        self.state.gap = 0.0
        self._note(FALLS, "", rate)

    def _caught_up(self, rate: float) -> None:
        self._row(rate)
        self.falling = False
        self.state.gap, self.state.out = 0.0, rate
        self._note(CAUGHT_UP, "", rate)

    def _comes(self, mark: Mark, rate: float) -> None:
        self.pending.remove(mark)
        name = self.balance.fluids[mark.place].name
        if mark.what == BUMPS:
            self.held = mark
            self.state.out = 0.0
            self._row(rate)
            return
        self._note(mark.what, name, rate)
        if mark.what == LANDS:
            self._lands(mark, rate)

    def _lands(self, mark: Mark, rate: float) -> None:
        """A bottom plug lands: opened at once by the pump, or by what pushes, or it holds."""
        self.held = mark
        if not self.falling:
            self._opens(rate, mark.opens_at)
        elif self._opened(self.state) >= 0:
            self._opens(rate)
        else:
            self.state.out = 0.0
            self._row(rate)

    def _filled(self, rate: float) -> None:
        """The casing is full again behind a plug that holds: the pump opens it."""
        self.state.gap = 0.0
        mark = self.held
        if mark is None or mark.what == BUMPS:
            return
        self.falling = False
        self._opens(rate, mark.opens_at)
        self._note(CAUGHT_UP, "", rate)

    def _opens(self, rate: float, rise: float = 0.0) -> None:
        mark, self.held = self.held, None
        name = self.balance.fluids[mark.place].name if mark else ""
        if not self.falling:
            self.state.out = rate
        self._note(OPENS, name, rate, rise)

    def _note(self, what: str, name: str, rate: float, rise: float = 0.0) -> None:
        self._row(rate)
        volume, time, _, pressure, *_ = self.rows[-1]
        self.events.append(Event(what, name, volume, time, pressure + rise))

    def _row(self, rate: float) -> None:
        """Put the state down as a row."""
        state, balance = self.state, self.balance
        columns = balance.columns(state.pumped, state.gap)
        pressure = self.plan.limit
        if not (self.falling or self.held):
            full = balance.lost(columns, rate) - balance.push(columns) + self.plan.back_pressure
            pressure = max(full, self.plan.limit)
        row = (state.pumped, state.time, rate, pressure, state.out, state.gap)
        if self.rows and row == self.rows[-1]:
            return
        self.rows.append(row)
        points = balance.outside(columns, state.out, self.marks)
        self.pressures.append([self.plan.back_pressure + each for each in points])

    def _told(self) -> Placement:
        volume, time, rate, pressure, out, gap = zip(*self.rows, strict=True)
        by_point = zip(*self.pressures, strict=True)
        watched = [
            Watched(point, self.tube.vertical(at), tuple(values))
            for (point, at), values in zip(self.points, by_point, strict=True)
        ]
        watched.sort(key=lambda each: -each.point.depth)
        bumped = bool(self.events) and self.events[-1].what == BUMPS
        return Placement(
            self.plan, self.tube, volume, time, rate, pressure, out, gap,
            tuple(watched), tuple(self.events), bumped,
        )  # fmt: skip

    def _points(self) -> list[tuple[Point, float]]:
        well, tube = self.plan.well, self.tube
        points = {NEW_SHOE: Point(NEW_SHOE, well.shoe)}
        if well.hole.top < well.hole.previous_shoe < well.shoe:
            points[PREVIOUS_SHOE] = Point(PREVIOUS_SHOE, well.hole.previous_shoe)
        for each in self.plan.points:
            if each.depth > well.shoe or each.depth <= max(well.hole.top, 1.0):
                raise DomainError(
                    f"{each.name} at {each.depth:.6g} m is not in the annulus, which goes from "
                    f"{well.hole.top:.6g} to {well.shoe:.6g} m; leave it out."
                )
            points[each.name] = each
        return [(point, tube.outside(point.depth)) for point in points.values()]

    def _pending(self) -> list[Mark]:
        tube, plan = self.tube, self.plan
        marks = [Mark(TURNS, place, tube.shoe) for place in range(len(plan.slugs))]
        marks += [Mark(ROUND, place, tube.end) for place in range(len(plan.slugs))]
        marks += [Mark(LANDS, p.ahead_of, tube.collar, p.opens_at) for p in plan.bottom_plugs]
        if plan.top_plug is not None:
            marks.append(Mark(BUMPS, plan.top_plug, tube.collar))
        return marks
