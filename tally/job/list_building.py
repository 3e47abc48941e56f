"""A running list built by rules: shoe track, places by joint or depth, sections, pups last.

What is run already stays at the bottom. Then come the shoe, the joints of the shoe track and the
collar, locked; the other joints in their order, with each item that has a place put in where that
place is reached; crossovers where the pipe changes; pups, hanger and landing joint last. Joints
that the string does not need to reach the casing point follow as spares.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tally.errors import InputError
from tally.job.counts import ON_TOP
from tally.job.job import ON_RACK, RUN, Item, Job
from tally.job.list_warnings import CROSSOVER
from tally.job.naming import parted
from tally.job.order_rules import BY_NUMBER, LAST_FIRST, SORTINGS, OrderRules, Place
from tally.job.running_list import RunningList, wanted_length


def build(job: Job, rules: OrderRules) -> RunningList:
    """Return the running list that the rules make of what is run and what lies on the rack.

    Raises
    ------
    InputError
        If the rules name what is not there, or contradict themselves.
    """
    _refuse(job, rules)
    making = _Making(job, rules)
    making.shoe_track()
    making.sections()
    making.pups()
    making.on_top()
    making.spares()
    return RunningList(tuple(making.order), tuple(making.locked), rules.left_out)


class _Making:
    """A list as far as it is made, and what still lies on the rack."""

    def __init__(self, job: Job, rules: OrderRules) -> None:
        self.job, self.rules = job, rules
        self.order = [made.number for made in job.string]
        self.locked: list[str] = []
        self.length, self.joints = job.length, job.joints_run
        self.last_pipe = next((made.pipe for made in reversed(job.string) if made.joint), None)
        items = (item for item in job.items.values() if item.state == ON_RACK)
        self.rack = {item.number: item for item in _sorted(items, rules.sorting)}
        for number in rules.left_out:
            self.rack.pop(number, None)
        self.places = [place for place in rules.places if place.number in self.rack]
        self.wanted = wanted_length(job)

    def of_kind(self, *kinds: str) -> list[Item]:
        """Return what lies on the rack of some kinds and has no place of its own."""
        placed = {place.number for place in self.places}
        found = [item for item in self.rack.values() if item.number not in placed]
        return [item for kind in kinds for item in found if item.kind == kind]

    def put(self, item: Item) -> None:
        """Put an item on top of the list."""
        del self.rack[item.number]
        self.order.append(item.number)
        self.length += item.length
        self.joints += item.kind == "joint"
        self.places = [place for place in self.places if place.number != item.number]

    def shoe_track(self) -> None:
        """Put in the shoe, the joints of the shoe track and the collars that have no place."""
        kinds = {self.job.items[number].kind for number in self.order}
        for item in [] if self.order else self.of_kind("shoe")[:1]:
            self.put(item)
        if "collar" in kinds:
            self.locked += self.order
            return
        for item in self._track():
            self.joint(item)
        for item in self.of_kind("collar"):
            self.put(item)
        self.placed()
        self.locked += self.order

    def _track(self) -> list[Item]:
        named = [self.rack[number] for number in self.rules.track if number in self.rack]
        first = self.rules.pipes[0] if self.rules.pipes else None
        others = [item for item in self.joints_of(first) if item not in named]
        return [*named, *others][: max(0, self.rules.shoe_track - self.joints)]

    def joints_of(self, pipe: str | None) -> list[Item]:
        """Return the joints on the rack of one pipe, or of all."""
        return [item for item in self.of_kind("joint") if pipe in (None, self.pipe_of(item))]

    def pipe_of(self, item: Item) -> str:
        """Return the name of an item's pipe."""
        return self.job.known.pipe(item.pipe).name

    def joint(self, item: Item) -> None:
        """Put a joint in, after whatever has its place under it."""
        self.placed(item.length)
        pipe = self.pipe_of(item)
        below = None if self.last_pipe is None else self.job.known.pipe(self.last_pipe).name
        if below not in (None, pipe) and self.job.items[self.order[-1]].kind != CROSSOVER:
            for crossover in self.of_kind(CROSSOVER)[:1]:
                self.put(crossover)
        self.put(item)
        self.last_pipe = pipe

    def placed(self, next_length: int = 0) -> None:
        """Put in the items whose place is here rather than a joint further up."""
        for place in list(self.places):
            if self._is_here(place, next_length):
                self.put(self.rack[place.number])

    def _is_here(self, place: Place, next_length: int) -> bool:
        if place.depth is None:
            return self.joints >= place.above
        setup = self.job.known
        here = setup.step.steps(setup.hole.casing_point.value) - self.length
        above = here - setup.step.steps(place.depth.value)
        return above <= 0 or (next_length > 0 and above <= next_length - above)

    def sections(self) -> None:
        """Put in the joints, each section up to its crossover, until the string is long enough."""
        pipes: tuple[str | None, ...] = self.rules.pipes or (None,)
        for place, pipe in enumerate(pipes, start=1):
            last = place == len(pipes)
            crossover = None if last else self._next_crossover()
            for item in self.joints_of(pipe):
                if self._enough(item):
                    break
                self.placed(item.length)
                if crossover and crossover not in self.rack:
                    break
                self.joint(item)
            else:
                if crossover in self.rack:
                    self.put(self.rack[crossover])

    def _next_crossover(self) -> str | None:
        placed = (place.number for place in self.places)
        return next((one for one in placed if self.job.items[one].kind == CROSSOVER), None)

    def _enough(self, item: Item) -> bool:
        """Whether a joint is not needed any more; where there are pups they fill what is left."""
        room = self.wanted - self.length - sum(one.length for one in self.of_kind(*ON_TOP))
        return item.length > room if self.of_kind("pup") else room <= 0

    def pups(self) -> None:
        """Put in the pups that fit, the longest first."""
        self.placed()
        on_top = sum(one.length for one in self.of_kind(*ON_TOP))
        for item in sorted(self.of_kind("pup"), key=lambda one: -one.length):
            if self.length + item.length + on_top <= self.wanted:
                self.put(item)

    def on_top(self) -> None:
        """Put in the hanger and the landing joint."""
        for item in self.of_kind(*ON_TOP):
            self.put(item)

    def spares(self) -> None:
        """Put in what is left: joints first."""
        rest = sorted(self.rack.values(), key=lambda item: item.kind != "joint")
        for item in rest:
            self.put(item)


