"""A running list edited by hand: moved, taken out, put in, locked. Each act gives a new list.

What is run already is never moved. A locked item keeps its place until it is unlocked, and
nothing is moved past it or put in under it.
"""

from __future__ import annotations

from dataclasses import replace

from tally.errors import InputError
from tally.job.job import ON_RACK, Job
from tally.job.running_list import RunningList


def moved(job: Job, draft: RunningList, number: str, by: int) -> RunningList:
    """Return the list with an item one place later (`by` 1) or earlier (`by` -1)."""
    here = _free(job, draft, number)
    there = here + by
    if not 0 <= there < len(draft.order):
        end = "first" if by < 0 else "last"
        raise InputError(f"{number} is the {end} one in the list.")
    _free(job, draft, draft.order[there])
    order = list(draft.order)
    order[here], order[there] = order[there], order[here]
    return replace(draft, order=tuple(order))


def taken_out(job: Job, draft: RunningList, number: str) -> RunningList:
    """Return the list without an item; it is set aside and has no turn."""
    here = _free(job, draft, number)
    order = (*draft.order[:here], *draft.order[here + 1 :])
    aside = (*draft.aside, number) if number in job.items else draft.aside
    return replace(draft, order=order, aside=aside)


def put_in(job: Job, draft: RunningList, number: str, before: str = "") -> RunningList:
    """Return the list with an item under another one, or on top of all; it has its turn again."""
    item = job.items.get(number)
    if item is None:
        raise InputError(f"There is no item {number} in the book; receive it first.")
    if number in draft.order:
        raise InputError(f"{number} is in the list already; move it with e and l.")
    if item.state != ON_RACK:
        raise InputError(f"{number} is {item.state}; only what is on the rack can go in.")
    place = draft.order.index(before) if before in draft.order else len(draft.order)
    if before in _kept(job, draft):
        raise InputError(f"{before} keeps its place; put {number} in above it.")
    order = (*draft.order[:place], number, *draft.order[place:])
    return replace(draft, order=order, aside=tuple(one for one in draft.aside if one != number))


def lock_turned(job: Job, draft: RunningList, number: str) -> RunningList:
    """Return the list with an item locked in its place, or free again."""
    if number not in draft.order:
        raise InputError(f"{number} is not in the list.")
    if job.made(number) is not None:
        raise InputError(f"{number} is run; it cannot be moved in any case.")
    if number in draft.locked:
        return replace(draft, locked=tuple(one for one in draft.locked if one != number))
    return replace(draft, locked=(*draft.locked, number))


def _free(job: Job, draft: RunningList, number: str) -> int:
    """Return the place of an item that may be moved, from 0, or refuse."""
    if number not in draft.order:
        raise InputError(f"{number} is not in the list.")
    if job.made(number) is not None:
        raise InputError(f"{number} is run already; it keeps its place.")
    if number in draft.locked:
        raise InputError(f"{number} is locked in its place; k unlocks it.")
    return draft.order.index(number)


def _kept(job: Job, draft: RunningList) -> set[str]:
    return {*draft.locked, *(made.number for made in job.string)}
