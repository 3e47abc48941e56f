"""What is seen while the hole is circulated and the pipe moved ahead of the cement."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.entry import Entry, entry_kind
from tally.job.figures import figure, show
from tally.job.job import Job
from tally.job.making_up import most_torque
from tally.job.running_records import Moved, RatePressure
from tally.job.stopped import stopped
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
    strokes: Measure | None = measured("stroke rate", optional=True)
    """Times up and down in a minute."""
    rotation: Measure | None = measured("rotary speed", optional=True)
    torque: Measure | None = measured("torque", optional=True)
    slack_off: Measure | None = measured("force", optional=True)
    pick_up: Measure | None = measured("force", optional=True)

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

    def ask(self, job: Job) -> str:
        """Ask where the string is turned or pulled harder than it may be, or the weights cross."""
        down, up = self.slack_off, self.pick_up
        crossed = down is not None and up is not None and down.value > up.value
        questions = (
            stopped(job) if self.stroke.value else "",
            most_torque(job, self.torque),
            f"Going down, {down.text}, is more than coming up, {up.text}; check which is which."
            if crossed and down and up
            else "",
            self._pull(job),
        )
        return " ".join(each for each in questions if each)

    def _pull(self, job: Job) -> str:
        most = figure(job, "greatest_indicator") if self.pick_up else None
        if most is None or most.value is None or self.pick_up is None:
            return ""
        if self.pick_up.value <= most.value:
            return ""
        return (
            f"{self.pick_up.text} coming up is more than the greatest load on the indicator, "
            f"{show(job, most.value, 'force')}."
        )

    def apply(self, job: Job) -> Job:
        """Keep how it is moved; the last one said counts."""
        seen = (self.strokes, self.rotation, self.torque, self.slack_off, self.pick_up)
        return replace(job, moved=Moved(self.seq, self.stroke, self.by, self.at, self.note, *seen))

    def said(self) -> str:
        """Return the entry in words."""
        note = f", {self.note}" if self.note else ""
        named = (
            ("", self.strokes),
            ("turned at ", self.rotation),
            ("torque ", self.torque),
            ("down ", self.slack_off),
            ("up ", self.pick_up),
        )
        told = "".join(f", {word}{one.text}" for word, one in named if one)
        if not self.stroke.value:
            return f"pipe not moved{told}{note}"
        return f"pipe moved over {self.stroke.text}{told}{note}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class PipeStopped(Entry):
    """The pipe is not moved any more, for a reason."""

    KIND = "pipe movement stopped"

    reason: str

    def check(self, job: Job) -> str:
        """Refuse where it does not move, and without a reason."""
        if job.moved is None or job.moved.stopped:
            return "The pipe is not moved by the book; say first that it is."
        return "" if self.reason.strip() else "Say why the pipe is not moved any more."

    def apply(self, job: Job) -> Job:
        """Keep when it was stopped; the stroke that was reached stands."""
        assert job.moved is not None  # check() has refused otherwise
        return replace(job, moved=replace(job.moved, stopped=self.at))

    def said(self) -> str:
        """Return the entry in words."""
        return f"pipe movement stopped ({self.reason})"
