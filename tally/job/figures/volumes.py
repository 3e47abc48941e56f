"""Figures of volume and weight: what the string holds, displaces and weighs."""

from __future__ import annotations

from tally.job import volumes
from tally.job.figures.model import (
    TALLY,
    TYPED,
    Figure,
    Input,
    Missing,
    calculated,
    live,
    on,
    typed,
)
from tally.job.figures.running import shoe_depth, string_length
from tally.job.geometry import by_length
from tally.job.job import Job, Made
from tally.job.setup import HoleSection, Pipe, PreviousCasing
from tally.job.volumes import Area, bore, closed, outside, steel
from tally.pipe.weight import buoyancy_factor, string_weight


def pipe_inputs(job: Job, *, outer: bool = True, inner: bool = True) -> tuple[Input, ...]:
    """Return the diameters of every pipe in the string as typed, and its couplings."""
    inputs: list[Input] = []
    for pipe in volumes.pipes(job):
        if outer:
            inputs.append(typed(f"outside diameter of {pipe.name}", pipe.outer_diameter))
            inputs.append(couplings(pipe))
        if inner:
            inputs.append(typed(f"inside diameter of {pipe.name}", pipe.inner_diameter))
    return tuple(inputs)


def couplings(pipe: Pipe) -> Input:
    """Return the room that the couplings of a pipe take beyond its body, shared out by length."""
    room = by_length(pipe).coupling_area
    where = "weight by length / density of steel - body"
    return calculated(f"couplings of {pipe.name}, by weight", room, "volume per length", where)


@live("casing_capacity", "Casing contents")
def casing_capacity(job: Job) -> Figure:
    """Return what the whole string holds."""
    return Figure(
        volumes.capacity(job),
        "volume",
        "pipe-capacity x length, summed by pipe",
        (on(string_length(job)), *pipe_inputs(job, outer=False)),
    )


@live("displaced_open", "Displaced, open end")
def displaced_open(job: Job) -> Figure:
    """Return what the metal of the string displaces, couplings counted."""
    return Figure(
        volumes.displaced_open(job),
        "volume",
        "(open-end-displacement + couplings) x length, summed by pipe",
        (on(string_length(job)), *pipe_inputs(job)),
    )


@live("displaced_closed", "Displaced, closed end")
def displaced_closed(job: Job) -> Figure:
    """Return what the string displaces with its end closed, couplings counted."""
    return Figure(
        volumes.displaced_closed(job),
        "volume",
        "(closed-end-displacement + couplings) x length, summed by pipe",
        (on(string_length(job)), *pipe_inputs(job, inner=False)),
    )


@live("item_displaced_open", "Last item, displaced, open end")
def item_displaced_open(job: Job) -> Figure:
    """Return what the metal of the last item displaces."""
    return _last_item(job, steel, "(open-end-displacement + couplings) x length of the item")


@live("item_displaced_closed", "Last item, displaced, closed end")
def item_displaced_closed(job: Job) -> Figure:
    """Return what the last item displaces with the end closed."""
    return _last_item(job, closed, "(closed-end-displacement + couplings) x length of the item")


@live("item_capacity", "Last item, contents")
def item_capacity(job: Job) -> Figure:
    """Return what the last item holds: the fill that it asks for."""
    return _last_item(job, bore, "pipe-capacity x length of the item")


def _last_item(job: Job, area: Area, formula: str) -> Figure:
    if not job.string:
        raise Missing("Nothing is run yet.")
    last: Made = job.string[-1]
    pipe = job.known.pipe(last.pipe)
    inputs = (
        Input(f"length of {last.number}", last.length, TALLY, TYPED, f"entry {last.seq}"),
        typed("outside diameter", pipe.outer_diameter),
        typed("inside diameter", pipe.inner_diameter),
        couplings(pipe),
    )
    return Figure(volumes.volume(job, (last,), area), "volume", formula, inputs)


@live("let_in", "Let in at the foot by auto-fill")
def let_in(job: Job) -> Figure:
    """Return what came in at the foot of the pipe by the auto-fill float."""
    share = job.known.filling.auto_fill
    if not volumes.auto_fill(job.known) or not job.string:
        raise Missing("No pipe is run on an auto-fill float.")
    how = f"auto-fill share x contents, {let_in_by(job)}"
    inputs = (typed("auto-fill share", share), on(casing_capacity(job)))
    return Figure(volumes.let_in(job), "volume", how, inputs)


def let_in_by(job: Job) -> str:
    """Return in words how the pipe takes fluid in at its foot."""
    if not job.known.filling.closed_end:
        return "open end"
    if not volumes.auto_fill(job.known):
        return "closed end"
    if job.converted is None:
        return "auto-fill, not converted yet"
    return f"auto-fill until converted at entry {job.converted.seq}"


@live("filled", "Fluid in the pipe")
def filled(job: Job) -> Figure:
    """Return what stands in the pipe."""
    setup = job.known
    how = "sum of the fills" if setup.filling.closed_end else "open end: all it holds"
    entered: tuple[Input, ...] = ()
    if volumes.auto_fill(setup) and job.string:
        how, entered = "sum of the fills + let in at the foot", (on(let_in(job)),)
    fills = tuple(
        Input(f"fill from the {fill.source}", fill.volume, "volume", TYPED, f"entry {fill.seq}")
        for fill in job.fills[-3:]
    )
    return Figure(volumes.filled(job), "volume", how, (on(casing_capacity(job)), *entered, *fills))


