"""What a step of a checklist wants before it is taken, and why it must wait."""

from __future__ import annotations

from tally.errors import InputError
from tally.job.entry import ended
from tally.job.expected import OUTSIDE, expected, step_value, verdict
from tally.job.gates import applies, shut_before
from tally.job.job import Job
from tally.job.setup import same_name
from tally.steps.model import Checklist, Step


def not_applying(job: Job, step: Step) -> str:
    """Return why a step does not apply to the job."""
    if not step.applies(job.known.pumping.bottom_plugs):
        return "The programme has no bottom plug; this step does not apply."
    limit = step.only_with.partition(":")[2]
    return f"The job has no limit {limit}; this step does not apply."


def gate_reasons(job: Job, plan: Checklist, step: Step) -> tuple[str, ...]:
    """Return why a step must wait: the shut gates, and the steps of its list before it."""
    before = [plan.step(each) for each in step.after]
    faults = (_unfinished(job, plan, each) for each in before if applies(job, each))
    return (*shut_before(job, step), *(fault for fault in faults if fault))


def _unfinished(job: Job, plan: Checklist, step: Step) -> str:
    """Return why a step of the same list does not let the next one go on, or nothing."""
    record = job.steps.get((plan.id, step.id))
    if record is None:
        return f"Not done yet: {step.text}."
    return f"Not as wanted, and nobody gave a reason: {step.text}." if record.differs else ""


def wanted(step: Step, state: str, value: str, *, later: bool = False) -> str:
    """Return what a step still wants, or what is wrong with what was entered."""
    if state and step.want != "state":
        return f"This step takes no state; '{state}' cannot be entered."
    if state and state not in step.states:
        return f"'{state}' is none of the states of this step: {', '.join(step.states)}."
    if value and step.want != "value":
        return f"This step takes no value; '{value}' cannot be entered."
    if value:
        try:
            step_value(step, value)
        except InputError as fault:
            return str(fault)
    if later:
        return ""
    if step.want == "state" and not state:
        return f"Say what was seen: {', '.join(step.states)}."
    if step.want == "value" and not value:
        return f"Type the value ({step.quantity})."
    return ""


def accepted(reason: str) -> str:
    """Return the words that say who let a difference pass: somebody with a reason, or nobody."""
    return f"Accepted: {ended(reason)}" if reason else "Nobody gave a reason."


def outside(job: Job, plan: Checklist, step: Step, state: str, value: str) -> str:
    """Return how what was seen differs from what is expected, or nothing."""
    if verdict(job, plan, step, state, value) != OUTSIDE:
        return ""
    if step.want == "state":
        return f"Seen: {state}; wanted: {' or '.join(step.good)}."
    want = expected(job, plan, step)
    assert want is not None  # a verdict of outside has something to stand against
    how = "" if step.compare == "agrees" else f"{step.compare} "
    return f"Seen: {value}; expected: {how}{want.text} ({want.origin})."


def not_second(job: Job, doer: str, other: str) -> str:
    """Return why a person cannot be the second one, or nothing."""
    if not other.strip():
        return "A second person is wanted; name the person."
    if other not in job.people:
        return f"{other} is not among the people of this job; add the person first."
    if same_name(other, doer):
        return f"{other} did it and cannot be the witness as well; name somebody else."
    return ""


def not_giving(job: Job, at_the_keys: str, other: str) -> str:
    """Return why a person cannot give a figure that is worked out unseen, or nothing."""
    if not other.strip():
        return "A second person works this figure out without seeing ours; name who gave it."
    if other not in job.people:
        return f"{other} is not among the people of this job; add the person first."
    if same_name(other, at_the_keys):
        return f"{other} is at the keys and cannot be the second person; name somebody else."
    if same_name(other, job.programmed):
        return f"{other} set up the programme and cannot be the second person; name somebody else."
    return ""


def giving(job: Job, at_the_keys: str) -> tuple[str, ...]:
    """Return who can give a figure that is worked out unseen."""
    return tuple(name for name in job.people if not not_giving(job, at_the_keys, name))
