"""The mixing log: densities and totals at intervals, samples, what was seen at surface."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.cementing_records import MixReading, Sample, SeenAtSurface
from tally.job.entry import Entry, entry_kind
from tally.job.job import Job
from tally.job.mix_plan import last_reading, mixed_names, off_density
from tally.job.stored import measured
from tally.units import Measure

PARTS = ("start", "middle", "end")
SURFACE = ("spacer", "cement")


def _no_fluid(job: Job, name: str) -> str:
    """Return why a fluid cannot be logged, or nothing."""
    if job.setup is None:
        return "The job is not set up yet; nothing is mixed before that."
    if name not in mixed_names(job):
        return f"'{name}' is no fluid of the programme; it has {', '.join(mixed_names(job))}."
    return ""


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class MixRead(Entry):
    """A fluid was weighed while it is mixed, or what is used of it so far was read."""

    KIND = "mixing read"

    fluid: str
    gauge: Measure | None = measured("density", optional=True)
    """By the gauge in the line."""
    balance: Measure | None = measured("density", optional=True)
    """By the pressurised balance."""
    pumped: Measure | None = measured("volume", optional=True)
    """Of this fluid, so far."""
    sacks: int | None = None
    """Of cement in this fluid, so far."""
    cement: Measure | None = measured("mass", optional=True)
    """The same as a mass, where it comes in bulk."""
    mix_fluid: Measure | None = measured("volume", optional=True)
    """Used for this fluid so far, by tank straps."""
    pressure: Measure | None = measured("pressure", optional=True)
    """At the pump, while it goes down."""
    rate: Measure | None = measured("flow rate", optional=True)

    def check(self, job: Job) -> str:
        """Refuse a fluid that is not in the programme, an empty look, and less than nothing."""
        if refused := _no_fluid(job, self.fluid):
            return refused
        totals = (self.pumped, self.cement, self.mix_fluid)
        seen = (self.gauge, self.balance, self.pressure, self.rate)
        if not any((*seen, *totals)) and self.sacks is None:
            return "Type a density, something used so far, or the pressure."
        if any(one is not None and one.value < 0 for one in totals) or (self.sacks or 0) < 0:
            return "What is used so far cannot be below nothing; read it again."
        return ""

    def ask(self, job: Job) -> str:
        """Ask where a total stands below the last one of its fluid."""
        before = last_reading(job, self.fluid)
        if before is None:
            return ""
        totals = (
            ("pumped", self.pumped, before.pumped),
            ("cement used", self.cement, before.cement),
            ("mix fluid used", self.mix_fluid, before.mix_fluid),
        )
        fallen = [
            f"Of {self.fluid}: {what}, {now.text}, is below the last, {then.text}."
            for what, now, then in totals
            if now and then and now.value < then.value
        ]
        if self.sacks is not None and before.sacks is not None and self.sacks < before.sacks:
            fallen.append(f"Of {self.fluid}: {self.sacks} sacks is below the last, {before.sacks}.")
        return " ".join(fallen)

    def apply(self, job: Job) -> Job:
        """Keep it; the first of its fluid to leave the band is an exception, recorded at once."""
        reading = self._on(last_reading(job, self.fluid))
        before = last_reading(job, self.fluid)
        off = off_density(job, reading)
        after = replace(job, mixing=(*job.mixing, reading))
        if not off or (before is not None and off_density(job, before)):
            return after
        return after.with_exception(self.seq, f"Mixing: {off}", self.by, self.at)

    def _on(self, before: MixReading | None) -> MixReading:
        """Return the reading; a total that was not read now stands as it was read last."""
        return MixReading(
            self.seq,
            self.fluid,
            self.gauge,
            self.balance,
            self.pumped or (before.pumped if before else None),
            self.sacks if self.sacks is not None else (before.sacks if before else None),
            self.cement or (before.cement if before else None),
            self.mix_fluid or (before.mix_fluid if before else None),
            self.at,
            self.pressure,
            self.rate,
        )

    def said(self) -> str:
        """Return the entry in words."""
        seen = [
            f"gauge {self.gauge.text}" if self.gauge else "",
            f"balance {self.balance.text}" if self.balance else "",
            f"{self.pumped.text} pumped" if self.pumped else "",
            f"{self.sacks} sacks" if self.sacks is not None else "",
            f"{self.cement.text} of cement" if self.cement else "",
            f"{self.mix_fluid.text} of mix fluid" if self.mix_fluid else "",
            self.pressure.text if self.pressure else "",
            self.rate.text if self.rate else "",
        ]
        return f"{self.fluid}: " + ", ".join(each for each in seen if each)


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class SampleKept(Entry):
    """A sample of a slurry was taken and kept."""

    KIND = "sample kept"

    fluid: str
    part: str
    note: str = ""

    def check(self, job: Job) -> str:
        """Refuse a fluid or a part that is not known."""
        if self.part not in PARTS:
            return f"'{self.part}' is no part of a slurry; say {', '.join(PARTS)}."
        return _no_fluid(job, self.fluid)

    def apply(self, job: Job) -> Job:
        """Keep it."""
        one = Sample(self.seq, self.fluid, self.part, self.note, self.by, self.at)
        return replace(job, samples=(*job.samples, one))

    def said(self) -> str:
        """Return the entry in words."""
        return f"sample kept of {self.fluid}, {self.part}" + (f": {self.note}" if self.note else "")


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceSeen(Entry):
    """Spacer or cement was seen in the returns."""

    KIND = "seen at surface"

    what: str
    volume: Measure | None = measured("volume", optional=True)
    """That has come back of it so far."""
    density: Measure | None = measured("density", optional=True)

    def check(self, job: Job) -> str:
        """Refuse what is neither spacer nor cement, and before anything is run."""
        if self.what not in SURFACE:
            return f"'{self.what}' is not looked for at surface; say {' or '.join(SURFACE)}."
        if job.setup is None or not job.string:
            return "Nothing is run yet; no fluid can come back around it."
        if self.volume is not None and self.volume.value < 0:
            return f"{self.volume.text} cannot have come back; read it again."
        return ""

    def apply(self, job: Job) -> Job:
        """Keep it."""
        one = SeenAtSurface(self.seq, self.what, self.volume, self.density, self.at)
        return replace(job, at_surface=(*job.at_surface, one))

    def said(self) -> str:
        """Return the entry in words."""
        seen = [each.text for each in (self.volume, self.density) if each]
        return f"{self.what} seen at surface" + (f": {', '.join(seen)}" if seen else "")
