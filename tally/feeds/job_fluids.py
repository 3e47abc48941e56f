"""Whether the fluids, additives, viscometer readings and centralizer data fit together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from tally.feeds.job_cement_tables import (
    AdditiveTable,
    FluidTable,
    MaterialTable,
    ProgrammeTable,
    ViscometerTable,
)
from tally.feeds.job_faults import Fault, Spot, named
from tally.feeds.job_shape import Shape
from tally.feeds.job_tables import (
    CentralizerKindTable,
    CentralizerLoadTable,
    HoleSectionTable,
    HoleTable,
)
from tally.feeds.job_words import like, near, typed_like
from tally.job.own_materials import material_fault
from tally.job.setup import BEHIND, MUD, OwnMaterial
from tally.units import Measure, read, shown

SLURRY = "slurry"
AMOUNTS = ("volume", "length", "top", "contact")
LIGHTEST = "1 sg"
"""No slurry is lighter than fresh water."""

OF_A_SLURRY = ("cement", "sack", "slurry_yield", "mix_water", "thickening_time")

Fluids = Sequence[tuple[Spot, FluidTable]]


def fluid_faults(shape: Shape) -> Iterator[Fault]:
    """Yield everything about fluids and centralizer data that cannot be so."""
    fluids = shape.placed("fluid", FluidTable)
    yield from _names(fluids)
    for spot, fluid in fluids:
        yield from _amount(spot, fluid)
        yield from _slurry(spot, fluid)
    yield from _tops(shape, fluids)
    yield from _order(fluids)
    yield from _excess(shape, fluids)
    yield from _additives(shape, fluids)
    yield from _materials(shape)
    yield from _dials(shape, fluids)
    yield from _kinds(shape)
    yield from _loads(shape)


def _materials(shape: Shape) -> Iterator[Fault]:
    """Yield the job's own materials that cannot be read, and names that stand twice."""
    names: set[str] = set()
    for spot, table in shape.placed("material", MaterialTable):
        fault = material_fault(OwnMaterial(**dict(table)))
        if fault:
            yield Fault(spot.at("name"), fault)
        if table.name.casefold() in names:
            said = f"{shown(table.name)} stands twice; give each material a name of its own."
            yield Fault(spot.at("name"), said)
        names.add(table.name.casefold())


def _names(fluids: Fluids) -> Iterator[Fault]:
    names = [fluid.name.casefold() for _, fluid in fluids]
    for place, (spot, fluid) in enumerate(fluids):
        if fluid.name.casefold() == MUD:
            said = f'"{MUD}" is the fluid in the hole, of the table [mud]; give it another name.'
            yield Fault(spot.at("name"), said)
        elif names[place] in names[:place]:
            said = f"{shown(fluid.name)} stands twice; give each fluid a name of its own."
            yield Fault(spot.at("name"), said)


def _amount(spot: Spot, fluid: FluidTable) -> Iterator[Fault]:
    """Yield a fluid of which it is not said, or said twice, how much is wanted."""
    said = [name for name in AMOUNTS if getattr(fluid, name) is not None]
    around = [name for name in said if name != "volume"]
    if fluid.kind == BEHIND and around:
        told = "goes with what is pumped ahead of the plug; give its volume, or leave it out."
        yield Fault(spot.at(around[0]), told)
    elif len(said) > 1:
        told = f"the {said[0]} says how much; take out one or the other."
        yield Fault(spot.at(said[1]), told)
    elif not said and fluid.kind != BEHIND:
        where, told = spot.at("volume"), "is missing, and so are length, top and contact;"
        yield Fault(
            where,
            f"{told} write it like {like(where.title, where.key)}.",
            f"{told} type it like {typed_like(where.title, where.key)}.",
        )
    if fluid.contact is not None and fluid.rate is None:
        told = f"{fluid.contact.text} of contact makes a volume with a rate only; give the rate."
        yield Fault(spot.at("rate"), told)


def _slurry(spot: Spot, fluid: FluidTable) -> Iterator[Fault]:
    if fluid.kind != SLURRY:
        for name in OF_A_SLURRY:
            if getattr(fluid, name):
                told = f"goes with a slurry, and {shown(fluid.name)} is a {fluid.kind}."
                yield Fault(spot.at(name), f"{told} Take it out.")
        return
    density = fluid.density
    if density is not None and density.value <= read(LIGHTEST, "density").value:
        told = f"{density.text} is no heavier than fresh water; look at the density of the slurry."
        yield Fault(spot.at("density"), told)


def _tops(shape: Shape, fluids: Fluids) -> Iterator[Fault]:
    hole = shape.table("hole", HoleTable)
    for spot, fluid in fluids:
        if hole is not None and fluid.top is not None:
            point = hole.casing_point
            if fluid.top.value >= point.value:
                told = f"{fluid.top.text} is not above the casing point, {point.text}; look at it."
                yield Fault(spot.at("top"), told)


