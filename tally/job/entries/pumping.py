"""The two counts of the volume pumped behind the top plug."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.entry import Entry, entry_kind
from tally.job.job import Job, PumpReading
from tally.job.stored import measured
from tally.job.wet_shoe import marked
from tally.units import Measure


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Pumped(Entry):
    """The counts were read: volume by the tank, strokes by the pump, since the zero."""

    KIND = "pumped"

    tank: Measure | None = measured("volume", optional=True)
    strokes: int | None = None
    pressure: Measure | None = measured("pressure", optional=True)
    rate: Measure | None = measured("flow rate", optional=True)

    def check(self, job: Job) -> str:
        """Refuse before the volume was zeroed, or without a count."""
        if job.zeroed is None:
            return "The volume is not zeroed yet; that comes with the release of the top plug."
        if self.tank is None and self.strokes is None:
            return "Type the tank volume or the strokes."
        if self.strokes is not None and self.strokes < 0:
            return "Strokes cannot be below nothing; type the count since the zero."
        return ""

    def ask(self, job: Job) -> str:
        """Ask when a count stands below the last one of its kind."""
        tank = next((one.tank for one in reversed(job.pumped) if one.tank), None)
        strokes = next((n.strokes for n in reversed(job.pumped) if n.strokes is not None), None)
        back = []
        if self.tank and tank and self.tank.value < tank.value:
            back.append(f"The tank count {self.tank.text} is below the last, {tank.text}.")
        if self.strokes is not None and strokes is not None and self.strokes < strokes:
            back.append(f"{self.strokes} strokes is below the last count, {strokes}.")
        return " ".join(back)

    def apply(self, job: Job) -> Job:
        """Keep the reading; one past the limit marks the shoe as suspect."""
        reading = PumpReading(self.seq, self.tank, self.strokes, self.pressure, self.rate, self.at)
        return marked(job, replace(job, pumped=(*job.pumped, reading)), self)

    def said(self) -> str:
        """Return the entry in words."""
        seen = [
            self.tank.text if self.tank else "",
            f"{self.strokes} strokes" if self.strokes is not None else "",
            self.pressure.text if self.pressure else "",
            self.rate.text if self.rate else "",
        ]
        return "pumped " + ", ".join(each for each in seen if each)
