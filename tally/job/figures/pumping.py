"""Figures the cementer works by: displacement from the head to the collar, and the two counts."""

from __future__ import annotations

from dataclasses import dataclass

from tally.cement.displacement import displacement_to_collar
from tally.fluids.pump import stroke_at_efficiency, strokes_for_volume, time_at_rate
from tally.job import volumes
from tally.job.at_bump import bump_volume, volume_record
from tally.job.entry import seconds_between
from tally.job.figures.model import (
    READ,
    TALLY,
    TYPED,
    Figure,
    Input,
    Missing,
    calculated,
    live,
    on,
    read_off,
    typed,
)
from tally.job.job import Job, PumpReading
from tally.job.setup import Setup
from tally.units import Measure, read


@live("displacement_to_collar", "Displacement, head to collar")
def displacement(job: Job) -> Figure:
    """Return the volume that takes the top plug from the head to the collar, as run."""
    above = volumes.above_collar(job)
    if not above:
        raise Missing("No pipe is run above the collar yet.")
    setup = job.known
    head = setup.pumping.head_volume
    length = sum(made.length for made in above)
    metres = setup.step.si(length)
    held = volumes.volume(job, above, volumes.bore)
    total = displacement_to_collar(metres, held / metres, head.value if head else 0.0)
    inputs = [calculated("length above the collar", length, TALLY, "items run")]
    for pipe in dict.fromkeys(setup.pipe(made.pipe) for made in above):
        inputs.append(typed(f"inside diameter of {pipe.name}", pipe.inner_diameter))
    inputs.append(typed("head volume", head) if head else _no_head())
    line = _empty_line(setup)
    inputs += [line] if line else []
    counted = total + float(line.value or 0.0) if line else total
    return Figure(counted, "volume", "displacement-to-collar", tuple(inputs))


def _empty_line(setup: Setup) -> Input | None:
    """Return the surface line where the count fills it first; full, it is no part of the count."""
    pump = setup.pumping
    if pump.line_full_at_zero:
        return None
    return typed("surface line, empty at the zero", pump.line_volume)


def _no_head() -> Input:
    return Input("head volume", 0.0, "volume", TYPED, "not in the job set-up, taken as nothing")


@live("stroke_volume", "Volume of one stroke at its efficiency")
def stroke_volume(job: Job) -> Figure:
    """Return the volume of one stroke of the pump that displaces."""
    pump = job.known.pumping
    inputs = (
        typed("volume of one stroke", pump.volume_per_stroke),
        typed("pump efficiency", pump.efficiency),
    )
    assert pump.volume_per_stroke is not None  # typed() has refused missing ones
    assert pump.efficiency is not None
    value = stroke_at_efficiency(pump.volume_per_stroke.value, pump.efficiency.value)
    return Figure(value, "volume per stroke", "stroke-at-efficiency", inputs)


@live("strokes_to_collar", "Strokes, head to collar")
def strokes_to_collar(job: Job) -> Figure:
    """Return the strokes from the zero to the calculated bump."""
    return strokes_for(displacement(job), stroke_volume(job))


@live("time_to_bump", "Time left to the calculated bump")
def time_to_bump(job: Job) -> Figure:
    """Return the time for what is left, at the rate last read or else the planned one."""
    left = displacement(job) if displaced(job).value is None else left_to_bump(job)
    volume = on(left)
    rated = _last(job, "rate")
    if rated is not None:
        rate = read_off("rate", rated.rate, f"entry {rated.seq}")
    else:
        rate = typed("planned rate", job.known.pumping.rate)
    value = time_at_rate(max(0.0, float(volume.value or 0.0)), float(rate.value or 0.0))
    return Figure(value, "time", "time-at-rate", (volume, rate))


@live("pumped_by_tank", "Displaced by the tank")
def pumped_by_tank(job: Job) -> Figure:
    """Return the volume by the displacement tank since the zero."""
    reading = _last(job, "tank")
    if reading is None:
        raise Missing("The displacement tank was not read since the zero.")
    one = read_off("tank count", reading.tank, f"entry {reading.seq}")
    return Figure(one.value, "volume", "as read", (one,))  # type: ignore[arg-type]


@live("pumped_by_strokes", "Displaced by the strokes")
def pumped_by_strokes(job: Job) -> Figure:
    """Return the volume by the strokes since the zero."""
    reading = _last(job, "strokes")
    if reading is None or reading.strokes is None:
        raise Missing("The strokes were not read since the zero.")
    per_stroke = stroke_volume(job)
    inputs = (
        Input("strokes", reading.strokes, "count", READ, f"entry {reading.seq}"),
        on(per_stroke),
    )
    return Figure(
        reading.strokes * float(per_stroke.value or 0.0),
        "volume",
        "strokes x volume of one stroke",
        inputs,
    )


@live("count_difference", "Tank count less stroke count")
def count_difference(job: Job) -> Figure:
    """Return how the two counts differ, at a reading that has both."""
    both = job.pumped and job.pumped[-1].tank and job.pumped[-1].strokes is not None
    if not both:
        raise Missing("The last reading does not have both counts.")
    tank, strokes = pumped_by_tank(job), pumped_by_strokes(job)
    inputs = (on(tank), on(strokes))
    return Figure(
        float(tank.value or 0.0) - float(strokes.value or 0.0),
        "volume",
        "displaced by the tank - displaced by the strokes",
        inputs,
    )


