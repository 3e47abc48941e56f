"""The job's set-up, its people, and notes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from tally.errors import ShoedownError
from tally.job.entry import Entry, entry_kind
from tally.job.job import ON_RACK, Item, Job
from tally.job.pins import Pin
from tally.job.setup import Person, Planned, Setup, same_name
from tally.job.workable import checklist_fault, set_up_fault
from tally.steps.model import GATES, Checklist
from tally.steps.model import from_fields as checklist_from_fields


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp(Entry):
    """The job was set up, or its set-up was changed."""

    KIND = "set up"

    setup: Setup

    def check(self, job: Job) -> str:
        """Refuse what no job can be worked with, and what would change the book behind its back."""
        return set_up_fault(self.setup) or (self._against(job) if job.setup else "")

    def bound(self, instead: Entry | None) -> str:
        """Return why this set-up cannot be corrected to another, or nothing."""
        if not isinstance(instead, SetUp):
            return "the set-up is not struck; change it instead."
        if _measured(instead.setup) != _measured(self.setup):
            return "the tally unit and how joints are measured stay as they were set up."
        return set_up_fault(instead.setup)

    def _against(self, job: Job) -> str:
        """Return what a later set-up may not change once there is pipe in the book, or nothing."""
        if not job.items:
            return ""
        old, new = job.known, self.setup
        if _measured(old) != _measured(new):
            return "The tally unit and how joints are measured stay as they were set up."
        gone = [pipe.name for pipe in old.pipes if pipe not in new.pipes]
        if gone or old.pipes[0] != new.pipes[0] or old.filling.closed_end != new.filling.closed_end:
            return (
                "The pipe sizes and whether the pipe runs in closed stay as they were set up; "
                "correct that entry, so that every volume is worked out anew."
            )
        for one in new.items:
            item = job.items.get(one.number)
            if item is not None and not _still_planned(item) and one not in old.items:
                return (
                    f"Item {one.number} is in the book already and is {item.state}; correct the "
                    "entry that it came with."
                )
        return ""

    def apply(self, job: Job) -> Job:
        """Take the set-up over; what came on location or was run keeps its place.

        A running list that was set since stays, unless the set-up comes with another order.
        """
        if job.setup is None or job.setup.order != self.setup.order:
            job = replace(
                job, order=self.setup.order, locked=(), aside=(), list_rules=None, list_set=0
            )
        kept = {number: item for number, item in job.items.items() if not _still_planned(item)}
        planned = {one.number: _item(one) for one in self.setup.items if one.number not in kept}
        return replace(
            job,
            setup=self.setup,
            programmed=self.by
            if _programme(job.setup) != _programme(self.setup)
            else job.programmed,
            people={**job.people, **{one.name: one for one in self.setup.people}},
            items={**planned, **kept},
        )

    def said(self) -> str:
        """Return the entry in words."""
        what = f"set-up changed ({self.despite})" if self.despite else "set up"
        return f"{what}: {self.setup.well.name}, {self.setup.well.string}"


def _programme(setup: Setup | None) -> tuple[Any, ...]:
    """Return what a second person works the volumes, sacks and pressures out from."""
    return (setup.fluids, setup.pumping) if setup else ()


def _measured(setup: Setup) -> tuple[str, ...]:
    return setup.lengths.unit, setup.lengths.measured_as, setup.lengths.make_up_loss


def _item(one: Planned) -> Item:
    return Item(one.number, one.kind, one.length, one.typed, one.pipe, one.description)


def _still_planned(item: Item) -> bool:
    """Whether an item came with the set-up and nothing has happened to it yet."""
    return item.received == 0 and item.state == ON_RACK


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class ListTaken(Entry):
    """A checklist was taken into the book, as it stood then."""

    KIND = "checklist taken"

    checklist: dict[str, Any]

    def check(self, job: Job) -> str:
        """Refuse a list that cannot be worked, or one that is being worked already."""
        try:
            taken = checklist_from_fields(self.checklist)
        except ShoedownError as fault:
            return f"The checklist cannot be taken: {fault}"
        return checklist_fault(taken) or self._against(job, taken)

    def _against(self, job: Job, taken: Checklist) -> str:
        if any(list_id == taken.id for list_id, _ in job.steps):
            return f"Steps of the list '{taken.id}' are entered already; it stays as it was taken."
        others = (plan for plan in job.lists.values() if plan.id != taken.id)
        gates = {step.id: plan.id for plan in others for step in plan.steps if step.id in GATES}
        for step in taken.steps:
            if step.id in gates:
                return (
                    f"The list '{gates[step.id]}' of this book has the step '{step.id}' that "
                    "opens a gate; a gate is opened by one list only."
                )
        return ""

    def apply(self, job: Job) -> Job:
        """Keep the list."""
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
        """Refuse a person without a name or a role, or one who is on the job already."""
        if not self.name.strip():
            return "Type the person's name."
        if not self.role.strip():
            return f"Say what {self.name} does on the job."
        other = next((one for one in job.people.values() if same_name(one.name, self.name)), None)
        return f"{other.name} is on the job already, as {other.role}." if other else ""

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
        return "" if self.text.strip() else "The note is empty; type what happened."

    def apply(self, job: Job) -> Job:
        """Keep the note."""
        return replace(job, notes=(*job.notes, (self.seq, self.text)))

    def said(self) -> str:
        """Return the entry in words."""
        return f"note: {self.text}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class PinSet(Entry):
    """Somebody set a PIN, or changed it; the old one signs the change."""

    KIND = "pin set"

    name: str
    pin: Pin

    def check(self, job: Job) -> str:
        """Refuse a stranger, and a change that the old PIN does not sign."""
        if self.name not in job.people:
            return f"{self.name} is not among the people of this job; add the person first."
        if self.name in job.pins and self.name not in self.signed:
            return f"{self.name} has a PIN; only that PIN can change it."
        return ""

    def apply(self, job: Job) -> Job:
        """Keep what is kept of the PIN."""
        return replace(job, pins={**job.pins, self.name: self.pin})

    def said(self) -> str:
        """Return the entry in words."""
        return f"PIN set for {self.name}"
