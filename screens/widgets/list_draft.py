"""What the page of the running list says of a draft: how far it reaches, what is doubtful in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from textual.content import Content

from screens.ink import ATTENTION, BOLD, INK, QUIET, line, rule, wrap
from screens.widgets.list_rows import OrderRow, order_rows
from tally.job import depths
from tally.job.job import Job
from tally.job.list_warnings import ListWarning, list_warnings
from tally.job.running_list import RunningList, drafted


@dataclass(frozen=True, slots=True)
class Drawn:
    """What the page was drawn from last."""

    of: Job
    draft: RunningList
    job: Job
    """The job with the draft."""
    rows: tuple[OrderRow, ...]
    warnings: tuple[ListWarning, ...]


def drawn_from(job: Job, draft: RunningList) -> Drawn:
    """Work out the job as it would stand with a draft set."""
    then = drafted(job, draft)
    return Drawn(job, draft, then, order_rows(then), list_warnings(then))


def reach(drawn: Drawn) -> Content:
    """Return how far the list reaches, with what is spare and what is set aside."""
    need, spare = depths.joints_to_go(drawn.job)
    spares = f"{spare} spare" if spare >= 0 else f"{-spare} short"
    length = drawn.of.known.step.with_unit(max(0, depths.to_go(drawn.of)))
    text = f"to go {length}   {need} joints, {spares}"
    aside = len(drawn.draft.aside)
    return line(text + (f"   {aside} set aside" if aside else ""), BOLD)


def of_item(drawn: Drawn, number: str, width: int) -> Content:
    """Return what is doubtful in an item, or else what it is."""
    doubts = [one.text for one in drawn.warnings if one.number == number]
    if doubts:
        return line(f"! {' '.join(doubts)}"[:width], ATTENTION)
    job = drawn.of
    item = job.items.get(number)
    if item is None:
        return line("")
    pipe = item.pipe or (job.known.pipes[0].name if item.kind == "joint" else "")
    parts = (f"{item.kind} {item.number}", pipe, item.description, item.reason)
    return line("   ".join(part for part in parts if part)[:width], INK)


def first_doubt(warnings: Sequence[ListWarning], width: int) -> Content:
    """Return the first thing to look at in the list, and how many there are."""
    if not warnings:
        return line("      nothing to look at in it", QUIET)
    more = f"   g all {len(warnings)}" if len(warnings) > 1 else ""
    text = f"      {warnings[0].text}"
    room = width - len(more)
    return line((text if len(text) <= room else f"{text[: room - 2]}..") + more, ATTENTION)


def to_look_at(warnings: Sequence[ListWarning], width: int) -> list[Content]:
    """Return all there is to look at, for the side of a page."""
    lines = [rule(width, (13, "to look at"))]
    for one in warnings:
        lines += wrap(f"! {one.text}", width, ATTENTION)
    return lines if warnings else [*lines, line("nothing")]
