"""The weight on the indicator, as it was seen going down, coming up, or at rest."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.errors import ShoedownError
from tally.job.depths import shoe_depth
from tally.job.entry import Entry, ended, entry_kind
from tally.job.job import Job
from tally.job.running_records import WeightReading
from tally.job.stored import measured
from tally.job.volumes import empty_length
from tally.job.weight_band import expected_then
from tally.units import Measure


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class WeightRead(Entry):
    """The indicator was read, with the blocks in it, at the shoe depth of the moment."""

    KIND = "weight read"

    slack_off: Measure | None = measured("force", optional=True)
    """Going down."""
    pick_up: Measure | None = measured("force", optional=True)
    """Coming up."""
    hanging: Measure | None = measured("force", optional=True)
    """At rest."""

    def check(self, job: Job) -> str:
        """Refuse before pipe hangs, or without a weight."""
        if job.setup is None or not job.string:
            return "Nothing is run yet; there is no weight of the string to read."
        if self.slack_off is None and self.pick_up is None and self.hanging is None:
            return "Type at least one weight: going down, coming up or at rest."
        return ""

    def ask(self, job: Job) -> str:
        """Ask where the weights cross, or that going down is not as expected within its limit."""
        down, up = self.slack_off, self.pick_up
        if down is not None and up is not None and down.value > up.value:
            return (
                f"Going down, {down.text}, is more than coming up, {up.text}; check which is which."
            )
        return self._off(job)

    def _off(self, job: Job) -> str:
        """Return how far the weight going down is off, where that is beyond the limit set."""
        band = job.known.limit("weight_difference")
        if band is None or self.slack_off is None:
            return ""
        try:
            expected = expected_then(job, self._reading(job)).slack_off
        except ShoedownError:
            return ""
        if abs(self.slack_off.value - expected) <= band.value:
            return ""
        return (
            f"Going down, {self.slack_off.text} was read and "
            f"{job.known.shown.show(expected, 'force')} is expected; the limit is {band.text}."
        )

    def _reading(self, job: Job) -> WeightReading:
        stands = shoe_depth(job), empty_length(job)
        read = (self.slack_off, self.pick_up, self.hanging)
        return WeightReading(self.seq, stands[0], *read, self.at, stands[1])

    def apply(self, job: Job) -> Job:
        """Keep the reading; one that is off and was given a reason stays in sight."""
        after = replace(job, weighed=(*job.weighed, self._reading(job)))
        off = self._off(job) if self.despite else ""
        if not off:
            return after
        what = f"{off} Entered all the same: {ended(self.despite)}"
        return after.with_exception(self.seq, what, self.by, self.at)

    def said(self) -> str:
        """Return the entry in words."""
        named = (("down", self.slack_off), ("up", self.pick_up), ("at rest", self.hanging))
        told = [f"{word} {measure.text}" for word, measure in named if measure]
        return f"weight on the indicator {', '.join(told)}"
