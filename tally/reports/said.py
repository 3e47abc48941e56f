"""What the entries say beside the job: remarks on items, corrections, who closed what."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from tally.errors import ShoedownError
from tally.job.amending import Amended, all_amended
from tally.job.differing import Changed
from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.correction import Correction
from tally.job.entries.pipe import Received, SentAway
from tally.job.entries.running import Fitted, ItemRun, LaidDown, PulledOut, Rejected
from tally.job.entry import Entry
from tally.job.fold import effective, substitute
from tally.job.job import Job, Made


@dataclass(frozen=True, slots=True)
class Accepted:
    """A difference that somebody accepted, and how it was settled if it was."""

    seq: int
    what: str
    by: str
    at: str
    closed_by: str
    closed_at: str
    closing: str


@dataclass(frozen=True, slots=True)
class Corrected:
    """One correction: the entry as it was, as it is now, who, when and why."""

    seq: int
    of: int
    was: str
    now: str
    by: str
    at: str
    reason: str
    values: tuple[Changed, ...] = ()
    """Both of each value that differs."""

    @property
    def unsaid(self) -> str:
        """Both of each value, in words, where the entry in words does not tell them all."""
        told = self.was != self.now and len(self.values) < 2
        return "" if told else "; ".join(str(each) for each in self.values)


class Said:
    """The entries of a book, looked up by what they are about."""

    def __init__(self, entries: Iterable[Entry], job: Job) -> None:
        self._job = job
        self._all = tuple(entries)
        self._by_seq = {entry.seq: entry for entry in self._all}
        self._standing = {entry.seq: entry for entry in effective(self._all)}
        self._corrected = {e.of: e for e in self._all if isinstance(e, Correction)}
        self._about: dict[str, list[Entry]] = {}
        for entry in self._standing.values():
            self._about.setdefault(getattr(entry, "number", ""), []).append(entry)

    def remarks(self, made: Made) -> str:
        """Return what was said of an item of the string that the job itself does not keep."""
        parts = [
            self._pulled(made),
            self.remeasured(made.number),
            self._as_run(made),
            self._fitted(made),
        ]
        return "; ".join(part for part in parts if part)

    def _pulled(self, made: Made) -> str:
        before = [
            entry.reason or "no reason given"
            for entry in self._about.get(made.number, [])
            if isinstance(entry, PulledOut) and entry.seq < made.seq
        ]
        return f"pulled out before ({', '.join(before)})" if before else ""

    def _as_run(self, made: Made) -> str:
        entry = self._standing.get(made.seq)
        if not isinstance(entry, ItemRun):
            return ""
        measured = f"measured {entry.typed} when run" if entry.length is not None else ""
        correction = self._corrected.get(made.seq)
        if correction is not None:
            why = f"corrected by entry {correction.seq}: {correction.reason}"
        else:
            why = f"accepted: {entry.despite}" if entry.despite else ""
        return "; ".join(part for part in (measured, why) if part)

    def remeasured(self, number: str) -> str:
        """Return how the length of an item was corrected in the list that it came in."""
        return "; ".join(
            f"length corrected by entry {seq}: {one.was}, now {one.now}"
            for seq, found in self.put_right.items()
            if isinstance(found.was, Received) and isinstance(found.now, Received)
            for one in found.values
            if one.what.endswith(f" {number} length")
        )

    def _fitted(self, made: Made) -> str:
        later = [
            f"entry {entry.seq}" + (f", {entry.despite}" if entry.despite else "")
            for entry in self._about.get(made.number, [])
            if isinstance(entry, Fitted) and entry.seq > made.seq
        ]
        return f"what is installed was noted later: {'; '.join(later)}" if later else ""

    def put_aside(self, number: str) -> tuple[str, str]:
        """Return when, and by whom, an item off the string came to where it stands now."""
        kinds = (Rejected, LaidDown, SentAway, PulledOut)
        acts = [entry for entry in self._about.get(number, []) if isinstance(entry, kinds)]
        if acts:
            return acts[-1].at, acts[-1].by
        for entry in self._standing.values():
            if isinstance(entry, Received) and any(one.number == number for one in entry.items):
                return entry.at, entry.by
        return "", ""

    def corrections(self) -> tuple[Corrected, ...]:
        """Return every correction in the order in which they were made."""
        return tuple(
            Corrected(
                entry.seq,
                entry.of,
                self._by_seq[entry.of].worded(self._job) if entry.of in self._by_seq else "",
                self._now(entry),
                entry.by,
                entry.at,
                entry.reason,
                self.put_right[entry.seq].values if entry.seq in self.put_right else (),
            )
            for entry in self._all
            if isinstance(entry, Correction)
        )

    @cached_property
    def put_right(self) -> dict[int, Amended]:
        """What each entry puts right in an earlier one, by its own number."""
        return all_amended(self._job, self._all)

    def _now(self, correction: Correction) -> str:
        target = self._by_seq.get(correction.of)
        if correction.instead is None or target is None:
            return "struck"
        try:
            stands = substitute(target, correction)
        except (ShoedownError, TypeError):
            return "unreadable"
        return stands.worded(self._job) if stands is not None else "struck"

    def accepted(self, job: Job) -> tuple[Accepted, ...]:
        """Return the exceptions of the job, with the time at which each was closed."""
        return tuple(
            Accepted(
                each.seq,
                each.what,
                each.by,
                each.at,
                each.closed_by,
                self._closed_at(each.seq) if each.closed_by else "",
                each.closing,
            )
            for each in job.exceptions
        )

    def _closed_at(self, seq: int) -> str:
        closings = (
            entry.at
            for entry in self._standing.values()
            if isinstance(entry, ExceptionClosed) and entry.of == seq
        )
        return next(closings, "")
