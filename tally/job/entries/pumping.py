"""The two counts of the volume pumped behind the top plug."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.cement.returns import FULL, LESS, MORE, NONE
from tally.job.entry import Entry, entry_kind
from tally.job.job import Job, PumpReading
from tally.job.stored import measured
from tally.job.unlikely import in_doubt, stands_with_doubt, unlikely
from tally.job.wet_shoe import marked
from tally.units import Measure

RETURNS = (FULL, MORE, LESS, NONE)
"""How returns may be, against what is pumped."""


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Pumped(Entry):
    """The counts were read: volume by the tank, strokes by the pump, since the zero."""

    KIND = "pumped"

    tank: Measure | None = measured("volume", optional=True)
    strokes: int | None = None
    pressure: Measure | None = measured("pressure", optional=True)
    rate: Measure | None = measured("flow rate", optional=True)
    returns: Measure | None = measured("flow rate", optional=True)
    returns_seen: str = ""
    """How the returns were against the pump: one of RETURNS."""
    returned: Measure | None = measured("volume", optional=True)
    """That has come back since the zero."""
    source: str = ""
    """The file that it was read from; nothing where a person read it."""
    doubt: str = ""
    """What was asked about it, where it was stored in doubt."""

    def check(self, job: Job) -> str:
        """Refuse before the volume was zeroed, or without a count."""
        if job.zeroed is None:
            return "The volume is not zeroed yet; that comes with the release of the top plug."
        if self.tank is None and self.strokes is None:
            return "Type the tank volume or the strokes."
        if self.strokes is not None and self.strokes < 0:
            return "Strokes cannot be below nothing; type the count since the zero."
        if self.returns_seen and self.returns_seen not in RETURNS:
            return f"Returns are not '{self.returns_seen}'; say one of: {', '.join(RETURNS)}."
        return ""

    def ask(self, job: Job) -> str:
        """Ask about counts that are hardly what was pumped; stored in doubt they are not asked."""
        return "" if self.doubt else unlikely(job, self)

    def doubted(self, question: str) -> Pumped:
        """Return the reading as it is stored in doubt."""
        return replace(self, doubt=question)

    def apply(self, job: Job) -> Job:
        """Keep the reading; one past the limit marks the shoe as suspect.

        One in doubt is kept aside until the next look at the counts stands with it. Corrected to
        counts that are likely it is a reading like any other.
        """
        seen = (self.tank, self.strokes, self.pressure, self.rate, self.at)
        returned = (self.returns, self.returns_seen, self.returned)
        reading = PumpReading(self.seq, *seen, *returned, self.source)
        question = unlikely(job, self) if self.doubt else ""
        if question:
            what = f"Counts {self.said()}: {question}"
            job = job.but(in_doubt=(*job.in_doubt, reading))
            return job.with_exception(self.seq, what, self.by, self.at)
        confirmed = in_doubt(job) if stands_with_doubt(job, self) else None
        after = self._confirming(job, confirmed) if confirmed else job
        return marked(job, after.but(pumped=(*after.pumped, reading)), self)

    def _confirming(self, job: Job, doubtful: PumpReading) -> Job:
        """Return the job with a reading in doubt counted, and what was open about it closed."""
        how = f"confirmed by a second reading, entry {self.seq}"
        closed = tuple(
            replace(each, closed_by=self.by, closing=how)
            if each.seq == doubtful.seq and not each.closed_by
            else each
            for each in job.exceptions
        )
        still = tuple(each for each in job.in_doubt if each is not doubtful)
        return job.but(in_doubt=still, exceptions=closed, pumped=(*job.pumped, doubtful))

    def said(self) -> str:
        """Return the entry in words."""
        seen = [
            self.tank.text if self.tank else "",
            f"{self.strokes} strokes" if self.strokes is not None else "",
            self.pressure.text if self.pressure else "",
            self.rate.text if self.rate else "",
            f"returns {self.returns_seen}" if self.returns_seen else "",
            f"returns {self.returns.text}" if self.returns else "",
            f"{self.returned.text} returned" if self.returned else "",
            f"from {self.source}" if self.source else "",
            "in doubt" if self.doubt else "",
        ]
        return "pumped " + ", ".join(each for each in seen if each)
