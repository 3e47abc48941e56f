"""The rules that a checklist must keep before a job may be worked with it.

A rule names the keys it looks at, the one to put right first, and returns a sentence or nothing.
A rule is left out where one of its keys could not be read at all: that fault is told already.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from types import MappingProxyType

from tally.errors import InputError
from tally.steps.model import COMPARES, GATES, ON_DEPTH, PAGES, WANTS, Checklist, Step
from tally.units import known_units, shown

MOST_STEPS = 60
PARAGRAPHS = frozenset({"purpose", "caution", "source", "detail"})
LONGEST = dict.fromkeys(PARAGRAPHS, 600) | {"title": 60, "text": 70, "states": 48, "good": 48}
LONGEST_NAME = 48
# While one of these is wrong nobody can say what the keys that depend on it should be.
DECIDING = frozenset({"id", "want", "quantity", "compare"})
BARE_WORDS = frozenset({"checked", "complete", "completed", "done", "ok", "okay", "yes"})

Rule = Callable[[Step, Sequence[Step]], str]
Headers = Mapping[tuple[str, str], int]
"""The line of the file at which a step begins, by its list and its id."""
NO_HEADERS: Headers = MappingProxyType({})
_KEBAB = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")
_SOURCE = re.compile(r"(figure|limit):[a-z][a-z0-9_]*|step:[a-z][a-z0-9-]*")
_LIMIT = re.compile(r"limit:[a-z][a-z0-9_]*")
_NEVER = re.compile(r"\bsafe\b", re.IGNORECASE)


def text_fault(key: str, text: str) -> str:
    """Say what is wrong with the words of one text, whatever it is for."""
    longest = LONGEST.get(key, LONGEST_NAME)
    if len(text) > longest:
        return f"has {len(text)} characters; {longest} is the most."
    if _NEVER.search(text):
        return "may not say 'safe'; say what is seen or measured instead."
    return ""


def list_faults(checklist: Checklist, spoilt: Collection[str]) -> Iterator[tuple[str, str]]:
    """Yield the key and the sentence for each rule that the head of a list breaks."""
    if "id" not in spoilt and not _KEBAB.fullmatch(checklist.id):
        yield "id", f"{_quoted(checklist.id)} must be small letters and digits joined by hyphens."
    if "page" not in spoilt and checklist.page not in PAGES:
        yield "page", f"{_quoted(checklist.page)} is no page of a checklist; {_one_of(PAGES)}."
    for key in ("title", "purpose", "caution", "source"):
        if key not in spoilt and not getattr(checklist, key):
            yield key, "may not be empty."
    if "on_call" not in spoilt and checklist.on_call:
        for step in checklist.steps:
            if step.id in GATES or step.key:
                yield (
                    "on_call",
                    (
                        f"a list for trouble may hold nobody up: step {_quoted(step.id)} may open "
                        "no gate and claim no letter."
                    ),
                )


def step_faults(
    step: Step, above: Sequence[Step], spoilt: Collection[str]
) -> Iterator[tuple[str, str]]:
    """Yield the key and the sentence for each rule that a step breaks, given those above it."""
    unclear = set(spoilt)
    for keys, rule in RULES:
        sentence = "" if unclear.intersection(keys) else rule(step, above)
        if sentence:
            unclear |= DECIDING.intersection(keys[:1])
            yield keys[0], sentence


def set_faults(lists: Iterable[Checklist], headers: Headers = NO_HEADERS) -> Iterator[str]:
    """Yield a sentence for each rule that lists break only when they are used together.

    `headers` holds the line at which a step begins in its file, where there is one.
    """
    owners: dict[tuple[str, str], str] = {}
    steps = [(checklist, step) for checklist in lists for step in checklist.steps]
    for checklist, step in steps:
        taken = [("gate", step.id)] if step.id in GATES else []
        taken += [(f"letter on the page {checklist.page}", step.key)] if step.key else []
        for what in taken:
            if owners.setdefault(what, checklist.id) != checklist.id:
                key = "id" if what[0] == "gate" else "key"
                yield (
                    f"{_place(checklist, step, headers)}, key {key}: the {what[0]} '{what[1]}' "
                    f"belongs to the list {owners[what]} already."
                )
    opened = {ON_DEPTH, *(step.id for _, step in steps)}
    for checklist, step in steps:
        for gate in step.gates:
            if gate not in opened:
                yield (
                    f"{_place(checklist, step, headers)}, key gates: no list in use has "
                    f"a step '{gate}', so this gate could never open."
                )


def _place(checklist: Checklist, step: Step, headers: Headers) -> str:
    line = headers.get((checklist.id, step.id))
    return f"List {checklist.id}, step {step.id}" + (f", line {line}" if line else "")


def _id(step: Step, above: Sequence[Step]) -> str:
    if not _KEBAB.fullmatch(step.id):
        return f"{_quoted(step.id)} must be small letters and digits joined by hyphens."
    if step.id == ON_DEPTH:
        return f"{_quoted(ON_DEPTH)} is opened by the running, not by a step; choose another id."
    if any(step.id == other.id for other in above):
        return "stands twice in the list; each step needs its own id."
    return ""


def _named(step: Step, _above: Sequence[Step]) -> str:
    return "" if step.text else "may not be empty; say what to do."


def _doer(step: Step, _above: Sequence[Step]) -> str:
    return "" if step.who else "may not be empty; name the role that does it."


def _want(step: Step, _above: Sequence[Step]) -> str:
    return "" if step.want in WANTS else f"{_quoted(step.want)} is not known; {_one_of(WANTS)}."


def _critical_wants(step: Step, _above: Sequence[Step]) -> str:
    if step.critical and step.want == "none":
        return "a critical step wants a state or a value, never a bare tick."
    return ""


def _gate_is_critical(step: Step, _above: Sequence[Step]) -> str:
    if step.id in GATES and not step.critical:
        return "must be true: this step opens a gate, so a witness must confirm it."
    return ""


def _hold_is_critical(step: Step, _above: Sequence[Step]) -> str:
    if step.hold_point and not step.critical:
        return "a hold point must be critical too, so that two persons stand behind it."
    return ""


def _witness(step: Step, _above: Sequence[Step]) -> str:
    if step.witness and not step.critical:
        return "only a critical step has a witness; make it critical or leave the witness out."
    return ""


def _states(step: Step, _above: Sequence[Step]) -> str:
    if step.want != "state":
        return "are offered only where want is 'state'." if step.states else ""
    if len(step.states) < 2:
        return "must offer two states or more where want is 'state'."
    if len(set(step.states)) < len(step.states) or "" in step.states:
        return "must be different from one another, and none may be empty."
    bare = [state for state in step.states if state.lower().rstrip(".!") in BARE_WORDS]
    return f"{_quoted(bare[0])} says nothing that was seen; name what was observed." if bare else ""


def _good(step: Step, _above: Sequence[Step]) -> str:
    if step.want != "state":
        return "belongs to a step whose want is 'state'." if step.good else ""
    strange = [state for state in step.good if state not in step.states]
    if strange:
        return f"{_quoted(strange[0])} is not among the states offered."
    if not step.good:
        return "must name the state that agrees."
    if len(step.states) > 1 and set(step.good) == set(step.states):
        return "may not name every state; offer one that does not agree."
    return ""


def _quantity(step: Step, _above: Sequence[Step]) -> str:
    if step.want != "value":
        return "belongs to a step whose want is 'value'." if step.quantity else ""
    if not step.quantity:
        return "must say what the value is, such as 'volume' or 'pressure'."
    if not _is_quantity(step.quantity):
        return (
            f"{_quoted(step.quantity)} is no quantity that can be read; use one such as 'volume'."
        )
    return ""


def _is_quantity(name: str) -> bool:
    try:
        known_units(name)
    except InputError:
        return False
    return True


def _compare(step: Step, _above: Sequence[Step]) -> str:
    if step.compare and step.want != "value":
        return "belongs to a step whose want is 'value'."
    if step.compare and step.compare not in COMPARES:
        return f"{_quoted(step.compare)} is not known; {_one_of(COMPARES)}."
    if step.compare and not step.expect:
        return "needs a value to compare with; fill in expect."
    return ""


def _expect(step: Step, _above: Sequence[Step]) -> str:
    if step.expect and not _SOURCE.fullmatch(step.expect):
        return f"{_quoted(step.expect)} must read figure:NAME, limit:NAME or step:ID."
    return ""


def _expect_compares(step: Step, _above: Sequence[Step]) -> str:
    return "needs compare: agrees, at least or at most." if step.expect and not step.compare else ""


def _expect_step(step: Step, above: Sequence[Step]) -> str:
    if not step.expect.startswith("step:"):
        return ""
    name = step.expect.removeprefix("step:")
    if name not in step.after:
        return f"compares with the step {_quoted(name)}, which must be named in after too."
    others = [one for one in above if one.id == name]
    if any(
        one.want in ("none", "state") or _differs(one.quantity, step.quantity) for one in others
    ):
        return f"compares with the step {_quoted(name)}, which has no {step.quantity}."
    return ""


def _differs(quantity: str, wanted: str) -> bool:
    """Whether a quantity is another one; a misspelt one is told where it stands."""
    return quantity != wanted and _is_quantity(quantity)


def _within(step: Step, _above: Sequence[Step]) -> str:
    if step.compare == "agrees":
        if not step.within:
            return "must name the limit inside which the two agree, such as limit:density_band."
    elif step.within:
        return "goes with compare 'agrees' only."
    if step.within and not _LIMIT.fullmatch(step.within):
        return f"{_quoted(step.within)} must read limit:NAME; a limit is a setting with an owner."
    return ""


def _gates(step: Step, _above: Sequence[Step]) -> str:
    strange = [gate for gate in step.gates if gate not in GATES]
    if strange:
        return f"{_quoted(strange[0])} is no gate; {_one_of(GATES)}."
    if step.id in step.gates:
        return "a step may not wait for the gate that it opens itself."
    return "names a gate twice." if len(set(step.gates)) < len(step.gates) else ""


def _after(step: Step, above: Sequence[Step]) -> str:
    ids = {other.id for other in above}
    strange = [name for name in step.after if name not in ids]
    if strange:
        return f"{_quoted(strange[0])} is no step above this one."
    return "names a step twice." if len(set(step.after)) < len(step.after) else ""


def _at_once(step: Step, _above: Sequence[Step]) -> str:
    return "needs a key: one letter stores the event." if step.at_once and not step.key else ""


def _at_once_holds_nothing(step: Step, _above: Sequence[Step]) -> str:
    if step.at_once and step.hold_point:
        return "a step stored at once cannot be a hold point: nothing may stop the pumping hand."
    return ""


def _zeroes(step: Step, _above: Sequence[Step]) -> str:
    if step.zeroes and not step.at_once:
        return "only a step stored at once can zero the pumped volume; set at_once too."
    return ""


def _key(step: Step, above: Sequence[Step]) -> str:
    if step.key and not re.fullmatch("[a-z]", step.key):
        return f"{_quoted(step.key)} must be one small letter."
    if step.key and any(step.key == other.key for other in above):
        return f"the letter '{step.key}' belongs to a step above already."
    return ""


def _plugs(step: Step, _above: Sequence[Step]) -> str:
    if step.plugs in ("", "bottom"):
        return ""
    return f"{_quoted(step.plugs)} is not known; use 'bottom' or leave it out."


def _only_with(step: Step, _above: Sequence[Step]) -> str:
    if step.only_with and not _LIMIT.fullmatch(step.only_with):
        return f"{_quoted(step.only_with)} must read limit:NAME, a limit that a job may have."
    if step.only_with and step.id in GATES:
        return "a step that opens a gate applies to every job; take it out."
    return ""


def _fills(step: Step, _above: Sequence[Step]) -> str:
    if step.fills and step.want != "state":
        return "goes with a step whose want is 'state': the state says where the mud stands."
    return ""


def _quoted(text: str) -> str:
    return f"'{shown(text, 40)}'"


def _one_of(names: Iterable[str]) -> str:
    return "use one of: " + ", ".join(names)


RULES: tuple[tuple[tuple[str, ...], Rule], ...] = (
    (("id",), _id),
    (("text",), _named),
    (("who",), _doer),
    (("want",), _want),
    (("want", "critical"), _critical_wants),
    (("critical", "id"), _gate_is_critical),
    (("hold_point", "critical"), _hold_is_critical),
    (("witness", "critical"), _witness),
    (("states", "want"), _states),
    (("good", "want", "states"), _good),
    (("quantity", "want"), _quantity),
    (("compare", "want", "expect"), _compare),
    (("expect",), _expect),
    (("expect", "compare"), _expect_compares),
    (("expect", "after", "quantity"), _expect_step),
    (("within", "compare"), _within),
    (("gates", "id"), _gates),
    (("after",), _after),
    (("at_once", "key"), _at_once),
    (("hold_point", "at_once"), _at_once_holds_nothing),
    (("zeroes", "at_once"), _zeroes),
    (("key",), _key),
    (("plugs",), _plugs),
    (("only_with", "id"), _only_with),
    (("fills", "want"), _fills),
)
