"""The checklists worked in any order, with corrections: what is enforced stays enforced."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from datetime import timedelta
from functools import cache
from typing import Any

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from tally.book.standing import Standing, begun
from tally.errors import EntryRefused
from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.correction import Correction
from tally.job.entries.landing import OnDepth
from tally.job.entries.passing import PassingAnswered
from tally.job.entries.pumping import Pumped
from tally.job.entries.steps import StepDone, StepPassed, StepWitnessed
from tally.job.entry import Entry, to_fields
from tally.job.expected import expected
from tally.job.fold import effective, fold
from tally.job.job import Job
from tally.job.setup import Setup
from tally.job.stored import to_fields as plain
from tally.steps.model import ON_DEPTH, Checklist, Step
from tally.steps.reading import shipped
from tally.units import read
from tests.tally.job.invented import (
    CEMENTER,
    CEMENTING,
    LEAD,
    MUD,
    REP,
    START,
    Telling,
    landed,
    pumping,
    pumping_down,
    ready_to_pump,
    setup,
)
from tests.tally.job.whole_figures import assert_whole

PLACES = [(plan, step) for plan in shipped() for step in plan.steps]
OF_GATE = {step.id: (plan, step) for plan, step in PLACES}
DOERS = {one.role: one.name for one in setup().people}
BLIND = {step.id: step.blind for _, step in PLACES}
PEOPLE = st.sampled_from([LEAD, REP, CEMENTER, MUD])
SOMEBODY = PEOPLE | st.sampled_from(["", "a stranger"])
REASON = st.sampled_from(["", "because"])
VALUES = {
    "pressure": ("3600 psi", "10 psi"),
    "volume": ("60 bbl", "0.1 bbl", "3 m3"),
    "flow rate": ("1 bbl/min", "9 bbl/min"),
    "density": ("10.2 lb/gal", "12 lb/gal"),
    "strokes": ("300", "1"),
}


STAGES: dict[str, Callable[[Setup], Telling]] = {
    "running": lambda plan: Telling().starts(plan).runs().takes(),
    "on depth": landed,
    "ready to pump": ready_to_pump,
    "pumping down": pumping_down,
}


@cache
def begun_at(bottom_plugs: int, stage: str) -> Standing:
    """Return a book that is at some stage of the job."""
    standing = begun("any checklist")
    told = STAGES[stage](setup(pumping=pumping(bottom_plugs=bottom_plugs)))
    others = [plan for plan in shipped() if plan not in CEMENTING]
    if others:
        told.takes(*others)
    for entry in told.entries:
        _, standing = standing.next(entry)
    return standing


class AnyChecklist(RuleBasedStateMachine):
    """A whole string, landed at some point, and three lists."""

    def __init__(self) -> None:
        super().__init__()
        self.standing = begun("any checklist")

    @property
    def job(self) -> Job:
        return self.standing.job

    def says(self, kind: type[Entry], **told: Any) -> bool:
        """Record an entry; whether it was taken. Anything but a refusal is a fault."""
        at = (START + timedelta(minutes=self.standing.count)).isoformat()
        if kind is StepDone and BLIND.get(told["step_id"]):
            told.setdefault("given", next(name for name in (REP, MUD) if name != told.get("by")))
        before = self.standing
        with suppress(EntryRefused):
            _, self.standing = self.standing.next(kind(**{"by": LEAD, "at": at, **told}))
        return self.standing is not before

    @initialize(bottom_plugs=st.integers(0, 1), stage=st.sampled_from(list(STAGES)))
    def begins(self, bottom_plugs: int, stage: str) -> None:
        self.standing = begun_at(bottom_plugs, stage)

    def due(self) -> list[tuple[Checklist, Step]]:
        """Return the steps that nothing is entered for."""
        return [(p, s) for p, s in PLACES if (p.id, s.id) not in self.job.steps]

    def seen(self, data: Any, plan: Checklist, step: Step, *, well: bool) -> dict[str, str]:
        """Draw what is seen at a step; what is wanted, or anything."""
        if step.want == "state":
            return {"state": data.draw(st.sampled_from(step.good if well else step.states))}
        want = expected(self.job, plan, step) if step.want == "value" else None
        if want is not None and well:
            return {"value": want.text}
        if step.want == "value":
            return {"value": data.draw(st.sampled_from(VALUES.get(step.quantity, ("1 cP",))))}
        return {}

    @rule()
    def lands(self) -> None:
        self.says(OnDepth, stick_up=322, counted=0, despite="because")

    @rule(data=st.data(), times=st.integers(1, 12))
    def works_as_it_should_be(self, data: Any, times: int) -> None:
        for plan, step in self.due()[:times]:
            told = self.seen(data, plan, step, well=True)
            by = DOERS.get(step.who, CEMENTER)
            witness = DOERS.get(step.witness, LEAD)
            self.says(StepDone, list_id=plan.id, step_id=step.id, by=by, witness=witness, **told)

    @rule(data=st.data())
    def does_anything(self, data: Any) -> None:
        plan, step = data.draw(st.sampled_from(PLACES))
        told = data.draw(st.sampled_from([{}, self.seen(data, plan, step, well=False)]))
        people = {name: data.draw(SOMEBODY) for name in ("witness", "second")}
        self.says(
            StepDone,
            list_id=plan.id,
            step_id=step.id,
            by=data.draw(PEOPLE),
            despite=data.draw(REASON),
            **told,
            **people,
        )

    @rule(data=st.data())
    def stores_at_once(self, data: Any) -> None:
        due = [(plan, step) for plan, step in self.due() if step.at_once]
        if due:
            plan, step = due[0]
            self.says(
                StepDone,
                list_id=plan.id,
                step_id=step.id,
                by=CEMENTER,
                despite=data.draw(REASON),
                second=data.draw(st.sampled_from(["", REP])),
            )

    @rule(data=st.data())
    def answers_for_a_passed_gate(self, data: Any) -> None:
        asked = [key for key, record in self.job.steps.items() if not record.answered]
        if asked:
            list_id, step_id = data.draw(st.sampled_from(asked))
            second = data.draw(SOMEBODY)
            where = {"list_id": list_id, "step_id": step_id}
            self.says(PassingAnswered, reason=data.draw(REASON), second=second, **where)

    @rule(data=st.data(), well=st.booleans())
    def witnesses(self, data: Any, well: bool) -> None:
        waiting = [
            (plan, step)
            for plan, step in PLACES
            if step.critical
            and (record := self.job.steps.get((plan.id, step.id)))
            and not record.witness
        ]
        if waiting:
            plan, step = data.draw(st.sampled_from(waiting))
            self.says(
                StepWitnessed,
                list_id=plan.id,
                step_id=step.id,
                witness=data.draw(SOMEBODY),
                despite=data.draw(REASON),
                **self.seen(data, plan, step, well=well),
            )

    @rule(data=st.data(), outcome=st.sampled_from(["not done", "not applicable"]))
    def passes_over(self, data: Any, outcome: str) -> None:
        plan, step = data.draw(st.sampled_from(PLACES))
        self.says(
            StepPassed,
            list_id=plan.id,
            step_id=step.id,
            outcome=outcome,
            reason=data.draw(REASON),
            second=data.draw(SOMEBODY),
        )

    @rule(strokes=st.none() | st.integers(-1, 900), tenths=st.none() | st.integers(0, 900))
    def reads_the_counts(self, strokes: int | None, tenths: int | None) -> None:
        tank = None if tenths is None else read(f"{tenths / 10} bbl", "volume")
        self.says(Pumped, strokes=strokes, tank=tank, despite="because")

    @rule(data=st.data())
    def closes(self, data: Any) -> None:
        if self.job.open_exceptions():
            one = data.draw(st.sampled_from(self.job.open_exceptions()))
            assert self.says(ExceptionClosed, of=one.seq, reason="settled", by=REP, second=CEMENTER)

    @rule(data=st.data(), strike=st.booleans())
    def corrects(self, data: Any, strike: bool) -> None:
        kinds = (StepDone, StepWitnessed, StepPassed, Pumped, OnDepth, ExceptionClosed)
        found = [e for e in self.standing.entries if isinstance(e, kinds)]
        if not found:
            return
        entry = data.draw(st.sampled_from(found))
        instead = None
        if not strike and isinstance(entry, StepDone):
            fields = to_fields(entry)
            step = next(s for p, s in PLACES if (p.id, s.id) == (entry.list_id, entry.step_id))
            plan = next(p for p, s in PLACES if s is step)
            told = self.seen(data, plan, step, well=False)
            kept = {k: v for k, v in fields.items() if k not in ("kind", "by", "at", "seq")}
            instead = {**kept, **told}
        taken = self.says(Correction, of=entry.seq, reason="slip", instead=instead)
        assert taken or instead is not None, "an entry may always be struck"

    @rule(bottom_plugs=st.integers(0, 1), mud=st.sampled_from(["10.2 lb/gal", "12 lb/gal"]))
    def corrects_the_set_up(self, bottom_plugs: int, mud: str) -> None:
        changed = pumping(bottom_plugs=bottom_plugs, mud_weight=read(mud, "density"))
        instead = {"setup": plain(setup(pumping=changed))}
        assert self.says(Correction, of=1, reason="slip", instead=instead)

    # What must hold

    @invariant()
    def no_step_stands_before_what_it_waits_for(self) -> None:
        job = self.job
        for plan, step in PLACES:
            record = job.steps.get((plan.id, step.id))
            if record is None or record.outcome != "done" or record.passed:
                continue
            for gate in step.gates:
                if gate == ON_DEPTH:
                    assert job.landing is not None
                    assert job.landing.seq < record.seq
                    continue
                opener, opening = OF_GATE[gate]
                if opening.plugs == "bottom" and not job.known.pumping.bottom_plugs:
                    continue
                before = job.steps[opener.id, gate]
                assert before.seq < record.seq, f"{step.id} before {gate}"
                assert before.outcome == "done"
                assert not before.differs
                assert before.witness or (opening.at_once and step.at_once)
            for name in step.after:
                first = plan.step(name)
                if first.applies(job.known.pumping.bottom_plugs):
                    assert job.steps[plan.id, name].seq < record.seq, f"{step.id} before {name}"

    @invariant()
    def a_witness_is_somebody_else_on_the_job(self) -> None:
        for plan, step in PLACES:
            record = self.job.steps.get((plan.id, step.id))
            if record is None:
                continue
            if record.witness:
                assert record.witness in self.job.people
                assert record.witness != record.by
            elif step.critical:
                assert step.at_once

    @invariant()
    def what_is_not_as_wanted_stays_in_sight(self) -> None:
        told = [each.what for each in self.job.exceptions]
        for plan, step in PLACES:
            record = self.job.steps.get((plan.id, step.id))
            if record is None:
                continue
            name = f"{plan.title}, {step.text}: "
            mine = [what for what in told if what.startswith(name)]
            if record.state and record.state not in step.good:
                assert any(f"Seen: {record.state}" in what for what in mine), record
            if record.passed:
                assert any(record.passed in what for what in mine), record
                answer = "Second person: " if record.answered else "Nobody gave a reason."
                assert any(answer in what for what in mine), record
            if record.outcome != "done" and step.critical:
                assert any(f"{record.outcome}. because." in what for what in mine), record
            assert not record.differs or any("Nobody gave a reason" in what for what in mine)

    @invariant()
    def every_entry_stands_or_is_named(self) -> None:
        named = {each.seq for each in self.job.exceptions if "no longer fits" in each.what}
        standing = {record.seq for record in self.job.steps.values()}
        for entry in effective(self.standing.entries):
            if isinstance(entry, StepDone | StepPassed):
                assert (entry.seq in standing) is not (entry.seq in named), entry

    @invariant()
    def the_counts_run_from_the_release_of_the_top_plug(self) -> None:
        record = self.job.steps.get(("plug-release", "top-plug-released"))
        gone = record if record is not None and record.outcome == "done" else None
        assert self.job.zeroed == gone
        assert all(gone is not None and one.seq > gone.seq for one in self.job.pumped)

    @invariant()
    def figures_are_whole_and_the_book_gives_the_same_job(self) -> None:
        assert_whole(self.job)
        assert fold(self.standing.entries) == self.job


TestAnyChecklist = AnyChecklist.TestCase
TestAnyChecklist.settings = settings(max_examples=20, stateful_step_count=25, deadline=None)
