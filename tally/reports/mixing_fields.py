"""The mixing as the reports tell it: the log, the samples kept, what was seen at surface."""

from __future__ import annotations

from tally.reports.fields import typed
from tally.reports.final_tally import FinalTally
from tally.reports.text_parts import stamp, who

MIXED = ("time", "fluid", "by the gauge", "by the balance", "pumped", "cement", "mix fluid")


def weighed(tally: FinalTally, fluid: str) -> str:
    """Return from what to what a fluid was weighed while it was mixed."""
    read = [one.density for one in tally.job.mixing if one.fluid == fluid]
    known = sorted((one for one in read if one), key=lambda one: one.value)
    if not known:
        return ""
    times = "once" if len(known) == 1 else f"{len(known)} times"
    return f"{known[0].text} to {known[-1].text}, weighed {times}"


def surface_told(tally: FinalTally) -> str:
    """Return what of spacer and cement was seen in the returns."""
    seen = (
        (one.what, typed(one.volume), typed(one.density), stamp(one.at))
        for one in tally.job.at_surface
    )
    return "; ".join(", ".join(part for part in parts if part) for parts in seen)


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


def samples(tally: FinalTally) -> tuple[tuple[str, str], ...]:
    """Return the samples that are kept."""
    return tuple(
        (f"{one.fluid}, {one.part}", "; ".join(filter(None, (one.note, who(one.by, one.at)))))
        for one in tally.job.samples
    )
