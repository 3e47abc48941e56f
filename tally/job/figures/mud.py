"""Figures of the mud's condition: what was circulated against each target, pressure at rates."""

from __future__ import annotations

from tally.job.figures.model import READ, Figure, Input, Missing, live, on, read_off
from tally.job.figures.volumes import annulus, casing_capacity, circulation_target
from tally.job.job import Job
from tally.job.mud import pairs, pressure_at, step_measure
from tally.job.running_records import RatePressure


@live("circulated", "Circulated with the string on bottom")
def circulated(job: Job) -> Figure:
    """Return the volume circulated, as it was entered on the mud list."""
    seen = read_off(
        "volume circulated", step_measure(job, "volume-circulated", "volume"), "mud list"
    )
    return Figure(float(seen.value or 0.0), "volume", "as read", (seen,))


@live("circulated_annulus", "Circulated, times the annulus (bottoms up)")
def circulated_annulus(job: Job) -> Figure:
    """Return how many times the annulus was circulated: 100 % is one bottoms up."""
    return _times(circulated(job), annulus(job), "annulus")


@live("circulated_casing", "Circulated, times the casing contents")
def circulated_casing(job: Job) -> Figure:
    """Return how many times the contents of the casing were circulated."""
    return _times(circulated(job), casing_capacity(job), "casing contents")


@live("circulation_left", "Left to circulate")
def circulation_left(job: Job) -> Figure:
    """Return what is left to the target of the limits and to one bottoms up, the larger."""
    seen, whole = on(circulated(job)), on(annulus(job))
    target = circulation_target(job)
    wanted = [whole, *((on(target),) if target.value is not None else ())]
    most = max(float(each.value or 0.0) for each in wanted)
    how = "larger of one annulus and the target, less what was circulated"
    left = max(0.0, most - float(seen.value or 0.0))
    return Figure(left, "volume", how, (*wanted, seen))


@live("circulating_pressure", "Circulating pressure at the rate displaced with")
def circulating_pressure(job: Job) -> Figure:
    """Return the pressure that the mud alone took at the rate that displacement was read at."""
    rate = _displaced(job, "rate")
    seen = pairs(job)
    if not seen:
        raise Missing("No rate was noted with its pressure while circulating.")
    value = pressure_at(job, float(rate.value or 0.0))
    ends = f"{seen[0].rate.text} to {seen[-1].rate.text}"
    if value is None:
        raise Missing(f"Rates were noted from {ends} only; they are not carried on beyond that.")
    how = "between the pairs of rate and pressure noted while circulating"
    return Figure(value, "pressure", how, (rate, *(_pair(each) for each in seen)))


@live("pressure_over_circulating", "Displacement pressure over circulating")
def pressure_over_circulating(job: Job) -> Figure:
    """Return what displacement takes beyond what the mud alone took at the same rate."""
    seen, mud = _displaced(job, "pressure"), on(circulating_pressure(job))
    value = float(seen.value or 0.0) - float(mud.value or 0.0)
    how = "pressure read while displacing - circulating pressure at that rate"
    return Figure(value, "pressure difference", how, (seen, mud))


def _times(seen: Figure, of: Figure, what: str) -> Figure:
    volume, whole = on(seen), on(of)
    if not whole.value:
        raise Missing(f"The {what} is nothing yet.")
    value = float(volume.value or 0.0) / float(whole.value)
    return Figure(value, "ratio", f"volume circulated / {what}", (volume, whole))


def _pair(one: RatePressure) -> Input:
    return Input(f"at {one.rate.text}", one.pressure.value, "pressure", READ, f"entry {one.seq}")


def _displaced(job: Job, what: str) -> Input:
    """Return rate or pressure of the last reading of the displacement that has both."""
    both = (one for one in reversed(job.pumped) if one.rate is not None and one.pressure)
    last = next(both, None)
    if last is None:
        raise Missing("No reading of the displacement has both rate and pressure yet.")
    return read_off(f"{what} while displacing", getattr(last, what), f"entry {last.seq}")
