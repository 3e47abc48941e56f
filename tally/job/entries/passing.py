"""Reasons told afterwards: for a shut gate that was passed, for a figure that differs."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.entries.steps import OfStep
from tally.job.entry import entry_kind
from tally.job.job import Job, OpenException
from tally.job.step_wants import accepted, not_second
from tally.job.witnessing import unsigned


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class PassingAnswered(OfStep):
    """Somebody says why a shut gate was passed, with a second person; it stays in sight."""

    KIND = "passing answered"

    reason: str
    second: str

    def check(self, job: Job) -> str:
        """Refuse where no gate waits for a reason, and a second person who is the doer."""
        refused, record = self.unknown(job), self.record(job)
        if refused:
            return refused
        if record is None or record.answered:
            return "No shut gate that was passed waits for a reason here."
        if not self.reason.strip():
            return "Say why the gate was passed."
        return not_second(job, record.by, self.second)

    def demand(self, job: Job) -> str:
        """Want the PIN of the second person, where there is one."""
        return unsigned(job, (self.second,), self.signed)

    def apply(self, job: Job) -> Job:
        """Put the reason and the second person to the exception, which stays as open as it is."""
        record = self.record(job)
        assert record is not None  # check() has refused a step that is not done
        told = tuple(self._put(each) if each.seq == record.seq else each for each in job.exceptions)
        signed = (*record.signed, *self.signed)
        job = replace(job, exceptions=told)
        return self.kept(job, replace(record, answered=True, signed=signed))

    def _put(self, one: OpenException) -> OpenException:
        answer = f"{accepted(self.reason)} Second person: {self.second}."
        return replace(one, what=one.what.replace(accepted(""), answer))

    def outcome_said(self) -> str:
        """Return why the gate was passed."""
        return f", shut gate passed: {self.reason}; second person {self.second}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class DifferenceAnswered(OfStep):
    """Somebody says why what was entered for a step differs from what is expected."""

    KIND = "difference answered"

    reason: str

    def check(self, job: Job) -> str:
        """Refuse where nothing differs, and an answer without words."""
        refused, record = self.unknown(job), self.record(job)
        if refused:
            return refused
        if record is None or not record.differs:
            return "Nothing that differs waits for a reason here."
        return "" if self.reason.strip() else "Say why it differs."

    def apply(self, job: Job) -> Job:
        """Put the reason to the exception, which stays as open as it is."""
        record = self.record(job)
        assert record is not None  # check() has refused a step that is not done
        told = tuple(self._put(each) if each.seq == record.seq else each for each in job.exceptions)
        return self.kept(replace(job, exceptions=told), replace(record, differs=""))

    def _put(self, one: OpenException) -> OpenException:
        return replace(one, what=one.what.replace(accepted(""), accepted(self.reason)))

    def outcome_said(self) -> str:
        """Return why it differs."""
        return f", why it differs: {self.reason}"
