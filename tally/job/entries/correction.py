"""A correction: it names the entry it corrects, and nothing is lost."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from tally.job.entry import Entry, entry_kind
from tally.job.job import Job


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Correction(Entry):
    """An earlier entry is put right, or struck where there is no `instead`.

    `instead` holds every field of the entry as it should have been; one left out is at its
    default. The entry's number, time and author stay.
    """

    KIND = "correction"

    of: int
    reason: str
    instead: dict[str, Any] | None = None

    def check(self, job: Job) -> str:
        """Refuse a correction of what is not there, or without a reason."""
        if not 1 <= self.of <= job.seq:
            return f"There is no entry {self.of} to correct; the last one is {job.seq}."
        if self.of in job.corrections:
            return f"Entry {self.of} is itself a correction; correct the entry that it names."
        return "" if self.reason.strip() else f"Say why entry {self.of} is corrected."

    def apply(self, job: Job) -> Job:
        """Note that this entry is a correction; `effective` puts it in place."""
        return replace(job, corrections=(*job.corrections, self.seq))

    def said(self) -> str:
        """Return the entry in words."""
        what = "struck" if self.instead is None else "corrected"
        return f"entry {self.of} {what}: {self.reason}"
