"""A report signed: the entries it was made of are fixed by their count and their last hash."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.entry import Entry, entry_kind
from tally.job.job import Job
from tally.job.setup import same_name
from tally.job.signature import (
    MEANINGS,
    PREPARED,
    REPORTS,
    WITNESSED,
    Signature,
    reports_named,
)
from tally.job.unfinished import unfinished
from tally.job.witnessing import unsigned


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class ReportSigned(Entry):
    """Somebody put a name to one or more reports of the book as it stood."""

    KIND = "report signed"

    name: str
    role: str
    meaning: str
    reports: tuple[str, ...]
    entries: int
    head: str

    def check(self, job: Job) -> str:
        """Refuse what means nothing, and a signature that stands in another place."""
        if self.meaning not in MEANINGS:
            return f"'{self.meaning}' is no meaning of a signature; say {', '.join(MEANINGS)}."
        if not self.reports or len(set(self.reports)) < len(self.reports):
            return "Say which report is signed, each one once."
        strange = [key for key in self.reports if key not in REPORTS]
        if strange:
            return f"'{strange[0]}' is no report that is signed; say {', '.join(REPORTS)}."
        return self._place()

    def _place(self) -> str:
        if not self.seq or self.entries == self.seq - 1:
            return ""
        return (
            f"The report was signed up to entry {self.entries}, and this would be entry {self.seq}:"
            " the book has moved on. Look at the report again and sign that."
        )

    def out_of_place(self, count: int, head: str) -> str:
        """Return why this signature was not made on these entries, or nothing."""
        if (self.entries, self.head) == (count, head):
            return ""
        return (
            f"The signature of {self.name} was made on {self.entries} entries that end with the "
            f"hash {self.head[:12]}; here are {count} that end with {head[:12]}."
        )

    def demand(self, job: Job) -> str:
        """Want somebody of the job, the PIN of whoever has one, and a report that is finished."""
        person = job.people.get(self.name)
        if person is None:
            return f"{self.name} is not among the people of this job; add the person first."
        if not same_name(person.role, self.role):
            return f"{self.name} is on the job as {person.role}, not as {self.role}."
        return (
            unsigned(job, (self.name,), self.signed) or self._unfinished(job) or self._preparer(job)
        )

    def _unfinished(self, job: Job) -> str:
        for key in self.reports:
            lacks = unfinished(job, key)
            if lacks:
                return f"The {REPORTS[key]} cannot be signed yet: {lacks}."
        return ""

    def _preparer(self, job: Job) -> str:
        """Refuse whoever prepared a report as its witness."""
        if self.meaning != WITNESSED:
            return ""
        for one in job.signatures:
            shared = set(one.reports).intersection(self.reports)
            if shared and same_name(one.name, self.name) and one.meaning == PREPARED:
                return f"{self.name} prepared it and cannot be the witness as well."
        return ""

    def apply(self, job: Job) -> Job:
        """Keep the signature."""
        one = Signature(
            self.seq,
            self.name,
            self.role,
            self.meaning,
            self.at,
            self.name in self.signed,
            self.reports,
            self.entries,
            self.head,
        )
        return replace(job, signatures=(*job.signatures, one))

    def said(self) -> str:
        """Return the entry in words."""
        return f"{reports_named(self.reports)}: {self.meaning} by {self.name}, {self.role}"
