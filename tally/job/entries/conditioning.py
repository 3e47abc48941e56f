"""What is seen while the hole is circulated and the pipe moved ahead of the cement."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.entry import Entry, entry_kind
from tally.job.job import Job, Moved, RatePressure
from tally.job.stored import measured
from tally.units import Measure

NOT_THE_SAME = 0.02
"""Rates that differ by less than this share are one rate."""


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class RateRead(Entry):
    """The pressure at a steady rate of circulation; the displacement is held against it later."""

    KIND = "rate and pressure"

    rate: Measure = measured("flow rate")
    pressure: Measure = measured("pressure")

    def check(self, job: Job) -> str:
        """Refuse without pipe in the hole, or while slurry is on its way."""
        if job.setup is None or not job.string:
            return "Nothing is run yet; there is no string to circulate through."
        if job.zeroed is not None:
            return "The top plug is released; read the counts, with rate and pressure, instead."
        return ""

    def ask(self, job: Job) -> str:
        """Ask where a higher rate was seen with a lower pressure, or a lower one with a higher."""
        for one in job.rates:
            apart = self.rate.value - one.rate.value
            if abs(apart) <= NOT_THE_SAME * one.rate.value:
                continue
            if apart * (self.pressure.value - one.pressure.value) < 0:
                return (
                    f"{self.pressure.text} at {self.rate.text} does not follow from "
                    f"{one.pressure.text} at {one.rate.text}; read both again."
                )
        return ""

    def apply(self, job: Job) -> Job:
        """Keep the pair."""
        pair = RatePressure(self.seq, self.rate, self.pressure, self.at)
        return replace(job, rates=(*job.rates, pair))

    def said(self) -> str:
        """Return the entry in words."""
        return f"circulated at {self.rate.text} with {self.pressure.text}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class PipeMoved(Entry):
    """The pipe was moved up and down over a stroke; a stroke of 0 says that it was not moved."""

    KIND = "pipe moved"

    stroke: Measure = measured("length")
    note: str = ""

    def check(self, job: Job) -> str:
        """Refuse without pipe, and a stroke that no derrick has."""
        if job.setup is None or not job.string:
            return "Nothing is run yet; there is no pipe to move."
        if self.stroke.value < 0 or self.stroke.value > job.known.step.si(job.length):
            return (
                f"{self.stroke.text} is no stroke of this string; type how far the pipe goes up "
                "and down."
            )
        return ""

    def apply(self, job: Job) -> Job:
        """Keep the stroke; the last one said counts."""
        return replace(job, moved=Moved(self.seq, self.stroke, self.by, self.at, self.note))

    def said(self) -> str:
        """Return the entry in words."""
        if not self.stroke.value:
            return "pipe not moved" + (f", {self.note}" if self.note else "")
        return f"pipe moved over {self.stroke.text}" + (f", {self.note}" if self.note else "")
