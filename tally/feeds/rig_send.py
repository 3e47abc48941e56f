"""What is sent back to the rig on its own line: shoe depth and volume to bump, as record 17."""

from __future__ import annotations

from tally.errors import ShoedownError
from tally.feeds.wits_items import items
from tally.job.blind import awaited
from tally.job.depths import shoe_depth
from tally.job.entry import moment
from tally.job.figures import figure
from tally.job.figures.pumping import aged_left
from tally.job.job import Job

SHOE, TO_BUMP = "1710", "1731"


def sent_back(job: Job, now: str, units: str) -> str:
    """Return a frame with what is known now, or nothing where nothing is."""
    lines = [line for line in (_shoe(job, units), _to_bump(job, now, units)) if line]
    if not lines:
        return ""
    at = moment(now)
    head = [f"1705{at:%y%m%d}", f"1706{at:%H%M%S}"]
    return "\r\n".join(["&&", *head, *lines, "!!", ""])


def _shoe(job: Job, units: str) -> str:
    if job.setup is None or not job.string:
        return ""
    return _line(SHOE, job.known.step.si(shoe_depth(job)), units)


def _to_bump(job: Job, now: str, units: str) -> str:
    """Return what is left to the calculated bump, or before the zero, all of it.

    What a second person has still to work out by themselves is not sent to a screen of the rig.
    """
    if awaited(job, "displacement_to_collar"):
        return ""
    try:
        aged = aged_left(job, now)
    except ShoedownError:
        aged = None
    total = figure(job, "displacement_to_collar").value
    left = aged.left if aged else total
    return "" if left is None else _line(TO_BUMP, float(left), units)


def _line(code: str, si: float, units: str) -> str:
    unit = items()[code].unit(units)
    assert unit is not None, code  # depth and volume have one in both unit sets
    return f"{code}{unit.number(si):.2f}"
