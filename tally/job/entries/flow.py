"""The flow check: the well watched with the pumps off."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.depths import shoe_depth
from tally.job.entry import Entry, ended, entry_kind
from tally.job.flow import NO_FLOW, STATES
from tally.job.happening import FlowCheck
from tally.job.job import Job
from tally.job.stored import measured
from tally.units import Measure

LONGEST = 86_400.0
"""[s]; nobody watches the flow for longer than a day."""


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class FlowChecked(Entry):
    """The well was watched for a time: it did not flow, it flowed, or it took mud."""

    KIND = "flow check"

    state: str
    time: Measure = measured("time")
    note: str = ""

    def check(self, job: Job) -> str:
        """Refuse before the job is set up, a state nobody knows, and no time at all."""
        if job.setup is None:
            return "The job is not set up yet; the flow is checked after that."
        if self.state not in STATES:
            return f"'{self.state}' is nothing that a flow check shows; say {', '.join(STATES)}."
        if not 0 < self.time.value <= LONGEST:
            return f"{self.time.text} is no time of a flow check; it is watched up to a day."
        return ""

    def apply(self, job: Job) -> Job:
        """Keep it; a well that flows or takes mud stays in sight."""
        seen = FlowCheck(
            self.seq, self.state, self.time, shoe_depth(job), self.note, self.by, self.at
        )
        job = replace(job, flow_checks=(*job.flow_checks, seen))
        if self.state == NO_FLOW:
            return job
        shoe = job.known.step.with_unit(max(0, seen.shoe))
        what = f"Flow check with the shoe at {shoe}: the well {self.state}"
        told = ended(f"{what}{self._noted()}")
        return job.with_exception(self.seq, told, self.by, self.at, critical=True)

    def _noted(self) -> str:
        return f" ({self.note})" if self.note else ""

    def said(self) -> str:
        """Return the entry in words."""
        return f"flow check, {self.time.text}: {self.state}{self._noted()}"
