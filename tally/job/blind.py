"""Which of our figures a second person is still to work out without seeing them."""

from __future__ import annotations

from tally.job.gates import applies
from tally.job.job import Job


def awaited(job: Job, key: str) -> bool:
    """Whether a step asks a second person for a figure unseen, and nothing is entered for it."""
    return any(
        step.blind
        and step.expect == f"figure:{key}"
        and applies(job, step)
        and (plan.id, step.id) not in job.steps
        for plan in job.lists.values()
        for step in plan.steps
    )
