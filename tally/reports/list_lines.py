"""The running list as one structure: rows in tens of joints, what goes on, what is doubtful."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from tally.errors import ShoedownError
from tally.job.entry import Entry
from tally.job.fittings import due_by
from tally.job.job import Fitting, Item, Job
from tally.job.list_warnings import ListWarning, list_warnings
from tally.job.programme import programme
from tally.job.running_list import Slot, planned_shoe, slots

BLOCK = 10
"""Joints to a block of the list."""


@dataclass(frozen=True, slots=True)
class ListRow:
    """One item of the list, and what is or will be installed on it."""

    slot: Slot
    fittings: tuple[Fitting, ...]
    locked: bool
    new_pipe: str
    """The pipe that begins with it."""

    @property
    def special(self) -> bool:
        """Whether it is anything but a plain joint."""
        return self.slot.item.kind != "joint"


@dataclass(frozen=True, slots=True)
class ListBlock:
    """Ten joints, and the other items between them."""

    number: int
    rows: tuple[ListRow, ...]

    @property
    def length(self) -> int:
        """Length of the block, in whole steps."""
        return sum(row.slot.length for row in self.rows)

    @property
    def brought_forward(self) -> int:
        """Length from the shoe up to the block."""
        first = self.rows[0].slot
        return first.to_here - first.length

    @property
    def joints(self) -> int:
        """Joints in the block."""
        return sum(1 for row in self.rows if row.slot.joint)


@dataclass(frozen=True, slots=True)
class Listing:
    """The running list, ready to be written down."""

    job: Job
    blocks: tuple[ListBlock, ...]
    spare: tuple[Slot, ...]
    """Items that the string reaches the casing point without."""
    aside: tuple[Item, ...]
    never: tuple[str, ...]
    """Numbers in the list that were never received."""
    warnings: tuple[ListWarning, ...]
    shoe: int
    set_by: Entry | None
    """The entry that set the list; nothing where it came with the set-up."""
    draft: bool
    entries: int
    head: str

    @property
    def rows(self) -> tuple[ListRow, ...]:
        """Every row, from the shoe up."""
        return tuple(row for block in self.blocks for row in block.rows)


def listing(
    job: Job, entries: Sequence[Entry], head: tuple[int, str], *, draft: bool = False
) -> Listing:
    """Return the running list of a job; `head` is the count of entries and the book's last hash.

    Raises
    ------
    ShoedownError
        If the job is not set up, so that there is no list to write.
    """
    if job.setup is None:
        raise ShoedownError("The job is not set up yet; there is no running list to write.")
    items = slots(job)
    return Listing(
        job=job,
        blocks=_blocks(_rows(job, [slot for slot in items if not slot.spare])),
        spare=tuple(slot for slot in items if slot.spare),
        aside=tuple(job.items[number] for number in job.aside if number in job.items),
        never=tuple(number for number in job.order if number not in job.items),
        warnings=list_warnings(job),
        shoe=planned_shoe(job),
        set_by=next((entry for entry in entries if entry.seq == job.list_set), None),
        draft=draft,
        entries=head[0],
        head=head[1],
    )


def _rows(job: Job, items: Sequence[Slot]) -> list[ListRow]:
    rules, on = programme(job), {made.number: made.fittings for made in job.string}
    locked, below, rows = set(job.locked), "", []
    for slot in items:
        number, joint = slot.item.number, slot.joint
        fittings = on[number] if slot.run else due_by(rules, joint) if joint else ()
        pipe = job.known.pipe(slot.item.pipe).name if joint else below
        rows.append(ListRow(slot, fittings, number in locked, pipe if pipe != below else ""))
        below = pipe
    return rows


def _blocks(rows: Sequence[ListRow]) -> tuple[ListBlock, ...]:
    """Part the rows into tens of joints; an item that is no joint goes with those below it."""
    numbered = []
    joints = 0
    for row in rows:
        joints = row.slot.joint or joints
        numbered.append((max(0, joints - 1) // BLOCK + 1, row))
    return tuple(
        ListBlock(number, tuple(row for _, row in group))
        for number, group in groupby(numbered, key=lambda pair: pair[0])
    )
