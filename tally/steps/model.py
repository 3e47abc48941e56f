"""What a checklist is: steps, who does them, what must be seen, and what each one waits for.

A step that stands opens the gate of its own name: the step "conditioned" opens the gate
"conditioned". The one gate that no step opens is "on-depth", which the running opens.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import MISSING, dataclass, fields
from typing import Any

from tally.errors import BookTooNew, InputError

ON_DEPTH = "on-depth"
GATES = (
    ON_DEPTH,
    "conditioned",
    "rigged-up",
    "bottom-plug-loaded",
    "top-plug-loaded",
    "bottom-plug-released",
    "slurry-away",
    "top-plug-released",
    "bumped",
)
PAGES = ("ready", "mud", "plugs", "waiting")
WANTS = ("none", "state", "value")
COMPARES = ("agrees", "at least", "at most")


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing to do, and what a person must see or measure to say that it was done."""

    id: str
    text: str
    """What to do, short enough for one line beside its state at 80 columns."""
    detail: str = ""
    who: str
    """The role that does it."""
    critical: bool = False
    """A witness who is not the doer must confirm it."""
    witness: str = ""
    """The role the witness should have; empty: anyone who is not the doer."""
    want: str = "none"
    """What must be entered: none, a state that was seen, or a value that was measured."""
    states: tuple[str, ...] = ()
    """The states that are offered."""
    good: tuple[str, ...] = ()
    """Those of the states that agree with what is wanted."""
    quantity: str = ""
    """The quantity of the value, as units.py names it."""
    expect: str = ""
    """Where the expected value comes from: figure:NAME, limit:NAME, or step:ID of this list."""
    within: str = ""
    """The limit, limit:NAME, inside which the value must agree with the expected one."""
    compare: str = ""
    """How the value must stand to the expected one: agrees, at least, at most."""
    gates: tuple[str, ...] = ()
    """Gates that must be open before this step."""
    after: tuple[str, ...] = ()
    """Steps of the same list that must stand before this one."""
    at_once: bool = False
    """One key stores the event with its time; state, value and witness follow."""
    zeroes: bool = False
    """The event sets the pumped volume to zero."""
    hold_point: bool = False
    """A named person releases it; what comes after stays shut until then."""
    key: str = ""
    """The letter that records it on its page."""
    plugs: str = ""
    """ "bottom": the step applies only where the programme has a bottom plug."""
    caution: str = ""
    blind: bool = False
    """The expected value is not shown until a value is entered: a second person's own figure."""

    only_with: str = ""
    """The limit, limit:NAME, without which in the job the step does not apply."""
    fills: bool = False
    """A state that agrees means mud at the top: a pipe that the book holds empty wants its fill."""

    def applies(self, bottom_plugs: int) -> bool:
        """Whether the step applies to a programme with that many bottom plugs."""
        return self.plugs != "bottom" or bottom_plugs > 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Checklist:
    """A list of steps worked on one page."""

    id: str
    title: str
    page: str
    purpose: str
    caution: str
    steps: tuple[Step, ...]
    source: str
    on_call: bool = False
    """A list for trouble: it lies ready, and none of its steps is due until somebody starts it."""

    def step(self, step_id: str) -> Step:
        """Return the step of that id."""
        for step in self.steps:
            if step.id == step_id:
                return step
        raise InputError(f"The list '{self.id}' has no step '{step_id}'.")

    def applying(self, bottom_plugs: int) -> tuple[Step, ...]:
        """Return the steps that apply to a programme with that many bottom plugs."""
        return tuple(step for step in self.steps if step.applies(bottom_plugs))


def names_used(lists: Iterable[Checklist], kind: str) -> tuple[str, ...]:
    """Return the names of one kind ("limit" or "figure") that the steps compare with.

    >>> from tally.steps.reading import shipped
    >>> names_used(shipped(), "figure")[:3]
    ('bump_differential', 'bump_pressure', 'circulation_target')
    """
    sources = {
        source
        for checklist in lists
        for step in checklist.steps
        for source in (step.expect, step.within)
    }
    return tuple(sorted(s.removeprefix(f"{kind}:") for s in sources if s.startswith(f"{kind}:")))


def to_fields(checklist: Checklist) -> dict[str, Any]:
    """Return a list as the plain fields a book stores; what is left at its default is omitted."""
    return {**_plain(checklist), "steps": [_plain(step) for step in checklist.steps]}


def from_fields(plain: Mapping[str, Any]) -> Checklist:
    """Rebuild a list from its stored fields.

    Only the shape is looked at, never the rules for new lists: a list that a job was worked
    with must read for ever.
    """
    steps = plain.get("steps")
    if not isinstance(steps, list) or not all(isinstance(each, Mapping) for each in steps):
        raise InputError("A stored checklist holds no readable steps; verify the book.")
    rebuilt = tuple(Step(**_known(Step, each)) for each in steps)
    return Checklist(**{**_known(Checklist, plain), "steps": rebuilt})


def _plain(thing: Step | Checklist) -> dict[str, Any]:
    kept = {f.name: getattr(thing, f.name) for f in fields(thing)}
    return {
        f.name: list(kept[f.name]) if isinstance(kept[f.name], tuple) else kept[f.name]
        for f in fields(thing)
        if f.default is MISSING or kept[f.name] != f.default
    }


def _known(kind: type[Step] | type[Checklist], plain: Mapping[str, Any]) -> dict[str, Any]:
    named = {f.name: f for f in fields(kind)}
    for name in plain:
        if name not in named:
            raise BookTooNew(
                f"A stored checklist has a field '{name}' that this release does not know; "
                "open the book with the release that wrote it."
            )
    for name, field in named.items():
        if field.default is MISSING and name not in plain:
            raise InputError(f"A stored checklist lacks the field '{name}'; verify the book.")
    return {name: _typed(name, str(named[name].type), value) for name, value in plain.items()}


def _typed(name: str, kind: str, value: Any) -> Any:
    if kind.startswith("tuple"):
        if isinstance(value, list) and (name == "steps" or all(isinstance(v, str) for v in value)):
            return tuple(value)
    elif type(value).__name__ == kind:
        return value
    raise InputError(f"A stored checklist has an unreadable field '{name}'; verify the book.")
