"""What is typed into the entry line of the running page: an item, a length, what is installed."""

from __future__ import annotations

from dataclasses import dataclass

from screens.widgets.running import named
from tally.errors import InputError
from tally.job.counts import next_item, on_top
from tally.job.fittings import due_on, usual, with_one_more
from tally.job.job import Fitting, Item, Job

MORE, NONE = "+", "-"
"""Typed last: one centralizer more than the programme wants on it; nothing of the programme."""


@dataclass(frozen=True, slots=True)
class TypedItem:
    """An item to run, as it was typed."""

    item: Item
    length: int | None
    typed: str
    fittings: tuple[Fitting, ...]
    differs: bool
    """Whether what is installed was said with it."""


def typed_item(job: Job, text: str) -> TypedItem:
    """Return what a text means: a whole number a joint, a decimal mark a length of the next one."""
    if job.setup is None:
        raise InputError("The job is not set up yet; F2 and e set it up.")
    mark = text[-1:] if text[-1:] in (MORE, NONE) else ""
    typed = text.removesuffix(mark).strip()
    number = _is_number(job, typed)
    item = job.items.get(typed) if number else next_item(job)
    if item is None:
        raise InputError(nothing_to_run(job, typed))
    listed = number or bool(mark and not typed)
    length = None if listed else job.known.step.read(typed, job.known.make_up_loss)
    return TypedItem(item, length, "" if listed else typed, _on(job, item, mark), bool(mark))


def as_listed(job: Job, item: Item) -> TypedItem:
    """Return an item as it is listed, with what the programme wants on it."""
    return TypedItem(item, None, "", _on(job, item, ""), False)


def _is_number(job: Job, typed: str) -> bool:
    """Whether a text names an item; in millimetres, four figures that name none are a length."""
    if not typed.isdigit():
        return False
    return typed in job.items or job.known.step.unit != "mm" or len(typed) < 4


def nothing_to_run(job: Job, typed: str = "") -> str:
    """Return why there is nothing to run: no such joint, the string closed on top, none left."""
    if typed.isdigit():
        return f"There is no joint {typed} in the book."
    top = on_top(job)
    if top is not None:
        return f"The {top.kind} is on top, nothing is run above it: d on depth, or p pulls it out."
    return "There is no item left on the rack to run."


def _on(job: Job, item: Item, mark: str) -> tuple[Fitting, ...]:
    """Return what is installed on an item: as the programme wants it, but for the mark."""
    due = due_on(job, job.joints_run + 1) if item.kind == "joint" else ()
    if mark == NONE and not due:
        raise InputError(f"The programme has nothing on {named(item)}; leave the - off.")
    if mark != MORE:
        return () if mark else due
    more = usual(job)
    if more is None:
        raise InputError("The programme has no centralizer; i says what is installed.")
    return with_one_more(due, more)


def meaning(job: Job, text: str) -> str:
    """Return the same in words."""
    one = typed_item(job, text)
    step = job.known.step
    told = (
        f"{named(one.item)} measures {step.with_unit(one.length)}"
        if one.length is not None
        else f"{named(one.item)}, {step.with_unit(one.item.length)}, {one.item.state}"
    )
    if not one.differs:
        return told
    return f"{told}, with {', '.join(str(each) for each in one.fittings) or 'nothing'}"
