"""An open exception closed by a named person."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.entry import Entry, entry_kind
from tally.job.job import Job
from tally.job.step_wants import not_second
from tally.job.witnessing import unsigned


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class ExceptionClosed(Entry):
    """Somebody answered for an open exception."""

    KIND = "exception closed"

    of: int
    reason: str
    second: str = ""
    """The second person, where a critical thing is closed."""

    def check(self, job: Job) -> str:
        """Refuse an entry with no open exception, or a closing without words."""
        if not any(each.seq == self.of for each in job.open_exceptions()):
            return f"Entry {self.of} has no open exception; name one that is open."
        return "" if self.reason.strip() else "Say how the exception was settled."

    def demand(self, job: Job) -> str:
        """Want the PIN of whoever closes somebody else's, and two people for a critical thing."""
        still = [each for each in job.open_exceptions() if each.seq == self.of]
        critical = any(each.critical for each in still)
        if critical and not self.second:
            return (
                "What concerns a gate passed, a gain, a loss or a suspect shoe is closed by two "
                "people; name the second person."
            )
        others = any(each.by != self.by for each in still)
        return (not_second(job, self.by, self.second) if self.second else "") or unsigned(
            job, (self.by if others or critical else "", self.second), self.signed
        )

    def apply(self, job: Job) -> Job:
        """Close what the entry left open."""
        closed = tuple(
            replace(each, closed_by=self.by, closing=self._how())
            if each.seq == self.of and not each.closed_by
            else each
            for each in job.exceptions
        )
        return replace(job, exceptions=closed)

    def said(self) -> str:
        """Return the entry in words."""
        return f"exception of entry {self.of} closed: {self._how()}"

    def _how(self) -> str:
        return self.reason + (f" (second person: {self.second})" if self.second else "")
