"""The running list as rows: marks, place, number, lengths, depth on depth, what goes on."""

from __future__ import annotations

from dataclasses import dataclass

from textual.content import Content

from screens.ink import ATTENTION, BOLD, CURSOR, INK, QUIET, Line, rule
from screens.widgets.block import short
from screens.widgets.rack_list import own_number
from tally.job.counts import next_item
from tally.job.fittings import due_by
from tally.job.job import Job
from tally.job.list_warnings import list_warnings
from tally.job.programme import programme
from tally.job.running_list import Slot, slots

JOINT, NUMBER, KIND, LENGTH, TO_HERE, BOTTOM, WHAT = 9, 11, 22, 42, 53, 64, 66
FITTED = 24
"""Columns that what goes on takes where the page is wide."""


@dataclass(frozen=True, slots=True)
class OrderRow:
    """One line of the list; an item that never came or is set aside has no depth."""

    number: str
    marks: str
    joint: str
    kind: str
    length: str
    to_here: str
    bottom: str
    what: str
    role: str = INK


def order_rows(job: Job) -> tuple[OrderRow, ...]:
    """Return every item in its turn, then what never came, then what is set aside."""
    doubtful = {warning.number for warning in list_warnings(job)}
    rules, due = programme(job), next_item(job)
    on = {made.number: made.fittings for made in job.string}
    rows = []
    for slot in slots(job):
        number = slot.item.number
        fittings = on[number] if slot.run else due_by(rules, slot.joint) if slot.joint else ()
        next_one = due is not None and number == due.number and job.landing is None
        what = "run " if slot.run else "spare" if slot.spare else "NEXT " if next_one else ""
        role = QUIET if slot.run or slot.spare else BOLD if next_one else INK
        said = f"{what}{short(fittings, FITTED)}".strip()
        rows.append(_row(job, slot, said, number in doubtful, role))
    never = [number for number in job.order if number not in job.items]
    rows += [_without_a_turn(job, number, "never received", ATTENTION) for number in never]
    aside = [number for number in job.aside if number in job.items]
    return (*rows, *(_without_a_turn(job, number, "set aside", QUIET) for number in aside))


def _row(job: Job, slot: Slot, what: str, doubtful: bool, role: str) -> OrderRow:
    show = job.known.step.show
    item = slot.item
    special = "*" if item.kind != "joint" else " "
    locked = "=" if item.number in job.locked else " "
    return OrderRow(
        item.number,
        f"{'!' if doubtful else ' '}{special}{locked}",
        str(slot.joint or ""),
        item.kind,
        show(slot.length),
        show(slot.to_here),
        "" if slot.spare else show(slot.bottom),
        what,
        role,
    )


def _without_a_turn(job: Job, number: str, what: str, role: str) -> OrderRow:
    item = job.items.get(number)
    kind, length = (item.kind, job.known.step.show(item.length)) if item else ("-", "-")
    return OrderRow(number, "   ", "", kind, length, "", "", what, role)


def order_title(job: Job, width: int) -> Content:
    """Return the ruled line over the rows."""
    unit = job.known.step.unit
    return rule(
        width,
        (JOINT + 1, "joint"),
        (NUMBER + 4, "no."),
        (KIND + 5, "item"),
        (LENGTH + 1, f"length, {unit}"),
        (TO_HERE + 1, "to here"),
        (BOTTOM + 1, "bottom"),
        (WHAT + 9, "install"),
    )


def order_line(row: OrderRow, width: int, *, cursor: bool) -> Content:
    """Return one row, reversed and marked where the cursor stands."""
    style = CURSOR if cursor else row.role
    drawn = (
        Line(width)
        .put(0, ">" if cursor else "", style)
        .put(1, row.marks, style)
        .end(JOINT, row.joint, style)
        .put(NUMBER, own_number(row.number, row.kind), style)
        .put(KIND, row.kind, style)
        .end(LENGTH, row.length, style)
        .end(TO_HERE, row.to_here, style)
        .end(BOTTOM, row.bottom, style)
        .put(WHAT, row.what[: max(0, width - 1 - WHAT)], style)
    )
    return drawn.put(width - 1, " ", style).content(fill_style=style if cursor else INK)
