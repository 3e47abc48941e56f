"""The mixing as the reports tell it: the log, the samples kept, what was seen at surface."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.figures import figure, show
from tally.job.job import Job
from tally.reports.fields import typed
from tally.reports.final_tally import FinalTally
from tally.reports.text_parts import stamp, who

TOTALS = (
    ("mixed_volume", "slurry mixed"),
    ("mixed_sacks", "sacks used"),
    ("mixed_fluid", "mix fluid used"),
)
MIXED = ("time", "fluid", "by the gauge", "by the balance", "pumped", "cement", "mix fluid")


def weighed(tally: FinalTally, fluid: str) -> str:
    """Return from what to what a fluid was weighed while it was mixed."""
    read = [one.density for one in tally.job.mixing if one.fluid == fluid]
    known = sorted((one for one in read if one), key=lambda one: one.value)
    if not known:
        return ""
    times = "once" if len(known) == 1 else f"{len(known)} times"
    return f"{known[0].text} to {known[-1].text}, weighed {times}"


def surface_told(tally: FinalTally, what: str) -> str:
    """Return when spacer, or cement, was seen in the returns, and how much of it."""
    seen = (
        ("seen", typed(one.volume), typed(one.density), stamp(one.at))
        for one in tally.job.at_surface
        if one.what == what
    )
    return "; ".join(", ".join(part for part in parts if part) for parts in seen)


@dataclass(frozen=True, slots=True)
class Weighed:
    """One look at the mixing: all that was mixed by then [m^3], and densities [kg/m^3]."""

    fluid: str
    volume: float
    gauge: float | None
    balance: float | None


def mixing_curve(tally: FinalTally) -> tuple[Weighed, ...]:
    """Return the densities against the volume mixed, one fluid after another.

    A look without a volume has no place on it.
    """
    curve: list[Weighed] = []
    mixed_before = 0.0
    for one in tally.job.mixing:
        if one.pumped is None:
            continue
        if curve and curve[-1].fluid != one.fluid:
            mixed_before = curve[-1].volume
        gauge, balance = (each.value if each else None for each in (one.gauge, one.balance))
        curve.append(Weighed(one.fluid, mixed_before + one.pumped.value, gauge, balance))
    return tuple(curve)


def mixed(tally: FinalTally) -> tuple[tuple[str, ...], ...]:
    """Return the mixing log as it was read."""
    return tuple(
        (
            stamp(one.at),
            one.fluid,
            typed(one.gauge) or "-",
            typed(one.balance) or "-",
            typed(one.pumped) or "-",
            f"{one.sacks:,} sacks" if one.sacks is not None else typed(one.cement) or "-",
            typed(one.mix_fluid) or "-",
        )
        for one in tally.job.mixing
    )


def mixed_totals(tally: FinalTally) -> tuple[tuple[str, str], ...]:
    """Return what was mixed and used so far, each beside the programme."""
    told = ((label, _total(tally.job, key)) for key, label in TOTALS)
    return tuple((label, text) for label, text in told if text)


def _total(job: Job, key: str) -> str:
    found = figure(job, key)
    if found.value is None:
        return ""
    planned = [each for each in found.inputs if each.where.startswith("figure ")]
    beside = f", programme {show(job, planned[0].value, planned[0].quantity)}" if planned else ""
    return show(job, found.value, found.quantity) + beside


def samples(tally: FinalTally) -> tuple[tuple[str, str], ...]:
    """Return the samples that are kept."""
    return tuple(
        (f"{one.fluid}, {one.part}", "; ".join(filter(None, (one.note, who(one.by, one.at)))))
        for one in tally.job.samples
    )
