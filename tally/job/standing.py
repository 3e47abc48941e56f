"""What stands in the well where the job is: the fluids pumped by depth, and the plugs."""

from __future__ import annotations

from dataclasses import dataclass

from tally.cement.fluid_stretches import FluidStretch, inside, outside
from tally.errors import ShoedownError
from tally.job.job import Job
from tally.job.placement import Live, live
from tally.job.placement_outcome import plug_at

TOP, BOTTOM = "top plug", "bottom plug"


@dataclass(frozen=True, slots=True)
class Standing:
    """The fluids inside and outside from the top down, and the depth of each plug let go, [m].

    `names` are the fluids ahead of the top plug in the order of pumping; what pushes the plug is
    not among them.
    """

    inside: tuple[FluidStretch, ...]
    outside: tuple[FluidStretch, ...]
    plugs: tuple[tuple[str, float], ...]
    names: tuple[str, ...]


def standing(job: Job) -> Standing | None:
    """Return what stands in the well, once something is pumped and it can be worked out."""
    if job.landing is None:
        return None
    try:
        here = live(job)
    except ShoedownError:
        return None
    if not here.seen:
        return None
    plan = here.plan
    return Standing(
        inside(here.placement, here.pumped),
        outside(here.placement, here.pumped),
        tuple(_plugs(here)),
        tuple(each.fluid.name for each in plan.slugs[: plan.top_plug]),
    )


def _plugs(here: Live) -> list[tuple[str, float]]:
    """Return the plugs with their depths; the one let go first comes first."""
    plan = here.plan
    wanted = [(BOTTOM, plug.ahead_of) for plug in plan.bottom_plugs]
    if plan.top_plug is not None:
        wanted.append((TOP, plan.top_plug))
    depths = ((name, plug_at(here, ahead_of)) for name, ahead_of in wanted)
    return [(name, depth) for name, depth in depths if depth is not None]
