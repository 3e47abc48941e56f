"""The cementing as a whole: what both versions of the standard tell of it."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.figures import figure
from tally.job.running_records import Moved
from tally.reports.final_tally import FinalTally
from tally.reports.pump_curve import greatest_rate, last_rate, mean_rate, pump_curve
from tally.reports.witsml.cement_fluids import FluidFacts, fluid_facts
from tally.reports.witsml.cement_steps import measured, seen, was_done
from tally.reports.witsml.extra import Extra
from tally.reports.witsml.uom import Amount, amount, worth

STAGE = "primary"
"""A job of ours has one stage, from the shoe up."""
BEGUN = ("spacer-pumped", "bottom-plug-released", "first-slurry", "slurry-away")
TOP_PLUG, BOTTOM_PLUG = "top-plug-released", "bottom-plug-released"


@dataclass(frozen=True, slots=True)
class Displaced:
    """What was pumped behind the top plug: volume [m^3], rates [m^3/s], strokes."""

    volume: float | None = None
    mean: float | None = None
    most: float | None = None
    last: float | None = None
    strokes: int | None = None
    returned: Amount | None = None


@dataclass(frozen=True, slots=True)
class CementFacts:
    """A cementing, planned and done, as the book has it."""

    tally: FinalTally
    displaced: Displaced
    fluids: tuple[FluidFacts, ...]

    @property
    def begun(self) -> bool:
        """Whether anything of it was pumped."""
        job = self.tally.job
        return job.zeroed is not None or any(was_done(job, step) for step in BEGUN)

    @property
    def planned(self) -> bool:
        """Whether any fluid of it is set up."""
        return bool(self.fluids)

    @property
    def behind(self) -> FluidFacts | None:
        """The fluid behind the top plug, where it is one alone."""
        some = [one for one in self.fluids if one.kind == "displacement"]
        return some[0] if len(some) == 1 else None

    @property
    def cementer(self) -> str:
        """Who cements, where one person alone has that role."""
        names = [one.name for one in self.tally.people if one.role == "cementer"]
        return names[0] if len(names) == 1 else ""

    @property
    def top(self) -> Extra:
        """The top of cement by calculation, and named so."""
        figure = self.tally.figures["cement_top"]
        value = None if figure.value is None else Amount(float(figure.value), "length")
        note = "calculated from the programme and the string; nobody has looked for it"
        return Extra("top of cement, calculated", value, note=note)

    @property
    def to_pump(self) -> Amount | None:
        """The displacement by the programme, from the head to the collar as run."""
        figure = self.tally.figures["displacement_to_collar"]
        return None if figure.value is None else Amount(float(figure.value), "volume")

    @property
    def pumped_together(self) -> list[Extra]:
        """Volumes that were read for several fluids together, and so are no one's own."""
        job, kinds = self.tally.job, [one.kind for one in self.fluids]
        return [
            Extra(f"{kind} pumped, all {kinds.count(kind)} together", measured(job, step))
            for kind, step in (("spacer", "spacer-pumped"), ("slurry", "slurry-away"))
            if kinds.count(kind) > 1
        ]

    @property
    def seen(self) -> list[Extra]:
        """What was read and seen step by step, and what came back at surface."""
        at_surface = [
            Extra(f"{one.what} seen at surface", amount(one.volume) or "seen", one.at)
            for one in self.tally.job.at_surface
        ]
        return [*seen(self.tally.job), *self.pumped_together, *at_surface]


def cement_facts(tally: FinalTally) -> CementFacts:
    """Return what the book has of a cementing."""
    displaced = _displaced(tally)
    return CementFacts(tally, displaced, fluid_facts(tally, displaced.volume))


def _displaced(tally: FinalTally) -> Displaced:
    """Return the displacement: its volume as the page has it, its rates as the report has them."""
    job, curve = tally.job, pump_curve(tally.job)
    gone = figure(job, "displaced").value
    volume = None if gone is None else float(gone)
    if curve is None:
        return Displaced(volume)
    strokes = [one.strokes for one in job.pumped if one.strokes is not None]
    back = [one.returned for one in job.pumped if one.returned is not None]
    return Displaced(
        volume=volume,
        mean=mean_rate(curve),
        most=greatest_rate(curve),
        last=last_rate(curve),
        strokes=strokes[-1] if strokes else None,
        returned=amount(back[-1]) if back else None,
    )


def movement(moved: Moved | None) -> dict[str, Amount | bool | None]:
    """Return how the pipe was moved, by the names of 2.1."""
    if moved is None:
        return {}
    return {
        "RpmPipe": amount(moved.rotation),
        "OverPull": amount(moved.pick_up),
        "SlackOff": amount(moved.slack_off),
        "LenPipeRecipStroke": amount(moved.stroke),
        "Reciprocating": moved.stroke.value > 0.0,
    }


def mud(facts: CementFacts, *, as_measured: bool) -> dict[str, Amount | None]:
    """Return the mud by the names of 2.1: as it was measured, or as the set-up has it."""
    pump, job = facts.tally.setup.pumping, facts.tally.job
    if as_measured:
        return {
            "WtMud": measured(job, "density-in"),
            "PvMud": measured(job, "plastic-viscosity"),
            "YpMud": measured(job, "yield-point"),
        }
    return {
        "WtMud": amount(pump.mud_weight),
        "PvMud": amount(pump.plastic_viscosity),
        "YpMud": amount(pump.yield_point),
    }


def rates(displaced: Displaced) -> dict[str, Amount | None]:
    """Return the rates of the displacement by the names of 2.1."""
    return {
        "FlowrateDisplaceAv": worth(displaced.mean, "flow rate"),
        "FlowrateDisplaceMx": worth(displaced.most, "flow rate"),
        "FlowrateEnd": worth(displaced.last, "flow rate"),
    }