def _order(fluids: Fluids) -> Iterator[Fault]:
    """Yield what would be pumped in an order that cannot be, and two that both fill up."""
    open_ones = [fluid.name for _, fluid in fluids if fluid.kind == BEHIND and fluid.volume is None]
    behind = ""
    for spot, fluid in fluids:
        if fluid.kind == BEHIND:
            behind = fluid.name
            if fluid.volume is None and fluid.name != open_ones[0]:
                told = f"is missing, and so is that of {shown(open_ones[0])}; give one of them."
                yield Fault(spot.at("volume"), told)
        elif behind:
            told = f"it stands below {shown(behind)}, which is pumped behind the top plug; move it."
            yield Fault(spot.at("kind"), told)


def _excess(shape: Shape, fluids: Fluids) -> Iterator[Fault]:
    """Yield an excess of which nobody said what it is a share of, once fluids are planned."""
    sections = shape.rows("hole_section", HoleSectionTable)
    programme = shape.table("programme", ProgrammeTable)
    says = programme is not None and programme.excess_applies_to
    if not fluids or says or "programme" in shape.spoilt:
        return
    if any(section.excess is not None for section in sections):
        told = "a section of the hole has an excess, and sources differ in what it is a share of;"
        yield Fault(
            Spot("programme", "excess_applies_to"),
            f'{told} write "annulus" for the volume around the pipe, "hole" for that of the hole.',
            f"{told} annulus is the volume around the pipe, hole that of the hole.",
        )


def _additives(shape: Shape, fluids: Fluids) -> Iterator[Fault]:
    slurries = [fluid.name for _, fluid in fluids if fluid.kind == SLURRY]
    for spot, additive in shape.placed("additive", AdditiveTable):
        if additive.fluid not in slurries and "fluid" not in shape.spoilt:
            said = f"there is no slurry '{shown(additive.fluid)}';"
            told = near(additive.fluid, slurries, f"the slurries are: {named(slurries)}.")
            yield Fault(spot.at("fluid"), f"{said} {told}")
        if (additive.share is None) == (additive.per_sack is None):
            said = "is missing, and so is what goes to a sack; give one of them."
            if additive.share is not None:
                said = "what goes to a sack is given too; take out one or the other."
            yield Fault(spot.at("share"), said)


def _dials(shape: Shape, fluids: Fluids) -> Iterator[Fault]:
    known = (MUD, *(fluid.name for _, fluid in fluids))
    taken: list[tuple[str, float]] = []
    for spot, dial in shape.placed("viscometer", ViscometerTable):
        if dial.fluid not in known and "fluid" not in shape.spoilt:
            said = f"there is no fluid '{shown(dial.fluid)}'; the fluids are: {named(known)}."
            yield Fault(spot.at("fluid"), said)
        reading = (dial.fluid, dial.speed.value)
        if reading in taken:
            said = f"{dial.speed.text} of {shown(dial.fluid)} stands twice; take out one reading."
            yield Fault(spot.at("speed"), said)
        taken.append(reading)


def _kinds(shape: Shape) -> Iterator[Fault]:
    kinds = shape.placed("centralizer_kind", CentralizerKindTable)
    names = [kind.what for _, kind in kinds]
    for place, (spot, kind) in enumerate(kinds):
        if kind.what in names[:place]:
            said = f"{shown(kind.what)} stands twice; give each centralizer one table."
            yield Fault(spot.at("what"), said)


def _loads(shape: Shape) -> Iterator[Fault]:
    """Yield lines of a centralizer that has no data, and tables that do not rise."""
    known = [kind.what for kind in shape.rows("centralizer_kind", CentralizerKindTable)]
    loads = shape.placed("centralizer_load", CentralizerLoadTable)
    for spot, line in loads:
        if line.what not in known and "centralizer_kind" not in shape.spoilt:
            said = (
                f"there are no data of '{shown(line.what)}'; the centralizers are: {named(known)}."
            )
            yield Fault(spot.at("what"), said)
    for what in dict.fromkeys(line.what for _, line in loads):
        mine = [(spot, line) for spot, line in loads if line.what == what]
        for (_, first), (spot, then) in pairwise(mine):
            yield from _rises(spot, "deflection", first.deflection, then.deflection)
            yield from _rises(spot, "load", first.load, then.load)


def _rises(spot: Spot, key: str, first: Measure, then: Measure) -> Iterator[Fault]:
    if then.value <= first.value:
        said = f"{then.text} is not more than {first.text} of the line above; the table rises."
        yield Fault(spot.at(key), said)
