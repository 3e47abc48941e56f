"""The two counts of the volume pumped behind the top plug."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.cement.returns import FULL, LESS, MORE, NONE
from tally.job.entry import Entry, entry_kind
from tally.job.job import Job, PumpReading
from tally.job.stored import measured
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
        seen = (self.tank, self.strokes, self.pressure, self.rate, self.at)
        returned = (self.returns, self.returns_seen, self.returned)
        reading = PumpReading(self.seq, *seen, *returned, self.source)
        return marked(job, replace(job, pumped=(*job.pumped, reading)), self)

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
        ]
        return "pumped " + ", ".join(each for each in seen if each)
