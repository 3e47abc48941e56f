"""The counts that must agree: what came on location against what became of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from itertools import islice

from tally.job.job import LAID_DOWN, ON_RACK, REJECTED, Item, Job, Made, Turn

ON_TOP = ("hanger", "landing joint")
"""The kinds of items that go in last, in this order: no other item goes in above them."""


@dataclass(frozen=True, slots=True)
class Share:
    """Joints of one state: how many, and their length in whole steps."""

    count: int
    length: int


@dataclass(frozen=True, slots=True)
class Balance:
    """On location = run + left on rack + rejected + laid down, by count and by length.

    On location is counted by the entries that brought joints and sent them away, run by the
    string as made up, and the rest by the state of each joint: three counts kept apart, so that
    a slip in one shows as a difference.
    """

    on_location: Share
    run: Share
    left: Share
    rejected: Share
    laid_down: Share

    @property
    def difference(self) -> Share:
        """Accounted for, less on location; nothing is left over when they agree."""
        parts = [getattr(self, one.name) for one in fields(self) if one.name != "on_location"]
        return Share(
            sum(part.count for part in parts) - self.on_location.count,
            sum(part.length for part in parts) - self.on_location.length,
        )

    @property
    def agrees(self) -> bool:
        """Whether the counts and the lengths both agree."""
        return self.difference == Share(0, 0)


def balance(job: Job) -> Balance:
    """Return the balance of the joints."""
    in_string = [made.length for made in job.string if made.joint]
    return Balance(
        on_location=Share(job.received, job.received_length),
        run=Share(len(in_string), sum(in_string)),
        left=_share(job, ON_RACK),
        rejected=_share(job, REJECTED),
        laid_down=_share(job, LAID_DOWN),
    )


def _share(job: Job, state: str) -> Share:
    lengths = [
        item.length for item in job.items.values() if item.state == state and item.kind == "joint"
    ]
    return Share(len(lengths), sum(lengths))


def coming(job: Job) -> Iterator[Item]:
    """Yield the items still to run, in the running order, then the joints it does not name.

    What the running list sets aside has no turn.
    """
    for due in map(job.items.get, islice(job.order, turn(job).place, None)):
        if due is not None and due.state == ON_RACK:
            yield due
    listed = {*job.order, *job.aside}
    for item in job.items.values():
        if item.state == ON_RACK and item.number not in listed and item.kind == "joint":
            yield item


def turn(job: Job) -> Turn:
    """Return the first place of the running list that holds something on the rack."""
    known = job.turn
    if known is not None and known.order is job.order and known.items is job.items:
        return known
    return next_turn(job.order, job.items)


def next_turn(order: tuple[str, ...], items: Mapping[str, Item], place: int = 0) -> Turn:
    """Return the turn of a running list from a place on, before which nothing is on the rack."""
    for number in islice(order, place, None):
        item = items.get(number)
        if item is not None and item.state == ON_RACK:
            break
        place += 1
    return Turn(order, items, place)


def next_item(job: Job) -> Item | None:
    """Return the item that is due next, if any is left that goes in above the top one."""
    return next((item for item in coming(job) if goes_above(job, item.kind)), None)


def on_top(job: Job) -> Made | None:
    """Return the hanger or the landing joint on top of the string, where one is."""
    top = job.string[-1] if job.string else None
    return top if top is not None and top.kind in ON_TOP else None


def goes_above(job: Job, kind: str) -> bool:
    """Whether an item of a kind is run above the top one: on a hanger only a landing joint is."""
    top = on_top(job)
    return top is None or kind in ON_TOP[ON_TOP.index(top.kind) + 1 :]


def missing_from_order(job: Job) -> tuple[str, ...]:
    """Return the numbers in the running order that never came on location."""
    return tuple(number for number in job.order if number not in job.items)
