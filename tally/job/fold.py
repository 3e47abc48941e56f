"""From entries to the job: corrections put in place, then each entry on top of the last."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import fields
from types import MappingProxyType
from typing import Any

from tally.errors import EntryRefused, InputError, ShoedownError
from tally.job.entries.correction import Correction
from tally.job.entries.people import PinSet, SetUp
from tally.job.entries.readings import Readings
from tally.job.entries.signing import ReportSigned
from tally.job.entry import Entry, from_fields
from tally.job.in_clear import told_in_clear
from tally.job.job import EMPTY, Job
from tally.job.keeping import unfit
from tally.units import shown

__all__ = ["EMPTY", "carry_on", "effective", "fold", "fold_on", "substitute"]

_OWN = ("kind", "by", "at", "seq")
"""What a correction leaves as it is."""
MOST_KEPT = 500
_SUBSTITUTED: dict[tuple[int, int], tuple[Entry, Entry, Entry]] = {}
"""What stands in an entry's place by the two entries themselves, which are kept with it.

Each new correction puts all of them in place again, and an entry may hold a list of 300 joints.
"""
_NONE: Mapping[int, str] = MappingProxyType({})


def effective(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """Return the entries as they stand: each corrected one replaced, each struck one left out.

    The last correction of an entry that can be put in place counts. The corrections themselves
    stay in the list, so that the job knows of them.
    """
    return _put_in_place(tuple(entries))[0]


def substitute(entry: Entry, correction: Correction) -> Entry | None:
    """Return what stands in an entry's place; its number, time and author stay its own.

    What a PIN confirmed was the entry as first made, so the signature does not carry over.

    Raises
    ------
    InputError
        If the correction names what the entry does not have, or holds what cannot be read.
    """
    if correction.instead is None:
        return None
    kept = _SUBSTITUTED.get((id(entry), id(correction)))
    if kept is not None:
        return kept[2]
    instead = _substitute(entry, correction.instead, correction.reason)
    if len(_SUBSTITUTED) >= MOST_KEPT:
        _SUBSTITUTED.clear()
    _SUBSTITUTED[id(entry), id(correction)] = (entry, correction, instead)
    return instead


def _substitute(entry: Entry, changed: Mapping[str, Any], reason: str) -> Entry:
    known = {one.name for one in fields(entry)}.difference(_OWN)
    for name in changed:
        if name not in known:
            raise InputError(f"a '{entry.KIND}' entry has no field '{shown(str(name))}' to change.")
    own = {"by": entry.by, "at": entry.at, "seq": entry.seq}
    instead = {"despite": reason, **changed}
    instead.pop("signed", None)
    return from_fields({"kind": entry.KIND, **instead, **own})


def fold(entries: Iterable[Entry]) -> Job:
    """Return what the entries add up to; what a correction made impossible is an exception."""
    return carry_on(EMPTY, *_put_in_place(tuple(entries)))


def carry_on(job: Job, entries: Iterable[Entry], refused: Mapping[int, str] = _NONE) -> Job:
    """Return the job with entries on top that are in the book already.

    A correction among them is only noted: it was put in place before, or `refused` says by its
    number why it could not be.
    """
    for entry in entries:
        corrects = isinstance(entry, Correction)
        fault = refused.get(entry.seq, "") if corrects else entry.check(job)
        job = _advanced(_impossible(job, entry, fault) if fault else entry.apply(job), entry)
    return job


def fold_on(job: Job, entry: Entry) -> Job:
    """Return the job with one new entry on top.

    Raises
    ------
    EntryRefused
        If the entry cannot be kept or the job does not allow it, or a person should be asked
        first and no reason is given.
    """
    refused = (
        unfit(entry)
        or _unsigned(job, entry)
        or told_in_clear(job, entry)
        or entry.check(job)
        or entry.demand(job)
    )
    if refused:
        raise EntryRefused(refused)
    question = entry.ask(job)
    if question and not entry.despite.strip():
        raise EntryRefused(question, question=True)
    return _advanced(entry.apply(job), entry)


def _unsigned(job: Job, entry: Entry) -> str:
    """Return whose PIN an entry names though none is set, or nothing."""
    strangers = [name for name in entry.signed if name not in job.pins]
    return f"{strangers[0]} has no PIN in this book and cannot sign with one." if strangers else ""


def checked_correction(entries: tuple[Entry, ...], correction: Correction) -> Correction:
    """Return a correction that can be put in place, or raise EntryRefused."""
    target = next((entry for entry in entries if entry.seq == correction.of), None)
    try:
        _put_right(target, correction)
    except ShoedownError as fault:
        raise EntryRefused(f"Entry {correction.of} cannot be corrected so: {fault}") from fault
    return correction


def _put_in_place(said: tuple[Entry, ...]) -> tuple[tuple[Entry, ...], Mapping[int, str]]:
    """Return the entries as they stand, and why a correction among them does not count."""
    corrections = [entry for entry in said if isinstance(entry, Correction)]
    if not corrections:
        return said, _NONE
    by_seq = {entry.seq: entry for entry in said}
    stands: dict[int, Entry | None] = {}
    refused: dict[int, str] = {}
    for correction in corrections:
        try:
            stands[correction.of] = _put_right(by_seq.get(correction.of), correction)
        except ShoedownError as fault:
            refused[correction.seq] = str(fault)
    standing = (stands.get(entry.seq, entry) for entry in said)
    return tuple(entry for entry in standing if entry is not None), refused


def _put_right(target: Entry | None, correction: Correction) -> Entry | None:
    """Return what stands in the place of the entry that a correction names."""
    if target is None or target.seq >= correction.seq > 0:
        raise InputError(f"there is no entry {correction.of} before it.")
    if isinstance(target, Correction):
        raise InputError(f"entry {correction.of} is itself a correction.")
    if isinstance(target, PinSet):
        raise InputError("a PIN is changed with the PIN itself.")
    if isinstance(target, ReportSigned):
        raise InputError("a signature stands; what was signed is amended, and signed again.")
    if isinstance(target, Readings):
        raise InputError("readings of a gauge stand as they were read.")
    instead = substitute(target, correction)
    if isinstance(target, SetUp):
        fault = target.bound(instead)
        if fault:
            raise InputError(fault)
    return instead


def _impossible(job: Job, entry: Entry, refused: str) -> Job:
    what = f"Entry {entry.seq} ({entry.worded(job)}) no longer fits: {refused}"
    return job.with_exception(entry.seq, what, entry.by, entry.at)


def _advanced(job: Job, entry: Entry) -> Job:
    return job.but(seq=max(entry.seq, job.seq), last=entry.at)
