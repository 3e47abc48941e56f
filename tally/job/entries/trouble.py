"""What goes wrong on the way down, and what follows from it.

Each is kept with the depth of the shoe of its moment, so that the final tally can list them. What
somebody has to answer for stays an open exception.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from tally.job.depths import shoe_depth
from tally.job.entry import Entry, ended, entry_kind
from tally.job.figures import figure, show
from tally.job.fittings import missing_on
from tally.job.happening import Happening
from tally.job.job import Fitting, Job
from tally.job.setup import same_name
from tally.job.stored import measured
from tally.units import Measure

WHERE = ("in the hole", "in the pipe", "on the floor")


@dataclass(frozen=True, slots=True, kw_only=True)
class OfTheRun(Entry):
    """An entry about what happened while the string was run."""

    CRITICAL: ClassVar[bool] = False
    """Whether what stays in sight of it is closed by two people: a gain or a loss."""

    def kept(self, job: Job, stays: str = "") -> Job:
        """Return the job with this in its list of what happened; `stays`: as an exception too."""
        one = Happening(self.seq, self.KIND, self.said(), shoe_depth(job), self.by, self.at)
        job = replace(job, happened=(*job.happened, one))
        if not stays:
            return job
        told = ended(stays)
        return job.with_exception(self.seq, told, self.by, self.at, critical=self.CRITICAL)

    def check(self, job: Job) -> str:
        """Refuse before anything is run."""
        if job.setup is None or not job.string:
            return "Nothing is run yet; write a note instead."
        return ""


def _closed(job: Job, of: Happening, by: str, closing: str) -> Job:
    """Return the job with the exception of something that is over closed."""
    closed = tuple(
        replace(each, closed_by=by, closing=closing)
        if each.seq == of.seq and not each.closed_by
        else each
        for each in job.exceptions
    )
    return replace(job, exceptions=closed)


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class TightSpot(OfTheRun):
    """The string took weight or was held up on the way."""

    KIND = "tight spot"

    depth: Measure | None = measured("length", optional=True)
    """Where; else the depth of the shoe."""
    overpull: Measure | None = measured("force", optional=True)
    set_down: Measure | None = measured("force", optional=True)
    done: str = ""
    """What was done about it."""

    def check(self, job: Job) -> str:
        """Refuse one of which nothing was seen, or one below the shoe."""
        refused = OfTheRun.check(self, job)
        if refused:
            return refused
        if self.overpull is None and self.set_down is None:
            return "Type the overpull or the weight set down, as the indicator showed it."
        return _in_the_hole(job, self.depth)

    def ask(self, job: Job) -> str:
        """Ask where more was pulled than the string and the gear carry."""
        pull = figure(job, "greatest_pull")
        if self.overpull is None or pull.value is None or self.overpull.value <= pull.value:
            return ""
        most = show(job, pull.value, "force")
        return f"An overpull of {self.overpull.text} is more than the greatest pull, {most}."

    def apply(self, job: Job) -> Job:
        """Keep it; a pull beyond the greatest stays in sight."""
        beyond = self.ask(job) if self.despite else ""
        return self.kept(job, f"{beyond} Entered all the same: {self.despite}" if beyond else "")

    def said(self) -> str:
        """Return the entry in words."""
        where = f" at {self.depth.text}" if self.depth else ""
        named = (("overpull", self.overpull), ("set down", self.set_down))
        told = ", ".join(f"{word} {one.text}" for word, one in named if one)
        return f"tight spot{where}: {told}" + (f"; {self.done}" if self.done else "")


def _in_the_hole(job: Job, depth: Measure | None) -> str:
    """Return why a depth is none that the string has reached, or nothing."""
    step = job.known.step
    longest = max(made.length for made in job.string)
    if depth is None or 0 <= step.steps(depth.value) <= shoe_depth(job) + longest:
        return ""
    shoe = step.with_unit(shoe_depth(job))
    return f"{depth.text} is not between the datum and the shoe at {shoe}; look at the depth."


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Stuck(OfTheRun):
    """The string moves neither up nor down."""

    KIND = "stuck"

    note: str = ""

    def check(self, job: Job) -> str:
        """Refuse it twice."""
        if job.stuck is not None:
            return f"The pipe is stuck already, since entry {job.stuck.seq}."
        return OfTheRun.check(self, job)

    def apply(self, job: Job) -> Job:
        """Hold the pipe until it is free."""
        shoe = job.known.step.with_unit(shoe_depth(job))
        noted = f" ({self.note})" if self.note else ""
        job = self.kept(job, f"The pipe is stuck with the shoe at {shoe}{noted}")
        return replace(job, stuck=job.happened[-1])

    def said(self) -> str:
        """Return the entry in words."""
        return "pipe stuck" + (f": {self.note}" if self.note else "")


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class PipeFree(OfTheRun):
    """The string moves again."""

    KIND = "pipe free"

    how: str

    def check(self, job: Job) -> str:
        """Refuse where it is not stuck, and without words."""
        if job.stuck is None:
            return "The pipe is not stuck by the book; there is nothing to free."
        return "" if self.how.strip() else "Say how the pipe came free."

    def apply(self, job: Job) -> Job:
        """Close what being stuck left open."""
        assert job.stuck is not None  # check() has refused otherwise
        job = _closed(job, job.stuck, self.by, self.said())
        return replace(self.kept(job), stuck=None)

    def said(self) -> str:
        """Return the entry in words."""
        return f"pipe free: {self.how}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Losses(OfTheRun):
    """Mud is lost to the hole: how much so far, how fast."""

    KIND = "losses"
    CRITICAL = True

    volume: Measure | None = measured("volume", optional=True)
    rate: Measure | None = measured("flow rate", optional=True)
    note: str = ""

    def check(self, job: Job) -> str:
        """Refuse losses of which nothing is known."""
        if self.volume is None and self.rate is None:
            return "Type the volume lost or the rate; look at the tanks."
        return OfTheRun.check(self, job)

    def apply(self, job: Job) -> Job:
        """Keep them in sight."""
        shoe = job.known.step.with_unit(shoe_depth(job))
        return self.kept(job, f"With the shoe at {shoe}: {self.said()}")

    def said(self) -> str:
        """Return the entry in words."""
        told = ", ".join(each for each in (self.volume and self.volume.text, self._rate()) if each)
        return f"losses: {told}" + (f" ({self.note})" if self.note else "")

    def _rate(self) -> str:
        return f"at {self.rate.text}" if self.rate else ""


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class ShutIn(OfTheRun):
    """The well is shut in; from here others lead, and the book only records."""

    KIND = "shut in"
    CRITICAL = True

    gain: Measure | None = measured("volume", optional=True)
    annulus_pressure: Measure | None = measured("pressure", optional=True)
    pipe_pressure: Measure | None = measured("pressure", optional=True)
    note: str = ""

    def check(self, job: Job) -> str:
        """Refuse it twice, and before the job is set up."""
        if job.setup is None:
            return "The job is not set up yet; write a note instead."
        if job.shut_in is not None:
            return f"The well is shut in already, since entry {job.shut_in.seq}."
        return ""

    def apply(self, job: Job) -> Job:
        """Step back until somebody says that the well is open."""
        job = self.kept(job, self.said()[0].upper() + self.said()[1:])
        return replace(job, shut_in=job.happened[-1])

    def said(self) -> str:
        """Return the entry in words."""
        named = (
            ("gain", self.gain),
            ("annulus", self.annulus_pressure),
            ("pipe", self.pipe_pressure),
        )
        told = ", ".join(f"{word} {one.text}" for word, one in named if one)
        seen = f": {told}" if told else ""
        return f"well shut in{seen}" + (f" ({self.note})" if self.note else "")


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class WellOpened(OfTheRun):
    """The people in charge have given the well back."""

    KIND = "well open"

    note: str

    def check(self, job: Job) -> str:
        """Refuse where it is not shut in, and without words."""
        if job.shut_in is None:
            return "The well is not shut in by the book."
        return "" if self.note.strip() else "Say who gave the well back, and how it stands."

    def apply(self, job: Job) -> Job:
        """Close what the shut-in left open."""
        assert job.shut_in is not None  # check() has refused otherwise
        job = _closed(job, job.shut_in, self.by, self.said())
        return replace(self.kept(job), shut_in=None)

    def said(self) -> str:
        """Return the entry in words."""
        return f"well open again: {self.note}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Dropped(OfTheRun):
    """Something fell."""

    KIND = "dropped"

    what: str
    where: str
    note: str = ""

    def check(self, job: Job) -> str:
        """Refuse a thing without a name, and a place that nobody knows."""
        if job.setup is None:
            return "The job is not set up yet; write a note instead."
        if not self.what.strip():
            return "Say what fell."
        return "" if self.where in WHERE else f"Say where it is: {', '.join(WHERE)}."

    def apply(self, job: Job) -> Job:
        """Keep it in sight until somebody has answered for it."""
        return self.kept(job, f"Dropped: {self.what}, {self.where}{self._noted()}")

    def said(self) -> str:
        """Return the entry in words."""
        return f"dropped: {self.what}, {self.where}{self._noted()}"

    def _noted(self) -> str:
        return f" ({self.note})" if self.note else ""


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class CrewChanged(OfTheRun):
    """The crew was relieved: the lead hands over to the next one by name."""

    KIND = "crew change"

    lead: str
    told: str
    """What was handed over in words."""

    def check(self, job: Job) -> str:
        """Refuse a lead who is not of the job, or who hands over to himself."""
        if self.lead not in job.people:
            return f"{self.lead} is not among the people of this job; add the person first (F2)."
        if same_name(self.lead, self.by):
            return f"{self.lead} is at the keys; name the person who takes over."
        return "" if self.told.strip() else "Say what was handed over: where it stands, what next."

    def apply(self, job: Job) -> Job:
        """Keep who handed over to whom."""
        return self.kept(job)

    def said(self) -> str:
        """Return the entry in words."""
        return f"crew change: {self.lead} leads from here; {self.told}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class FittingMissed(OfTheRun):
    """Something of the programme is not on an item that is run, and will not be."""

    KIND = "fitting missed"

    number: str
    reason: str

    def check(self, job: Job) -> str:
        """Refuse an item on which nothing of the programme is missing, or without a reason."""
        if not _lacks(job, self.number):
            return f"Nothing of the programme is missing on {self.number}; look at the number."
        return "" if self.reason.strip() else f"Say why it is not installed on {self.number}."

    def apply(self, job: Job) -> Job:
        """Keep it in sight."""
        lacks = ", ".join(str(each) for each in _lacks(job, self.number))
        return self.kept(job, f"Not installed on {self.number}: {lacks}. {self.reason}")

    def said(self) -> str:
        """Return the entry in words."""
        return f"programme not installed on {self.number} ({self.reason})"


def _lacks(job: Job, number: str) -> tuple[Fitting, ...]:
    if job.setup is None:
        return ()
    return tuple(fitting for _, on, fitting in missing_on(job) if on == number)
