"""What the rig of the invented job measured, second by second, as WITS level 0.

Everything comes from the entries of the demonstration: where its crew read a gauge, the gauge
stands at what they read, a little before and a while after; in between it goes over. A joint comes
down ahead of its entry, with the string on the hook and the block coming down by its length.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from demo_db.play import entries
from tally.job.entries.mixing import MixRead
from tally.job.entries.pumping import Pumped
from tally.job.entries.running import ItemRun
from tally.job.entries.steps import StepDone
from tally.job.entries.watching import TankRead
from tally.job.entries.weighing import WeightRead
from tally.job.entry import Entry, moment
from tally.job.fold import fold
from tally.units import read, to_unit

HELD, AHEAD = 30.0, 5.0
"""[s] that a gauge stands at what was read: after the reading, and before it."""
LOWERED_FROM, LOWERED_TO = 35.0, 8.0
"""[s] before the entry of an item between which it goes down."""
PICKED_UP_FROM, PICKED_UP_TO = 20.0, 12.0
"""[s] before the entry of the weights between which the string is picked up."""
BLOCKS = 45.0
"""[klbf] of the blocks alone, as in job.toml."""
SLIPS_HEIGHT = 6.0
"""[ft] of the block over its lowest when the slips are set."""
STROKES_BEFORE, PUMPED_BEFORE = 12_345.0, 352.2
"""What the rig's counters stood at when the crew counted from zero."""
LINE_TEST, STOPPED = "line-test", "bottom-plug-loaded"
CIRCULATED_RATE = ("circulation-started", "rate-raised")
CIRCULATED_PRESSURE = ("circulating-pressure",)
CEMENT_RATE = ("slowed",)
CEMENT_PRESSURE = (LINE_TEST, "diaphragm-gave-way", "pressure-before-bump", "bump-pressure")
"""The steps of the lists at which the crew reads one of these gauges."""
ACTIVE_TANK, HOLE_DEPTH = 640.0, 8260.0


@dataclass(frozen=True, slots=True)
class Knot:
    """What a gauge was read at, and when [s since 1970]."""

    at: float
    value: float
    jumps: bool = False
    """It does not go over from what it was: the tank was emptied, a pump started."""


class Gauge:
    """A gauge that goes from reading to reading."""

    def __init__(self, knots: Sequence[Knot], before: float = 0.0) -> None:
        self._knots = sorted(knots, key=lambda each: each.at)
        self._times = [each.at for each in self._knots]
        self._before = before

    def at(self, when: float) -> float:
        """Return what it shows at a time."""
        place = bisect_right(self._times, when)
        value = self._knots[place - 1].value if place else self._before
        if place == len(self._knots):
            return value
        due = self._knots[place]
        last = due.at - AHEAD
        if when >= last:
            return due.value
        begun = (self._times[place - 1] if place else last) + HELD
        if due.jumps or when <= begun or begun >= last:
            return value
        return value + (due.value - value) * (when - begun) / (last - begun)


@dataclass(frozen=True, slots=True)
class Going:
    """An item that goes down: when its entry was made, its length [ft], the load then [klbf]."""

    at: float
    length: float
    load: float


