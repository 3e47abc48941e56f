"""Random acts by random people, from the shoe track to the floats, beside a model kept by hand.

What waits for what is written down in `on_paper.py` a second time, from the trade and not from
the lists or the gates.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from tally.book.standing import Standing, begun
from tally.errors import EntryRefused
from tally.job.entries.calling import ListStarted
from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.conditioning import PipeMoved, RateRead
from tally.job.entries.correction import Correction
from tally.job.entries.landing import OnDepth
from tally.job.entries.mixing import SurfaceSeen
from tally.job.entries.passing import PassingAnswered
from tally.job.entries.people import Note
from tally.job.entries.pumping import Pumped
from tally.job.entries.running import ItemRun
from tally.job.entries.steps import StepDone, StepPassed, StepWitnessed
from tally.job.entries.trouble import Losses
from tally.job.entry import Entry, to_fields
from tally.job.fold import fold, fold_on
from tally.job.job import Job
from tally.steps.model import Checklist, Step
from tally.units import read
from tests.screens.by_the_lines import as_they_stand
from tests.tally.job.invented import (
    CEMENTER,
    DRILLER,
    LEAD,
    MUD,
    MUD_STEPS,
    REP,
    START,
    landed,
    setup,
)
from tests.tally.job.on_paper import (
    EVENTS,
    HOLD_POINTS,
    WAITS_FOR,
    WANTED,
    Paper,
    plain,
)
from tests.tally.job.stages import LISTS, ON_CALL, STAGES, begun_at

PLACES = [(plan, step) for plan in LISTS.values() for step in plan.steps]
OF = {step.id: (plan, step) for plan, step in PLACES}
DOERS = {one.role: one.name for one in setup().people}
NAMES = tuple(DOERS.values())
ANYBODY = st.sampled_from((*NAMES, "", "a stranger"))
AT_THE_KEYS = st.sampled_from((*NAMES, "a stranger"))
REASON = st.sampled_from(("", "because"))
PASSED = ("line-test", "volumes-agreed", "bottom-plug-released", "first-slurry", "slurry-away",
          "top-plug-loaded", "top-plug-released", "bumped", "bled-back", "floats-held")  # fmt: skip
"""What people in a hurry do before its time."""


class AnyPeople(RuleBasedStateMachine):
    """A job worked by people who do what they like."""

    def __init__(self) -> None:
        super().__init__()
        self.standing = begun("any people")
        self.pins: tuple[str, ...] = ()
        self.bottom_plugs = 0
        self.begun_with = 0
        self.written: tuple[Standing, list[Mapping[str, Any]]] = (self.standing, [])
        """The entries as they stand, worked out once for each standing."""
        self.looked = self.folded = self.standing

    @property
    def job(self) -> Job:
        return self.standing.job

    def makes(self, kind: type[Entry], **told: Any) -> Entry:
        """Return the next entry; who has a PIN signs with it where nothing else is said."""
        if kind is StepDone and told["step_id"] in OF and OF[told["step_id"]][1].blind:
            others = (name for name in (REP, CEMENTER) if name != told.get("by", LEAD))
            told.setdefault("given", next(others))
        named = (told.get(key) for key in ("by", "witness", "second", "released", "given"))
        signed = tuple(dict.fromkeys(name for name in named if name in self.pins))
        at = (START + timedelta(minutes=self.standing.count)).isoformat()
        return kind(**{"by": LEAD, "at": at, "signed": signed, **told})

    def says(self, kind: type[Entry], **told: Any) -> bool:
        """Record an entry; whether it was taken. Anything but a refusal is a fault."""
        before = self.standing
        with suppress(EntryRefused):
            _, self.standing = self.standing.next(self.makes(kind, **told))
        return self.standing is not before

    @initialize(
        bottom_plugs=st.integers(0, 1),
        stage=st.sampled_from(list(STAGES)),
        pins=st.sampled_from([(), (REP, CEMENTER), NAMES]),
    )
    def begins(self, bottom_plugs: int, stage: str, pins: tuple[str, ...]) -> None:
        self.standing = begun_at(bottom_plugs, stage, pins)
        self.pins, self.bottom_plugs = pins, bottom_plugs
        self.begun_with = self.standing.count

    # What people do

    def due(self) -> list[tuple[Checklist, Step]]:
        """Return the steps of the job that nothing is entered for, in order."""
        return [
            (plan, step)
            for plan, step in PLACES
            if (plan.id, step.id) not in self.job.steps
            and (not plan.on_call or plan.id in self.job.started)
        ]

    def seen(self, data: Any, step: Step, *, well: bool) -> dict[str, str]:
        """Draw what is seen at a step; what is wanted, or anything."""
        if step.want == "state":
            return {"state": data.draw(st.sampled_from(step.good if well else step.states))}
        if step.want == "value":
            return {"value": data.draw(st.sampled_from(_VALUES.get(step.quantity, ("1 cP",))))}
        return {}

    @rule(data=st.data(), times=st.integers(1, 8))
    def works_on_as_it_should_be(self, data: Any, times: int) -> None:
        for plan, step in self.due()[:times]:
            self.says(
                StepDone, list_id=plan.id, step_id=step.id, by=DOERS.get(step.who, LEAD),
                witness=DOERS.get(step.witness, "") or (DRILLER if step.critical else ""),
                despite="as seen", **self.seen(data, step, well=True),
            )  # fmt: skip

    @rule(data=st.data())
    def works_the_next_of_those_that_matter(self, data: Any) -> None:
        names = [name for name in (*WAITS_FOR, *HOLD_POINTS) if self.waits_still(name)]
        if names:
            plan, step = OF[data.draw(st.sampled_from(names))]
            by = data.draw(st.sampled_from((DOERS.get(step.who, LEAD), "a stranger", LEAD)))
            self.says(
                StepDone, list_id=plan.id, step_id=step.id, by=by,
                witness=data.draw(ANYBODY | st.just(DOERS.get(step.witness, REP))),
                despite=data.draw(REASON), second=data.draw(ANYBODY),
                **self.seen(data, step, well=data.draw(st.booleans())),
            )  # fmt: skip

    @rule(data=st.data(), name=st.sampled_from(PASSED), well=st.booleans())
    def passes_a_gate_with_a_second_person(self, data: Any, name: str, well: bool) -> None:
        if self.waits_still(name):
            plan, step = OF[name]
            self.says(
                StepDone, list_id=plan.id, step_id=name, by=DOERS[step.who],
                witness=DOERS[step.witness] if step.critical else "",
                despite="no time left", second=DRILLER, **self.seen(data, step, well=well),
            )  # fmt: skip

    def waits_still(self, name: str) -> bool:
        plan, step = OF[name]
        return (plan.id, step.id) not in self.job.steps

    @rule(data=st.data())
    def does_anything(self, data: Any) -> None:
        plan, step = OF[data.draw(st.sampled_from([*HOLD_POINTS, *OF]))]
        told = data.draw(st.sampled_from([{}, self.seen(data, step, well=False)]))
        people = {name: data.draw(ANYBODY) for name in ("witness", "second", "released")}
        self.says(
            StepDone, list_id=plan.id, step_id=step.id, by=data.draw(AT_THE_KEYS),
            despite=data.draw(REASON), **told, **people,
        )  # fmt: skip

    @rule(name=st.sampled_from(EVENTS), by=AT_THE_KEYS)
    def presses_the_key_of_an_event(self, name: str, by: str) -> None:
        self.says(StepDone, list_id=OF[name][0].id, step_id=name, by=by)

    @rule(data=st.data(), well=st.booleans())
    def witnesses(self, data: Any, well: bool) -> None:
        done = [name for name in EVENTS if not self.waits_still(name)]
        if done:
            plan, step = OF[data.draw(st.sampled_from(done))]
            self.says(
                StepWitnessed, list_id=plan.id, step_id=step.id, witness=data.draw(ANYBODY),
                despite=data.draw(REASON), **self.seen(data, step, well=well),
            )  # fmt: skip

    @rule(data=st.data())
    def answers_for_a_gate(self, data: Any) -> None:
        name = data.draw(st.sampled_from(EVENTS))
        self.says(
            PassingAnswered, list_id=OF[name][0].id, step_id=name, by=data.draw(AT_THE_KEYS),
            reason=data.draw(REASON), second=data.draw(ANYBODY),
        )  # fmt: skip

    @rule(data=st.data(), outcome=st.sampled_from(("not done", "not applicable")))
    def passes_over(self, data: Any, outcome: str) -> None:
        plan, step = OF[data.draw(st.sampled_from([*HOLD_POINTS, *OF]))]
        self.says(
            StepPassed, list_id=plan.id, step_id=step.id, outcome=outcome,
            reason=data.draw(REASON), second=data.draw(ANYBODY), by=data.draw(AT_THE_KEYS),
        )  # fmt: skip

    @rule(name=st.sampled_from(ON_CALL))
    def calls_trouble(self, name: str) -> None:
        self.says(ListStarted, list_id=name, why="seen so", by=CEMENTER)

    @rule(strokes=st.integers(0, 900))
    def reads_the_counts(self, strokes: int) -> None:
        self.says(Pumped, strokes=strokes, despite="because", by=MUD)

    @precondition(lambda self: self.job.landing is None)
    @rule()
    def lands(self) -> None:
        self.says(OnDepth, stick_up=322, counted=0, despite="because")

    @rule(data=st.data(), by=AT_THE_KEYS)
    def runs_pipe(self, data: Any, by: str) -> None:
        """The first joint above the collar waits for crew and hole; that is held here at once."""
        due = next((one for one in ("3", "4", "5") if self.job.items[one].state != "run"), "")
        if not due:
            return
        told = {"despite": data.draw(REASON), "second": data.draw(ANYBODY)}
        before = len(self.job.exceptions)
        if self.says(ItemRun, number=due, by=by, **told) and due == "3":
            ready = self.paper().deeds.get("ready-to-run")
            passed = len(self.job.exceptions) > before
            assert (ready is not None and ready.witness) or passed, "nobody released the pipe"
            assert not passed or (told["despite"] and told["second"] in NAMES)

    @rule(data=st.data())
    def closes(self, data: Any) -> None:
        still = self.job.open_exceptions()
        if still:
            one = data.draw(st.sampled_from(still))
            of, second = one.seq, data.draw(ANYBODY)
            alone = not second and not any(each.critical for each in still if each.seq == of)
            taken = self.says(ExceptionClosed, of=of, reason="settled", by=REP, second=second)
            assert taken == (alone or second in set(NAMES) - {REP})

    @precondition(lambda self: self.standing.count > self.begun_with)
    @rule(data=st.data(), strike=st.booleans())
    def corrects(self, data: Any, strike: bool) -> None:
        kinds = (StepDone, StepWitnessed, StepPassed, PassingAnswered, OnDepth, Pumped, ItemRun)
        found = [each for each in self.standing.entries if isinstance(each, kinds)]
        entry = data.draw(st.sampled_from(found))
        instead = None
        if not strike:
            kept = {key: one for key, one in to_fields(entry).items() if key not in _OWN}
            named = {"witness": data.draw(ANYBODY), "state": data.draw(st.sampled_from(_STATES))}
            instead = {**kept, **{key: one for key, one in named.items() if key in kept}}
        self.says(Correction, of=entry.seq, reason="slip", instead=instead, by=data.draw(ANYBODY))

    # What must hold

    def paper(self, before: int = 10**9) -> Paper:
        """Return the sheet of paper with the entries before one of them."""
        paper = Paper()
        for line in self.lines():
            if line["seq"] < before:
                paper.take(line)
        return paper

    def lines(self) -> list[Mapping[str, Any]]:
        """Return the entries as they stand, without those named as no longer fitting."""
        if self.written[0] is not self.standing:
            said = [plain(each) for each in self.standing.entries]
            left = {each.seq for each in self.job.exceptions if "no longer fits" in each.what}
            fit = [line for line in as_they_stand(said) if line["seq"] not in left]
            self.written = (self.standing, fit)
        return self.written[1]

    def told(self, *entries: int) -> bool:
        """Whether an exception of one of these entries is in sight: open, or closed by name."""
        return any(
            each.seq in entries
            and "no longer fits" not in each.what
            and (not each.closed_by or each.closing)
            for each in self.job.exceptions
        )

    @invariant()
    def nothing_stands_before_what_it_waits_for_unless_an_exception_says_so(self) -> None:
        """First of all: no top plug without a loaded, witnessed plug, and slurry away."""
        done = self.paper().deeds
        for name, wanted in WAITS_FOR.items():
            if name not in done:
                continue
            deed = done[name]
            then = self.paper(before=deed.seq)
            assert deed.by.strip(), f"{name} was done by nobody"
            for what in wanted:
                if what.startswith("bottom") and not self.bottom_plugs:
                    continue
                if then.lacks(what, event=name in EVENTS):
                    over = then.over.get(what, deed.seq)
                    assert self.told(deed.seq, over), f"{name} without {what}"
                elif then.amiss(what):
                    assert self.told(deed.seq, *then.amiss(what)), f"{what} amiss before {name}"

    @invariant()
    def the_counts_begin_with_the_top_plug_and_with_nothing_else(self) -> None:
        released = self.paper().deeds.get("top-plug-released")
        assert (self.job.zeroed.seq if self.job.zeroed else 0) == (released.seq if released else 0)

    @invariant()
    def a_hold_point_is_released_by_one_person_and_seen_by_another(self) -> None:
        for name in HOLD_POINTS:
            deed = self.paper().deeds.get(name)
            if deed is None:
                continue
            assert deed.by in NAMES, f"{name} was released by {deed.by}"
            assert deed.witness in NAMES, f"{name} was seen by nobody"
            assert deed.witness != deed.by, f"{name} was seen by its doer"

    @invariant()
    def from_the_first_slurry_to_the_bump_no_event_is_refused(self) -> None:
        paper = self.paper()
        if self.looked is self.standing:
            return
        self.looked = self.standing
        if "first-slurry" not in paper.deeds or "bumped" in {*paper.deeds, *paper.over}:
            return
        by = ("a stranger", *NAMES)[self.standing.count % (1 + len(NAMES))]
        for kind, told in self.events(paper):
            assert not self.refused(self.makes(kind, by=by, **told)), told

    def refused(self, entry: Entry) -> str:
        """Return why an entry is refused outright, be there a reason or none; else nothing."""
        try:
            fold_on(self.job, entry)
        except EntryRefused as refused:
            if refused.question and not entry.despite:
                return self.refused(replace(entry, despite="because"))
            return str(refused)
        return ""

    def events(self, paper: Paper) -> Iterator[tuple[type[Entry], dict[str, Any]]]:
        """Yield what may happen now, each as one key or one reading stores it."""
        for name in EVENTS:
            unheard = name not in paper.deeds and name not in paper.over
            if unheard and (name != "diaphragm-gave-way" or self.bottom_plugs):
                yield StepDone, {"list_id": OF[name][0].id, "step_id": name}
        for plan in LISTS.values():
            if plan.on_call and plan.id not in self.job.started:
                yield ListStarted, {"list_id": plan.id, "why": "pump stopped"}
        rate, pressure = read("5 bbl/min", "flow rate"), read("700 psi", "pressure")
        if "top-plug-released" in paper.deeds:
            yield Pumped, {"strokes": 3, "rate": rate, "pressure": pressure}
        else:
            yield RateRead, {"rate": rate, "pressure": pressure}
        yield Note, {"text": "pump started again"}
        yield Losses, {"rate": rate}
        yield PipeMoved, {"stroke": read("15 ft", "length")}
        yield SurfaceSeen, {"what": "spacer"}

    @invariant()
    def the_book_folded_anew_gives_the_same_job(self) -> None:
        if self.folded is not self.standing:
            self.folded = self.standing
            assert fold(self.standing.entries) == self.job


_OWN = ("kind", "by", "at", "seq")
_STATES = ("in the upper place", "indicator did not move", *WANTED.values())
_VALUES = {
    "pressure": ("3600 psi", "10 psi"),
    "volume": ("60 bbl", "30 bbl", "3 m3"),
    "flow rate": ("1 bbl/min", "9 bbl/min"),
    "density": ("10.2 lb/gal", "12 lb/gal"),
    "strokes": ("300", "1"),
}

TestAnyPeople = AnyPeople.TestCase
TestAnyPeople.settings = settings(max_examples=30, stateful_step_count=25, deadline=None)


@pytest.mark.long
class TestAnyPeopleForLong(AnyPeople.TestCase):  # type: ignore[misc, valid-type]
    """The same with many more of them."""

    settings = settings(max_examples=400, stateful_step_count=30, deadline=None)


def test_a_stranger_at_the_keys_releases_no_hold_point() -> None:
    told = landed()
    for step_id, seen in MUD_STEPS[:-1]:
        told.does("mud-conditioning", step_id, **seen)
    release = {"list_id": "mud-conditioning", "step_id": "conditioned"}
    seen = {"state": WANTED["conditioned"], "witness": MUD}
    assert told.refuses(StepDone, by="A Stranger", **release, **seen) == (
        "A Stranger is not among the people of this job; add the person first."
    )
    told.says(StepDone, by="A Stranger", released=REP, **release, **seen)
    assert told.job.steps["mud-conditioning", "conditioned"].by == REP
