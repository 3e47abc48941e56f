"""The placement of a job: as planned, as the job has gone so far, and as a change would make it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from statistics import fmean

from tally.cement.placement import Moment, Placement
from tally.cement.plan import Plan, changed
from tally.cement.predict import predict
from tally.cement.programme import SLURRY
from tally.cement.seen import Seen, as_pumped
from tally.job import cement_job
from tally.job.at_bump import bump_volume, volume_record
from tally.job.entry import seconds_between
from tally.job.geometry import Last, hole_with_excess
from tally.job.job import Job, PumpReading, StepRecord
from tally.job.planned_string import as_planned
from tally.job.pump_plan import plan_of
from tally.job.unlikely import FASTEST
from tally.units import Measure, read

RELEASE = "plug-release"
NO_RATE = 1e-5
"""[m3/s]; a pump that was read no faster than this stands."""
LEAST_STOP = 1.0
"""[s]; how long a pump stands at least that was seen to stand."""
LEAST_VOLUME = 0.01
"""[m3]; two counts closer than this tell no rate."""
BEFORE = 1e-6
"""[m3]; a reading is held against the rate that it was read at, not the next one."""
UNKNOWN = 0.02
"""[m3/s]; taken where neither a reading nor the times tell a rate."""


@dataclass(frozen=True, slots=True)
class Live:
    """A job worked out to its bump: what has been pumped is as seen, the rest as planned.

    `pumped` is the volume pumped since the first fluid, `zero` that at which the count began,
    [m^3]; below nothing is pumped yet where `pumped` is 0.
    """

    plan: Plan
    placement: Placement
    pumped: float
    seen: tuple[Seen, ...]
    standing: bool = False
    """Whether the pump stands where the job is."""

    @property
    def zero(self) -> float:
        """Volume pumped when the top plug is released and the count begins, [m^3]."""
        return self.plan.starts()[self.plan.top_plug or 0]

    @property
    def now(self) -> Moment:
        """The job where it is: at rest where the pump stands, else at the rate from here on."""
        stands = self.placement.standing(self.pumped) if self.standing else ()
        return stands[-1] if stands else self.placement.at(self.pumped)

    def at_count(self, count: float) -> Moment:
        """Return the job at a volume since the zero, [m^3]."""
        return self.placement.at(self.zero + count)

    def expected(self, count: float) -> Moment:
        """Return what a reading at a volume since the zero is held against, [m^3].

        It was read at the rate up to there; where the pump stands, and at the zero itself, no
        rate led to it.
        """
        here = abs(self.zero + count - self.pumped) <= BEFORE
        if here and (self.standing or count <= BEFORE):
            return self.now
        return self.at_count(count if count <= BEFORE else count - BEFORE)

    @property
    def expected_now(self) -> Moment:
        """What a reading where the job is would be held against."""
        since = self.pumped - self.zero
        return self.expected(since) if since > BEFORE else self.now


class _Predicted:
    """Placements of the plans asked for last: an entry that pumps nothing changes none."""

    def __init__(self, most: int = 4) -> None:
        self._kept: list[tuple[Plan, Placement]] = []
        self._most = most

    def of(self, plan: Plan) -> Placement:
        """Return the placement of a plan."""
        for known, placement in self._kept:
            if known == plan:
                return placement
        made = predict(plan)
        self._kept = [(plan, made), *self._kept[: self._most - 1]]
        return made


_PREDICTED = _Predicted()


def _planned(job: Job) -> Live:
    plan = plan_of(job)
    return Live(plan, _PREDICTED.of(plan), 0.0, ())


planned = Last(_planned)
"""The placement of a job as planned, whatever has been pumped."""


def _live(job: Job) -> Live:
    plan, seen = plan_of(job), tuple(pumped_so_far(job))
    if not seen:
        return planned(job)
    standing = pump_stands(job)
    if standing:
        seen = (*seen[:-1], replace(seen[-1], stop=max(seen[-1].stop, LEAST_STOP)))
    gone = _at_last_rate(as_pumped(plan, seen), seen, cement_job.displacement(as_planned(job)))
    return Live(gone, _PREDICTED.of(gone), sum(each.volume for each in seen), seen, standing)


def _at_last_rate(gone: Plan, seen: tuple[Seen, ...], left: float) -> Plan:
    """Return the plan with the bump at the rate pumped last, where nothing is left to pump."""
    last = gone.slugs[-1]
    if last.stages[-1].volume or gone.pumped < gone.starts()[gone.top_plug or 0] + left:
        return gone
    end = replace(last.stages[-1], rate=seen[-1].rate)
    return replace(gone, slugs=(*gone.slugs[:-1], replace(last, stages=(*last.stages[:-1], end))))


live = Last(_live)
"""The placement of a job from where it is, its stages as they were seen."""


def try_change(
    job: Job,
    *,
    rate: float | None = None,
    excess: float | None = None,
    density: dict[str, float] | None = None,
) -> Live:
    """Return the live placement with another rate, excess or density, [m^3/s], [-], [kg/m^3].

    Rate and densities change what is pumped from here on; the volumes to pump stay. Nothing of
    it is recorded.
    """
    here = live(job)
    plan = changed(here.plan, after=here.pumped, rate=rate, density=density)
    if excess is not None:
        plan = replace(plan, well=replace(plan.well, hole=hole_with_excess(job.known, excess)))
    return replace(here, plan=plan, placement=_PREDICTED.of(plan))


# What has been pumped, from the steps and the counts


def pumped_so_far(job: Job) -> Iterator[Seen]:
    """Yield what has been pumped, stage by stage, as the steps and the counts tell it."""
    plan, first = plan_of(job), _first_slurry(job)
    ahead = plan.top_plug or 0
    spacer, slurry = done(job, "spacer-pumped"), done(job, "slurry-away")
    begun, zero = done(job, "first-slurry"), job.zeroed
    if spacer is not None or begun is not None:
        stop = _between(spacer, begun)
        yield from _shared(plan, range(first), _volume(spacer), None, stop)
    if slurry is None and zero is None and begun is not None:
        yield from _mixed(job, plan, range(first, ahead))
    if slurry is not None:
        time = _between(begun, slurry)
        stop, places = _between(slurry, zero), range(first, ahead)
        for each in _shared(plan, places, _volume(slurry), time, stop):
            yield replace(each, density=_weighed(job, plan.slugs[each.slug].fluid.name))
    if zero is not None:
        if slurry is None:
            yield from _shared(plan, range(first, ahead), None, None, 0.0)
        yield from _displaced(job, plan, ahead)


def pump_stands(job: Job) -> bool:
    """Whether the pump stands: read so, or the slurry is away and displacing has not begun."""
    found = up_to_bump(job)
    if found:
        return stopped(found[-1].reading)
    away = done(job, "slurry-away") is not None or job.zeroed is not None
    return away and done(job, "displacement-started") is None


def stopped(reading: PumpReading) -> bool:
    """Whether the pump was seen to stand at a reading."""
    return reading.rate is not None and reading.rate.value <= NO_RATE


def _first_slurry(job: Job) -> int:
    return [each.kind for each in cement_job.fluids(job.known)].index(SLURRY)


def done(job: Job, step: str) -> StepRecord | None:
    record = job.steps.get((RELEASE, step))
    return record if record is not None and record.outcome == "done" else None


def _volume(record: StepRecord | None) -> float | None:
    return read(record.value, "volume").value if record is not None and record.value else None


def _between(one: StepRecord | None, other: StepRecord | None) -> float:
    if one is None or other is None:
        return 0.0
    return max(0.0, seconds_between(one.at, other.at))


def _shared(
    plan: Plan, places: range, total: float | None, time: float | None, stop: float
) -> Iterator[Seen]:
    """Yield slugs that one volume was read for: as planned, the last one with what is left.

    Where the time is known the rate is that of it; as planned where no pump is so fast, because
    the times are then those of the keys and not of the pumping.
    """
    left = total
    for place in places:
        wanted = plan.slugs[place].volume
        last = place == places[-1]
        volume = wanted if left is None else left if last else min(wanted, left)
        left = None if left is None else left - volume
        rate = plan.slugs[place].stages[0].rate
        if time and total and total / time <= FASTEST:
            rate = max(1e-4, total / time)
        yield Seen(place, volume, rate, stop=stop if last else 0.0)


def _mixed(job: Job, plan: Plan, places: range) -> Iterator[Seen]:
    """Yield the slurry that the mixing log says is pumped, while it is being mixed."""
    for place in places:
        name = plan.slugs[place].fluid.name
        log = [each for each in job.mixing if each.fluid == name and each.pumped is not None]
        if not log or log[-1].pumped is None:
            return
        rate = plan.slugs[place].stages[0].rate
        yield Seen(place, log[-1].pumped.value, rate, _weighed(job, name))


def _weighed(job: Job, name: str) -> float | None:
    """Return the mean of the densities that the mixing log has of a fluid; None without one."""
    found = [
        each.density.value for each in job.mixing if each.fluid == name and each.density is not None
    ]
    return fmean(found) if found else None


def _displaced(job: Job, plan: Plan, ahead: int) -> Iterator[Seen]:
    """Yield what was pumped behind the top plug, from count to count, slug by slug."""
    place, room = ahead, plan.slugs[ahead].volume
    for volume, rate, stop in _steps(up_to_bump(job), job):
        left = volume
        while place < len(plan.slugs) - 1 and left > room:
            yield Seen(place, room, rate)
            left, place = left - room, place + 1
            room = plan.slugs[place].volume
        room -= left
        yield Seen(place, left, rate, stop=stop)


@dataclass(frozen=True, slots=True)
class Count:
    """A volume since the zero [m^3], with the reading that it is of."""

    volume: float
    reading: PumpReading


def counts(job: Job) -> tuple[Count, ...]:
    """Return the readings since the zero by the count that has more of them, never going back."""
    per_stroke = job.known.pumping
    one = None
    if per_stroke.volume_per_stroke and per_stroke.efficiency:
        one = per_stroke.volume_per_stroke.value * per_stroke.efficiency.value
    tank = [Count(each.tank.value, each) for each in job.pumped if each.tank is not None]
    strokes = [
        Count(each.strokes * one, each)
        for each in job.pumped
        if each.strokes is not None and one is not None
    ]
    found, most = [], -1.0
    for each in strokes if len(strokes) > len(tank) else tank:
        if each.volume >= most:
            found.append(each)
            most = each.volume
    return tuple(found)


def up_to_bump(job: Job) -> tuple[Count, ...]:
    """Return the readings since the zero, ending at the volume given with the bump."""
    found, given, record = counts(job), bump_volume(job), volume_record(job)
    if given is None or record is None:
        return found
    before = tuple(each for each in found if each.volume < given.value)
    rate = before[-1].reading.rate if before else None
    at_bump = PumpReading(record.seq, given, None, None, rate, record.at)
    return (*before, Count(given.value, at_bump))


def _steps(found: tuple[Count, ...], job: Job) -> Iterator[tuple[float, float, float]]:
    """Yield volume, rate and the stop after it, from reading to reading."""
    start = job.zeroed.at if job.zeroed else ""
    times = [start, *(each.reading.at for each in found)]
    volumes = [0.0, *(each.volume for each in found)]
    waited: tuple[float, float, float] | None = None
    spans = zip(pairwise(times), pairwise(volumes), found, strict=True)
    for (before, after), (low, high), count in spans:
        time = max(0.0, seconds_between(before, after))
        if high - low < LEAST_VOLUME:
            if waited is not None:
                waited = (waited[0] + high - low, waited[1], waited[2] + time)
            continue
        if waited is not None:
            yield waited
        waited = (high - low, _rate(count.reading.rate, high - low, time), 0.0)
    if waited is not None:
        yield waited


def _rate(seen: Measure | None, volume: float, time: float) -> float:
    """Return the rate read at the end of a span, or else that of its volume and time."""
    if seen is not None and seen.value > NO_RATE:
        return min(FASTEST, seen.value)
    told = time > 0 and volume / time <= FASTEST
    return max(1e-4, volume / time) if told else UNKNOWN
