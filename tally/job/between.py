"""Which entry of another person came between what somebody saw and what they entered."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tally.errors import EntryRefused
from tally.job.entries.correction import Correction
from tally.job.entry import Entry, clock
from tally.job.fold import carry_on, fold, fold_on
from tally.job.job import Job


@dataclass(frozen=True, slots=True)
class Seen:
    """The job as a person saw it when they began an act, and how many entries it had."""

    job: Job
    count: int


def came_between(entry: Entry, seen: Seen, entries: Sequence[Entry]) -> Entry | None:
    """Return the entry since which the book answers otherwise than it would have then.

    Where none of them alone changes the answer, as for a signature that stands for one state of
    the book, it is the first one that was not seen. Nothing where nobody entered anything, or
    the answer was the same before.
    """
    new = entries[seen.count :]
    if not new:
        return None
    before = _answer(entry, seen.job)
    job = seen.job
    for place, one in enumerate(new, seen.count + 1):
        job = fold(entries[:place]) if isinstance(one, Correction) else carry_on(job, (one,))
        if _answer(entry, job) not in ("", before):
            return one
    return None if before else new[0]


def told_between(one: Entry, job: Job) -> str:
    """Return who entered what in between, and when."""
    return (
        f"It came in between: {one.by} entered at {clock(one.at)}, as entry {one.seq}: "
        f"{one.worded(job).rstrip('.')}."
    )


def _answer(entry: Entry, job: Job) -> str:
    try:
        fold_on(job, entry)
    except EntryRefused as refused:
        return str(refused)
    return ""
