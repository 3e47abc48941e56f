"""What of a set-up can be worked with and is doubtful all the same, told beside its field."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tally.errors import ShoedownError
from tally.feeds.job_cement_tables import AdditiveTable, FluidTable, MaterialTable
from tally.feeds.job_faults import Fault
from tally.feeds.job_shape import Shape
from tally.job.own_materials import material_fault
from tally.job.recipes import SLURRY, slurry_doubts
from tally.job.setup import Additive, Fluid, OwnMaterial
from tally.units import FIELD, UnitSet, unit_set


@dataclass(frozen=True, slots=True)
class _Slurries:
    """What of a set-up says how its slurries are mixed."""

    fluids: tuple[Fluid, ...]
    additives: tuple[Additive, ...]
    materials: tuple[OwnMaterial, ...]
    shown: UnitSet


def doubts_of(shape: Shape) -> Iterator[Fault]:
    """Yield what is doubtful; it stops nobody from saving the set-up."""
    shown, additives, own = _shown(shape), _additives(shape), _materials(shape)
    for spot, table in shape.placed("fluid", FluidTable):
        if table.kind == SLURRY:
            mixed = _Slurries((Fluid(**dict(table)),), additives, own, shown)
            for doubt in slurry_doubts(mixed):
                yield Fault(spot.at(doubt.key), f"In doubt: {doubt.text}", whole=True)


def _additives(shape: Shape) -> tuple[Additive, ...]:
    """Return the additives that say how much of them is mixed in, in one way."""
    return tuple(
        Additive(**dict(table))
        for table in shape.rows("additive", AdditiveTable)
        if (table.share is None) != (table.per_sack is None)
    )


def _materials(shape: Shape) -> tuple[OwnMaterial, ...]:
    """Return the job's own materials that can be read."""
    listed = (OwnMaterial(**dict(table)) for table in shape.rows("material", MaterialTable))
    return tuple(each for each in listed if not material_fault(each))


def _shown(shape: Shape) -> UnitSet:
    switched = {key: unit for key, unit in shape.units.items() if key != "set"}
    try:
        return unit_set(shape.units.get("set", FIELD.name)).with_units(switched)
    except ShoedownError:
        return FIELD
