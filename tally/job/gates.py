"""The gates: named functions of the job. A step names the gates that must be open before it.

A gate is open once the step of its name stands in any list; the gate "on-depth" once the string
is on depth. A step that does not apply, because the programme has no bottom plug, leaves its
gate open.
"""

from __future__ import annotations

from collections.abc import Iterator

from tally.job.job import Job
from tally.steps.model import ON_DEPTH, Checklist, Step


def shut(job: Job, gate: str) -> str:
    """Return why a gate is shut, in a sentence; nothing if it is open."""
    if gate == ON_DEPTH:
        return "" if job.landing else "The string is not on depth yet (F4)."
    found = next(((plan, step) for plan, step in _all_steps(job) if step.id == gate), None)
    if found is None:
        return f"No checklist of this book has the step '{gate}' that opens this gate."
    plan, step = found
    if not applies(job, step):
        return ""
    record = job.steps.get((plan.id, step.id))
    if record is None or record.outcome != "done":
        return f"Not done yet: {step.text} ({plan.title})."
    if step.critical and not record.witness and not step.at_once:
        return f"Waiting for a witness: {step.text} ({plan.title})."
    return ""


def shut_before(job: Job, step: Step) -> tuple[str, ...]:
    """Return the reasons why the gates of a step are shut."""
    reasons = (shut(job, gate) for gate in step.gates)
    return tuple(reason for reason in reasons if reason)


def applies(job: Job, step: Step) -> bool:
    """Whether a step applies to this job's programme."""
    return job.setup is None or step.applies(job.setup.pumping.bottom_plugs)


def _all_steps(job: Job) -> Iterator[tuple[Checklist, Step]]:
    for plan in job.lists.values():
        for step in plan.steps:
            yield plan, step
