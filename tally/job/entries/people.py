"""The job's set-up, its people, and notes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from tally.job.entry import Entry, entry_kind
from tally.job.job import Item, Job
from tally.job.setup import Person, Setup
from tally.steps.model import from_fields as checklist_from_fields


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp(Entry):
    """The job was set up, or its set-up was changed."""

    KIND = "set up"

    setup: Setup

    def check(self, job: Job) -> str:
        """Refuse a change of the tally unit: the book's lengths are counted in it."""
        if job.setup is not None and job.setup.lengths != self.setup.lengths and job.items:
            return "The tally unit and how joints are measured stay as they were set up."
        return ""

    def apply(self, job: Job) -> Job:
        """Take the set-up over; items already in the book keep their place."""
        planned = {
            one.number: Item(one.number, one.kind, one.length, one.typed, one.pipe, one.description)
            for one in self.setup.items
            if one.number not in job.items
        }
        return replace(
            job,
            setup=self.setup,
            people={**job.people, **{one.name: one for one in self.setup.people}},
            items={**planned, **job.items},
            order=self.setup.order,
        )

    def said(self) -> str:
        """Return the entry in words."""
        return f"set up: {self.setup.well.name}, {self.setup.well.string}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class ListTaken(Entry):
    """A checklist was taken into the book, as it stood then."""

    KIND = "checklist taken"

    checklist: dict[str, Any]

    def apply(self, job: Job) -> Job:
        """Keep the list; steps already entered stay."""
        taken = checklist_from_fields(self.checklist)
        return replace(job, lists={**job.lists, taken.id: taken})

    def said(self) -> str:
        """Return the entry in words."""
        return f"checklist taken: {self.checklist.get('title', '')}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class PersonAdded(Entry):
    """Somebody joined the job."""

    KIND = "person added"

    name: str
    role: str

    def check(self, job: Job) -> str:
        """Refuse a name without letters."""
        return "" if self.name.strip() else "Type the person's name."

    def apply(self, job: Job) -> Job:
        """Add the person."""
        return replace(
            job, people={**job.people, self.name: Person(name=self.name, role=self.role)}
        )

    def said(self) -> str:
        """Return the entry in words."""
        return f"{self.name} joined as {self.role}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Note(Entry):
    """Something worth writing down."""

    KIND = "note"

    text: str

    def check(self, job: Job) -> str:
        """Refuse an empty note."""
        return "" if self.text else "The note is empty; type what happened."

    def apply(self, job: Job) -> Job:
        """Keep the note."""
        return replace(job, notes=(*job.notes, (self.seq, self.text)))

    def said(self) -> str:
        """Return the entry in words."""
        return f"note: {self.text}"
