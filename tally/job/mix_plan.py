"""What the programme says of each fluid that is mixed, and what the log holds of it."""

from __future__ import annotations

from tally.errors import ShoedownError
from tally.job.cementing_records import MixReading
from tally.job.job import Job
from tally.job.setup import BEHIND

WITHOUT_FLUIDS = ("spacer", "slurry")
"""What is mixed where the programme is typed as volumes only."""


def mixed_names(job: Job) -> tuple[str, ...]:
    """Return the fluids of the programme in the order of pumping, all but the displacement."""
    named = [each.name for each in job.known.fluids if each.kind != BEHIND]
    return tuple(named) or WITHOUT_FLUIDS


def planned_density(job: Job, name: str) -> float | None:
    """Return the density that the programme gives a fluid, [kg/m^3], where it gives one."""
    from tally.job.recipes import density_of

    for fluid in job.known.fluids:
        if fluid.name == name:
            try:
                return density_of(job.known, fluid)
            except ShoedownError:
                return None
    return None


def last_reading(job: Job, name: str) -> MixReading | None:
    """Return the last reading of a fluid."""
    return next((each for each in reversed(job.mixing) if each.fluid == name), None)


def off_density(job: Job, reading: MixReading) -> str:
    """Return how the densities of a reading stand outside the band, or nothing."""
    band, planned = job.known.limit("slurry_density_band"), planned_density(job, reading.fluid)
    if band is None:
        return ""
    allowed = band.value * (1 + 1e-9)
    shown = job.known.shown
    seen = reading.density
    if planned is not None and seen is not None and abs(seen.value - planned) > allowed:
        wanted = shown.show(planned, "density")
        return f"{reading.fluid} weighs {seen.text}; wanted {wanted} +/- {band.text}."
    gauge, balance = reading.gauge, reading.balance
    if gauge and balance and abs(gauge.value - balance.value) > allowed:
        return (
            f"{reading.fluid}: gauge {gauge.text} and balance {balance.text} differ by more "
            f"than {band.text}."
        )
    return ""
