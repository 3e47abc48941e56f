"""A list for trouble, started by somebody when it is wanted."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.cementing_records import ListStart
from tally.job.entry import Entry, clock, entry_kind
from tally.job.job import Job
from tally.job.wet_shoe import marked


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class ListStarted(Entry):
    """From here on the steps of this list are due, beside those of the page."""

    KIND = "list started"

    list_id: str
    why: str

    def check(self, job: Job) -> str:
        """Refuse a list that the book has not, one that waits for nobody, and one twice."""
        plan = job.lists.get(self.list_id)
        if job.setup is None or plan is None:
            return f"This book has no list '{self.list_id}'."
        if not plan.on_call:
            return f"The list '{plan.title}' is worked in every job; it is not started."
        if self.list_id in job.started:
            one = job.started[self.list_id]
            return (
                f"The list '{plan.title}' was started at {clock(one.at)} by {one.by}; "
                "write in a note what is different this time."
            )
        return "" if self.why.strip() else "Say what was seen that this list is started for."

    def apply(self, job: Job) -> Job:
        """Keep who started it, when and why."""
        started = {**job.started, self.list_id: ListStart(self.seq, self.why, self.by, self.at)}
        return marked(job, replace(job, started=started), self)

    def said(self) -> str:
        """Return the entry in words."""
        return f"list started, {self.list_id.replace('-', ' ')}: {self.why}"
