"""Which fluid stands where at a volume pumped: in the casing and around it, by measured depth."""

from __future__ import annotations

from dataclasses import dataclass

from tally.cement.placement import Placement


@dataclass(frozen=True, slots=True)
class FluidStretch:
    """A fluid of a name from a measured depth down to another, [m].

    `slug` is its place in the order of pumping, from 0; None is the mud that stood in the hole.
    """

    name: str
    slug: int | None
    top: float
    bottom: float


def inside(placement: Placement, volume: float) -> tuple[FluidStretch, ...]:
    """Return the fluids in the casing from its top, or the level in it, down to the shoe.

    `volume` is that pumped since the first fluid, [m^3].
    """
    tube = placement.tube
    return tuple(
        FluidStretch(
            each.fluid.name,
            each.slug,
            tube.depth(max(each.start, tube.top)),
            tube.depth(each.end) if each.end < tube.shoe else tube.well.shoe,
        )
        for each in placement.lying(volume)
        if each.start < tube.shoe and each.end > tube.top
    )


def outside(placement: Placement, volume: float) -> tuple[FluidStretch, ...]:
    """Return the fluids around the casing from the top of the annulus down to the shoe."""
    tube = placement.tube
    return tuple(
        FluidStretch(
            each.fluid.name,
            each.slug,
            tube.depth(each.end),
            tube.depth(each.start) if each.start > tube.shoe else tube.well.shoe,
        )
        for each in reversed(placement.lying(volume))
        if each.end > tube.shoe
    )
