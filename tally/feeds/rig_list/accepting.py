"""Taking a list into the book: read back against the rack, then one entry."""

from __future__ import annotations

from dataclasses import dataclass

from tally.errors import InputError
from tally.feeds.rig_list.asking import OVERALL
from tally.feeds.rig_list.checks import about_a_loss
from tally.feeds.rig_list.items import ListItem
from tally.feeds.rig_list.preview import Preview
from tally.job.entries.pipe import Arrival, Received
from tally.job.entry import several
from tally.units import clean, shown


@dataclass(frozen=True, slots=True)
class ReadBack:
    """What a person counted and added up on the rack."""

    count: int
    total: int
    """As measured there, in steps."""


def open_questions(preview: Preview) -> str:
    """Return why a list cannot be taken yet, or nothing."""
    if preview.blocked:
        return preview.blocked
    if preview.questions:
        return preview.questions[0].sentence
    return ""


def difference(preview: Preview, read: ReadBack) -> str:
    """Return how what was read on the rack differs from the list, or nothing.

    The total is held against the lengths as measured: overall ones before their make-up loss.
    """
    step = preview.rules.step
    parts = []
    if read.count != preview.count:
        parts.append(f"the rack has {read.count} items, the list {preview.count}")
    apart = read.total - preview.total_measured
    if apart:
        parts.append(
            f"the rack measures {step.with_unit(read.total)}, "
            f"the list {step.with_unit(preview.total_measured)}"
        )
    if not parts:
        return ""
    loss = ""
    if read.count == preview.count and about_a_loss(apart / preview.count, preview.rules):
        loss = f" That is about the make-up loss ({preview.rules.loss_text}) of each item."
    said = "; ".join(parts)
    return f"{said[0].upper()}{said[1:]}.{loss}"


def left_out(preview: Preview) -> str:
    """Return how many rows cannot be taken, in a sentence, or nothing."""
    count = len(preview.left_out)
    if not count:
        return ""
    first = [preview.items[place].place for place in sorted(preview.left_out)][:10]
    more = f" and {count - len(first)} more" if count > len(first) else ""
    rows = "row" if count == 1 else "rows"
    return (
        f"{several(count, 'row')} cannot be taken and would be left out: "
        f"{rows} {', '.join(map(str, first))}{more}."
    )


def received(
    preview: Preview, by: str, at: str, *, read: ReadBack | None, reason: str = ""
) -> Received:
    """Return the one entry that a list becomes.

    Parameters
    ----------
    preview : Preview
        The list, every question answered
    by, at : str
        Who takes it, and when
    read : ReadBack, optional
        The count and the total read on the rack; nothing if nobody read them back
    reason : str
        The answer to a difference, to rows left out or to doubts

    Raises
    ------
    InputError
        If a question is open, or no row can be taken.
    """
    refused = open_questions(preview)
    if refused:
        raise InputError(refused)
    name = preview.file.name
    return Received(
        by=by,
        at=at,
        items=tuple(_arrival(preview, item) for item in preview.taken),
        source=name if name.isascii() and name.isprintable() else _kept(name),
        sha256=preview.file.sha256,
        read_back=_read_back(preview, read),
        despite=reason,
    )


def _kept(name: str) -> str:
    try:
        return clean(name)
    except InputError:
        return shown(name, 60)


def _arrival(preview: Preview, item: ListItem) -> Arrival:
    differs = preview.measured != preview.rules.measured_as and preview.measured != OVERALL
    return Arrival(
        number=item.number,
        length=item.length,
        typed=f"{item.typed} running" if differs else item.typed,
        kind=item.kind,
        pipe=item.pipe,
        description=item.description,
        serial=item.serial,
        heat=item.heat,
    )


def _read_back(preview: Preview, read: ReadBack | None) -> str:
    rows = len(preview.left_out)
    left = f"; {several(rows, 'row')} left out" if rows else ""
    doubts = len(preview.doubts)
    seen = f"; {several(doubts, 'doubt')} seen" if doubts else ""
    if read is None:
        return f"taken without reading back{left}{seen}"
    total = preview.rules.step.with_unit(read.total)
    return (
        f"{several(read.count, 'item')}, {total} {preview.measured}, read on the rack{left}{seen}"
    )
