"""The work at hand: what is to be done next, and the page on which it is done."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.counts import next_item, on_top
from tally.job.gates import applies
from tally.job.job import Job
from tally.job.working import working


@dataclass(frozen=True, slots=True)
class AtHand:
    """The next act in words, and the page of it."""

    page: str
    words: str


def at_hand(job: Job) -> AtHand:
    """Return the work at hand of a job that is set up."""
    if job.landing is None:
        due = next_item(job)
        top = on_top(job)
        if due is None and top is not None:
            return AtHand("run", f"the {top.kind} is on top: d on depth, or p pull it out")
        if due is None:
            return AtHand("run", "the rack is empty: d on depth, or F3 receive joints")
        length = job.known.step.with_unit(due.length)
        return AtHand("run", f"run {due.kind} {due.number}, {length}")
    for plan in working(job):
        for step in plan.steps:
            if applies(job, step) and (plan.id, step.id) not in job.steps:
                return AtHand(plan.page, f"{plan.title}: {step.text}")
    return AtHand("reports", "the final tally: write the files, and have them signed")
