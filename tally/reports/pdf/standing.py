"""What every page must say of a document: that it is not final, and what is open in it."""

from __future__ import annotations

from tally.job.job import Job
from tally.reports.final_tally import FinalTally

_UNSIGNED = "Not final until it is signed on the last page."


def of_tally(tally: FinalTally) -> str:
    """Return what stands at the head of each page of the tally."""
    if not tally.final:
        return "NOT FINAL: the string is not on depth; depths rest on the usual stick-up."
    return _open(tally)


def of_report(tally: FinalTally) -> str:
    """Return what stands at the head of each page of the casing and cementing report."""
    return unfinished_report(tally) or _open(tally)


def unfinished_tally(tally: FinalTally) -> str:
    """Return why the tally cannot be signed yet, or nothing."""
    return "" if tally.final else "NOT FINAL: do not sign as the final tally."


def unfinished_report(tally: FinalTally) -> str:
    """Return why the report cannot be signed yet, or nothing."""
    if not tally.final:
        return "NOT FINAL: the string is not on depth."
    if _zeroing(tally.job) and tally.job.zeroed is None:
        return "NOT FINAL: the top plug is not released."
    if not _stands(tally.job, "bumped"):
        return "NOT FINAL: the plug is not entered as bumped."
    if not _stands(tally.job, "floats-held"):
        return "NOT FINAL: nothing is entered of the float check."
    return ""


def _zeroing(job: Job) -> bool:
    return any(step.zeroes for plan in job.lists.values() for step in plan.steps)


def _stands(job: Job, step_id: str) -> bool:
    """Whether a step is entered, in whichever list has it; a job without the step needs none."""
    having = [plan.id for plan in job.lists.values() if any(s.id == step_id for s in plan.steps)]
    return not having or any((plan, step_id) in job.steps for plan in having)


def _open(tally: FinalTally) -> str:
    still = sum(1 for one in tally.exceptions if not one.closed_by)
    more = f" Exceptions still open: {still}." if still else ""
    return _UNSIGNED + more
