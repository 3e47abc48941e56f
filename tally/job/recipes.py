"""From the set-up to a slurry: what a sack of it makes, and whether what was typed agrees.

What is typed of density, yield and mix water is what a job is run by: it governs. Two of them
give the third by their masses; where one or none is typed the recipe gives the others by absolute
volume. The recipe is the check of what is typed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from tally.errors import DomainError, Missing, ShoedownError
from tally.fluids.material import Material
from tally.fluids.materials import find_material
from tally.fluids.slurry import (
    BY_SACK,
    OF_CEMENT,
    OF_WATER,
    STANDARD_SACK,
    Mix,
    Part,
    beside_cement,
    for_the_sack,
    mix_for_density,
    mix_for_yield,
    slurry,
    water_wanted,
)
from tally.fluids.slurry_check import (
    Difference,
    Printed,
    Whole,
    differences,
    unbalanced,
    with_third,
)
from tally.job.own_materials import own_materials
from tally.job.setup import Additive, Fluid, OwnMaterial
from tally.units import Measure, UnitSet

_BASES = {"cement": OF_CEMENT, "water": OF_WATER}
SLURRY = "slurry"


class Recipes(Protocol):
    """What of a set-up says how its slurries are mixed."""

    @property
    def fluids(self) -> tuple[Fluid, ...]: ...
    @property
    def additives(self) -> tuple[Additive, ...]: ...
    @property
    def materials(self) -> tuple[OwnMaterial, ...]: ...
    @property
    def shown(self) -> UnitSet: ...


@dataclass(frozen=True, slots=True)
class SlurryDoubt:
    """How what was typed for a slurry disagrees, in a sentence, and at which key of it."""

    fluid: str
    key: str
    text: str


@dataclass(frozen=True, slots=True)
class Recipe:
    """What a sack of a slurry comes to: volumes [m^3], masses [kg], density [kg/m^3]."""

    density: float
    makes: float
    """Slurry of a sack."""
    water: float
    fluid: float
    """Mix fluid of a sack: water with what is in it before the cement."""
    sack: float
    additives: tuple[tuple[str, float], ...] = ()
    """Name and mass for a sack."""
    doubts: tuple[SlurryDoubt, ...] = ()
    yield_from: str = "by its recipe"
    """Where the yield comes from, in words."""


def recipe(setup: Recipes, fluid: Fluid) -> Recipe:
    """Return what a sack of a slurry comes to; Missing says what the set-up lacks."""
    sack = _sack(setup, fluid)
    parts = tuple(_part(setup, each, sack) for each in setup.additives if each.fluid == fluid.name)
    typed = Printed(
        fluid.density.value if fluid.density else None,
        _by_mass(fluid.slurry_yield, sack),
        _by_mass(fluid.mix_water, sack),
    )
    mix = _mix(_found(setup, fluid.cement), typed, parts, sack) if fluid.cement else None
    governs = _governing(fluid, typed, mix, parts, sack)
    beside = beside_cement(parts, governs.water)
    return Recipe(
        governs.density,
        governs.yield_ * sack,
        governs.water * sack,
        sum(share.volume for share in beside if share.in_fluid) * sack,
        sack,
        tuple((share.name, share.mass * sack) for share in beside[1:]),
        tuple(_doubts(setup, fluid, mix, typed, governs)),
        _yield_from(fluid),
    )


def _found(setup: Recipes, name: str) -> Material:
    return find_material(name, own_materials(setup.materials))


def _sack(setup: Recipes, fluid: Fluid) -> float:
    if fluid.sack:
        return fluid.sack.value
    listed = _found(setup, fluid.cement).sack if fluid.cement else None
    return listed or STANDARD_SACK


def _part(setup: Recipes, additive: Additive, sack: float) -> Part:
    material = _found(setup, additive.material)
    if additive.per_sack is not None:
        return Part(material, BY_SACK, for_the_sack(additive.per_sack, sack))
    share = additive.share.value if additive.share else 0.0
    return Part(material, _BASES[additive.of], share)


def _by_mass(typed: Measure | None, sack: float) -> float | None:
    return None if typed is None else for_the_sack(typed, sack)


def _mix(material: Material, typed: Printed, parts: tuple[Part, ...], sack: float) -> Mix:
    """Return the recipe with its water: as typed, by density, by yield, or as the list asks."""
    mix = Mix(material, 0.0, parts, sack)
    if typed.water is not None:
        return replace(mix, water=typed.water)
    if typed.density is not None:
        return mix_for_density(mix, typed.density)
    if typed.yield_ is not None:
        return mix_for_yield(mix, typed.yield_)
    return replace(mix, water=water_wanted(material, parts))


def _governing(
    fluid: Fluid, typed: Printed, mix: Mix | None, parts: Sequence[Part], sack: float
) -> Whole:
    """Return the figures that are used: as typed, and what is not typed by the typed ones."""
    given = [each for each in (typed.density, typed.yield_, typed.water) if each is not None]
    if len(given) >= 2:
        return with_third(typed, parts, sack)
    if mix is None:
        raise Missing(
            f"The {fluid.name} has no cement to work it out from, and no {_lacking(fluid)} in the "
            "job set-up; type the cement, or two of density, yield and mix water."
        )
    made = slurry(mix)
    return Whole(
        made.density if typed.density is None else typed.density,
        made.yield_ if typed.yield_ is None else typed.yield_,
        made.water if typed.water is None else typed.water,
    )


def _lacking(fluid: Fluid) -> str:
    pairs = (
        ("density", fluid.density),
        ("yield", fluid.slurry_yield),
        ("mix water", fluid.mix_water),
    )
    return " and no ".join(name for name, measure in pairs if measure is None)


def _yield_from(fluid: Fluid) -> str:
    if fluid.slurry_yield is not None:
        return "as typed, which governs"
    two = fluid.density is not None and fluid.mix_water is not None
    return "by the masses of what is typed" if two else "by its recipe"


_TYPED = {
    "density": ("Density", "density", "density", "density", "used for the columns and the mixing"),
    "yield": ("Yield", "slurry yield", "slurry_yield", "yield", "used for the sacks"),
    "water": ("Mix water", "mix water", "mix_water", "water", "used for the tanks"),
}
"""Of each figure: its name, its quantity, its key in a job file, and what it is used for."""


def _doubts(
    setup: Recipes, fluid: Fluid, mix: Mix | None, typed: Printed, governs: Whole
) -> Iterator[SlurryDoubt]:
    """Yield how what is typed disagrees: with the recipe, and all three with one another."""
    off = differences(mix, typed) if mix else []
    for each in off:
        yield _beside_recipe(setup, fluid, each)
    odd = unbalanced(replace(typed, additives=governs.additives))
    if odd is not None:
        yield _beside_one_another(setup, fluid, odd)
    if off and mix is not None and _two(typed):
        yield from _third(setup, fluid, differences(mix, governs), typed)


def _two(typed: Printed) -> bool:
    return [typed.density, typed.yield_, typed.water].count(None) == 1


def _beside_recipe(setup: Recipes, fluid: Fluid, off: Difference) -> SlurryDoubt:
    name, quantity, key, _, use = _TYPED[off.what]
    given, makes = (_shown(setup, fluid, value, quantity) for value in (off.given, off.makes))
    return SlurryDoubt(
        fluid.name,
        key,
        f"{name} of {fluid.name} is typed as {given}, but its recipe makes {makes}. The typed "
        f"one is {use}, as the laboratory's sheet governs; check the sheet, the recipe and what "
        "a sack weighs.",
    )


def _third(
    setup: Recipes, fluid: Fluid, off: Sequence[Difference], typed: Printed
) -> Iterator[SlurryDoubt]:
    """Yield that the figure which was not typed differs from the recipe with the typed ones."""
    given = {"density": typed.density, "yield": typed.yield_, "water": typed.water}
    for each in off:
        name, quantity, key, _, use = _TYPED[each.what]
        if given[each.what] is None:
            used, makes = (_shown(setup, fluid, one, quantity) for one in (each.given, each.makes))
            yield SlurryDoubt(
                fluid.name,
                key,
                f"{name} of {fluid.name} is not typed: {used} by the masses of what is typed is "
                f"{use}; its recipe makes {makes}.",
            )


def _beside_one_another(setup: Recipes, fluid: Fluid, odd: Difference) -> SlurryDoubt:
    typed = [each.text for each in (fluid.density, fluid.slurry_yield, fluid.mix_water) if each]
    makes = _shown(setup, fluid, odd.makes, "density")
    return SlurryDoubt(
        fluid.name,
        "density",
        f"Density, yield and mix water of {fluid.name}, typed as {', '.join(typed)}, do not "
        f"agree: by the masses yield and water make {makes}. The yield is used for the sacks, "
        "the water for the tanks, the density for the columns, each as typed; check all three, "
        "and what a sack weighs.",
    )


def _shown(setup: Recipes, fluid: Fluid, value: float, quantity: str) -> str:
    """Return a figure in the book's units; by sack it is for the sack of this slurry."""
    by_sack = setup.shown.unit(quantity).endswith("/sk")
    return setup.shown.show(
        value * (_sack(setup, fluid) / STANDARD_SACK if by_sack else 1.0), quantity
    )


def density_of(setup: Recipes, fluid: Fluid) -> float:
    """Return the density of a fluid: as typed, of a slurry else as `recipe` says, [kg/m^3]."""
    if fluid.density is not None:
        return fluid.density.value
    if fluid.kind == SLURRY:
        return recipe(setup, fluid).density
    raise Missing(f"Density of the {fluid.name} is not in the job set-up.")


def slurry_doubts(setup: Recipes) -> tuple[SlurryDoubt, ...]:
    """Return how what was typed for the slurries of a set-up disagrees."""
    return tuple(
        doubt for fluid in setup.fluids if fluid.kind == SLURRY for doubt in _of(setup, fluid)
    )


def _of(setup: Recipes, fluid: Fluid) -> tuple[SlurryDoubt, ...]:
    try:
        return recipe(setup, fluid).doubts
    except DomainError as fault:
        return (
            SlurryDoubt(
                fluid.name, "density", f"What is typed for {fluid.name} cannot be. {fault}"
            ),
        )
    except ShoedownError:
        return ()  # something is not given yet; the figures that want it say so
