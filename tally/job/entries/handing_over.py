"""The job handed over: by whom to whom, what to watch, and when the next person took over."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.entry import Entry, clock, entry_kind
from tally.job.job import Job
from tally.job.kept_records import Handover
from tally.job.setup import same_name
from tally.job.witnessing import unsigned


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class HandedOver(Entry):
    """Whoever is at the keys hands over to the next person by name."""

    KIND = "handed over"

    to: str
    watch: str = ""
    """What the next person has to watch, in words."""
    taken: bool = False
    """Whether the next person stands by and takes over with the same entry."""

    def check(self, job: Job) -> str:
        """Refuse a stranger, and somebody who hands over to himself."""
        if job.setup is None:
            return "The job is not set up yet; there is nothing to hand over."
        if self.to not in job.people:
            return f"{self.to} is not among the people of this job; add the person first (F2, a)."
        if same_name(self.to, self.by):
            return f"{self.to} is at the keys; name the person who takes over."
        return ""

    def demand(self, job: Job) -> str:
        """Want whoever hands over on the job, and the PIN of whoever signs and has one."""
        if self.by not in job.people:
            return f"{self.by} is not among the people of this job; say who is at the keys (w)."
        return unsigned(job, (self.by, self.to) if self.taken else (self.by,), self.signed)

    def apply(self, job: Job) -> Job:
        """Keep it; until it is taken over the book opens with it."""
        one = Handover(self.seq, self.by, self.to, self.watch, self.at, self.signed)
        if self.taken:
            one = replace(one, taken_at=self.at, taken_by=self.to, taken_seq=self.seq)
        return replace(job, handovers=(*job.handovers, one))

    def said(self) -> str:
        """Return the entry in words."""
        how = "who took over" if self.taken else "who has not taken over yet"
        watch = f"; to watch: {self.watch}" if self.watch else ""
        return f"{self.by} handed over to {self.to}, {how}{watch}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class TakenOver(Entry):
    """The next person takes over what was handed over."""

    KIND = "taken over"

    name: str

    def check(self, job: Job) -> str:
        """Refuse where nothing waits to be taken over, and a stranger."""
        waiting = job.waiting_handover
        if waiting is None:
            return "Nothing waits to be taken over; hand over first (F2, h)."
        if self.name not in job.people:
            return f"{self.name} is not among the people of this job; add the person first (F2, a)."
        if same_name(self.name, waiting.by):
            return f"{self.name} handed over; another person takes over."
        return ""

    def demand(self, job: Job) -> str:
        """Want the PIN of whoever takes over and has one."""
        return unsigned(job, (self.name,), self.signed)

    def ask(self, job: Job) -> str:
        """Ask where another person takes over than the one it was handed to."""
        waiting = job.waiting_handover
        if waiting is None or same_name(waiting.to, self.name):
            return ""
        return (
            f"{waiting.by} handed over to {waiting.to} at {clock(waiting.at)}, not to {self.name}; "
            "say why."
        )

    def apply(self, job: Job) -> Job:
        """Close the handover."""
        waiting = job.waiting_handover
        if waiting is None:
            return job
        signed = (*waiting.signed, *self.signed)
        taken = replace(
            waiting,
            taken_at=self.at,
            taken_by=self.name,
            taken_seq=self.seq,
            taken_why=self.despite,
            signed=signed,
        )
        return replace(job, handovers=(*job.handovers[:-1], taken))

    def said(self) -> str:
        """Return the entry in words."""
        return f"{self.name} took over"