def _sorted(items: Iterable[Item], sorting: str) -> list[Item]:
    if sorting == BY_NUMBER:
        return sorted(items, key=lambda item: parted(item.number))
    found = list(items)
    return found[::-1] if sorting == LAST_FIRST else found


def _refuse(job: Job, rules: OrderRules) -> None:
    """Raise a sentence for the first thing in the rules that cannot be."""
    for fault in (*_shape(job, rules), *_numbers(job, rules)):
        raise InputError(fault)


def _shape(job: Job, rules: OrderRules) -> Iterator[str]:
    if rules.sorting not in SORTINGS:
        yield f"'{rules.sorting}' is no order; use one of {', '.join(SORTINGS)}."
    if rules.shoe_track < 0:
        yield "A shoe track has no joint or more; type 0 or more."
    known = [pipe.name for pipe in job.known.pipes]
    for pipe in rules.pipes:
        if pipe not in known:
            yield f"There is no pipe '{pipe}' in the job; it has {', '.join(known)}."
    for place in rules.places:
        if place.depth is None and place.above < 1:
            yield f"{place.number} has no place; name the joint under it or a depth."


def _numbers(job: Job, rules: OrderRules) -> Iterator[str]:
    named = [*rules.track, *(place.number for place in rules.places), *rules.left_out]
    for number in named:
        item = job.items.get(number)
        if item is None:
            yield f"There is no item {number} in the book; look at the number."
        elif item.state not in (ON_RACK, RUN):
            yield f"{number} was {item.state}; it cannot be in the list."
        elif number in rules.left_out and item.state == RUN:
            yield f"{number} is in the string already; it cannot be left out."
        elif number in rules.track and item.kind != "joint":
            yield f"{number} is a {item.kind}; the shoe track takes joints only."
        if named.count(number) > 1:
            yield f"{number} is named twice in the rules; it has one place."
