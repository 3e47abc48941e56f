"""From the set-up to a slurry: what a sack of it makes, and whether what was typed agrees."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.errors import Missing
from tally.fluids.materials import find_material
from tally.fluids.slurry import (
    BY_SACK,
    OF_CEMENT,
    OF_WATER,
    STANDARD_SACK,
    Mix,
    Part,
    Slurry,
    for_the_sack,
    mix_for_density,
    mix_for_yield,
    slurry,
    water_wanted,
)
from tally.fluids.slurry_check import Printed, differences, unbalanced
from tally.job.setup import Additive, Fluid, Setup
from tally.units import Measure

_BASES = {"cement": OF_CEMENT, "water": OF_WATER}


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
    doubts: tuple[str, ...] = ()
    """How what was typed disagrees, in sentences."""


def recipe(setup: Setup, fluid: Fluid) -> Recipe:
    """Return what a sack of a slurry comes to; Missing says what the set-up lacks."""
    return _mixed(setup, fluid) if fluid.cement else _as_typed(fluid)


def _mixed(setup: Setup, fluid: Fluid) -> Recipe:
    """Return a recipe by absolute volume, held against the figures that were typed with it."""
    mix = _mix(setup, fluid)
    made = slurry(mix)
    typed = Printed(
        fluid.density.value if fluid.density else None,
        _by_mass(fluid.slurry_yield, mix.sack),
        _by_mass(fluid.mix_water, mix.sack),
    )
    return Recipe(
        made.density,
        made.yield_by_sack,
        made.water_by_sack,
        made.mix_fluid_by_sack,
        mix.sack,
        _additives(made),
        tuple(f"{fluid.name}: {each}" for each in differences(mix, typed)),
    )


def _mix(setup: Setup, fluid: Fluid) -> Mix:
    """Return the recipe with its water: as typed, by density, by yield, or as the list asks."""
    cement = find_material(fluid.cement)
    sack = fluid.sack.value if fluid.sack else cement.sack or STANDARD_SACK
    parts = tuple(_part(each, sack) for each in setup.additives if each.fluid == fluid.name)
    mix = Mix(cement, 0.0, parts, sack)
    water, makes = _by_mass(fluid.mix_water, sack), _by_mass(fluid.slurry_yield, sack)
    if water is not None:
        return replace(mix, water=water)
    if fluid.density is not None:
        return mix_for_density(mix, fluid.density.value)
    if makes is not None:
        return mix_for_yield(mix, makes)
    return replace(mix, water=water_wanted(cement, parts))


def _part(additive: Additive, sack: float) -> Part:
    material = find_material(additive.material)
    if additive.per_sack is not None:
        return Part(material, BY_SACK, for_the_sack(additive.per_sack, sack))
    share = additive.share.value if additive.share else 0.0
    return Part(material, _BASES[additive.of], share)


def _by_mass(typed: Measure | None, sack: float) -> float | None:
    return None if typed is None else for_the_sack(typed, sack)


def _additives(made: Slurry) -> tuple[tuple[str, float], ...]:
    """Return the masses for a sack of what is neither cement nor water."""
    return tuple((share.name, share.mass * made.sack) for share in made.shares[2:])


def _as_typed(fluid: Fluid) -> Recipe:
    """Return a slurry of which only its figures are known, as a laboratory gives them."""
    sack = fluid.sack.value if fluid.sack else STANDARD_SACK
    lacking = [
        name
        for name, measure in (
            ("density", fluid.density),
            ("yield", fluid.slurry_yield),
            ("mix water", fluid.mix_water),
        )
        if measure is None
    ]
    if lacking:
        raise Missing(
            f"The {fluid.name} has no cement to work it out from, and no {' and no '.join(lacking)}"
            " in the job set-up; type the cement, or density, yield and mix water."
        )
    density = fluid.density.value if fluid.density else 0.0
    makes, water = (_by_mass(each, sack) or 0.0 for each in (fluid.slurry_yield, fluid.mix_water))
    doubt = unbalanced(Printed(density, makes, water))
    said = (f"{fluid.name}: {doubt}",) if doubt else ()
    return Recipe(density, makes * sack, water * sack, water * sack, sack, (), said)


def density_of(setup: Setup, fluid: Fluid) -> float:
    """Return the density of a fluid: as typed, of a slurry else by its recipe, [kg/m^3]."""
    if fluid.density is not None:
        return fluid.density.value
    if fluid.kind == "slurry":
        return recipe(setup, fluid).density
    raise Missing(f"Density of the {fluid.name} is not in the job set-up.")
