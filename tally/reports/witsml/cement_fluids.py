"""The fluids of a cementing: as planned, as placed by calculation, and as pumped.

A volume is only said to be that of one fluid where somebody read it for that fluid: the steps read
all spacers, and all slurries, together.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tally.errors import ShoedownError
from tally.job.cement_job import SlurryWanted, programme_of, room_of
from tally.job.job import Job
from tally.job.planned_string import as_planned
from tally.job.recipes import density_of
from tally.job.setup import BEHIND, Fluid
from tally.reports.cement_fields import slurry_of
from tally.reports.final_tally import FinalTally
from tally.reports.mixing_fields import weighed
from tally.reports.witsml.cement_steps import measured
from tally.reports.witsml.uom import Amount, amount, worth

SPACER, SLURRY = "spacer", "slurry"
_READ_BY = {SPACER: "spacer-pumped", SLURRY: "slurry-away"}


@dataclass(frozen=True, slots=True)
class Lies:
    """Where some of a fluid ends by the programme: depths [m], volume [m^3], and in what."""

    top: float
    bottom: float
    volume: float
    within: str


@dataclass(frozen=True, slots=True)
class FluidFacts:
    """A fluid with what the book has of it; None is what it does not have."""

    order: int
    name: str
    kind: str
    density: Amount | None = None
    planned: Amount | None = None
    pumped: Amount | None = None
    rate: Amount | None = None
    viscosity: Amount | None = None
    yield_point: Amount | None = None
    cement: str = ""
    thickening: Amount | None = None
    weighed: str = ""
    made: SlurryWanted | None = None
    lies: tuple[Lies, ...] = ()

    @property
    def uid(self) -> str:
        """What it is called by where other elements point to it."""
        return f"fluid-{self.order}"

    @property
    def around(self) -> Lies | None:
        """Where it lies in the annulus."""
        return next((one for one in self.lies if one.within == "annulus"), None)


def fluid_facts(tally: FinalTally, displaced: float | None) -> tuple[FluidFacts, ...]:
    """Return the fluids in pumping order; `displaced` is what was read behind the top plug."""
    fluids = tally.setup.fluids
    if not fluids:
        return _in_short(tally)
    lies = _lie(tally.job)
    return tuple(
        _facts(tally, order, fluid, displaced, lies.get(fluid.name, ()))
        for order, fluid in enumerate(fluids, start=1)
    )


def _facts(
    tally: FinalTally, order: int, fluid: Fluid, displaced: float | None, lies: tuple[Lies, ...]
) -> FluidFacts:
    made = slurry_of(tally, fluid) if fluid.kind == SLURRY else None
    return FluidFacts(
        order=order,
        name=fluid.name,
        kind=fluid.kind,
        density=_density(tally, fluid),
        planned=worth(sum(one.volume for one in lies), "volume") if lies else amount(fluid.volume),
        pumped=_pumped(tally, fluid, displaced),
        rate=amount(fluid.rate),
        viscosity=amount(fluid.plastic_viscosity),
        yield_point=amount(fluid.yield_point),
        cement=fluid.cement,
        thickening=amount(fluid.thickening_time),
        weighed=weighed(tally, fluid.name),
        made=made,
        lies=tuple(one for one in lies if one.within),
    )


def _in_short(tally: FinalTally) -> tuple[FluidFacts, ...]:
    """Return spacer and slurry of a programme that gives no more than their volumes."""
    pump = tally.setup.pumping
    volumes = ((SPACER, pump.spacer_volume), (SLURRY, pump.slurry_volume))
    wanted = [(kind, volume) for kind, volume in volumes if volume is not None]
    return tuple(
        FluidFacts(
            order, kind, kind, planned=amount(volume), pumped=measured(tally.job, _READ_BY[kind])
        )
        for order, (kind, volume) in enumerate(wanted, start=1)
    )


def _density(tally: FinalTally, fluid: Fluid) -> Amount | None:
    try:
        return Amount(density_of(tally.setup, fluid), "density")
    except ShoedownError:
        return None


def _pumped(tally: FinalTally, fluid: Fluid, displaced: float | None) -> Amount | None:
    """Return what was read of one fluid; a sum of several is not shared out among them."""
    job = tally.job
    log = [one.pumped for one in job.mixing if one.fluid == fluid.name and one.pumped is not None]
    if fluid.kind == SLURRY and log:
        return amount(log[-1])
    if sum(one.kind == fluid.kind for one in tally.setup.fluids) > 1:
        return None
    if fluid.kind == BEHIND:
        return worth(displaced, "volume")
    return measured(job, _READ_BY[fluid.kind]) if fluid.kind in _READ_BY else None


def _lie(job: Job) -> Mapping[str, tuple[Lies, ...]]:
    """Return where each fluid ends by the programme; nothing where it cannot be worked out.

    Shoe track and pocket hold the last slurry; what comes out at the top lies nowhere.
    """
    try:
        planned = as_planned(job)
        room, placed = room_of(planned), programme_of(planned).placed
    except ShoedownError:
        return {}
    lies = {
        one.name: [Lies(one.top, one.bottom, one.volume - one.within - one.out, "annulus")]
        for one in placed
    }
    lies[placed[-1].name] += [
        Lies(room.collar, room.shoe, room.track, "in pipe"),
        Lies(room.shoe, room.bottom, room.pocket, "rat hole"),
    ]
    for one in placed:
        lies[one.name].append(Lies(0.0, 0.0, one.out, ""))
    return {name: tuple(one for one in some if one.volume > 0.0) for name, some in lies.items()}
