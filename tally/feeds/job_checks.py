"""Whether the parts of a job file fit together: each thing that does not, in a sentence."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from tally.feeds.item_numbers import as_painted, look_alikes
from tally.feeds.job_parts import Parts
from tally.feeds.job_shape import Shape
from tally.feeds.job_tables import (
    FittingTable,
    HoleTable,
    ItemTable,
    PersonTable,
    PipeTable,
    PreviousTable,
    ProgrammeTable,
    SurveyTable,
)
from tally.job.entries.pipe import Arrival
from tally.units import shown

NAMED_AT_ONCE = 8


def check_tables(shape: Shape) -> None:
    """Note everything in which the tables of the file contradict one another."""
    shape.faults += [
        *_hole(shape),
        *_pipe_fits(shape),
        *_survey(shape),
        *_people(shape),
        *_names(shape),
        *_joints_as_items(shape),
    ]


def check_order(
    shape: Shape,
    parts: Parts,
    order: tuple[str, ...],
    arrivals: tuple[Arrival, ...] | None,
) -> None:
    """Note what is wrong with the running order; without a pipe list, what can be told of it."""
    named = [(one.number, one.kind) for one in parts.items]
    named += [(one.number, one.kind) for one in arrivals or ()]
    kinds = dict(reversed(named))
    shape.faults += [
        f"[[item]] {second}: the number is used for {first} already; a number is used only once."
        if first == second
        else f"[[item]] {second}: looks the same as number {first}; give one of them another."
        for first, second in look_alikes(number for number, _ in named)
    ]
    if not order:
        return
    shape.faults += list(_twice(order))
    if arrivals is None or "item" in shape.spoilt:
        return
    shape.faults += [
        *_unknown(order, kinds),
        *_ends(shape, order, kinds),
        *_beyond(shape, sum(kinds.get(number, "joint") == "joint" for number in order)),
    ]


def _hole(shape: Shape) -> Iterator[str]:
    hole = shape.table("hole", HoleTable)
    previous = shape.table("previous_casing", PreviousTable)
    if hole is None:
        return
    point = hole.casing_point
    if point.value > hole.depth.value:
        yield (
            f"[hole] casing_point: {point.text} lies below the hole, which is {hole.depth.text} "
            "deep; type the depth at which the shoe is wanted."
        )
    if previous is not None and previous.shoe.value >= point.value:
        yield (
            f"[previous_casing] shoe: {previous.shoe.text} is not above the casing point, "
            f"{point.text}; look at both."
        )


def _pipe_fits(shape: Shape) -> Iterator[str]:
    """Yield each pipe that does not fit into the hole, the old casing, or itself."""
    hole = shape.table("hole", HoleTable)
    previous = shape.table("previous_casing", PreviousTable)
    around = [("hole", hole.diameter)] if hole else []
    around += [("previous casing", previous.inner_diameter)] if previous else []
    for pipe in shape.rows("pipe", PipeTable):
        where = f"[[pipe]] {shown(pipe.name)}"
        outer, inner = pipe.outer_diameter, pipe.inner_diameter
        if inner is not None and inner.value >= outer.value:
            yield f"{where} inner_diameter: {inner.text} is not less than {outer.text} outside."
        for what, room in around:
            if outer.value >= room.value:
                wide = f"{what}, {room.text} wide"
                yield f"{where} outer_diameter: {outer.text} does not go into the {wide}."


def _survey(shape: Shape) -> Iterator[str]:
    hole = shape.table("hole", HoleTable)
    stations = shape.rows("survey", SurveyTable)
    for above, below in pairwise(stations):
        if below.measured_depth.value <= above.measured_depth.value:
            yield (
                f"[[survey]] measured_depth: {below.measured_depth.text} follows "
                f"{above.measured_depth.text}; the stations go down in order, none twice."
            )
    for station in stations:
        depth = station.measured_depth
        if hole is not None and depth.value > hole.depth.value:
            yield (
                f"[[survey]] measured_depth: {depth.text} lies below the hole, which is "
                f"{hole.depth.text} deep."
            )


def _people(shape: Shape) -> Iterator[str]:
    people = [each.name for each in shape.rows("people", PersonTable)]
    for name in _again(each.casefold() for each in people):
        first = next(each for each in people if each.casefold() == name)
        yield f"[[people]] name: {shown(first)} stands twice; give each person one table and role."


def _names(shape: Shape) -> Iterator[str]:
    """Yield pipes that share a name, and items of a pipe that is not there."""
    pipes = [each.name for each in shape.rows("pipe", PipeTable)]
    for name in _again(pipes):
        yield f"[[pipe]] name: {shown(name)} stands twice; give each pipe a name of its own."
    if "pipe" in shape.spoilt:
        return
    for item in shape.rows("item", ItemTable):
        if item.pipe and item.pipe not in pipes:
            yield (
                f"[[item]] {item.number} pipe: there is no pipe '{shown(item.pipe)}' in the file; "
                f"it has {', '.join(shown(each) for each in pipes)}."
            )


def _joints_as_items(shape: Shape) -> Iterator[str]:
    for item in shape.rows("item", ItemTable):
        if item.kind == "joint":
            yield (
                f"[[item]] {item.number} kind: a joint is counted on location with the others; "
                "put it in the pipe list."
            )


def _again(names: Iterable[str]) -> list[str]:
    return [name for name, times in Counter(names).items() if times > 1]


def _twice(order: tuple[str, ...]) -> Iterator[str]:
    again = _again(order)
    if again:
        yield f"running_order: {_named(again)} named twice; each item goes in once."


def _unknown(order: tuple[str, ...], kinds: Mapping[str, str]) -> Iterator[str]:
    painted = {as_painted(number): number for number in kinds}
    strange = [number for number in dict.fromkeys(order) if number not in kinds]
    for number in list(strange):
        alike = painted.get(as_painted(number))
        if alike is not None:
            strange.remove(number)
            yield f"running_order: there is no {number}, but a {alike}; write it the same way."
    if strange:
        yield (
            f"running_order: {_named(strange)} neither in the pipe list nor an [[item]]; "
            "look at the numbers."
        )


def _named(numbers: list[str]) -> str:
    first = ", ".join(shown(each) for each in numbers[:NAMED_AT_ONCE])
    more = len(numbers) - NAMED_AT_ONCE
    return f"{first} and {more} more are" if more > 0 else f"{first} {_are(numbers)}"


def _are(numbers: list[str]) -> str:
    return "is" if len(numbers) == 1 else "are"


def _ends(shape: Shape, order: tuple[str, ...], kinds: Mapping[str, str]) -> Iterator[str]:
    first, *rest = order
    if first in kinds and kinds[first] != "shoe":
        yield f"running_order: starts with {first}, a {kinds[first]}; the shoe goes in first."
    for number in rest:
        if kinds.get(number) == "shoe":
            yield f"running_order: the shoe {number} is not at the start; it goes in first."
    programmed = shape.table("programme", ProgrammeTable) is not None
    if programmed and not any(kinds.get(number) == "collar" for number in order):
        yield (
            "running_order: has no collar; the plugs of [programme] land on one, so add an "
            '[[item]] of the kind "collar" and put it in the order.'
        )


def _beyond(shape: Shape, joints: int) -> Iterator[str]:
    for name in ("centralizer", "fitting"):
        for place, rule in enumerate(shape.rows(name, FittingTable), start=1):
            beyond = [joint for joint in rule.joints if joint > joints]
            if beyond:
                yield (
                    f"[[{name}]] {place} joints: joint {beyond[0]} is beyond the {joints} joints "
                    f"of the running order ({shown(rule.what)})."
                )
