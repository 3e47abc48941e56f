"""What is doubtful in a running list, each thing in a sentence and with the number it stands at."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from math import isclose

from tally.job.checks import failed
from tally.job.job import ON_RACK, RUN, Item, Job
from tally.job.naming import in_short
from tally.job.running_list import Slot, long_enough, slots
from tally.job.setup import Pipe

CROSSOVER = "crossover"
PLACED = ("collar", CROSSOVER, "marker")
"""The kinds of items that serve for nothing above the casing point."""


@dataclass(frozen=True, slots=True)
class ListWarning:
    """One doubt, and the item at which it shows."""

    number: str
    text: str


def list_warnings(job: Job) -> tuple[ListWarning, ...]:
    """Return every doubt about the running list of a job, from the shoe up by kind of doubt."""
    if job.setup is None or job.landing is not None:
        return ()
    items = slots(job)
    return (
        *_numbers(job),
        *_float_equipment(items),
        *_changes(job, items),
        *_out_of_use(items),
        *_failures(job, items),
        *_short(job, items),
    )


def _numbers(job: Job) -> Iterator[ListWarning]:
    for number, times in Counter(job.order).items():
        if times > 1:
            yield ListWarning(number, f"{number} stands {times} times in the list.")
    never = [number for number in job.order if number not in job.items]
    if never:
        said = "was" if len(never) == 1 else "were"
        yield ListWarning(never[0], f"{in_short(never)} {said} never received.")
    states = (ON_RACK, RUN)
    gone = [n for n in job.order if n in job.items and job.items[n].state not in states]
    if gone:
        said = (
            "is no longer on the rack and is" if len(gone) == 1 else "are no longer on it and are"
        )
        yield ListWarning(gone[0], f"{in_short(gone)} {said} passed over.")


def _float_equipment(items: tuple[Slot, ...]) -> Iterator[ListWarning]:
    kinds = [slot.item.kind for slot in items]
    if items and kinds[0] != "shoe":
        first = _named(items[0].item)
        yield ListWarning(items[0].item.number, f"The list starts with {first}, not with a shoe.")
    for slot in items[1:]:
        if slot.item.kind == "shoe" and not slot.spare:
            number = slot.item.number
            yield ListWarning(number, f"The shoe {number} is not at the start of the list.")
    if items and "collar" not in kinds:
        number = items[-1].item.number
        yield ListWarning(number, "There is no collar in the list; the plugs land on one.")


def _changes(job: Job, items: tuple[Slot, ...]) -> Iterator[ListWarning]:
    """Yield each change of the pipe between neighbours that no crossover stands between."""
    below: Slot | None = None
    for slot in (each for each in items if not each.spare):
        if slot.item.kind == CROSSOVER:
            below = None
            continue
        if slot.item.kind != "joint" and not slot.item.pipe:
            continue  # an item whose pipe nobody named takes the thread of its neighbours
        if below is not None and not (below.run and slot.run):
            yield from _change(job, below.item, slot.item)
        below = slot


def _change(job: Job, below: Item, above: Item) -> Iterator[ListWarning]:
    changed = tuple(differences(job.known.pipe(below.pipe), job.known.pipe(above.pipe)))
    if changed:
        verb = "changes" if len(changed) == 1 else "change"
        what = " and ".join(changed)
        yield ListWarning(
            above.number,
            f"{what[0].upper()}{what[1:]} {verb} between {below.number} and {above.number} "
            "without a crossover.",
        )


def differences(below: Pipe, above: Pipe) -> Iterator[str]:
    """Yield what differs between two pipes that are made up on each other, in words."""
    measures = (
        ("size", below.outer_diameter, above.outer_diameter),
        ("weight", below.weight, above.weight),
    )
    for what, one, other in measures:
        if not isclose(one.value, other.value, rel_tol=1e-6):
            yield f"{what} {one.text} to {other.text}"
    names = (
        ("grade", below.grade, above.grade),
        ("thread", below.connection, above.connection),
    )
    for what, here, there in names:
        if here and there and here.casefold() != there.casefold():
            yield f"{what} {here} to {there}"


def _out_of_use(items: tuple[Slot, ...]) -> Iterator[ListWarning]:
    for slot in items:
        if slot.spare and slot.item.kind in PLACED:
            name = _named(slot.item)
            yield ListWarning(
                slot.item.number, f"The list reaches the casing point before {name} goes in."
            )


def _failures(job: Job, items: tuple[Slot, ...]) -> Iterator[ListWarning]:
    for slot in items:
        whats = () if slot.run else failed(job, slot.item.number)
        if whats:
            number = slot.item.number
            yield ListWarning(number, f"{number} is in the list and failed {' and '.join(whats)}.")


def _short(job: Job, items: tuple[Slot, ...]) -> Iterator[ListWarning]:
    """Yield a doubt where the list lacks a joint or more; less than that is made up at the top."""
    lacks = long_enough(job) - (items[-1].to_here if items else 0)
    if lacks > max((slot.length for slot in items if slot.joint), default=0):
        number = items[-1].item.number if items else ""
        far = job.known.step.with_unit(lacks)
        yield ListWarning(number, f"The list ends {far} short of the casing point.")


def _named(item: Item) -> str:
    return f"joint {item.number}" if item.kind == "joint" else f"the {item.kind} {item.number}"
