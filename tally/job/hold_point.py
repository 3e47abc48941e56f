"""The hold point ahead of the pipe: crew and hole ready, before a joint stands on the shoe track.

Its list is worked while the shoe track is made up and proved, so the pipe is held at the first
joint above the collar; where the string has no collar, at its first joint.
"""

from __future__ import annotations

from tally.job.counts import coming
from tally.job.depths import collar
from tally.job.gates import applies, missing_of
from tally.job.job import Job
from tally.steps.model import Checklist, Step

PAGE = "ready"


def hold_point(job: Job) -> tuple[Checklist, Step] | None:
    """Return the step that releases the pipe, with its list, if a list of the book has one."""
    for plan in job.lists.values():
        for step in plan.steps:
            if plan.page == PAGE and step.hold_point and applies(job, step):
                return plan, step
    return None


def not_released(job: Job) -> str:
    """Return why the hold point is shut, in a sentence, or nothing."""
    found = hold_point(job)
    if found is None:
        return ""
    plan, step = found
    fault = missing_of(step, job.steps.get((plan.id, step.id)))
    return f"{fault}: {step.text} ({plan.title})." if fault else ""


def held(job: Job, number: str) -> str:
    """Return why this item may not be run yet, or nothing."""
    item = job.items.get(number)
    if item is None or item.kind != "joint":
        return ""
    shut = not_released(job)
    return shut if shut and _first_above_shoe_track(job) else ""


def _first_above_shoe_track(job: Job) -> bool:
    seat = collar(job)
    if seat is None:
        return not job.joints_run and not any(item.kind == "collar" for item in coming(job))
    above = (made.joint for made in reversed(job.string) if made.top > seat.top)
    return not any(above)
