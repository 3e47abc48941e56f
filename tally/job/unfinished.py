"""What a report still lacks before anybody can sign it."""

from __future__ import annotations

from tally.job.job import Job


def unfinished_tally(job: Job) -> str:
    """Return why the tally cannot be signed yet, in a few words, or nothing."""
    return "" if job.landing is not None else "the string is not on depth"


def unfinished_report(job: Job) -> str:
    """Return why the casing and cementing report cannot be signed yet, or nothing."""
    if job.landing is None:
        return unfinished_tally(job)
    if _zeroing(job) and job.zeroed is None:
        return "the top plug is not released"
    if not _stands(job, "bumped"):
        return "the plug is not entered as bumped"
    if not _stands(job, "floats-held"):
        return "nothing is entered of the float check"
    return ""


def unfinished(job: Job, report: str) -> str:
    """Return why a report cannot be signed yet, by its key, or nothing."""
    return unfinished_tally(job) if report == "tally" else unfinished_report(job)


def _zeroing(job: Job) -> bool:
    return any(step.zeroes for plan in job.lists.values() for step in plan.steps)


def _stands(job: Job, step_id: str) -> bool:
    """Whether a step is entered, in whichever list has it; a job without the step needs none."""
    having = [plan.id for plan in job.lists.values() if any(s.id == step_id for s in plan.steps)]
    return not having or any((plan, step_id) in job.steps for plan in having)
