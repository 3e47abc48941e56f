"""Figures of the mixing log: what is mixed and used so far, held beside the programme."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from tally.cement.programme import SLURRY
from tally.errors import ShoedownError
from tally.job.cement_job import slurries
from tally.job.cementing_records import MixReading
from tally.job.figures import programme
from tally.job.figures.model import READ, Figure, Input, Missing, calculated, live, on, read_off
from tally.job.job import Job
from tally.job.mix_plan import last_reading, mixed_names, planned_density
from tally.units import Measure

NOT_READ = "Nothing is in the mixing log yet (F6, l)."


@live("mixed_density", "Density of the mix, as weighed last")
def mixed_density(job: Job) -> Figure:
    """Return the last density of the log, with what the programme wants of that fluid."""
    weighed = [each for each in job.mixing if each.density is not None]
    if not weighed:
        raise Missing(NOT_READ)
    last = weighed[-1]
    inputs = [
        read_off(f"{last.fluid} by the {means}", one, f"entry {last.seq}")
        for means, one in (("balance", last.balance), ("gauge", last.gauge))
        if one is not None
    ]
    planned = planned_density(job, last.fluid)
    if planned is not None:
        inputs.append(calculated(f"{last.fluid}, planned", planned, "density", "programme"))
    assert last.density is not None  # it was weighed
    how = "by the balance, else by the gauge in the line"
    return Figure(last.density.value, "density", how, tuple(inputs))


@live("mixed_volume", "Slurry mixed and pumped so far")
def mixed_volume(job: Job) -> Figure:
    """Return the volume of all slurries so far, against what is planned."""
    parts = tuple(_last(job, "volume", lambda one: one.pumped))
    return _total(parts, "volume", programme.slurry_volume(job))


@live("mixed_sacks", "Cement used so far, as sacks")
def mixed_sacks(job: Job) -> Figure:
    """Return the sacks of all slurries so far; a mass counts by the sack of its recipe."""
    parts = tuple(_sacks(job))
    return _total(parts, "count", programme.sacks(job))


@live("mixed_fluid", "Mix fluid used so far")
def mixed_fluid(job: Job) -> Figure:
    """Return the mix fluid of all slurries so far, against what the tanks were to hold."""
    parts = tuple(_last(job, "volume", lambda one: one.mix_fluid))
    return _total(parts, "volume", programme.mix_fluid(job))


def _total(parts: tuple[Input, ...], quantity: str, planned: Figure) -> Figure:
    if not parts:
        raise Missing(NOT_READ)
    total = sum(float(each.value or 0.0) for each in parts)
    beside = (on(planned),) if planned.value is not None else ()
    value = round(total) if quantity == "count" else total
    return Figure(value, quantity, "last reading of each slurry, summed", (*parts, *beside))


def _slurry_names(job: Job) -> tuple[str, ...]:
    """Return the fluids of the log that are slurries."""
    kinds = {each.name: each.kind for each in job.known.fluids}
    return tuple(name for name in mixed_names(job) if kinds.get(name, name) == SLURRY)


def _readings(job: Job) -> Iterator[MixReading]:
    for name in _slurry_names(job):
        reading = last_reading(job, name)
        if reading is not None:
            yield reading


def _last(job: Job, quantity: str, of: Callable[[MixReading], Measure | None]) -> Iterator[Input]:
    for reading in _readings(job):
        seen = of(reading)
        if seen is not None:
            yield Input(reading.fluid, seen.value, quantity, READ, f"entry {reading.seq}")


def _sacks(job: Job) -> Iterator[Input]:
    weights = _sack_weights(job)
    for reading in _readings(job):
        where = f"entry {reading.seq}"
        if reading.sacks is not None:
            yield Input(reading.fluid, reading.sacks, "count", READ, where)
        elif reading.cement is not None and reading.fluid in weights:
            sacks = round(reading.cement.value / weights[reading.fluid])
            yield calculated(reading.fluid, sacks, "count", f"mass / sack of its recipe, {where}")


def _sack_weights(job: Job) -> dict[str, float]:
    try:
        return {each.fluid.name: each.recipe.sack for each in slurries(job)}
    except ShoedownError:
        return {}