class RigData:
    """The gauges of the invented job."""

    def __init__(self) -> None:
        made = entries()
        end = fold(made)
        assert end.zeroed is not None  # the invented job is pumped to its end
        self.zero = moment(end.zeroed.at).timestamp()
        self.first, self.last = moment(made[0].at), moment(made[-1].at)
        self._weighed = [each for each in made if isinstance(each, WeightRead)]
        self._going = self._items_down(made)
        self._going_times = [each.at for each in self._going]
        self._gauges = self._all_gauges(made)

    def frames(self, when: datetime) -> str:
        """Return the frames of one moment: time-based, tanks, and while cementing record 17."""
        at = when.timestamp()
        block, load = self._block(at), self._load(at)
        g = {name: gauge.at(at) for name, gauge in self._gauges.items()}
        records = [
            self._frame("01", when, {
                "10": f"{HOLE_DEPTH:.1f}", "12": f"{block:.2f}", "14": f"{load:g}",
                "21": f"{g['standpipe']:.0f}", "26": f"{ACTIVE_TANK:.1f}",
                "29": f"{g['rate'] * 42:.1f}", "30": f"{g['rate'] * 42:.1f}",
                "37": f"{g['strokes']:.0f}",
            }),
            self._frame("11", when, {"11": f"{ACTIVE_TANK:.1f}", "29": f"{g['trip tank']:.1f}"}),
        ]  # fmt: skip
        if g["cement"] or g["pressure"] or at >= self.zero:
            records.append(
                self._frame("17", when, {
                    "12": f"{g['pressure']:.0f}", "16": f"{g['cement']:.1f}",
                    "19": f"{g['density']:.1f}", "30": f"{g['pumped']:.1f}",
                })
            )  # fmt: skip
        return "".join(records)

    @staticmethod
    def _frame(record: str, when: datetime, items: dict[str, str]) -> str:
        head = {"05": f"{when:%y%m%d}", "06": f"{when:%H%M%S}"}
        lines = [f"{record}{place}{text}" for place, text in {**head, **items}.items()]
        return "\r\n".join(["&&", *lines, "!!", ""])

    # How the gauges are made of what was read

    def _all_gauges(self, made: Sequence[Entry]) -> dict[str, Gauge]:
        tank = [
            Knot(_at(e), _number(e.volume.value, "bbl"), e.mark)
            for e in made
            if isinstance(e, TankRead)
        ]
        pumped = [e for e in made if isinstance(e, Pumped)]
        mixed = [
            Knot(_at(e), _number(e.gauge.value, "lb/gal"), True)
            for e in made
            if isinstance(e, MixRead) and e.gauge
        ]
        pressures = [Knot(_at(e), _number(e.pressure.value, "psi")) for e in pumped if e.pressure]
        rates = [Knot(_at(e), _number(e.rate.value, "bbl/min"), True) for e in pumped if e.rate]
        strokes = [(_at(e), float(e.strokes or 0)) for e in pumped]
        volumes = [(_at(e), _number(e.tank.value, "bbl")) for e in pumped if e.tank]
        return {
            "trip tank": Gauge(tank),
            "standpipe": Gauge([*self._steps(made, "psi", (*CIRCULATED_PRESSURE, STOPPED))]),
            "rate": Gauge([*self._steps(made, "bbl/min", (*CIRCULATED_RATE, STOPPED))]),
            "pressure": Gauge([*self._steps(made, "psi", CEMENT_PRESSURE), *pressures]),
            "cement": Gauge([*self._steps(made, "bbl/min", CEMENT_RATE), *rates]),
            "density": Gauge(mixed),
            "strokes": self._counted(strokes, STROKES_BEFORE),
            "pumped": self._counted(volumes, PUMPED_BEFORE),
        }

    def _counted(self, counts: Sequence[tuple[float, float]], before: float) -> Gauge:
        knots = [Knot(self.zero, before), *(Knot(at, before + count) for at, count in counts)]
        return Gauge(knots, before)

    def _steps(self, made: Sequence[Entry], unit: str, steps: Sequence[str]) -> Iterator[Knot]:
        """Yield what a gauge was read at in these steps, and nothing after those that end it."""
        quantity = "pressure" if unit == "psi" else "flow rate"
        for each in made:
            if isinstance(each, StepDone) and each.step_id in steps:
                value = _number(read(each.value, quantity).value, unit) if each.value else 0.0
                yield Knot(_at(each), value, True)
                if each.step_id == LINE_TEST:
                    yield Knot(_at(each) + 120, 0.0, True)

    # Block and hook

    def _items_down(self, made: Sequence[Entry]) -> list[Going]:
        end = fold(made)
        lengths = {one.number: end.known.step.si(one.length) / 0.3048 for one in end.items.values()}
        ran = [e for e in made if isinstance(e, ItemRun)]
        depth, going = 0.0, []
        per_foot = self._per_foot(ran, lengths)
        for each in ran:
            depth += lengths[each.number]
            going.append(Going(_at(each), lengths[each.number], BLOCKS + per_foot * depth))
        return going

    def _per_foot(self, ran: Sequence[ItemRun], lengths: dict[str, float]) -> float:
        """Return the load that a foot of string adds, by the last weight that was read [klbf]."""
        last = self._weighed[-1]
        assert last.slack_off is not None  # the invented crew read it
        length = sum(lengths[each.number] for each in ran if each.at <= last.at)
        return (_number(last.slack_off.value, "klbf") - BLOCKS) / length

    def _block(self, at: float) -> float:
        for each in self._weighed:
            apart = _at(each) - at
            if -HELD < apart <= PICKED_UP_FROM:
                up = min(PICKED_UP_FROM - apart, PICKED_UP_FROM - PICKED_UP_TO)
                down = max(0.0, PICKED_UP_TO - apart)
                return 20.0 + up - 0.4 * min(down, PICKED_UP_TO + HELD)
        going = self._next_down(at)
        if going is None:
            return SLIPS_HEIGHT
        before = going.at - at
        if before >= LOWERED_FROM:
            return SLIPS_HEIGHT + min(1.0, max(0.0, (90 - before) / 50)) * going.length
        share = min(1.0, (LOWERED_FROM - before) / (LOWERED_FROM - LOWERED_TO))
        return SLIPS_HEIGHT + going.length * (1 - share)

    def _load(self, at: float) -> float:
        for each in self._weighed:
            apart = _at(each) - at
            if PICKED_UP_TO <= apart <= PICKED_UP_FROM and each.pick_up:
                return _number(each.pick_up.value, "klbf")
            if -HELD < apart < PICKED_UP_TO and each.slack_off:
                return _number(each.slack_off.value, "klbf")
        going = self._next_down(at)
        if going is not None and LOWERED_TO < going.at - at <= LOWERED_FROM:
            return round(going.load, 1)
        return BLOCKS

    def _next_down(self, at: float) -> Going | None:
        place = bisect_right(self._going_times, at)
        return self._going[place] if place < len(self._going) else None


def _at(entry: Entry) -> float:
    return moment(entry.at).timestamp()


def _number(si: float, unit: str) -> float:
    """Return a value as the crew read it off, without the noise of the way there and back."""
    return round(to_unit(si, unit), 6)
