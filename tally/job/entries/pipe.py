"""Joints and other items that come on location or leave it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.entry import Entry, entry_kind, several
from tally.job.job import ON_RACK, RUN, SENT_AWAY, Item, Job
from tally.job.workable import item_fault


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrival:
    """One item as it was counted in."""

    number: str
    length: int
    typed: str
    kind: str = "joint"
    pipe: str = ""
    description: str = ""
    serial: str = ""
    heat: str = ""


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Received(Entry):
    """Items came on location."""

    KIND = "received"

    items: tuple[Arrival, ...]
    source: str = ""
    """The name of the file or the list that they were read from."""
    sha256: str = ""
    """The SHA-256 of that file, as it was read."""
    read_back: str = ""
    """The count and the total that a person read on the rack, in words."""

    def check(self, job: Job) -> str:
        """Refuse numbers that are in the book already, or twice in the list."""
        if job.setup is None:
            return "The job is not set up yet; set it up before pipe is counted in."
        seen: set[str] = set()
        for one in self.items:
            if one.number in job.items or one.number in seen:
                return f"Number {one.number} is in the book already; a number is used only once."
            fault = item_fault(job.setup, one)
            if fault:
                return fault
            seen.add(one.number)
        return "" if self.items else "There is no item in the list; nothing was counted in."

    def apply(self, job: Job) -> Job:
        """Put the items on the rack."""
        new = {one.number: self._item(one) for one in self.items}
        joints = [one.length for one in self.items if one.kind == "joint"]
        return replace(
            job,
            items={**job.items, **new},
            received=job.received + len(joints),
            received_length=job.received_length + sum(joints),
        )

    def _item(self, one: Arrival) -> Item:
        return Item(
            one.number,
            one.kind,
            one.length,
            one.typed,
            one.pipe,
            one.description,
            received=self.seq,
            serial=one.serial,
            heat=one.heat,
        )

    def said(self) -> str:
        """Return the entry in words."""
        ends = dict.fromkeys([*self.items[:1], *self.items[-1:]])
        which = f" ({' to '.join(one.number for one in ends)})" if ends else ""
        origin = f" from {self.source}" if self.source else ""
        return f"{several(len(self.items), 'item')} received{which}{origin}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class SentAway(Entry):
    """A joint left the location."""

    KIND = "sent away"

    number: str
    reason: str

    def check(self, job: Job) -> str:
        """Refuse what is not here, or is in the string."""
        item = job.items.get(self.number)
        if item is None:
            return not_in_the_book(self.number)
        if item.state == SENT_AWAY:
            return f"Item {self.number} was sent away already ({item.reason})."
        if item.state == RUN:
            return f"Item {self.number} is in the string; it cannot be sent away."
        return "" if self.reason.strip() else f"Say why item {self.number} is sent away."

    def apply(self, job: Job) -> Job:
        """Take the item off the count."""
        item = job.items[self.number]
        job = job.with_item(replace(item, state=SENT_AWAY, reason=self.reason))
        if item.kind != "joint":
            return job
        return replace(
            job, received=job.received - 1, received_length=job.received_length - item.length
        )

    def said(self) -> str:
        """Return the entry in words."""
        return f"{self.number} sent away ({self.reason})"


def not_in_the_book(number: str) -> str:
    """Return the sentence for a number that the book does not have."""
    if not number.strip():
        return "Type the number of the item."
    return f"There is no item {number} in the book; receive it first or check the number."


def on_rack(job: Job, number: str) -> str:
    """Return why an item cannot be taken off the rack, or nothing."""
    item = job.items.get(number)
    if item is None:
        return not_in_the_book(number)
    if item.state == ON_RACK:
        return ""
    why = f" ({item.reason})" if item.reason else ""
    if item.state == RUN:
        return f"Item {number} is in the string already; check the number."
    return f"Item {number} was {item.state}{why}; its number is kept and not used again."
