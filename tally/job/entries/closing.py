"""An open exception closed by a named person."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.entry import Entry, entry_kind
from tally.job.job import Job


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class ExceptionClosed(Entry):
    """Somebody answered for an open exception."""

    KIND = "exception closed"

    of: int
    reason: str

    def check(self, job: Job) -> str:
        """Refuse an entry with no open exception, or a closing without words."""
        if not any(each.seq == self.of for each in job.open_exceptions()):
            return f"Entry {self.of} has no open exception; name one that is open."
        return "" if self.reason.strip() else "Say how the exception was settled."

    def apply(self, job: Job) -> Job:
        """Close what the entry left open."""
        closed = tuple(
            replace(each, closed_by=self.by, closing=self.reason)
            if each.seq == self.of and not each.closed_by
            else each
            for each in job.exceptions
        )
        return replace(job, exceptions=closed)

    def said(self) -> str:
        """Return the entry in words."""
        return f"exception of entry {self.of} closed: {self.reason}"
