"""Steps of the checklists: done, witnessed, passed over."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.entry import Entry, clock, ended, entry_kind
from tally.job.gates import DONE, applies, slurry_under_way
from tally.job.job import Job, StepRecord
from tally.job.origin import origins_told
from tally.job.step_wants import (
    accepted,
    gate_reasons,
    not_applying,
    not_giving,
    not_second,
    outside,
    wanted,
)
from tally.job.wet_shoe import marked
from tally.job.witnessing import other_role, unsigned
from tally.steps.model import Checklist, Step

OUTCOMES = ("not done", "not applicable")
WITNESS, RELEASE = "the witness of this step", "the release of this hold point"


@dataclass(frozen=True, slots=True, kw_only=True)
class OfStep(Entry):
    """An entry about one step of one list."""

    list_id: str
    step_id: str

    def said(self) -> str:
        """Return the entry in words, without looking into its list: "bottom plug released"."""
        return self.step_id.replace("-", " ") + self.outcome_said()

    def worded(self, job: Job) -> str:
        """Return the entry in the words of its list."""
        found = self.place(job)
        said = found[1].text + self.outcome_said() if found else self.said()
        return said + origins_told(self.origins)

    def outcome_said(self) -> str:
        """Return what is said of the step, to stand after its name."""
        raise NotImplementedError

    def place(self, job: Job) -> tuple[Checklist, Step] | None:
        """Return the list and the step, if the book has them."""
        plan = job.lists.get(self.list_id)
        step = (
            next((each for each in plan.steps if each.id == self.step_id), None) if plan else None
        )
        return None if plan is None or step is None else (plan, step)

    def unknown(self, job: Job) -> str:
        """Return why the step cannot be worked at all, or nothing."""
        found = self.place(job)
        if job.setup is None or found is None:
            return f"This book has no step '{self.step_id}' in a list '{self.list_id}'."
        if not applies(job, found[1]):
            return not_applying(job, found[1])
        if found[0].on_call and self.list_id not in job.started:
            return f"The list '{found[0].title}' is not started; t on F6 starts it."
        return ""

    def record(self, job: Job) -> StepRecord | None:
        """Return what was entered for the step before, if anything."""
        return job.steps.get((self.list_id, self.step_id))

    def kept(self, job: Job, record: StepRecord) -> Job:
        """Return the job with this record of the step."""
        zeroed = job.zeroed
        if zeroed is not None and zeroed.seq == record.seq:
            zeroed = record
        steps = {**job.steps, (self.list_id, self.step_id): record}
        return marked(job, replace(job, steps=steps, zeroed=zeroed), self)

    def excepted(self, job: Job, *what: str, critical: bool = False) -> Job:
        """Return the job with one more exception in sight, of this step."""
        found = self.place(job)
        assert found is not None  # check() has refused an unknown step
        words = " ".join(each for each in what if each)
        return job.with_exception(
            self.seq,
            f"{found[0].title}, {found[1].text}: {words}",
            self.by,
            self.at,
            critical=critical,
        )


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class StepDone(OfStep):
    """A step was done, with what was seen or measured and who witnessed it."""

    KIND = "step done"

    state: str = ""
    value: str = ""
    witness: str = ""
    note: str = ""
    second: str = ""
    """The second person where a shut gate is passed."""
    released: str = ""
    """Who releases a hold point, where that is not the person at the keys."""
    given: str = ""
    """The second person, who gave a figure without seeing ours."""

    @property
    def doer(self) -> str:
        """Who did the step, or released the hold point."""
        return self.released or self.by

    def check(self, job: Job) -> str:
        """Refuse a step out of its place, without what it wants, or without its witness."""
        refused = self.unknown(job)
        found = self.place(job)
        if refused or found is None:
            return refused
        plan, step = found
        return (
            self._already(job)
            or self._passing(job, plan, step)
            or wanted(step, self.state, self.value, later=step.at_once and not self.witness)
            or self._witness(job, step)
            or self._releaser(job, step)
        )

    def demand(self, job: Job) -> str:
        """Want the roles that the list names, and the PIN of whoever has one."""
        found = self.place(job)
        if found is None:
            return ""
        step = found[1]
        signing = (self.witness, self.second, self.given, self.doer if step.hold_point else "")
        return (
            (not_giving(job, self.by, self.given) if step.blind else "")
            or (self._release(job, step.who) if step.hold_point else "")
            or other_role(job, self.witness, step.witness, WITNESS)
            or unsigned(job, signing, self.signed)
        )

    def _release(self, job: Job, role: str) -> str:
        """Return why this person cannot release a hold point, or nothing."""
        if self.doer not in job.people:
            return f"{self.doer} is not among the people of this job; add the person first."
        return other_role(job, self.doer, role, RELEASE)

    def _already(self, job: Job) -> str:
        record = self.record(job)
        if record is None:
            return ""
        return (
            f"Entered as {record.outcome} at {clock(record.at)} by {record.by}; "
            f"correct entry {record.seq} to change it."
        )

    def _passing(self, job: Job, plan: Checklist, step: Step) -> str:
        reasons = gate_reasons(job, plan, step)
        if not reasons or self._stored_first(job, step):
            return ""
        if not self.despite.strip() or not self.second:
            return f"{reasons[0]} This gate is passed only with a reason and a second person."
        return not_second(job, self.by, self.second)

    def _stored_first(self, job: Job, step: Step) -> bool:
        """Whether the event is stored, and the reason for a shut gate is asked for afterwards."""
        unanswered = not self.despite and not self.second
        return step.at_once and unanswered and slurry_under_way(job)

    def _witness(self, job: Job, step: Step) -> str:
        if not self.witness:
            waits = step.critical and not step.at_once
            return "A witness who is not the doer is wanted; name the person." if waits else ""
        return not_second(job, self.doer, self.witness)

    def _releaser(self, job: Job, step: Step) -> str:
        if not self.released:
            return ""
        if not step.hold_point:
            return "Only a hold point is released by somebody else than the person at the keys."
        known = self.released in job.people
        return "" if known else f"{self.released} is not among the people; add the person first."

    def ask(self, job: Job) -> str:
        """Stop where what was seen does not agree with what is expected."""
        found = self.place(job)
        if found is None or found[1].blind:
            return ""  # a question would tell ours before theirs is recorded
        return outside(job, *found, self.state, self.value)

    def apply(self, job: Job) -> Job:
        """Keep the record; zero the volume if the step does; keep exceptions in sight."""
        found = self.place(job)
        assert found is not None  # check() has refused an unknown step
        plan, step = found
        gates = gate_reasons(job, plan, step)
        differs = outside(job, plan, step, self.state, self.value)
        record = StepRecord(
            self.seq,
            DONE,
            self.doer if step.hold_point else self.given or self.doer,
            self.at,
            self.state,
            self.value,
            self.witness,
            self.note,
            gates[0] if gates else "",
            self.signed,
            "" if self.despite else differs,
            bool(self.despite) or not gates,
            self.given,
        )
        job = self.kept(job, record)
        if step.zeroes:
            job = replace(job, zeroed=record, pumped=(), in_doubt=())
        if not gates and not differs:
            return job
        second = f"Second person: {self.second}." if self.second else ""
        told = (*gates, differs, accepted(self.despite), second)
        return self.excepted(job, *told, critical=bool(gates))

    def outcome_said(self) -> str:
        """Return what was seen, and who stands behind it."""
        seen = self.state or self.value
        by = f", released by {self.released}" if self.released else ""
        witness = f", seen by {self.witness}" if self.witness else ""
        given = f", given unseen by {self.given}" if self.given else ""
        return (f": {seen}" if seen else ", done") + given + by + witness


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class StepWitnessed(OfStep):
    """What one key had stored was told afterwards: what was seen, and by which witness.

    A critical step wants the witness; a routine one only what was seen or measured.
    """

    KIND = "step witnessed"

    witness: str = ""
    state: str = ""
    value: str = ""

    def check(self, job: Job) -> str:
        """Refuse where nothing waits, or where the witness is the doer."""
        refused = self.unknown(job)
        record, found = self.record(job), self.place(job)
        if refused or found is None:
            return refused
        if record is None or record.outcome != DONE:
            return "There is nothing to witness yet; the step is not done."
        if record.witness:
            return f"{record.witness} has witnessed this already."
        if not found[1].critical and (record.state or record.value):
            return f"{record.state or record.value} is entered already; correct it to change it."
        named = found[1].critical or self.witness
        return (not_second(job, record.by, self.witness) if named else "") or wanted(
            found[1], self.state or record.state, self.value or record.value
        )

    def demand(self, job: Job) -> str:
        """Want the role that the list names, and the PIN of whoever has one."""
        found = self.place(job)
        wrong = other_role(job, self.witness, found[1].witness, WITNESS) if found else ""
        return wrong or unsigned(job, (self.witness,), self.signed)

    def ask(self, job: Job) -> str:
        """Stop where what was seen does not agree with what is expected."""
        found = self.place(job)
        return outside(job, *found, self.state, self.value) if found else ""

    def apply(self, job: Job) -> Job:
        """Add the witness and what was seen to the record."""
        record, found = self.record(job), self.place(job)
        assert record is not None  # check() has refused a step that is not done
        assert found is not None
        told = self.state or self.value
        question = outside(job, *found, self.state, self.value)
        seen = replace(
            record,
            witness=self.witness,
            state=self.state or record.state,
            value=self.value or record.value,
            signed=(*record.signed, *self.signed),
            differs=("" if self.despite else question) if told else record.differs,
        )
        job = self.kept(job, seen)
        return self.excepted(job, question, accepted(self.despite)) if question else job

    def outcome_said(self) -> str:
        """Return who witnessed it, and what was seen."""
        seen = self.state or self.value
        how = f"witnessed by {self.witness}" if self.witness else "told afterwards"
        return f", {how}" + (f": {seen}" if seen else "")


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class StepPassed(OfStep):
    """A step is not done, or does not apply here; both want a reason."""

    KIND = "step passed over"

    outcome: str
    reason: str
    second: str = ""

    def check(self, job: Job) -> str:
        """Refuse without a reason, and a critical step without a second person."""
        refused, found = self.unknown(job), self.place(job)
        if refused or found is None:
            return refused
        if self.record(job) is not None:
            return "Something is entered for this step already; correct that entry."
        if self.outcome not in OUTCOMES:
            return f"'{self.outcome}' is no outcome; say not done or not applicable."
        if not self.reason.strip():
            return "Say why the step is passed over."
        if found[1].critical and not self.second:
            return "A critical step is passed over only with a second person; name the person."
        return not_second(job, self.by, self.second) if self.second else ""

    def demand(self, job: Job) -> str:
        """Want the PIN of the second person, where there is one."""
        return unsigned(job, (self.second,), self.signed)

    def apply(self, job: Job) -> Job:
        """Keep the record, and an exception in sight for a critical step."""
        found = self.place(job)
        assert found is not None  # check() has refused an unknown step
        record = StepRecord(
            self.seq,
            self.outcome,
            self.by,
            self.at,
            witness=self.second,
            note=self.reason,
            signed=self.signed,
        )
        job = self.kept(job, record)
        if not found[1].critical:
            return job
        told = (f"{self.outcome}.", ended(self.reason), f"Second person: {self.second}.")
        return self.excepted(job, *told, critical=True)

    def outcome_said(self) -> str:
        """Return that it was passed over, and why."""
        return f", {self.outcome}: {self.reason}"
