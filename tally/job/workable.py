"""Whether a set-up, an item or a checklist is one that a job can be worked with.

Files are looked through more closely where they are read. These are the faults that would make a
later figure wrong or impossible, so they are refused however the entry was made.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import Protocol

from tally.errors import ShoedownError
from tally.job.limits import LIMITS
from tally.job.programme import rule_faults
from tally.job.setup import FILL_SOURCES, ITEM_KINDS, Limit, Pipe, Setup, Zone, same_name
from tally.job.volumes import bore, closed, steel
from tally.pipe.weight import string_weight
from tally.steps.model import COMPARES, WANTS, Checklist, Step
from tally.units import known_units, read
from tally.units.steps import LONGEST_METRES

MEASURED_AS = ("running", "overall")
MOST_BOTTOM_PLUGS = 2


class Listed(Protocol):
    """An item as it is listed: in the set-up, or as it came on location."""

    @property
    def number(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def length(self) -> int: ...
    @property
    def pipe(self) -> str: ...


def item_fault(setup: Setup, item: Listed) -> str:
    """Return why an item cannot be taken into the book, or nothing."""
    if not item.number.strip():
        return "An item has no number; every item needs one of its own."
    if item.length <= 0:
        return f"Number {item.number} has no length; measure it before it is counted in."
    if setup.step.si(item.length) > LONGEST_METRES:
        return f"Number {item.number} is longer than any well; look at its length and unit."
    if item.kind not in ITEM_KINDS:
        kinds = ", ".join(ITEM_KINDS)
        return f"Number {item.number} is of the kind '{item.kind}'; the kinds are {kinds}."
    if item.pipe and item.pipe not in [pipe.name for pipe in setup.pipes]:
        names = ", ".join(pipe.name for pipe in setup.pipes)
        return f"Number {item.number} is of the pipe '{item.pipe}'; the job has {names}."
    return ""


def set_up_fault(setup: Setup) -> str:
    """Return the first reason why a set-up cannot be worked with, or nothing."""
    return next(_set_up_faults(setup), "")


def _set_up_faults(setup: Setup) -> Iterator[str]:
    yield from _lengths(setup)
    yield from _pipes(setup.pipes)
    yield from _items(setup)
    yield from _zones(setup.zones)
    yield from _programme(setup)
    yield from _people([person.name for person in setup.people])
    for key, limit in setup.limits.items():
        yield from _limit(key, limit)
    yield from _unreadable("The units in which figures are shown", lambda: setup.shown)
    if setup.filling.source not in FILL_SOURCES:
        yield f"'{setup.filling.source}' is no source of fill; say {' or '.join(FILL_SOURCES)}."
    auto_fill = setup.filling.auto_fill
    if auto_fill is not None and not 0 <= auto_fill.value <= 1:
        yield f"An auto-fill share of {auto_fill.text} is not 0 to 100 %; look at the data sheet."
    if not 0 <= setup.pumping.bottom_plugs <= MOST_BOTTOM_PLUGS:
        yield (
            f"{setup.pumping.bottom_plugs} bottom plugs is not 0 to {MOST_BOTTOM_PLUGS}; "
            "say how many the programme has."
        )


def _lengths(setup: Setup) -> Iterator[str]:
    lengths = setup.lengths
    yield from _unreadable("The tally unit", lambda: setup.step)
    if lengths.measured_as not in MEASURED_AS:
        yield f"Joints are measured as running or overall length, not '{lengths.measured_as}'."
    yield from _unreadable("The make-up loss", lambda: setup.make_up_loss)
    if lengths.stick_up < 0:
        yield "The usual stick-up is below nothing; it is measured up from the datum."


def _pipes(pipes: tuple[Pipe, ...]) -> Iterator[str]:
    if not pipes:
        yield "The set-up names no pipe; volumes need at least one."
    for name in _twice(pipe.name for pipe in pipes):
        yield f"The pipe {name} stands twice in the set-up; give each a name of its own."
    for pipe in pipes:
        for figure in (bore, steel, closed, _weight):
            yield from _unreadable(f"Pipe {pipe.name}", partial(figure, pipe))


def _weight(pipe: Pipe) -> float:
    return string_weight(pipe.weight.value, 1.0, 1.0)


def _items(setup: Setup) -> Iterator[str]:
    for number in _twice(one.number for one in setup.items):
        yield f"Number {number} stands twice in the set-up; a number is used only once."
    for one in setup.items:
        if one.kind == "joint":
            yield (
                f"Number {one.number} is a joint; joints are counted on location, "
                "so put it in the pipe list."
            )
        fault = item_fault(setup, one)
        if fault:
            yield fault
    for number in _twice(setup.order):
        yield f"The running order names {number} twice; each item goes in once."


def _zones(zones: tuple[Zone, ...]) -> Iterator[str]:
    for name in _twice(zone.name for zone in zones):
        yield f"The zone {name} stands twice in the set-up; give each a name of its own."
    for zone in zones:
        if zone.top.value >= zone.bottom.value:
            yield f"Zone {zone.name}: its top, {zone.top.text}, is not above {zone.bottom.text}."


def _programme(setup: Setup) -> Iterator[str]:
    yield from rule_faults(setup)
    for rule in setup.programme:
        if not rule.what.strip():
            yield "A line of the centralizer programme does not say what is installed."
        if rule.count < 1 or any(joint < 1 for joint in rule.joints):
            yield (
                f"The programme's line for {rule.what} counts below 1; "
                "joints and pieces are counted from 1."
            )


def _people(names: list[str]) -> Iterator[str]:
    for place, name in enumerate(names):
        if not name.strip():
            yield "Somebody in the set-up has no name; type it."
        if any(same_name(name, other) for other in names[:place]):
            yield f"{name} stands twice among the people; give each person one line and role."


def _limit(key: str, limit: Limit) -> Iterator[str]:
    if key not in LIMITS:
        yield f"'{key}' is no limit of a job; the limits are {', '.join(LIMITS)}."
    else:
        yield from _unreadable(f"The limit {key}", lambda: read(limit.text, LIMITS[key].quantity))


def _unreadable(what: str, attempt: Callable[[], object]) -> Iterator[str]:
    try:
        attempt()
    except ShoedownError as fault:
        yield f"{what}: {fault}"


def _twice(names: Iterable[str]) -> Iterator[str]:
    seen: set[str] = set()
    for name in names:
        if name in seen:
            yield name
        seen.add(name)


def checklist_fault(plan: Checklist) -> str:
    """Return why a list cannot be worked at all, or nothing.

    Only what the record cannot do without is asked for: a list that a job was worked with is
    taken for ever, whatever rules a new one must keep.
    """
    if not plan.id:
        return "The checklist has no id; give it one."
    above: set[str] = set()
    for step in plan.steps:
        fault = _step_fault(step, above)
        if fault:
            return f"Step '{step.id}' of the list '{plan.id}': {fault}"
        above.add(step.id)
    return ""


def _step_fault(step: Step, above: set[str]) -> str:
    if not step.id or step.id in above:
        return "each step needs an id of its own."
    strange = [name for name in step.after if name not in above]
    if strange:
        return f"it waits for '{strange[0]}', which is no step above it."
    if step.want not in WANTS:
        return f"it wants '{step.want}'; it may want {', '.join(WANTS)}."
    if step.want == "state" and not step.states:
        return "it wants a state and offers none."
    if step.compare and step.compare not in COMPARES:
        return f"it compares by '{step.compare}'; it may compare by {', '.join(COMPARES)}."
    return _quantity_fault(step)


def _quantity_fault(step: Step) -> str:
    if step.want != "value":
        return ""
    try:
        return "" if known_units(step.quantity) else "its value has no unit."
    except ShoedownError as fault:
        return str(fault)
