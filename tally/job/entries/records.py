"""What is kept beside the work: notices, calibrations, time lost, pressure tests."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from tally.errors import InputError
from tally.job.entry import Entry, entry_kind, later, moment, seconds_between
from tally.job.job import Job
from tally.job.kept_records import Calibration, LostTime, Notice, PressureTest
from tally.job.stored import measured
from tally.units import Measure, shown

LONGEST_HOURS = 72.0
"""A longer stop is more likely a slip of the keys."""


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class NoticeGiven(Entry):
    """Somebody outside the crew was told of the job: a regulator, the office, another crew."""

    KIND = "notice given"

    to: str
    about: str
    means: str
    given: str = ""
    """Who gave it; empty: whoever is at the keys."""
    when: str = ""
    """When, as it was typed; empty: now."""
    answer: str = ""
    """What was answered, or the number of the notice."""

    def check(self, job: Job) -> str:
        """Refuse a notice to nobody, of nothing, or by no means."""
        if not self.to.strip():
            return "Type who was told: the person or the office."
        if not self.about.strip():
            return "Say what the notice was of."
        return "" if self.means.strip() else "Say how it was given: by telephone, by mail."

    def apply(self, job: Job) -> Job:
        """Keep the notice."""
        told = (self.to, self.about, self.means, self.given or self.by, self.when, self.answer)
        return replace(job, notices=(*job.notices, Notice(self.seq, *told, self.by, self.at)))

    def said(self) -> str:
        """Return the entry in words."""
        when = f", {self.when}" if self.when else ""
        answer = f" ({self.answer})" if self.answer else ""
        return f"notice of {self.about} to {self.to}, by {self.means}{when}{answer}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class CalibrationNoted(Entry):
    """A gauge, a scale or a torque turn system carries the day of its calibration."""

    KIND = "calibration noted"

    what: str
    day: str
    """Of the calibration, as year-month-day."""
    due: str = ""
    """The day until which it holds; empty: none is given."""
    serial: str = ""
    done_by: str = ""
    note: str = ""

    def check(self, job: Job) -> str:
        """Refuse a thing without a name, and what is no day."""
        if not self.what.strip():
            return "Say what was calibrated: the gauge, the scale, the torque turn system."
        for each in filter(None, (self.day, self.due)):
            if _day(each) is None:
                return f"'{shown(each, 20)}' is no day; type it as 2026-03-31."
        if not self.day:
            return "Type the day of the calibration, as 2026-03-31."
        if self.due and self.due < self.day:
            return f"It holds until {self.due}, which is before {self.day}; look at the two days."
        return ""

    def demand(self, job: Job) -> str:
        """Refuse a calibration that is still to come."""
        today = moment(self.at).date().isoformat()
        return (
            f"{self.day} is still to come; type the last calibration." if self.ahead(today) else ""
        )

    def ahead(self, today: str) -> bool:
        """Whether the calibration lies after a day."""
        return self.day > today

    def ask(self, job: Job) -> str:
        """Ask where it has run out."""
        if not self.due or self.due >= moment(self.at).date().isoformat():
            return ""
        return f"The calibration of {self.what} held until {self.due}; it has run out."

    def apply(self, job: Job) -> Job:
        """Keep it; one that has run out stays in sight."""
        told = (self.what, self.serial, self.day, self.due, self.done_by, self.note)
        one = Calibration(self.seq, *told, self.by, self.at)
        job = replace(job, calibrations=(*job.calibrations, one))
        out = self.ask(job) if self.despite else ""
        if not out:
            return job
        return job.with_exception(self.seq, f"{out} Used: {self.despite}", self.by, self.at)

    def said(self) -> str:
        """Return the entry in words."""
        number = f" no. {self.serial}" if self.serial else ""
        due = f", holds until {self.due}" if self.due else ""
        return f"{self.what}{number} calibrated {self.day}{due}"


def _day(text: str) -> date | None:
    try:
        found = date.fromisoformat(text)
    except ValueError:
        return None
    return found if found.isoformat() == text else None


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class TimeLost(Entry):
    """The work stood for a time, and why."""

    KIND = "time lost"

    cause: str
    time: Measure = measured("time")
    began: str = ""
    """When it began, as a time of an entry; empty: so long before the entry."""
    note: str = ""

    def check(self, job: Job) -> str:
        """Refuse a stop without a cause, without a length, or longer than anybody stands."""
        if not self.cause.strip():
            return "Say what was waited for."
        hours = self.time.value / 3600
        if not 0 < hours <= LONGEST_HOURS:
            return (
                f"{self.time.text} is no time that the work stood; type more than nothing and at "
                f"most {LONGEST_HOURS:g} h."
            )
        if self.began:
            try:
                moment(self.began)
            except InputError as fault:
                return str(fault)
        return ""

    def demand(self, job: Job) -> str:
        """Refuse a stop that is not over yet."""
        over = seconds_between(self.at, later(self.start, self.time.value))
        return "It would end after now; type the time lost so far." if over > 60 else ""

    @property
    def start(self) -> str:
        """When the work came to stand."""
        return self.began or later(self.at, -self.time.value)

    def apply(self, job: Job) -> Job:
        """Keep it with its cause."""
        told = (self.cause, self.time, self.start, self.note)
        return replace(job, lost=(*job.lost, LostTime(self.seq, *told, self.by, self.at)))

    def said(self) -> str:
        """Return the entry in words."""
        return f"{self.time.text} lost: {self.cause}" + (f" ({self.note})" if self.note else "")


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class PressureTested(Entry):
    """Something was put under pressure and watched."""

    KIND = "pressure tested"

    what: str
    pressure: Measure = measured("pressure")
    time: Measure = measured("time")
    held: bool
    ended: Measure | None = measured("pressure", optional=True)
    """What stood at the end."""
    device: str = ""
    """What it was read on."""
    note: str = ""
    """What was irregular, and what was done about it."""

    def check(self, job: Job) -> str:
        """Refuse a test of nothing, with no pressure or time, or one that failed without words."""
        if not self.what.strip():
            return "Say what was tested."
        if self.pressure.value <= 0 or self.time.value <= 0:
            return "A test has a pressure and a time above nothing; read them again."
        if not self.held and not self.note.strip():
            return "Say what was seen and what was done, where a test did not hold."
        return ""

    def ask(self, job: Job) -> str:
        """Ask where more stands at the end than was put on: heat, or a slip of the keys."""
        if self.ended is None or self.ended.value <= self.pressure.value:
            return ""
        return f"{self.ended.text} at the end is more than the {self.pressure.text} put on."

    def apply(self, job: Job) -> Job:
        """Keep it; one that did not hold stays in sight."""
        told = (self.what, self.pressure, self.time, self.ended, self.held, self.device, self.note)
        one = PressureTest(self.seq, *told, self.by, self.at)
        job = replace(job, pressure_tests=(*job.pressure_tests, one))
        if self.held:
            return job
        return job.with_exception(self.seq, f"Did not hold: {self.said()}", self.by, self.at)

    def said(self) -> str:
        """Return the entry in words."""
        word = "held" if self.held else "did not hold"
        noted = f" ({self.note})" if self.note else ""
        return f"{self.what} tested with {self.pressure.text} for {self.time.text}: {word}{noted}"
