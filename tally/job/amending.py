"""What a correction, or a set-up that comes after another one, puts in the place of what stood."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass, replace

from tally.errors import ShoedownError
from tally.job.differing import Changed, differing, measured
from tally.job.entries.correction import Correction
from tally.job.entries.people import SetUp
from tally.job.entries.pipe import Received
from tally.job.entries.running import ItemRun
from tally.job.entry import Entry
from tally.job.fold import substitute
from tally.job.job import Job


@dataclass(frozen=True, slots=True)
class Amended:
    """An entry as it stood, what stands in its place, and both of each value that differs."""

    of: int
    was: Entry
    now: Entry | None
    """Nothing where it was struck."""
    values: tuple[Changed, ...]


def amending(entries: Iterable[Entry], entry: Entry, upto: int) -> int:
    """Return which of the first entries another one puts right; 0 where it is none of them."""
    if isinstance(entry, Correction) and entry.of <= upto:
        return entry.of
    if isinstance(entry, SetUp):
        before = [e.seq for e in entries if isinstance(e, SetUp) and e.seq < entry.seq]
        return before[-1] if before and before[-1] <= upto else 0
    return 0


def all_amended(job: Job, entries: Iterable[Entry]) -> dict[int, Amended]:
    """Return what each entry puts right in an earlier one, by the number of the one that does.

    One that could not be put in place is left out: the book goes by what stood before.
    """
    unit = job.setup.step.unit if job.setup else ""
    first: dict[int, Entry] = {}
    stands: dict[int, Entry | None] = {}
    found: dict[int, Amended] = {}
    set_up = 0
    for entry in entries:
        of = entry.of if isinstance(entry, Correction) else set_up
        was = stands.get(of)
        if was is not None and isinstance(entry, Correction | SetUp):
            with suppress(ShoedownError, TypeError):
                now = substitute(first[of], entry) if isinstance(entry, Correction) else entry
                values = () if now is None else _values(stands.values(), was, now, unit)
                found[entry.seq] = Amended(of, was, now, values)
                if isinstance(entry, Correction):
                    stands[of] = now
        if isinstance(entry, SetUp):
            set_up = entry.seq
        first[entry.seq] = stands[entry.seq] = entry
    return found


def changed_words(job: Job, entries: Iterable[Entry], seq: int) -> str:
    """Return both of each value that an entry puts right, in one line; or nothing."""
    found = all_amended(job, entries).get(seq)
    return told(found) if found else ""


def told(found: Amended) -> str:
    """Return both of each value that differs, in one line."""
    return "; ".join(str(each) for each in found.values)


def _values(
    stood: Iterable[Entry | None], was: Entry, now: Entry, unit: str
) -> tuple[Changed, ...]:
    """Return both values; the length of an item that was run as listed stands in its list."""
    changed = differing(was, now, unit)
    if not isinstance(was, ItemRun) or was.length is not None:
        return changed
    came = (each for entry in stood if isinstance(entry, Received) for each in entry.items)
    typed = [each.typed for each in came if each.number == was.number]
    if not typed:
        return changed
    listed = f"{measured(typed[-1], unit)}, as listed"
    return tuple(replace(one, was=listed) if one.what == "length" else one for one in changed)
