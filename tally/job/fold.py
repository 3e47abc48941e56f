"""From entries to the job: corrections put in place, then each entry on top of the last."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import tally.job.entries
from tally.errors import EntryRefused, ShoedownError
from tally.job.entries.correction import Correction
from tally.job.entry import Entry, from_fields
from tally.job.job import EMPTY, Job

__all__ = ["EMPTY", "carry_on", "effective", "fold", "fold_on", "substitute"]

_KINDS_LOADED = tally.job.entries


def effective(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """Return the entries as they stand: each corrected one replaced, each struck one left out.

    The last correction of an entry counts. The corrections themselves stay in the list, so that
    the job knows of them.
    """
    said = tuple(entries)
    latest = {entry.of: entry for entry in said if isinstance(entry, Correction)}
    standing = (
        substitute(entry, latest[entry.seq]) if entry.seq in latest else entry for entry in said
    )
    return tuple(entry for entry in standing if entry is not None)


def substitute(entry: Entry, correction: Correction) -> Entry | None:
    """Return what stands in an entry's place; its number, time and author stay its own."""
    if correction.instead is None:
        return None
    own = {"by": entry.by, "at": entry.at, "seq": entry.seq}
    instead = {"despite": correction.reason, **correction.instead}
    return from_fields({"kind": entry.KIND, **instead, **own})


def fold(entries: Iterable[Entry]) -> Job:
    """Return what the entries add up to; what a correction made impossible is an exception."""
    return carry_on(EMPTY, effective(entries))


def carry_on(job: Job, entries: Iterable[Entry]) -> Job:
    """Return the job with entries on top that are in the book already.

    A correction among them is only noted: it was put in place before, or what it names was
    struck and cannot be looked for.
    """
    for entry in entries:
        refused = "" if isinstance(entry, Correction) else entry.check(job)
        job = _advanced(_impossible(job, entry, refused) if refused else entry.apply(job), entry)
    return job


def fold_on(job: Job, entry: Entry) -> Job:
    """Return the job with one new entry on top.

    Raises
    ------
    EntryRefused
        If the job does not allow the entry, or a person should be asked first and no reason
        is given.
    """
    refused = entry.check(job)
    if refused:
        raise EntryRefused(refused)
    question = entry.ask(job)
    if question and not entry.despite:
        raise EntryRefused(question, question=True)
    return _advanced(entry.apply(job), entry)


def checked_correction(entries: tuple[Entry, ...], correction: Correction) -> Correction:
    """Return a correction that can be put in place, or raise EntryRefused."""
    target = next((entry for entry in entries if entry.seq == correction.of), None)
    if target is None or isinstance(target, Correction):
        raise EntryRefused(f"Entry {correction.of} cannot be corrected.")
    try:
        substitute(target, correction)
    except (ShoedownError, TypeError, ValueError, LookupError, AttributeError) as fault:
        raise EntryRefused(f"Entry {correction.of} cannot be corrected so: {fault}") from fault
    return correction


def _impossible(job: Job, entry: Entry, refused: str) -> Job:
    what = f"Entry {entry.seq} ({entry.said()}) no longer fits: {refused}"
    return job.with_exception(entry.seq, what, entry.by, entry.at)


def _advanced(job: Job, entry: Entry) -> Job:
    return replace(job, seq=max(entry.seq, job.seq), last=entry.at)
