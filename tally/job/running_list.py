"""The running list: every item of the string to be, with its place, its depth and its turn.

The list starts with what is run already and goes on with what is still to run. Depths are those
that the items will have with the shoe at the casing point, or have since the string is on depth.
A list that is not set yet is worked on as a job that has it: `drafted`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.counts import coming, goes_above
from tally.job.depths import shoe_depth
from tally.job.job import ON_RACK, Item, Job


@dataclass(frozen=True, slots=True)
class RunningList:
    """An order from the shoe up, the places in it that are kept, and what it leaves out."""

    order: tuple[str, ...]
    locked: tuple[str, ...] = ()
    aside: tuple[str, ...] = ()
    length: int | None = None
    """The length of string that it was spaced out to; nothing: as the casing point wants it."""


@dataclass(frozen=True, slots=True)
class Slot:
    """One item in its place of the list; lengths and depths in whole steps."""

    place: int
    """From 1, the lowest item."""
    item: Item
    length: int
    """As run, or as listed where it is not run yet."""
    joint: int
    """Which joint it is, counted from the shoe; 0 for an item that is no joint."""
    to_here: int
    """Length from the shoe up to and with this item."""
    bottom: int
    """Depth of its bottom when the string is on depth."""
    run: bool
    spare: bool
    """Whether the string is long enough without it."""

    @property
    def top(self) -> int:
        """Depth of its top when the string is on depth."""
        return self.bottom - self.length


def wanted_length(job: Job) -> int:
    """Return the length of string that puts the shoe at the casing point, with its stick-up."""
    setup = job.known
    return setup.step.steps(setup.hole.casing_point.value) + setup.lengths.stick_up


def long_enough(job: Job) -> int:
    """Return the length of string that is wanted: as spaced out, else to the casing point."""
    return wanted_length(job) if job.spaced_out is None else job.spaced_out


def planned_shoe(job: Job) -> int:
    """Return where the shoe will be: at the casing point, or where it is since it is on depth."""
    if job.landing is not None:
        return shoe_depth(job)
    return job.known.step.steps(job.known.hole.casing_point.value)


def slots(job: Job) -> tuple[Slot, ...]:
    """Return every item run and still to run, from the shoe up."""
    made = [(job.items[one.number], one.length, True) for one in job.string]
    items = [*made, *((item, item.length, False) for item in coming(job))]
    shoe, enough = planned_shoe(job), long_enough(job)
    found = []
    length = joint = 0
    for place, (item, own, run) in enumerate(items, start=1):
        below, length = length, length + own
        is_joint = item.kind == "joint"
        joint += is_joint
        spare = not run and (below >= enough or job.landing is not None)
        spare = spare or not (run or goes_above(job, item.kind))
        turn = joint if is_joint else 0
        found.append(Slot(place, item, own, turn, length, shoe - below, run, spare))
    return tuple(found)


def current(job: Job) -> RunningList:
    """Return the list as it stands, every item that has a turn named in it."""
    run = [made.number for made in job.string]
    known = {*run, *job.aside}
    still = [number for number in job.order if number not in known and _has_turn(job, number)]
    known.update(still)
    late = [item.number for item in coming(job) if item.number not in known]
    order = (*run, *still, *late)
    locked = tuple(one for one in job.locked if one in order)
    return RunningList(order, locked, job.aside, job.spaced_out)


def _has_turn(job: Job, number: str) -> bool:
    """Whether an item is on the rack, or was never received and is awaited."""
    item = job.items.get(number)
    return item is None or item.state == ON_RACK


def drafted(job: Job, draft: RunningList) -> Job:
    """Return the job as it would stand with a list set."""
    return replace(
        job,
        order=draft.order,
        locked=draft.locked,
        aside=draft.aside,
        spaced_out=draft.length,
    )
