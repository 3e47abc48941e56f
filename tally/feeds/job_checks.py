"""Whether the parts of a job file fit together: each thing that does not, in a sentence."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from tally.errors import InputError
from tally.feeds.item_numbers import as_painted, item_number, look_alikes
from tally.feeds.job_cement_tables import ProgrammeTable
from tally.feeds.job_faults import Fault, Spot
from tally.feeds.job_fluids import fluid_faults
from tally.feeds.job_hole import hole_faults
from tally.feeds.job_parts import Parts
from tally.feeds.job_programme import FITTINGS, rule_faults
from tally.feeds.job_shape import Shape
from tally.feeds.job_space_out import space_out_faults
from tally.feeds.job_tables import FittingTable, ItemTable, PersonTable, PipeTable
from tally.feeds.job_waiting import waiting_faults
from tally.job.setup import same_name
from tally.units import shown

NAMED_AT_ONCE = 8
ORDER = Spot(key="running_order")

Listed = tuple[str, str]
"""The number and the kind of an item."""


def check_tables(shape: Shape) -> None:
    """Note everything in which the tables of the file contradict one another."""
    shape.faults += [
        *hole_faults(shape),
        *_people(shape),
        *_names(shape),
        *_joints_as_items(shape),
        *rule_faults(shape),
        *fluid_faults(shape),
        *space_out_faults(shape),
        *waiting_faults(shape),
    ]


def check_order(
    shape: Shape,
    parts: Parts,
    order: tuple[str, ...],
    there: Sequence[Listed] | None,
) -> None:
    """Note what is wrong with the numbers of the items and with the running order.

    `there` is what came on location, or nothing where that is not known yet: then the order may
    name any joint.
    """
    planned = [(one.number, one.kind) for one in parts.items]
    named = [*planned, *(there or ())]
    kinds = dict(reversed(named))
    shape.faults += list(_look_alikes(shape, [number for number, _ in named]))
    if not order:
        return
    shape.faults += list(_twice(order))
    if shape.spoilt.intersection(("item", "pipe_list")):
        return
    shape.faults += [
        *(_odd(order, kinds) if there is None else _unknown(order, kinds)),
        *_ends(shape, order, kinds),
        *_beyond(shape, sum(kinds.get(number, "joint") == "joint" for number in order)),
    ]


def _look_alikes(shape: Shape, numbers: Sequence[str]) -> Iterator[Fault]:
    """Yield the numbers that are used twice, or that a person would take for one another."""
    items = {item.number: spot for spot, item in shape.placed("item", ItemTable)}
    for first, second in look_alikes(numbers):
        spot = items.get(second) or items.get(first) or Spot("item", many=True)
        said = f"looks the same as number {first}; give one of them another."
        if first == second:
            said = f"the number is used for {first} already; a number is used only once."
        yield Fault(replace(spot, called=second, key="number"), said)


def _people(shape: Shape) -> Iterator[Fault]:
    people = shape.placed("people", PersonTable)
    for place, (spot, person) in enumerate(people):
        before = [each.name for _, each in people[:place] if same_name(each.name, person.name)]
        if before:
            said = f"{shown(before[0])} stands twice; give each person one table and role."
            yield Fault(spot.at("name"), said)


def _names(shape: Shape) -> Iterator[Fault]:
    """Yield pipes that share a name, and items of a pipe that is not there."""
    placed = shape.placed("pipe", PipeTable)
    pipes = [each.name for _, each in placed]
    for place, (spot, pipe) in enumerate(placed):
        if pipe.name in pipes[:place]:
            said = f"{shown(pipe.name)} stands twice; give each pipe a name of its own."
            yield Fault(spot.at("name"), said)
    if "pipe" in shape.spoilt:
        return
    for spot, item in shape.placed("item", ItemTable):
        if item.pipe and item.pipe not in pipes:
            yield Fault(
                replace(spot, called=item.number, key="pipe"),
                f"there is no pipe '{shown(item.pipe)}' in the file; "
                f"it has {', '.join(shown(each) for each in pipes)}.",
                f"there is no pipe '{shown(item.pipe)}'; "
                f"the job has {', '.join(shown(each) for each in pipes)}.",
            )


def _joints_as_items(shape: Shape) -> Iterator[Fault]:
    for spot, item in shape.placed("item", ItemTable):
        if item.kind == "joint":
            yield Fault(
                replace(spot, called=item.number, key="kind"),
                "a joint is counted on location with the others; put it in the pipe list.",
            )


def _again(names: Iterable[str]) -> list[str]:
    return [name for name, times in Counter(names).items() if times > 1]


def _twice(order: tuple[str, ...]) -> Iterator[Fault]:
    again = _again(order)
    if again:
        yield Fault(ORDER, f"{_named(again)} named twice; each item goes in once.")


def _unknown(order: tuple[str, ...], kinds: Mapping[str, str]) -> Iterator[Fault]:
    painted = {as_painted(number): number for number in kinds}
    strange = [number for number in dict.fromkeys(order) if number not in kinds]
    for number in list(strange):
        alike = painted.get(as_painted(number))
        if alike is not None:
            strange.remove(number)
            yield Fault(ORDER, f"there is no {number}, but a {alike}; write it the same way.")
    if strange:
        yield Fault(
            ORDER,
            f"{_named(strange)} neither in the pipe list nor an [[item]]; look at the numbers.",
            f"{_named(strange)} neither in the pipe list nor among the items of the set-up; "
            "look at the numbers.",
        )


def _odd(order: tuple[str, ...], kinds: Mapping[str, str]) -> Iterator[Fault]:
    """Yield what can be no number of a joint, where the joints are not known yet."""
    for number in order:
        try:
            item_number(number if number not in kinds else "1")
        except InputError as fault:
            yield Fault(ORDER, str(fault))
            return


def _named(numbers: list[str]) -> str:
    first = ", ".join(shown(each) for each in numbers[:NAMED_AT_ONCE])
    more = len(numbers) - NAMED_AT_ONCE
    return f"{first} and {more} more are" if more > 0 else f"{first} {_are(numbers)}"


def _are(numbers: list[str]) -> str:
    return "is" if len(numbers) == 1 else "are"


def _ends(shape: Shape, order: tuple[str, ...], kinds: Mapping[str, str]) -> Iterator[Fault]:
    first, *rest = order
    if first in kinds and kinds[first] != "shoe":
        yield Fault(ORDER, f"starts with {first}, a {kinds[first]}; the shoe goes in first.")
    for number in rest:
        if kinds.get(number) == "shoe":
            yield Fault(ORDER, f"the shoe {number} is not at the start; it goes in first.")
    programmed = shape.table("programme", ProgrammeTable) is not None
    if programmed and not any(kinds.get(number) == "collar" for number in order):
        said = "has no collar; the plugs of"
        yield Fault(
            ORDER,
            f"{said} [programme] land on one, so add an [[item]] of the kind "
            '"collar" and put it in the order.',
            f"{said} the programme land on one, so add an item of the kind collar and put it in "
            "the order.",
        )


def _beyond(shape: Shape, joints: int) -> Iterator[Fault]:
    for name in FITTINGS:
        for spot, rule in shape.placed(name, FittingTable):
            beyond = [joint for joint in rule.joints if joint > joints]
            if beyond:
                yield Fault(
                    spot.at("joints"),
                    f"joint {beyond[0]} is beyond the {joints} joints of the running order "
                    f"({shown(rule.what)}).",
                )
