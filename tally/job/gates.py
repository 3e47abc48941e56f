"""The gates: named functions of the job. A step names the gates that must be open before it.

A gate is open once the step of its name stands in any list; the gate "on-depth" once the string
is on depth. A step stands when it is done, witnessed where it is critical, and what was seen is
what is wanted or somebody accepted the difference with a reason. A step that does not apply,
because the programme has no bottom plug, leaves its gate open.

Nothing may stop the pumping hand: a step stored at once stands from that moment for the steps
that are stored at once themselves. Every other step waits until its witness has confirmed it.
From the first slurry to the bump a step stored at once passes a shut gate too: the event is in the
book with its time, an open exception tells of the gate, and the reason and the second person are
asked for afterwards.
"""

from __future__ import annotations

from collections.abc import Iterator

from tally.job.job import Job, StepRecord
from tally.steps.model import ON_DEPTH, Checklist, Step

DONE = "done"
BUMPED = "bumped"


def shut(job: Job, gate: str, *, at_once: bool = True) -> str:
    """Return why a gate is shut, in a sentence; nothing if it is open.

    Without `at_once` a step stored at once opens its gate only when it was witnessed too.
    """
    if gate == ON_DEPTH:
        return "" if job.landing else "The string is not on depth yet (F4)."
    found = next(((plan, step) for plan, step in _all_steps(job) if step.id == gate), None)
    if found is None:
        return f"No checklist of this book has the step '{gate}' that opens this gate."
    plan, step = found
    if not applies(job, step):
        return ""
    record = job.steps.get((plan.id, step.id))
    fault = missing_of(step, record, at_once=at_once)
    return f"{fault}: {step.text} ({plan.title})." if fault else ""


def missing_of(step: Step, record: StepRecord | None, *, at_once: bool = True) -> str:
    """Return what a step still lacks to stand, in a few words, or nothing."""
    if record is None:
        return "Not done yet"
    if record.outcome != DONE:
        return f"Passed over as {record.outcome}"
    if record.differs:
        return "Not as wanted, and nobody gave a reason"
    if step.critical and not record.witness and not (step.at_once and at_once):
        return "Waiting for a witness"
    return ""


def shut_before(job: Job, step: Step) -> tuple[str, ...]:
    """Return the reasons why the gates of a step are shut."""
    reasons = (shut(job, gate, at_once=step.at_once) for gate in step.gates)
    return tuple(reason for reason in reasons if reason)


def slurry_under_way(job: Job) -> bool:
    """Whether slurry has begun to go down and the top plug is not seated yet.

    From the first event stored at once to the bump nothing may stop the pumping hand.
    """
    if any(step_id == BUMPED for _, step_id in job.steps):
        return False
    begun = (job.steps.get((plan.id, step.id)) for plan, step in _all_steps(job) if step.at_once)
    return any(record is not None and record.outcome == DONE for record in begun)


def applies(job: Job, step: Step) -> bool:
    """Whether a step applies to this job's programme."""
    if job.setup is None:
        return True
    wanted = step.only_with.partition(":")[2]
    return step.applies(job.setup.pumping.bottom_plugs) and (
        not wanted or wanted in job.setup.limits
    )


def _all_steps(job: Job) -> Iterator[tuple[Checklist, Step]]:
    for plan in job.lists.values():
        for step in plan.steps:
            yield plan, step
