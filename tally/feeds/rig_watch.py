"""What the rig's stream means for the job: values to offer, a joint gone down, batches to keep.

watch = RigWatch(stream)
watch.take(job)                     # as often as it likes; never waits
watch.offer("trip tank", job)       # a value with its origin, or why there is none
watch.lowered(job)                  # the next item, seen going down
watch.batches(by, at)               # what is to be kept in the book now
"""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from tally.feeds.rig_batch import BatchMaker
from tally.feeds.rig_lowering import OUT_SHARE, Lowered, LoweringWatch, is_item
from tally.feeds.rig_stream import CALLING, CONNECTED, ENDED, LOST, Heard, RigStream, at_second
from tally.feeds.rig_values import CHOSEN, LIVE_SECONDS, LastValues, Live
from tally.feeds.wits_slip import Known, SlipWatch
from tally.job.counts import next_item
from tally.job.entries.readings import Readings
from tally.job.entry import moment
from tally.job.figures import figure
from tally.job.job import Item, Job
from tally.job.origin import Origin
from tally.units import UnitSet, read, to_unit
from tally.units.quantities import named

COUNTED = ("strokes", "volume pumped", "returned volume", CHOSEN)
"""What is counted on and on at the rig; here from the zero."""
ZERO_SECONDS = 120.0
"""How far from the zero a count may be read, and set back, for it to count from there."""
KEPT_COUNTS = 3_600
MOVING = 0.02
"""[m/s] from which on the block moves."""
MOVING_SECONDS = 3.0
LOWERED_SECONDS = 600.0
"""How long a joint that went down may wait to be confirmed."""
DOWN, UP, STILL = "down", "up", "still"
WEIGHTS = {DOWN: "slack_off", UP: "pick_up", STILL: "hanging"}
"""The weight that is read while the block moves so, as an entry names it."""


@dataclass(frozen=True, slots=True)
class Offer:
    """A value for a field: its text, how it is told, and what the entry keeps of it."""

    text: str
    told: str
    source: str
    at: str

    def origin(self, field: str) -> Origin:
        """Return what an entry keeps for one of its fields."""
        return Origin(field, self.source, self.at)


@dataclass(frozen=True, slots=True)
class NoOffer:
    """Why there is no value to offer, in words; empty where nothing like it ever came."""

    why: str = ""


@dataclass(frozen=True, slots=True)
class Down:
    """The next item, seen going down; a person confirms."""

    item: Item
    lowered: Lowered
    at: str
    """When the slips were set."""
    source: str

    @property
    def offer(self) -> Offer:
        """Its lowering time, to be filled in."""
        time = f"{max(1.0, self.lowered.seconds):.0f} s"
        return Offer(time, "slips out to slips set, by the rig", self.source, self.at)

    @property
    def told(self) -> dict[str, Any]:
        """The fields of its entry: the lowering time, and where it is from."""
        time = read(self.offer.text, "lowering time")
        return {"lowering": time, "origins": (self.offer.origin("lowering"),)}


