"""Whether there may be mud instead of cement at the shoe, from what was seen and entered.

The shoe is marked as suspect with each reason, and stays so until a test entry clears it by the
name of a person.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tally.errors import InputError
from tally.job.at_bump import bump_volume, volume_record
from tally.job.entry import Entry, clock
from tally.job.figures import figure, show
from tally.job.job import Job, PumpReading, StepRecord

RELEASE = "plug-release"
LEAKING = "floats-leak"
MARK = "Shoe suspect:"


@dataclass(frozen=True, slots=True)
class Doubt:
    """One reason to doubt the cement at the shoe, and the entry that gave it."""

    seq: int
    why: str


def doubts(job: Job) -> tuple[Doubt, ...]:
    """Return every reason that there was, cleared since or not."""
    if job.zeroed is None and not job.started:
        return ()
    return (*_over(job), *_bump(job), *_floats(job), *_back_in(job), *_tests(job))


def suspect(job: Job) -> tuple[Doubt, ...]:
    """Return the reasons that no test has cleared."""
    held = [test.seq for test in job.shoe_tests if test.held]
    return tuple(each for each in doubts(job) if not held or each.seq > held[-1])


def shoe_words(job: Job) -> str:
    """Return in a line how the shoe stands: suspect with its reasons, or cleared; else nothing."""
    still = suspect(job)
    if still:
        more = f" (and {len(still) - 1} more)" if len(still) > 1 else ""
        return f"SHOE SUSPECT: {still[-1].why}{more}"
    if doubts(job):
        test = next(each for each in reversed(job.shoe_tests) if each.held)
        return f"shoe cleared by {test.cleared} at {clock(test.at)}: {test.how}"
    return ""


def marked(before: Job, job: Job, entry: Entry) -> Job:
    """Return the job with an exception for each reason that the entry has brought."""
    known = {each.why for each in doubts(before)}
    for each in doubts(job):
        if each.why not in known:
            what = f"{MARK} {each.why}. A test of the shoe clears it by name (F6, t)."
            job = job.with_exception(entry.seq, what, entry.by, entry.at, critical=True)
    return job


def _over(job: Job) -> Iterator[Doubt]:
    limit, total = job.known.limit("over_displacement"), _value(job, "displacement_to_collar")
    if limit is None or total is None:
        return
    for reading in job.pumped:
        past = _furthest(job, reading) - total
        if past > limit.value * (1 + 1e-9):
            by = show(job, past, "volume")
            yield Doubt(reading.seq, f"pumped {by} past the calculated bump, limit {limit.text}")
            return


def _furthest(job: Job, reading: PumpReading) -> float:
    """Return the volume by the count that is further on, [m^3]."""
    stroke = _value(job, "stroke_volume")
    by_pump = reading.strokes * stroke if reading.strokes is not None and stroke else 0.0
    return max(reading.tank.value if reading.tank else 0.0, by_pump)


def _bump(job: Job) -> Iterator[Doubt]:
    called = _record(job, "bumped")
    if called and called.state and not _good(job, "bumped", called.state):
        yield Doubt(called.seq, f"the top plug was not proved to seat: {called.state}")
    at, left = volume_record(job), _value(job, "left_to_bump")
    if at is not None and left is not None:
        yield from _far(job, at, -left)


def _far(job: Job, at: StepRecord, past: float) -> Iterator[Doubt]:
    """Tell of a bump outside its band; without one, of a bump past what may be pumped past it.

    It rests on the volume given with the bump; where that step was passed over, on the last count.
    """
    band, limit = job.known.limit("bump_band"), job.known.limit("over_displacement")
    named = ("band", band) if band is not None else ("limit", limit)
    if named[1] is None or abs(past) <= named[1].value * (1 + 1e-9):
        return
    if band is None and past < 0:
        return
    how = "past" if past > 0 else "short of"
    known = "" if bump_volume(job) else f" ({figure(job, 'displaced').formula})"
    by = f"{show(job, abs(past), 'volume')} {how} the calculated volume"
    yield Doubt(at.seq, f"bump {by}, {named[0]} {named[1].text}{known}")


def _floats(job: Job) -> Iterator[Doubt]:
    held = _record(job, "floats-held")
    if held and held.state and not _good(job, "floats-held", held.state):
        yield Doubt(held.seq, f"floats do not hold: {held.state}")
    if LEAKING in job.started:
        start = job.started[LEAKING]
        yield Doubt(start.seq, f"floats leak, called at {clock(start.at)} by {start.by}")


def _back_in(job: Job) -> Iterator[Doubt]:
    for each in job.back_in:
        why = f"{each.volume.text} that came back was pumped in again at {clock(each.at)}"
        yield Doubt(each.seq, f"{why}, decided by {each.decided}")


def _tests(job: Job) -> Iterator[Doubt]:
    for test in job.shoe_tests:
        if not test.held:
            yield Doubt(test.seq, f"the test at {clock(test.at)} did not hold: {test.how}")


def _record(job: Job, step: str) -> StepRecord | None:
    record = job.steps.get((RELEASE, step))
    return record if record and record.outcome == "done" else None


def _good(job: Job, step: str, state: str) -> bool:
    plan = job.lists.get(RELEASE)
    try:
        return plan is not None and state in plan.step(step).good
    except InputError:
        return False


def _value(job: Job, key: str) -> float | None:
    value = figure(job, key).value
    return None if value is None else float(value)
