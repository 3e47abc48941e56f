"""The auto-fill float, and the moment from which it lets nothing in any more."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.entry import Entry, ended, entry_kind
from tally.job.job import Job
from tally.job.running_records import Converted
from tally.job.stored import measured
from tally.job.volumes import auto_fill
from tally.units import Measure


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class AutoFillConverted(Entry):
    """The auto-fill float was converted: from here on the pipe runs in with its end closed."""

    KIND = "auto-fill converted"

    pressure: Measure | None = measured("pressure", optional=True)
    """Seen when it went over."""
    rate: Measure | None = measured("flow rate", optional=True)

    def check(self, job: Job) -> str:
        """Refuse where there is no auto-fill float, or it is converted already."""
        if job.setup is None or not job.string:
            return "Nothing is run yet; there is no float to convert."
        if not auto_fill(job.known):
            return (
                "The job set-up has no auto-fill float; set the share that it lets in, and then "
                "say when it is converted."
            )
        if job.converted is not None:
            return (
                f"The float was converted at entry {job.converted.seq}; correct that entry if it "
                "is wrong."
            )
        return ""

    def ask(self, job: Job) -> str:
        """Ask where less was seen than the float wants to go over."""
        filling = job.known.filling
        less = [
            f"{seen.text} was seen, and the float wants {wanted.text} to convert"
            for seen, wanted in (
                (self.pressure, filling.converts_at_pressure),
                (self.rate, filling.converts_at_rate),
            )
            if seen is not None and wanted is not None and seen.value < wanted.value
        ]
        return f"{'; '.join(less)}. It may still let fluid in." if less else ""

    def apply(self, job: Job) -> Job:
        """Keep who said so, when, and what was seen; less than wanted stays in sight."""
        doubt = self.ask(job)
        made = Converted(self.seq, self.by, self.at, self.pressure, self.rate)
        job = replace(job, converted=made)
        if not doubt:
            return job
        what = f"Auto-fill float said to be converted: {doubt} Reason: {ended(self.despite)}"
        return job.with_exception(self.seq, what, self.by, self.at)

    def said(self) -> str:
        """Return the entry in words."""
        seen = ", ".join(each.text for each in (self.pressure, self.rate) if each)
        return "auto-fill float converted" + (f" at {seen}" if seen else "")
