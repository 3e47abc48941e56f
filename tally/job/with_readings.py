"""The job with the readings of a file that is followed: what the pages are drawn from.

The book holds few of them, those that a step used or that a minute brought; what is expected and
seen beside them is worked out from all that are at hand.
"""

from __future__ import annotations

from dataclasses import replace

from tally.job.entry import moment
from tally.job.gates import BUMPED
from tally.job.job import Job, PumpReading, StepRecord


def bumped(job: Job) -> StepRecord | None:
    """Return what was entered when the bump was called; from there on nothing is estimated."""
    records = (record for (_list, step), record in job.steps.items() if step == BUMPED)
    return next((record for record in records if record.outcome == "done"), None)


def with_readings(job: Job, readings: tuple[PumpReading, ...]) -> Job:
    """Return the job with readings of a file since the zero, up to the call of the bump.

    Those of the file that the book holds are among them already. What a person read stays, but for
    its pressure: two gauges in one series would look like a rise.
    """
    if job.zeroed is None or not readings:
        return job
    start, call = moment(job.zeroed.at), bumped(job)
    end = moment(call.at) if call else None
    fresh = [
        each
        for each in readings
        if moment(each.at) >= start and not (end and moment(each.at) > end)
    ]
    if not fresh:
        return job
    typed = [replace(each, pressure=None) for each in job.pumped if not each.source]
    return job.but(pumped=tuple(sorted([*typed, *fresh], key=lambda one: moment(one.at))))