class RigWatch:
    """Follows one stream for one job; belongs to the thread that owns the book."""

    def __init__(
        self,
        stream: RigStream,
        chosen: Mapping[str, tuple[str, ...]] | None = None,
        *,
        steady: Callable[[], float] = time.monotonic,
        live_seconds: float = LIVE_SECONDS,
    ) -> None:
        self.stream = stream
        self.values = LastValues(chosen, live_seconds)
        self.slip = SlipWatch(stream.units)
        self._steady = steady
        self._lowering = LoweringWatch()
        self._down: Down | None = None
        self._run_then = 0
        self._batch = BatchMaker(stream.source.name, stream.units)
        self._blocks: deque[tuple[float, float]] = deque(maxlen=200)
        self._counts: dict[str, deque[tuple[str, float]]] = {}
        self._zeros: dict[str, tuple[str, float]] = {}
        self._known: tuple[Job | None, Known, float, float] = (None, Known(), 0.0, 0.0)

    # What comes in

    def take(self, job: Job) -> int:
        """Take in what came since the last time; return how many readings."""
        heard = self.stream.fetch()
        for one in heard:
            self.take_one(one, job)
        return len(heard)

    def take_one(self, heard: Heard, job: Job) -> None:
        """Take in one reading."""
        known, blocks, string = self._of_job(job)
        self.values.take(heard)
        self.slip.take(heard.reading, known, heard.seconds)
        self._batch.take(heard, doubted=self.slip.doubted)
        self._count(heard, job)
        self._watch_lowering(heard, job, blocks, string)

    def _of_job(self, job: Job) -> tuple[Known, float, float]:
        if self._known[0] is not job:
            known, blocks, string = _known(job)
            self._known = (job, known, blocks, string)
        return self._known[1:]

    def _count(self, heard: Heard, job: Job) -> None:
        at = at_second(heard.at)
        for role in COUNTED:
            live = self.values.of(role, heard.seconds)
            if live is None or live.age > 0:
                continue
            number = live.value.si
            before = self._counts.setdefault(role, deque(maxlen=KEPT_COUNTS))
            self._set_back(role, job, at, number, before[-1][1] if before else number)
            before.append((at, number))

    def _set_back(self, role: str, job: Job, at: str, number: float, last: float) -> None:
        """Count from nothing where the rig's counter was set back about when the volume was."""
        if role == CHOSEN or job.zeroed is None or number >= last:
            return
        if 0 <= (moment(at) - moment(job.zeroed.at)).total_seconds() <= ZERO_SECONDS:
            self._zeros[role] = (job.zeroed.at, 0.0)

    def _watch_lowering(self, heard: Heard, job: Job, blocks: float, string: float) -> None:
        load, block = (
            self.values.of(each, heard.seconds) for each in ("hook load", "block position")
        )
        if load is None or block is None or load.age > 0 or block.age > 0:
            return
        self._blocks.append((heard.seconds, block.value.si))
        if not blocks or self.slip.doubted:
            return
        seen = self._lowering.take(
            heard.seconds, load.value.si, block.value.si, blocks=blocks, string=string
        )
        due = next_item(job) if seen else None
        if seen is None or due is None or job.landing is not None:
            return
        if is_item(seen, job.known.step.si(due.length)):
            source = f"items {load.value.item.code}, {block.value.item.code} of {self._name}"
            self._down = Down(due, seen, at_second(heard.at), source)
            self._run_then = len(job.string)

    # What is made of it

    @property
    def _name(self) -> str:
        return self.stream.source.name

    def lowered(self, job: Job) -> Down | None:
        """Return the next item if it was seen going down a while ago and is not entered yet."""
        down, due = self._down, next_item(job)
        if down is None or due is None:
            return None
        old = self._steady() - down.lowered.ended > LOWERED_SECONDS
        if old or due.number != down.item.number or len(job.string) != self._run_then:
            return None
        return down

    def moving(self) -> str:
        """Return how the block moves: down, up or still; nothing where that is not known now."""
        now = self._steady()
        recent = [each for each in self._blocks if now - each[0] <= MOVING_SECONDS]
        if len(recent) < 2 or recent[-1][0] <= recent[0][0]:
            return ""
        speed = (recent[-1][1] - recent[0][1]) / (recent[-1][0] - recent[0][0])
        if abs(speed) < MOVING:
            return STILL
        return UP if speed > 0 else DOWN

    def weighing(self, job: Job) -> str:
        """Return as which weight of an entry the hook load counts now, or nothing in the slips."""
        live, moving = self.values.of("hook load", self._steady()), self.moving()
        _known_values, blocks, string = self._of_job(job)
        if live is None or not blocks or live.value.si - blocks <= OUT_SHARE * string:
            return ""
        return WEIGHTS.get(moving, "")

    def current(self, role: str, shown: UnitSet) -> Offer | NoOffer:
        """Return the value for a use as it is sent, or why there is none now."""
        live = self._fresh(role)
        return live if isinstance(live, NoOffer) else self._offer(live, live.value.si, shown)

    def offer(self, role: str, shown: UnitSet, job: Job) -> Offer | NoOffer:
        """Return the value for a use, what is counted from the zero; or why there is none."""
        live = self._fresh(role)
        if isinstance(live, NoOffer):
            return live
        si = live.value.si
        if role in COUNTED:
            zero = self._zero(role, job)
            if zero is None:
                return NoOffer("the rig's count was not read at the zero")
            si = zero - si if role == CHOSEN else si - zero
            if si < 0:
                return NoOffer("the rig's count was set back")
        return self._offer(live, si, shown)

    def _fresh(self, role: str) -> Live | NoOffer:
        live = self.values.of(role, self._steady())
        if live is None:
            return NoOffer()
        if self.slip.doubted:
            return NoOffer("the rig's units are in doubt")
        if not live.fresh:
            return NoOffer(f"no reading from the rig since {live.at:%H:%M:%S}")
        return live

    def _offer(self, live: Live, si: float, shown: UnitSet) -> Offer:
        source = f"item {live.value.item.code} of {self._name}"
        told = f"read from the rig, {live.age:.0f} s ago"
        return Offer(_text(live, si, shown), told, source, at_second(live.at))

    def _zero(self, role: str, job: Job) -> float | None:
        """Return what a count stood at when the volume was zeroed, if it was read then."""
        if job.zeroed is None:
            return None
        at, number = self._zeros.get(role, ("", 0.0))
        if at == job.zeroed.at:
            return number
        zero = moment(job.zeroed.at)
        apart = [
            (abs((moment(when) - zero).total_seconds()), count)
            for when, count in self._counts.get(role, ())
        ]
        nearest = min(apart, default=(ZERO_SECONDS + 1, 0.0))
        if nearest[0] > ZERO_SECONDS:
            return None
        self._zeros[role] = (job.zeroed.at, nearest[1])
        return nearest[1]

    def batches(
        self, by: str, at: str, *, all_of_it: bool = False
    ) -> Iterator[tuple[Readings, str]]:
        """Yield what is to be kept in the book now, with its rows."""
        yield from self._batch.due(by, at, all_of_it=all_of_it)

    @property
    def age(self) -> float | None:
        """How old the last reading is; nothing while none came."""
        came = self.values.last_came
        return None if came is None else max(0.0, self._steady() - came)

    def told(self) -> str:
        """Return how the line stands in words, or nothing while it is well."""
        line = self.stream.line
        if self.slip.told:
            return self.slip.told
        if line.state == LOST:
            return f"LINE LOST: {line.why}"
        if line.state == ENDED:
            return line.why
        if line.state == CALLING or self.age is None:
            return f"Nothing came from {self._name} yet."
        if line.state == CONNECTED and self.age > self.values.live_seconds:
            return "LINE SILENT: it is there and nothing comes."
        return ""


def _text(live: Live, si: float, shown: UnitSet) -> str:
    """Return a value as a person would type it: to the step that is shown, or a tenth of it."""
    if not live.value.quantity:
        return f"{si:.0f}"
    unit = shown.unit(live.value.quantity)
    least = named(live.value.quantity).units[unit]
    whole, _, part = f"{to_unit(si, unit):.{least + 1}f}".partition(".")
    part = part[:least] + part[least:].rstrip("0")
    return f"{whole}.{part} {unit}" if part else f"{whole} {unit}"


def _known(job: Job) -> tuple[Known, float, float]:
    """Return what the job knows of such values, the blocks and the weight below them [N]."""
    if job.setup is None:
        return Known(), 0.0, 0.0
    block = job.setup.weights.block_weight
    blocks = block.value if block else 0.0
    hangs = figure(job, "weight_hanging").value if job.string else None
    string = float(hangs or 0.0)
    moved = [figure(job, key).value for key in ("slack_off", "pick_up")] if job.string else []
    loads = [float(each) for each in moved if each is not None]
    loads += [blocks + string, blocks] if blocks else []
    return (
        Known(tuple(loads), job.setup.hole.depth.value, job.setup.pumping.mud_weight.value),
        blocks,
        string,
    )
