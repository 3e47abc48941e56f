"""The two landings: the string on depth, and the string hung off."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.counts import balance
from tally.job.entry import Entry, accepted, entry_kind, several
from tally.job.fittings import missing
from tally.job.job import Job
from tally.job.running_records import HungOff, Landing
from tally.job.stored import measured
from tally.units import Measure


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class OnDepth(Entry):
    """The string is on depth: the count is reconciled and the final depths are known."""

    KIND = "on depth"

    stick_up: int
    counted: int
    typed: str = ""

    def check(self, job: Job) -> str:
        """Refuse without a string, or twice."""
        if job.setup is None or not job.string:
            return "Nothing is run yet; the string cannot be on depth."
        if job.landing is not None:
            return f"The string is on depth already, since entry {job.landing.seq}."
        if not 0 <= self.stick_up < job.length:
            return (
                f"Stick-up {job.known.step.with_unit(self.stick_up)} is not between nothing and "
                f"the length of the string, {job.known.step.with_unit(job.length)}; type it again."
            )
        if self.counted < 0:
            return "Type how many joints are left on the rack."
        return _below_the_hole(job, self.stick_up)

    def ask(self, job: Job) -> str:
        """Stop when the shoe or the counts are not as expected; name what is not installed."""
        questions = (
            depth_question(job, self.stick_up),
            count_question(job, self.counted),
            missing(job),
        )
        return " ".join(each for each in questions if each)

    def apply(self, job: Job) -> Job:
        """Land the string; what was accepted stays in sight as an exception."""
        landing = Landing(self.seq, self.stick_up, self.counted, self.despite, self.by, self.at)
        question = self.ask(job)
        job = replace(job, landing=landing)
        if not question:
            return job
        what = f"On depth: {question} {accepted(self.despite)}"
        return job.with_exception(self.seq, what, self.by, self.at)

    def said(self) -> str:
        """Return the entry in words."""
        stick_up = f", stick-up {self.typed}" if self.typed else ""
        return f"on depth{stick_up}, {several(self.counted, 'joint')} counted on the rack"


def depth_question(job: Job, stick_up: int) -> str:
    """Return how far the shoe is from the casing point where that is a joint or more, or past."""
    step = job.known.step
    point = step.steps(job.known.hole.casing_point.value)
    short = point - (job.length - stick_up)
    joint = max((made.length for made in job.string if made.joint), default=0)
    shoe = step.with_unit(job.length - stick_up)
    if short > joint:
        return f"The shoe is at {shoe}, {step.with_unit(short)} above the casing point."
    if short < 0:
        return f"The shoe is at {shoe}, {step.with_unit(-short)} below the casing point."
    return ""


def _below_the_hole(job: Job, stick_up: int) -> str:
    step, hole = job.known.step, job.known.hole.depth
    shoe = job.length - stick_up
    if shoe <= step.steps(hole.value):
        return ""
    return (
        f"The shoe would be at {step.with_unit(shoe)}, below the hole at {hole.text}; "
        "check the count of joints, the stick-up and the hole depth."
    )


def count_question(job: Job, counted: int) -> str:
    """Return how the rack as counted differs from the book, or nothing."""
    sums = balance(job)
    question = ""
    if counted != sums.left.count:
        question = (
            f"{several(counted, 'joint')} counted on the rack, {sums.left.count} by the book: "
            f"{counted - sums.left.count:+d}."
        )
    if not sums.agrees:
        out = job.known.step.with_unit(sums.difference.length)
        question += f" The balance is out by {sums.difference.count:+d} joints and {out}."
    return question.strip()


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class HungOffAt(Entry):
    """The string is hung off; it may come long after it is on depth."""

    KIND = "hung off"

    load: Measure = measured("force")
    how: str = ""

    def check(self, job: Job) -> str:
        """Refuse before the string is on depth, or twice."""
        if job.landing is None:
            return "The string is not on depth yet; enter that first."
        if job.hung_off is not None:
            return f"The string is hung off already, since entry {job.hung_off.seq}."
        return ""

    def apply(self, job: Job) -> Job:
        """Note the load."""
        return replace(job, hung_off=HungOff(self.seq, self.load, self.how, self.by, self.at))

    def said(self) -> str:
        """Return the entry in words."""
        return f"hung off with {self.load.text}" + (f", {self.how}" if self.how else "")