@live("room", "Fill to the top")
def room(job: Job) -> Figure:
    """Return what it takes to fill the pipe to the top: its empty-pipe volume."""
    return Figure(
        volumes.capacity(job) - volumes.filled(job),
        "volume",
        "casing contents - fluid in the pipe",
        (on(casing_capacity(job)), on(filled(job))),
    )


@live("empty_length", "Empty from the top")
def empty_length(job: Job) -> Figure:
    """Return how far down the pipe is empty."""
    return Figure(
        volumes.empty_length(job),
        "length",
        "fill to the top / pipe-capacity, from the top down",
        (on(room(job)), *pipe_inputs(job, outer=False)),
    )


@live("buoyancy_factor", "Buoyancy factor")
def buoyancy(job: Job) -> Figure:
    """Return the buoyancy factor with the same mud inside and outside."""
    mud = job.known.pumping.mud_weight
    return Figure(
        buoyancy_factor(mud.value), "ratio", "buoyancy-factor", (typed("mud weight", mud),)
    )


@live("weight_in_air", "String weight in air")
def weight_in_air(job: Job) -> Figure:
    """Return the nominal weight of the string in air."""
    return _weight(job, 1.0, "string-weight, summed by pipe", ())


@live("weight_in_mud", "String weight in mud, full pipe")
def weight_in_mud(job: Job) -> Figure:
    """Return the weight of the string full of the mud it hangs in."""
    factor = buoyancy(job)
    if factor.value is None:
        raise Missing(factor.missing)
    return _weight(job, factor.value, "string-weight x buoyancy-factor", (on(factor),))


def _weight(job: Job, factor: float, formula: str, more: tuple[Input, ...]) -> Figure:
    total = volumes.summed(
        job, job.string, lambda pipe, length: string_weight(pipe.weight.value, length, factor)
    )
    inputs = (typed(f"nominal weight of {pipe.name}", pipe.weight) for pipe in volumes.pipes(job))
    return Figure(total, "force", formula, (on(string_length(job)), *inputs, *more))


@live("annulus_volume", "Annulus, shoe to surface")
def annulus(job: Job) -> Figure:
    """Return the volume outside the pipe, in the casings and the hole as it is set up."""
    how = "annulus-volume by section, couplings counted, excess and caliper where set"
    pipes = pipe_inputs(job, inner=False)
    return Figure(outside(job), "volume", how, (on(shoe_depth(job)), *hole_inputs(job), *pipes))


@live("pocket_volume", "Pocket, hole below the shoe")
def pocket_volume(job: Job) -> Figure:
    """Return the volume of the hole below the shoe."""
    depth = typed("depth of the hole", job.known.hole.depth)
    shoe = on(shoe_depth(job))
    how = "hole-capacity x length by section, excess and caliper where set"
    return Figure(volumes.pocket(job), "volume", how, (shoe, depth, *hole_inputs(job)))


def hole_inputs(job: Job) -> tuple[Input, ...]:
    """Return what the hole is made of: casings, sections with excess or caliper, or one size."""
    setup = job.known
    inputs = [*(_of_casing(setup.previous) if setup.previous else ())]
    inputs += [one for each in setup.other_casings for one in _of_casing(each, each.name)]
    inputs += [one for part in setup.sections for one in _of_section(part)]
    if any(part.excess for part in setup.sections):
        share = setup.pumping.excess_applies_to or "not said"
        inputs.append(Input("excess is a share of", share, "text", TYPED, "job set-up"))
    return (*inputs, typed("hole diameter", setup.hole.diameter))


def _of_casing(casing: PreviousCasing, name: str = "the previous casing") -> tuple[Input, ...]:
    shoe = "previous shoe" if name == "the previous casing" else f"shoe of {name}"
    top = (typed(f"top of {name}", casing.top),) if casing.top else ()
    inside = typed(f"inside diameter of {name}", casing.inner_diameter)
    return typed(shoe, casing.shoe), *top, inside


def _of_section(part: HoleSection) -> tuple[Input, ...]:
    where = f"{part.top.text} to {part.bottom.text}"
    size = ("caliper", part.caliper) if part.caliper else ("hole diameter", part.diameter)
    excess = (typed(f"excess, {where}", part.excess),) if part.excess else ()
    return typed(f"{size[0]}, {where}", size[1]), *excess


@live("circulation_target", "To circulate before cementing")
def circulation_target(job: Job) -> Figure:
    """Return the volume to circulate: the target of the set-up times the casing contents."""
    share = job.known.limit("circulation_target")
    factor = typed("circulation target", share, "limits")
    contents = on(casing_capacity(job))
    assert share is not None  # typed() has refused a missing one
    return Figure(
        share.value * volumes.capacity(job),
        "volume",
        "circulation target x casing contents",
        (factor, contents),
    )


@live("shoe_track_volume", "Shoe track contents")
def shoe_track_volume(job: Job) -> Figure:
    """Return what the pipe holds between the shoe and the top of the collar."""
    track = volumes.below_collar(job)
    if not track:
        raise Missing("No collar is in the string yet.")
    return Figure(
        volumes.volume(job, track, bore),
        "volume",
        "pipe-capacity x length of the shoe track",
        (
            calculated("length of the shoe track", track[-1].top, TALLY, "items run"),
            *pipe_inputs(job, outer=False),
        ),
    )
