"""What the checks of the pipe found: drift, visual, thread and inspection of each joint."""

from __future__ import annotations

from tally.job.entry import clock
from tally.job.job import ON_RACK, Item, Job
from tally.job.rack_records import CheckMark

DRIFT = "drift"
CHECKS = (DRIFT, "visual", "thread", "inspection")
DRIFTED = ("joint", "pup", "marker")
"""The kinds of items through which a mandrel is passed."""


def marks(job: Job, number: str) -> tuple[CheckMark | None, ...]:
    """Return what each check of an item found last, in the order of `CHECKS`."""
    return tuple(job.checks.get((number, what)) for what in CHECKS)


def failed(job: Job, number: str) -> tuple[str, ...]:
    """Return the checks that an item did not pass when they were last made."""
    found = zip(CHECKS, marks(job, number), strict=True)
    return tuple(what for what, mark in found if mark is not None and not mark.passed)


def drift_kept(job: Job) -> bool:
    """Whether the job keeps drift records: the set-up says so, or a drift was entered."""
    if job.setup is not None and job.setup.rack.drift_records:
        return True
    return any(what == DRIFT for _, what in job.checks)


def undrifted(job: Job) -> tuple[str, ...]:
    """Return the items on the rack that want a drift and have none, where records are kept."""
    if not drift_kept(job):
        return ()
    on_rack = (item for item in job.items.values() if item.state == ON_RACK)
    return tuple(item.number for item in on_rack if _lacks_drift(job, item))


def check_question(job: Job, item: Item) -> str:
    """Return what a person should be asked before an item is run, or nothing."""
    told = []
    for what in failed(job, item.number):
        mark = job.checks[item.number, what]
        told.append(f"failed {what} at {clock(mark.at)} ({mark.who})")
    if drift_kept(job) and _lacks_drift(job, item):
        told.append("has no drift in the book")
    return f"{item.kind} {item.number} {' and '.join(told)}." if told else ""


def _lacks_drift(job: Job, item: Item) -> bool:
    return item.kind in DRIFTED and (item.number, DRIFT) not in job.checks
