"""The string as it will be: what is run, and on top of it what the running list has to come."""

from __future__ import annotations

from dataclasses import replace

from tally.job.counts import coming, next_item
from tally.job.depths import stick_up, to_go
from tally.job.geometry import Last
from tally.job.job import Job, Made


def is_run(job: Job) -> bool:
    """Whether the string is all run: on depth, its shoe at the casing point, or no item left."""
    if job.landing is not None or not job.string:
        return job.landing is not None
    return to_go(job) <= 0 or next_item(job) is None


def _as_planned(job: Job) -> Job:
    """Return the job with the running list made up on top, down to the casing point.

    The last item is cut off at the stick-up. A list that is too short leaves the shoe above the
    casing point, and a string that is all run stays as it is.
    """
    if is_run(job):
        return job
    setup = job.known
    enough = setup.step.steps(setup.hole.casing_point.value) + stick_up(job)
    string, length = list(job.string), job.length
    for item in coming(job):
        own = min(item.length, enough - length)
        if own <= 0:
            break
        length += own
        string.append(
            Made(item.number, item.kind, item.pipe, own, length, 0, (), job.last, "", job.seq)
        )
    return replace(job, string=tuple(string))


as_planned = Last(_as_planned)
"""The job with its string as it will be; the job itself once the string is run."""
