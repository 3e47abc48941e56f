"""The hold points and shut gates that were passed, and by whom."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tally.job.job import Job, StepRecord
from tally.job.witnessing import signed_how
from tally.steps.model import Step


@dataclass(frozen=True, slots=True)
class Passed:
    """One hold point passed: what it is, who released it and who saw it, each as signed."""

    words: str
    released: str
    witness: str
    at: str


def hold_points(job: Job) -> tuple[Passed, ...]:
    """Return what was passed, in the order of time: hold points, and gates passed while shut."""
    return tuple(sorted(_passed(job), key=lambda one: one.at))


def _passed(job: Job) -> Iterator[Passed]:
    for plan in job.lists.values():
        for step in plan.steps:
            record = job.steps.get((plan.id, step.id))
            if record is not None and (step.hold_point or record.passed):
                yield _one(step, record)


def _one(step: Step, record: StepRecord) -> Passed:
    how = f" (shut gate passed: {record.passed})" if record.passed else ""
    passed_over = f" ({record.outcome})" if record.outcome != "done" else ""
    return Passed(
        f"{step.text}{passed_over}{how}",
        signed_how(record.by, record.signed),
        signed_how(record.witness, record.signed) if record.witness else "none",
        record.at,
    )
