"""What makes the shoe suspect beside the steps, and the test that clears it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.cementing_records import BackIn, ShoeTest
from tally.job.entry import Entry, entry_kind
from tally.job.job import Job
from tally.job.stored import measured
from tally.job.wet_shoe import MARK, marked
from tally.units import Measure


def _too_early(job: Job) -> str:
    if job.setup is None or job.zeroed is None:
        return "The top plug is not released yet; there is no cement at the shoe to speak of."
    return ""


def _unknown(job: Job, name: str) -> str:
    if name in job.people:
        return ""
    return f"{name or 'Nobody'} is not among the people of this job; add the person first."


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class PumpedBackIn(Entry):
    """Fluid that had come back at the float check was pumped in again."""

    KIND = "pumped back in"

    volume: Measure = measured("volume")
    decided: str

    def check(self, job: Job) -> str:
        """Refuse before the top plug, nothing pumped, and a decision of nobody."""
        if self.volume.value <= 0:
            return f"{self.volume.text} is nothing pumped back; type the volume."
        return _too_early(job) or _unknown(job, self.decided)

    def apply(self, job: Job) -> Job:
        """Keep it; the shoe is suspect from here on."""
        one = BackIn(self.seq, self.volume, self.decided, self.at)
        return marked(job, replace(job, back_in=(*job.back_in, one)), self)

    def said(self) -> str:
        """Return the entry in words."""
        return f"pumped back in {self.volume.text}, decided by {self.decided}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class ShoeTested(Entry):
    """The shoe was tested; where it held, a named person clears it."""

    KIND = "shoe tested"

    how: str
    held: bool
    cleared: str

    def check(self, job: Job) -> str:
        """Refuse before the cement, a test without words, and a name nobody knows."""
        if not self.how.strip():
            return "Say how the shoe was tested, with the pressure and the time."
        return _too_early(job) or _unknown(job, self.cleared)

    def apply(self, job: Job) -> Job:
        """Keep the test; where it held, close what marks the shoe."""
        test = ShoeTest(self.seq, self.how, self.held, self.cleared, self.at)
        after = replace(job, shoe_tests=(*job.shoe_tests, test))
        if not self.held:
            return marked(job, after, self)
        closed = tuple(
            replace(each, closed_by=self.cleared, closing=f"shoe tested: {self.how}")
            if each.what.startswith(MARK) and not each.closed_by
            else each
            for each in job.exceptions
        )
        return replace(after, exceptions=closed)

    def said(self) -> str:
        """Return the entry in words."""
        how = f"held, cleared by {self.cleared}" if self.held else "did not hold"
        return f"shoe tested, {how}: {self.how}"