GIVEN = "given with the bump"
BY_COUNT = {
    "pumped_by_tank": "last count, by the tank",
    "pumped_by_strokes": "last count, by the strokes",
}
"""How a volume displaced is known, by the figure of the count that it is of."""


@live("displaced", "Displaced behind the top plug")
def displaced(job: Job) -> Figure:
    """Return what was displaced: as given with the bump, else by the count that is further on."""
    given, record = bump_volume(job), volume_record(job)
    if given is not None and record is not None:
        told = read_off("volume at the bump", given, f"entry {record.seq}")
        return Figure(given.value, "volume", GIVEN, (told,))
    counts = [pumped_by_tank(job), pumped_by_strokes(job)]
    known = [one for one in counts if one.value is not None]
    if not known:
        raise Missing("Nothing was read since the zero.")
    furthest = max(known, key=lambda one: float(one.value or 0.0))
    value = float(furthest.value or 0.0)
    return Figure(value, "volume", BY_COUNT[furthest.key], (on(furthest),))


@live("left_to_bump", "Left to the calculated bump")
def left_to_bump(job: Job) -> Figure:
    """Return what is left of the displacement; below nothing it is past the bump."""
    gone, total = displaced(job), displacement(job)
    left = float(on(total).value or 0.0) - float(on(gone).value or 0.0)
    how = "displacement, head to collar - displaced behind the top plug"
    return Figure(left, "volume", how, (on(total), on(gone)))


@live("strokes_left", "Strokes left to the calculated bump")
def strokes_left(job: Job) -> Figure:
    """Return the strokes for what is left; past the bump there are none."""
    return strokes_for(left_to_bump(job), stroke_volume(job))


def strokes_for(volume: Figure, per_stroke: Figure) -> Figure:
    """Return the whole strokes for a volume; for less than nothing there are none."""
    inputs = (on(volume), on(per_stroke))
    value = strokes_for_volume(max(0.0, float(volume.value or 0.0)), float(per_stroke.value or 0.0))
    return Figure(round(value), "count", "strokes-for-volume", inputs)


@live("bump_pressure", "Pressure to bump with")
def bump_pressure(job: Job) -> Figure:
    """Return the pressure before the bump plus the margin of the limits."""
    record = job.steps.get(("plug-release", "pressure-before-bump"))
    before = read(record.value, "pressure") if record and record.value else None
    seen = read_off("pressure before the bump", before, "step pressure-before-bump")
    margin = typed("bump margin", job.known.limit("bump_margin"), "limits")
    value = float(seen.value or 0.0) + float(margin.value or 0.0)
    return Figure(value, "pressure", "pressure before the bump + bump margin", (seen, margin))


@live("mud_weight", "Mud weight")
def mud_weight(job: Job) -> Figure:
    """Return the mud weight of the set-up."""
    return as_typed("mud weight", job.known.pumping.mud_weight)


def as_typed(name: str, measure: Measure | None) -> Figure:
    """Return a figure that is one thing of the set-up."""
    one = typed(name, measure)
    assert measure is not None  # typed() has refused a missing one
    return Figure(measure.value, measure.quantity, "as typed", (one,))


@dataclass(frozen=True, slots=True)
class Aged:
    """What is left to the calculated bump, with the age of the reading that it rests on."""

    left: float
    strokes: int | None
    time: float | None
    count: str
    """Tank or strokes; nothing where the volume was given with the bump."""
    age: float
    estimated: bool
    held_back: bool = False
    """Whether the estimate would go further past the bump, were it not for the limit."""


def aged_left(job: Job, now: str) -> Aged | None:
    """Return what is left at a moment; nothing before the first reading.

    The age is that of the reading which gave the count. Once it, times the rate last read, passes
    half the over-displacement limit, the figure is carried on at that rate and is an estimate. It
    is not carried on further than that limit past the bump: an old reading says no more.
    """
    live_left = left_to_bump(job)
    if live_left.value is None:
        return None
    how, per_stroke = displaced(job).formula, stroke_volume(job).value
    if how == GIVEN:
        left = float(live_left.value)
        return Aged(left, round(left / per_stroke) if per_stroke else None, None, "", 0.0, False)
    by_tank = how == BY_COUNT["pumped_by_tank"]
    reading = _last(job, "tank" if by_tank else "strokes")
    rated = _last(job, "rate")
    age = seconds_between(reading.at, now) if reading else 0.0
    rate = rated.rate.value if rated and rated.rate else 0.0
    limit = job.known.limit("over_displacement")
    estimated = limit is not None and age * rate > limit.value / 2
    left, held_back = float(live_left.value), False
    if limit is not None and estimated:
        ahead, least = left - age * rate, min(left, -limit.value)
        left, held_back = max(ahead, least), ahead < least
    return Aged(
        left,
        round(left / per_stroke) if per_stroke else None,
        left / rate if rate else None,
        "tank" if by_tank else "strokes",
        age,
        estimated,
        held_back,
    )


def _last(job: Job, what: str) -> PumpReading | None:
    """Return the last reading that has a value of this name."""
    return next((one for one in reversed(job.pumped) if getattr(one, what) is not None), None)
