"""Which lists are worked now, and where a list was left."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.gates import applies
from tally.job.job import Job, StepRecord
from tally.steps.model import GATES, Checklist, Step


def working(job: Job) -> tuple[Checklist, ...]:
    """Return the lists whose steps are due: those of the job, and a list for trouble once started.

    Trouble is at hand, so a started list stands ahead of the others.
    """
    called = [job.lists[each] for each in job.started if each in job.lists]
    return (*called, *(plan for plan in job.lists.values() if not plan.on_call))


def on_call(job: Job) -> tuple[Checklist, ...]:
    """Return the lists for trouble that lie ready and are not started."""
    return tuple(plan for plan in job.lists.values() if plan.on_call and plan.id not in job.started)


@dataclass(frozen=True, slots=True)
class Left:
    """Where a list was left: its last step entered, and the first step of the block at hand."""

    plan: Checklist
    last: Step
    record: StepRecord
    block: Step


def left(job: Job, plan: Checklist) -> Left | None:
    """Return where a list was left; nothing if it is not begun, or every step is entered.

    A block is the steps after the last gate or hold point that was passed.
    """
    steps = [step for step in plan.steps if applies(job, step)]
    records = [job.steps.get((plan.id, step.id)) for step in steps]
    if None not in records or not any(records):
        return None
    place, record = max(
        ((n, one) for n, one in enumerate(records) if one is not None), key=lambda two: two[1].seq
    )
    due = records.index(None)
    passed = [
        n
        for n, step in enumerate(steps[:due])
        if step.hold_point or (step.id in GATES and records[n] is not None)
    ]
    return Left(plan, steps[place], record, steps[passed[-1] + 1 if passed else 0])
