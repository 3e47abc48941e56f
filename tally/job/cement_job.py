"""The cementing programme of a job: its fluids in the string as run, or as it will be."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.cement.floats import plug_depth
from tally.cement.materials_needed import Needed, needed
from tally.cement.programme import (
    SLURRY,
    Programme,
    Room,
    Wanted,
    behind_plug,
    programme,
)
from tally.errors import Missing
from tally.fluids.pump import time_at_rate
from tally.hole.sections import Hole
from tally.job import depths, volumes
from tally.job.geometry import Last, hole_of, hung, require_excess_said
from tally.job.job import Job
from tally.job.planned_string import as_planned
from tally.job.recipes import Recipe, density_of, recipe
from tally.job.setup import BEHIND, MUD, Fluid, Setup
from tally.pipe.interval import PipeInterval
from tally.string.columns import DEEPEST, FluidColumn, Layer


@dataclass(frozen=True, slots=True)
class SlurryWanted:
    """A slurry of the programme: its recipe, its volume [m^3], and what that takes."""

    fluid: Fluid
    volume: float
    recipe: Recipe
    needed: Needed


def fluids(setup: Setup) -> tuple[Fluid, ...]:
    """Return the fluids that end around the pipe, in pumping order; Missing where there is none."""
    ahead = tuple(each for each in setup.fluids if each.kind != BEHIND)
    if not ahead:
        raise Missing("No fluid to pump is in the job set-up; add them in the order of pumping.")
    return ahead


def hole_for_cement(setup: Setup) -> Hole:
    """Return the hole with its excess on what the set-up says it is a share of."""
    require_excess_said(setup)
    return hole_of(setup)


def collar_depth(job: Job) -> float:
    """Return the depth at which the plugs land: the top of the uppermost collar, [m]."""
    collar = depths.collar(job)
    if collar is None:
        raise Missing("No collar is in the string; the plugs land on one.")
    return job.known.step.si(depths.shoe_depth(job) - collar.top)


def _room(job: Job) -> Room:
    setup = job.known
    collar, shoe = collar_depth(job), setup.step.si(depths.shoe_depth(job))
    volumes.pocket(job)  # refuses a shoe below the hole
    bottom = setup.hole.depth.value if setup.pumping.pocket_filled else shoe
    return Room(hole_for_cement(setup), hung(job), max(0.0, collar), shoe, max(shoe, bottom))


def _programme(job: Job) -> Programme:
    return programme(room_of(job), [_wanted(each) for each in fluids(job.known)])


def _wanted(fluid: Fluid) -> Wanted:
    amounts = {
        name: None if measure is None else measure.value
        for name, measure in (
            ("volume", fluid.volume),
            ("length", fluid.length),
            ("top", fluid.top),
            ("contact", fluid.contact),
            ("rate", fluid.rate),
        )
    }
    return Wanted(fluid.name, fluid.kind, **amounts)


room_of = Last(_room)
"""Where the fluids of a job go, with its string as it stands."""

programme_of = Last(_programme)
"""Where the fluids of a job end, with its string as it stands; ask with `as_planned(job)`."""


def _slurries(job: Job) -> tuple[SlurryWanted, ...]:
    setup = job.known
    placed = zip(fluids(setup), programme_of(as_planned(job)).placed, strict=True)
    found = [(fluid, each.volume) for fluid, each in placed if fluid.kind == SLURRY]
    return tuple(
        SlurryWanted(fluid, volume, made, _needed(setup, volume, made, first=place == 0))
        for place, (fluid, volume) in enumerate(found)
        for made in (recipe(setup, fluid),)
    )


slurries = Last(_slurries)
"""The slurries of a job in pumping order, with what they take."""


def _needed(setup: Setup, volume: float, made: Recipe, *, first: bool) -> Needed:
    """Return what a slurry takes; what stays in the tanks is counted once, with the first."""
    reserve, dead = setup.pumping.reserve, setup.pumping.dead_volume
    return needed(
        volume,
        made.makes,
        made.water,
        made.fluid,
        made.additives,
        reserve.value if reserve else 0.0,
        dead.value if dead and first else 0.0,
    )


def displacement(job: Job) -> float:
    """Return the volume from the head to the collar of the string as it stands, [m^3]."""
    above, head = volumes.above_collar(job), job.known.pumping.head_volume
    if not above:
        raise Missing("No pipe is run above the collar yet.")
    return volumes.volume(job, above, volumes.bore) + (head.value if head else 0.0)


def outside_column(job: Job) -> FluidColumn:
    """Return what stands around the pipe when the plug has seated, for the string as it stands."""
    setup = job.known
    made = programme_of(job)
    layers = [Layer(made.top, setup.pumping.mud_weight.value)]
    for fluid, placed in zip(fluids(setup), made.placed, strict=True):
        layers.append(Layer(placed.bottom, density_of(setup, fluid)))
    return FluidColumn((*layers[:-1], Layer(DEEPEST, layers[-1].density)))


def inside_column(job: Job) -> FluidColumn:
    """Return what stands inside above the collar then: what was pumped last is on top."""
    setup = job.known
    total, collar = displacement(job), collar_depth(job)
    pipe = down_to(hung(job), collar)
    layers, pumped = [Layer(collar, 0.0)], 0.0
    for density, volume in _behind(setup, total):
        pumped += volume
        layers[0] = Layer(layers[0].bottom, density)
        layers.insert(0, Layer(_top_of(job, pipe, total - pumped), 0.0))
    return FluidColumn(tuple(layers[1:]), pipe[0].top)


def _top_of(job: Job, pipe: tuple[PipeInterval, ...], above: float) -> float:
    head = job.known.pumping.head_volume
    depth = plug_depth(pipe, head.value if head else 0.0, above)
    return pipe[0].top if depth is None else depth


def _behind(setup: Setup, total: float) -> list[tuple[float, float]]:
    """Return density and volume of what is pumped behind the plug, in order; the rest is mud."""
    mud = setup.pumping.mud_weight.value
    behind = [each for each in setup.fluids if each.kind == BEHIND]
    wanted = [_wanted(each) for each in behind]
    if all(each.volume is not None for each in wanted):
        wanted.append(Wanted(MUD, BEHIND))
    volumes_ = behind_plug(total, wanted)
    densities = [density_of(setup, each) if each.density else mud for each in behind] + [mud]
    return [(density, volume) for density, (_, volume) in zip(densities, volumes_, strict=False)]


def down_to(pipe: tuple[PipeInterval, ...], depth: float) -> tuple[PipeInterval, ...]:
    return tuple(replace(each, bottom=min(each.bottom, depth)) for each in pipe if each.top < depth)


def pumping_time(setup: Setup, fluid: Fluid, volume: float) -> float:
    """Return the time to pump a slurry, [s]: at its own rate, else as mixed, else as displaced."""
    pump = setup.pumping
    rate = fluid.rate or (None if pump.batch_mixed else pump.mixing_rate) or pump.rate
    if rate is None:
        raise Missing(f"The rate at which the {fluid.name} is pumped is not in the job set-up.")
    return time_at_rate(volume, rate.value)


def batch_time(setup: Setup, volume: float) -> float:
    """Return how long a slurry stands in its batch until it is pumped, [s]; 0 mixed as pumped."""
    pump = setup.pumping
    if not pump.batch_mixed:
        return 0.0
    if pump.mixing_rate is None:
        raise Missing("The rate at which a batch is mixed is not in the job set-up.")
    return time_at_rate(volume, pump.mixing_rate.value)
