"""The weight on the indicator, as it was seen going down, coming up, or at rest."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.depths import shoe_depth
from tally.job.entry import Entry, entry_kind
from tally.job.job import Job, WeightReading
from tally.job.stored import measured
from tally.job.volumes import empty_length
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
        """Ask where the weight going down is above that coming up."""
        down, up = self.slack_off, self.pick_up
        if down is None or up is None or down.value <= up.value:
            return ""
        return f"Going down, {down.text}, is more than coming up, {up.text}; check which is which."

    def apply(self, job: Job) -> Job:
        """Keep the reading with the depth of the shoe and what of the pipe is empty."""
        stands = shoe_depth(job), empty_length(job)
        read = (self.slack_off, self.pick_up, self.hanging)
        seen = WeightReading(self.seq, stands[0], *read, self.at, stands[1])
        return replace(job, weighed=(*job.weighed, seen))

    def said(self) -> str:
        """Return the entry in words."""
        named = (("down", self.slack_off), ("up", self.pick_up), ("at rest", self.hanging))
        told = [f"{word} {measure.text}" for word, measure in named if measure]
        return f"weight on the indicator {', '.join(told)}"
