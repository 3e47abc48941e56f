"""When the flow is to be checked: at the old shoe before open hole, and on a gain or a loss."""

from __future__ import annotations

from tally.job.counts import next_item
from tally.job.depths import shoe_depth
from tally.job.happening import FlowCheck
from tally.job.job import Job
from tally.job.tank import TankCheck, call, last_reading, since_mark

NO_FLOW = "no flow"
FLOWS = "flows"
LOSES = "takes mud"
STATES = (NO_FLOW, FLOWS, LOSES)
"""What is seen with the pumps off."""


def flow_check_due(job: Job) -> str:
    """Return why the flow should be checked now, in a few words, or nothing."""
    if job.setup is None or not job.string or job.landing is not None:
        return ""
    return _on_call(job) or _at_old_shoe(job)


def _on_call(job: Job) -> str:
    checks = (last_reading(job), since_mark(job))
    out = next((each for each in checks if each is not None and call(each)), None)
    if out is None or any(each.seq > job.tank[-1].seq for each in job.flow_checks):
        return ""
    return f"{in_words(job, out)}: flow check, o"


def in_words(job: Job, check: TankCheck) -> str:
    """Return a gain or a loss with its volume."""
    return f"{call(check).upper()} of {job.known.shown.show(abs(check.difference), 'volume')}"


def _at_old_shoe(job: Job) -> str:
    """Return that the old shoe is reached: the next joint brings the new shoe into open hole."""
    due, previous = next_item(job), job.known.previous
    if previous is None or due is None:
        return ""
    old = job.known.step.steps(previous.shoe.value)
    longest = max(item.length for item in job.string)
    reached = shoe_depth(job) + due.length > old
    checked = any(each.shoe + 2 * longest > old for each in job.flow_checks)
    return "at the old shoe: flow check, o" if reached and not checked else ""


def flowing(job: Job) -> FlowCheck | None:
    """Return the last flow check where the well flowed or took mud, or nothing."""
    last = job.flow_checks[-1] if job.flow_checks else None
    return last if last is not None and last.state != NO_FLOW else None
