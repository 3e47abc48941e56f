"""Figures of the cementing programme: volumes, sacks, tops, the band of the bump, the times."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from tally.cement.bump_band import bump_band
from tally.cement.programme import SLURRY, Placed
from tally.errors import ShoedownError
from tally.fluids.pump import time_at_rate
from tally.job import cement_job, depths
from tally.job.cement_job import SlurryWanted, slurries
from tally.job.figures import pumping
from tally.job.figures.model import Figure, Input, Missing, calculated, live, on, typed
from tally.job.geometry import path_of
from tally.job.job import Job
from tally.job.planned_string import as_planned, is_run
from tally.job.recipes import density_of
from tally.job.setup import Fluid
from tally.pipe.weight import STANDARD_GRAVITY
from tally.string.columns import vertical

STACKED = "fluids stacked from the shoe up, the last slurry in pocket and shoe track too"
AS_COUNTED = "the displacement as counted, less or plus the band"


def string_input(job: Job) -> Input:
    """Return as an input which string a figure is worked out with."""
    how = "as run" if is_run(job) else "as run, and as the running list goes on"
    return calculated("shoe", depths.shoe_depth(as_planned(job)), "tally", f"the string {how}")


def _settings(job: Job) -> Iterator[Input]:
    """Yield what the set-up says about the volumes of the programme."""
    pump = job.known.pumping
    if pump.excess_applies_to:
        word = f"a share of the {pump.excess_applies_to}"
        yield Input("excess", word, "text", "typed", "job set-up")
    pocket = "slurry is counted for it" if pump.pocket_filled else "keeps its mud"
    yield Input("pocket", pocket, "text", "typed", "job set-up")


def _placed(job: Job) -> Iterator[tuple[Fluid, Placed]]:
    made = cement_job.programme_of(as_planned(job))
    return zip(cement_job.fluids(job.known), made.placed, strict=True)


def _volume(job: Job, kind: Callable[[str], bool]) -> Figure:
    """Return the volume of the fluids of some kinds, each as an input."""
    parts = [
        calculated(fluid.name, placed.volume, "volume", _how(fluid))
        for fluid, placed in _placed(job)
        if kind(fluid.kind)
    ]
    total = sum(float(each.value or 0.0) for each in parts)
    return Figure(total, "volume", STACKED, (*parts, *_settings(job), string_input(job)))


def _how(fluid: Fluid) -> str:
    """Return in words how much of a fluid is asked for."""
    if fluid.contact is not None and fluid.rate is not None:
        return f"{fluid.contact.text} of contact at {fluid.rate.text}"
    for name, measure in (("top at", fluid.top), ("length", fluid.length)):
        if measure is not None:
            return f"{name} {measure.text}"
    return "by volume"


@live("spacer_volume", "Ahead of the slurry, planned")
def spacer_volume(job: Job) -> Figure:
    """Return what is pumped ahead of the slurry: by the fluids, else as typed in the programme."""
    if not job.known.fluids:
        return pumping.as_typed("spacer volume", job.known.pumping.spacer_volume)
    return _volume(job, lambda kind: kind != SLURRY)


@live("slurry_volume", "Slurry, planned")
def slurry_volume(job: Job) -> Figure:
    """Return the volume of all slurries: by the fluids, else as typed in the programme."""
    if not job.known.fluids:
        return pumping.as_typed("slurry volume", job.known.pumping.slurry_volume)
    return _volume(job, lambda kind: kind == SLURRY)


@live("cement_top", "Top of cement, planned")
def cement_top(job: Job) -> Figure:
    """Return the depth of the uppermost slurry, and of every other fluid."""
    tops = [
        calculated(f"top of {fluid.name}", placed.top, "length", _how(fluid))
        for fluid, placed in _placed(job)
    ]
    top = cement_job.programme_of(as_planned(job)).cement_top
    return Figure(top, "length", STACKED, (*tops, *_settings(job), string_input(job)))


@live("sacks", "Sacks of cement")
def sacks(job: Job) -> Figure:
    """Return the sacks of all slurries, each rounded up."""
    made = slurries(job)
    parts = [_by_sack(each, each.needed.sacks, "count") for each in made]
    how = "volume / slurry yield of a sack, rounded up, summed"
    total = sum(each.needed.sacks for each in made)
    return Figure(total, "count", how, (*parts, *_yields(made), *_doubts(made), string_input(job)))


def _by_sack(each: SlurryWanted, value: float | int, quantity: str) -> Input:
    return calculated(each.fluid.name, value, quantity, "by its volume and its recipe")


def _yields(made: tuple[SlurryWanted, ...]) -> Iterator[Input]:
    for each in made:
        where = f"{each.recipe.yield_from}, sack of {each.recipe.sack:.1f} kg"
        yield calculated(f"yield of {each.fluid.name}", each.recipe.makes, "volume per sack", where)


def _doubts(made: tuple[SlurryWanted, ...]) -> Iterator[Input]:
    """Yield how the figures typed with a slurry disagree: they are shown wherever it counts."""
    for each in made:
        for doubt in each.recipe.doubts:
            yield Input("in doubt", doubt.text, "text", "calculated", "recipe")


@live("mix_water", "Mix water")
def mix_water(job: Job) -> Figure:
    """Return the fresh water that goes into the slurries."""
    made = slurries(job)
    parts = [_by_sack(each, each.needed.water, "volume") for each in made]
    total = sum(each.needed.water for each in made)
    return Figure(total, "volume", "sacks x mix water of a sack", (*parts, *_doubts(made)))


@live("mix_fluid", "Mix fluid to make")
def mix_fluid(job: Job) -> Figure:
    """Return the mix fluid that the tanks must hold, with reserve and dead volume."""
    made, pump = slurries(job), job.known.pumping
    parts = [_by_sack(each, each.needed.fluid, "volume") for each in made]
    more = [
        typed(name, measure)
        for name, measure in (("reserve", pump.reserve), ("dead volume", pump.dead_volume))
        if measure is not None
    ]
    total = sum(each.needed.tanks for each in made)
    how = "sacks x mix fluid of a sack x (1 + reserve) + dead volume"
    return Figure(total, "volume", how, (*parts, *more, *_doubts(made)))


@live("additives", "Additives, all of them")
def additives(job: Job) -> Figure:
    """Return the mass of the additives, each by its slurry."""
    parts = [
        calculated(f"{name} in {each.fluid.name}", mass, "mass", "sacks x mass for a sack")
        for each in slurries(job)
        for name, mass in each.needed.additives
    ]
    if not parts:
        raise Missing("No additive is in the recipes.")
    total = sum(float(each.value or 0.0) for each in parts)
    return Figure(total, "mass", "summed over the slurries", tuple(parts))


@live("after_wash_up", "Displacement behind the wash-up")
def after_wash_up(job: Job) -> Figure:
    """Return what is left to displace once the wash-up went in behind the plug."""
    total = on(pumping.displacement(job))
    washed = typed("wash-up behind the plug", job.known.pumping.wash_up_volume)
    left = float(total.value or 0.0) - float(washed.value or 0.0)
    if left < 0:
        raise Missing("The wash-up is more than the displacement; check both.")
    return Figure(left, "volume", "displacement - wash-up, which counts", (total, washed))


@live("strokes_after_wash_up", "Strokes behind the wash-up")
def strokes_after_wash_up(job: Job) -> Figure:
    """Return the strokes for what is left to displace behind the wash-up."""
    return pumping.strokes_for(after_wash_up(job), pumping.stroke_volume(job))


@live("bump_earliest", "Bump, earliest by the band")
def bump_earliest(job: Job) -> Figure:
    """Return the volume at which the bump may come first."""
    total, (early, _late, _squeezed), inputs = _band(job)
    return Figure(total - early, "volume", f"bump-band: {AS_COUNTED}", inputs)


@live("bump_latest", "Bump, latest by the band")
def bump_latest(job: Job) -> Figure:
    """Return the volume at which the bump may come last."""
    total, (_early, late, _squeezed), inputs = _band(job)
    return Figure(total + late, "volume", f"bump-band: {AS_COUNTED}", inputs)


def _band(job: Job) -> tuple[float, tuple[float, float, float], tuple[Input, ...]]:
    """Return displacement, band and inputs; a tolerance that nobody set is not taken as nothing."""
    setup = job.known
    pump, total = setup.pumping, on(pumping.displacement(job))
    efficiency = typed("efficiency known to", setup.limit("efficiency_tolerance"), "limits")
    bore = typed("bore known to", setup.limit("bore_tolerance"), "limits")
    gives = typed("compressibility behind the plug", pump.compressibility)
    pressure = typed("final pressure", pump.final_pressure)
    value = float(total.value or 0.0)
    band = bump_band(
        value,
        pump.head_volume.value if pump.head_volume else 0.0,
        *(float(each.value or 0.0) for each in (efficiency, bore, gives, pressure)),
    )
    squeezed = calculated("of it compression, late only", band[2], "volume", "bump-band")
    return value, band, (total, efficiency, bore, gives, pressure, squeezed)


@live("job_time", "From the first slurry mixed to the bump")
def job_time(job: Job) -> Figure:
    """Return the longest time that a slurry has been mixed when the plug seats."""
    spans = _spans(job)
    inputs = [
        calculated(each.fluid.name, time, "time", "mixed to the bump") for each, time in spans
    ]
    return Figure(max(time for _, time in spans), "time", _how_long(job), (*inputs, *_rates(job)))


@live("thickening_left", "Thickening time in hand at the bump")
def thickening_left(job: Job) -> Figure:
    """Return the least that any slurry has left of its thickening time at the bump."""
    inputs, left = [], []
    for each, time in _spans(job):
        lasts = typed(f"thickening time of {each.fluid.name}", each.fluid.thickening_time)
        inputs += [lasts, calculated(f"time of {each.fluid.name}", time, "time", "mixed to bump")]
        left.append(float(lasts.value or 0.0) - time)
    margin = job.known.limit("thickening_margin")
    if margin is not None:
        inputs.append(typed("to be kept in hand", margin, "limits"))
    how = f"least of thickening time less {_how_long(job)}"
    return Figure(min(left), "time difference", how, (*inputs, *_rates(job)))


def _how_long(job: Job) -> str:
    batch = "in its batch + " if job.known.pumping.batch_mixed else ""
    return f"{batch}time to pump it and the slurries after it + plug + displacement"


def _spans(job: Job) -> list[tuple[SlurryWanted, float]]:
    """Return for each slurry the time from its mixing to the bump, [s]."""
    setup, made = job.known, slurries(job)
    pump = setup.pumping
    plug = pump.plug_time.value if pump.plug_time else 0.0
    rate = typed("rate of displacement", pump.rate)
    volume = cement_job.displacement(as_planned(job))
    after = plug + time_at_rate(volume, float(rate.value or 0.0))
    spans: list[tuple[SlurryWanted, float]] = []
    for each in reversed(made):
        after += cement_job.pumping_time(setup, each.fluid, each.volume)
        spans.insert(0, (each, after + cement_job.batch_time(setup, each.volume)))
    return spans


def _rates(job: Job) -> Iterator[Input]:
    pump = job.known.pumping
    for name, measure in (
        ("rate of displacement", pump.rate),
        ("mixing rate", pump.mixing_rate),
        ("time to release the plug", pump.plug_time),
    ):
        if measure is not None:
            yield typed(name, measure)


@live("bump_differential", "Differential pressure at the bump")
def bump_differential(job: Job) -> Figure:
    """Return the pressure below the collar beyond that of the column above it, pumps stopped."""
    planned = as_planned(job)
    path, room = path_of(job.known), cement_job.room_of(planned)
    outside, inside = cement_job.outside_column(planned), cement_job.inside_column(planned)
    height = vertical(room.shoe, path) - vertical(room.collar, path)
    around = outside.pressure(room.shoe, path)
    track = outside.density_at(room.shoe) * STANDARD_GRAVITY * height
    above = inside.pressure(room.collar, path)
    inputs = (
        calculated("column outside, at the shoe", around, "pressure", "by true vertical depth"),
        calculated("column of the shoe track", track, "pressure", "the last slurry"),
        calculated("column inside, at the collar", above, "pressure", "behind the top plug"),
        *_densities(job),
        string_input(job),
    )
    how = "column outside - column of the shoe track - column inside"
    return Figure(around - track - above, "pressure", how, inputs)


def _densities(job: Job) -> Iterator[Input]:
    setup = job.known
    yield typed("mud weight", setup.pumping.mud_weight)
    for fluid in setup.fluids:
        try:
            density = density_of(setup, fluid)
        except ShoedownError:
            continue
        where = "job set-up" if fluid.density else "recipe"
        yield calculated(f"density of {fluid.name}", density, "density", where)
