"""Which of our figures a second person is still to work out without seeing them."""

from __future__ import annotations

from dataclasses import replace

from tally.job.figures import Figure, figure
from tally.job.gates import applies
from tally.job.job import Job

HIDDEN = "hidden until the second person gives theirs"
TELL_IT = {
    "bump_earliest": "displacement_to_collar",
    "bump_latest": "displacement_to_collar",
}
"""Figures that another one can be read from."""


def awaited(job: Job, key: str) -> bool:
    """Whether a step asks a second person for a figure unseen, and nothing is entered for it.

    Once the volume is zeroed it is pumped to our figure, given or not.
    """
    return job.zeroed is None and any(
        step.blind
        and step.expect == f"figure:{key}"
        and applies(job, step)
        and (plan.id, step.id) not in job.steps
        for plan in job.lists.values()
        for step in plan.steps
    )


def in_sight(job: Job, key: str) -> Figure:
    """Return a figure for a page or a panel: without its value while it is to be worked out."""
    return veiled(job, figure(job, key))


def veiled(job: Job, one: Figure) -> Figure:
    """Return a figure without its value while a second person is to work it out."""
    if one.value is None or not awaited(job, TELL_IT.get(one.key, one.key)):
        return one
    return replace(one, value=None, inputs=(), missing=HIDDEN)
