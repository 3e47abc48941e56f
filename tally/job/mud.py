"""The condition of the mud: what was entered on the mud list, and the pressure at its rates."""

from __future__ import annotations

from itertools import pairwise

from tally.errors import InputError
from tally.job.gates import DONE
from tally.job.job import Job, StepRecord
from tally.job.running_records import RatePressure
from tally.job.volumes import capacity, filled
from tally.steps.model import Step
from tally.units import Measure, read

LIST = "mud-conditioning"
LEAST_ROOM = 0.01
"""Share of the casing contents; less is no difference between what was seen and the book."""


def step_record(job: Job, step_id: str) -> StepRecord | None:
    """Return what was entered for a step of the mud list, if it was done."""
    record = job.steps.get((LIST, step_id))
    return record if record is not None and record.outcome == DONE else None


def step_measure(job: Job, step_id: str, quantity: str) -> Measure | None:
    """Return the value entered for a step of the mud list."""
    record = step_record(job, step_id)
    if record is None or not record.value:
        return None
    try:
        return read(record.value, quantity)
    except InputError:
        return None


def pairs(job: Job) -> tuple[RatePressure, ...]:
    """Return the pairs of rate and pressure, slowest first; of one rate the last one counts."""
    by_rate = {one.rate.value: one for one in job.rates}
    return tuple(by_rate[rate] for rate in sorted(by_rate))


def pressure_at(job: Job, rate: float) -> float | None:
    """Return the pressure of circulating at a rate, [Pa]: between pairs, never beyond them."""
    seen = [(one.rate.value, one.pressure.value) for one in pairs(job)]
    for known, pressure in seen:
        if abs(known - rate) <= 1e-9 * max(known, rate):
            return pressure
    for (slow, low), (fast, high) in pairwise(seen):
        if slow < rate < fast:
            return low + (high - low) * (rate - slow) / (fast - slow)
    return None


def not_filled(job: Job) -> float:
    """Return what the book's pipe still takes though mud was seen at its top, [m^3]; else 0.

    The state of a step is what somebody saw; the pipe of the book is filled by fills only.
    """
    if job.setup is None or not job.string or not _seen_full(job):
        return 0.0
    room, whole = capacity(job) - filled(job), capacity(job)
    return room if room > LEAST_ROOM * whole else 0.0


def _seen_full(job: Job) -> bool:
    for plan in job.lists.values():
        for step in plan.steps:
            record = job.steps.get((plan.id, step.id))
            if step.fills and record is not None and stands_full(step, record):
                return True
    return False


def stands_full(step: Step, record: StepRecord) -> bool:
    """Whether what was entered for a step says that mud stands at the top."""
    return record.outcome == DONE and record.state in step.good
