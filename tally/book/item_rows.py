"""The rows of items and of what is installed on them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tally.book.changed import changed_numbers, changed_places
from tally.book.schema import FITTINGS, ITEMS, Row, Rows
from tally.job.job import RUN, Item, Job, Made


def items(old: Job, new: Job) -> tuple[Rows, Rows]:
    """Return the rows of the items that differ, before and after."""
    numbers = changed_numbers(old.items, new.items)
    for place in changed_places(old.string, new.string):
        numbers.update(made.number for job in (old, new) for made in job.string[place : place + 1])
    return _item_rows(old, numbers), _item_rows(new, numbers)


def fittings(old: Job, new: Job) -> tuple[Rows, Rows]:
    """Return the rows of what is installed on the items that differ, before and after."""
    changed = changed_places(old.string, new.string)
    return _fitting_rows(old, changed), _fitting_rows(new, changed)


def _item_rows(job: Job, numbers: set[str]) -> Rows:
    found = [job.items[number] for number in numbers if number in job.items]
    places = _places(job, {item.number for item in found if item.state == RUN})
    return ITEMS.keyed(_item_row(item, *places.get(item.number, (0, None))) for item in found)


def _places(job: Job, numbers: set[str]) -> dict[str, tuple[int, Made]]:
    """Return where items lie in the string, from 1, looked for from the top down."""
    found: dict[str, tuple[int, Made]] = {}
    for place in range(len(job.string), 0, -1):
        if len(found) == len(numbers):
            break
        made = job.string[place - 1]
        if made.number in numbers:
            found[made.number] = (place, made)
    return found


def _item_row(item: Item, place: int, made: Made | None) -> Row:
    listed = (item.number, item.kind, item.pipe, item.description, item.length, item.typed)
    stands = (item.state, item.reason, item.received)
    if made is None:
        return (*listed, *stands, None, None)
    return (*listed, *stands, place, made.joint or None)


def _fitting_rows(job: Job, places: Iterable[int]) -> Rows:
    return FITTINGS.keyed(
        row for place in places for made in job.string[place : place + 1] for row in _on(made)
    )


def _on(made: Made) -> Iterator[Row]:
    for place, fitting in enumerate(made.fittings, start=1):
        yield made.number, place, fitting.what, fitting.position, fitting.count
