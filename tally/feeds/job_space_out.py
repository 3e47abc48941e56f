"""Whether what a space-out is to keep to fits together, and into the hole."""

from __future__ import annotations

from collections.abc import Iterator

from tally.feeds.job_faults import Fault, Spot, turned
from tally.feeds.job_shape import Shape
from tally.feeds.job_tables import HoleTable, KeepClearTable, SpaceOutTable
from tally.units import Measure, shown

SPACE_OUT = Spot("space_out")


def space_out_faults(shape: Shape) -> Iterator[Fault]:
    """Yield everything about the space-out that cannot be so."""
    yield from _depths(shape)
    yield from _stretches(shape)


def _depths(shape: Shape) -> Iterator[Fault]:
    hole, wishes = shape.table("hole", HoleTable), shape.table("space_out", SpaceOutTable)
    if hole is None or wishes is None:
        return
    for key in ("pocket", "hang_off", "marker"):
        depth: Measure | None = getattr(wishes, key)
        if depth is not None and depth.value >= hole.depth.value:
            said = f"{depth.text} is not less than the hole, {hole.depth.text} deep; look at both."
            yield Fault(SPACE_OUT.at(key), said)


def _stretches(shape: Shape) -> Iterator[Fault]:
    names: list[str] = []
    for spot, one in shape.placed("keep_clear", KeepClearTable):
        if (one.top is None) == (one.above is None):
            said = "is wanted once: a depth as top, or how far above the datum it begins as above."
            yield Fault(spot.at("top"), said)
        elif one.top is not None:
            yield from turned(spot, one.top, one.bottom)
        if one.name.casefold() in names:
            said = f"{shown(one.name)} stands twice; give each stretch a name of its own."
            yield Fault(spot.at("name"), said)
        names.append(one.name.casefold())
