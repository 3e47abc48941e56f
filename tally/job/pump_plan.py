"""The plan of a placement from the job: its string, hole and fluids, and what goes where."""

from __future__ import annotations

from collections.abc import Iterator

from tally.cement.plan import BottomPlug, Fluid, Plan, Point, Slug, Stage, slug
from tally.cement.programme import SLURRY
from tally.cement.pumping import PREVIOUS_SHOE
from tally.cement.tube import Well
from tally.errors import Missing
from tally.job import cement_job
from tally.job.geometry import Last, hung, path_of
from tally.job.job import Job
from tally.job.planned_string import as_planned
from tally.job.recipes import density_of
from tally.job.rheology import curve_of
from tally.job.setup import BEHIND, MUD, Setup
from tally.job.setup import Fluid as Listed
from tally.units import Measure

ROUNDING = 1e-6
"""[m3]; less than this of a fluid is none."""

cement_hole = Last(cement_job.hole_for_cement)
"""The hole of a set-up as the programme fills it."""


def plan_of(job: Job) -> Plan:
    """Return what is to be pumped by the programme, into the string as it will be.

    Raises Missing with what the set-up lacks for it.
    """
    setup, planned = job.known, as_planned(job)
    ahead, behind = _ahead(planned), _behind(planned)
    slow, slow_volume = setup.limit("slow_rate"), setup.limit("slow_volume")
    return Plan(
        well_of(planned),
        _mud(setup),
        (*ahead, *behind),
        top_plug=len(ahead),
        bottom_plugs=tuple(_bottom_plugs(setup)),
        points=tuple(_points(planned)),
        slow_volume=slow_volume.value if slow_volume else 0.0,
        slow_rate=slow.value if slow and slow_volume else None,
    )


def well_of(job: Job) -> Well:
    """Return the string of a job as it stands in its hole, as one tube for the fluids.

    Where the count fills an empty line first, the line goes with the head.
    """
    setup = job.known
    pump = setup.pumping
    head = pump.head_volume.value if pump.head_volume else 0.0
    if not pump.line_full_at_zero:
        head += _given("The volume of the surface line", pump.line_volume)
    collar = cement_job.collar_depth(job)
    return Well(hung(job), cement_hole(setup), path_of(setup), collar, head)


def _mud(setup: Setup) -> Fluid:
    return Fluid(MUD, setup.pumping.mud_weight.value, curve_of(setup, MUD))


def _ahead(job: Job) -> list[Slug]:
    """Return the fluids ahead of the top plug; the pump then stands until it is released."""
    setup = job.known
    placed = cement_job.programme_of(job).placed
    slugs = [
        slug(_fluid(setup, fluid), each.volume, _rate(setup, fluid))
        for fluid, each in zip(cement_job.fluids(setup), placed, strict=True)
    ]
    released, last = setup.pumping.plug_time, slugs[-1]
    stop = released.value if released else 0.0
    slugs[-1] = slug(last.fluid, last.volume, last.stages[0].rate, stop)
    return slugs


def _behind(job: Job) -> list[Slug]:
    """Return the fluids behind the top plug; the last one goes on to the bump."""
    setup = job.known
    listed = [each for each in setup.fluids if each.kind == BEHIND]
    slugs, left = [], cement_job.displacement(job)
    for fluid in listed:
        volume = left if fluid.volume is None else fluid.volume.value
        flows = _fluid(setup, fluid) if fluid.density else _mud(setup)
        slugs.append(slug(flows, volume, _rate(setup, fluid)))
        left -= volume
    if not slugs or left > ROUNDING:
        return [*slugs, Slug(_mud(setup), (Stage(0.0, _rate(setup, None)),))]
    return [*slugs[:-1], Slug(slugs[-1].fluid, (Stage(0.0, slugs[-1].stages[0].rate),))]


def _fluid(setup: Setup, fluid: Listed) -> Fluid:
    return Fluid(fluid.name, density_of(setup, fluid), curve_of(setup, fluid.name))


def _rate(setup: Setup, fluid: Listed | None) -> float:
    """Return the rate of a fluid: its own, a slurry's as mixed, else that of displacement."""
    pump = setup.pumping
    mixed = pump.mixing_rate if fluid and fluid.kind == SLURRY and not pump.batch_mixed else None
    own = fluid.rate if fluid else None
    name = f"of the {fluid.name}" if fluid else "of displacement"
    return _given(f"The rate {name}", own or mixed or pump.rate)


def _bottom_plugs(setup: Setup) -> Iterator[BottomPlug]:
    """Yield the bottom plugs: one ahead of the first slurry, another ahead of all."""
    wanted = setup.pumping.bottom_plugs
    if not wanted:
        return
    opens = setup.limit("diaphragm_pressure")
    opens_at = _given("The pressure that opens the bottom plug", opens, "limits")
    kinds = [fluid.kind for fluid in cement_job.fluids(setup)]
    first = kinds.index(SLURRY)
    if wanted > 1:
        if not first:
            raise Missing("Two bottom plugs are set up, but no fluid goes ahead of the slurry.")
        yield BottomPlug(0, opens_at)
    yield BottomPlug(first, opens_at)


def _points(job: Job) -> Iterator[Point]:
    """Yield the previous shoe, and the top and the foot of each zone beside the string."""
    setup, shoe = job.known, hung(job)[-1].bottom
    if setup.previous is not None and setup.previous.weak_at is not None:
        at = setup.previous.shoe.value
        if 1.0 < at < shoe:
            yield Point(PREVIOUS_SHOE, at, weak_at=setup.previous.weak_at.value)
    for zone in setup.zones:
        pore = zone.pore.value if zone.pore else None
        weak = zone.weak_at.value if zone.weak_at else None
        for name, depth in ((f"{zone.name}, top", zone.top), (f"{zone.name}, foot", zone.bottom)):
            if 1.0 < depth.value <= shoe:
                yield Point(name, depth.value, pore, weak)


def _given(what: str, measure: Measure | None, where: str = "job set-up") -> float:
    if measure is None:
        raise Missing(f"{what} is not in the {where}.")
    return measure.value
