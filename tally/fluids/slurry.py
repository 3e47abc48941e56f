"""Slurry by absolute volume: what a recipe comes to, and the water that brings it to a density.

Everything is reckoned for one kilogram of cement. The volumes of the cement, the solids, the
liquids, the dissolved salts and the water add up, and so do their masses; no air is in it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import inf

from tally.errors import DomainError
from tally.fluids.material import FRESH_WATER, Material
from tally.fluids.root import bracketed_root
from tally.formula import require_range
from tally.units import Measure, from_unit

STANDARD_SACK = from_unit(94, "lb")
"""[kg]; a sack of API cement, what a volume "by sack" is for where nothing else is said."""

MOST_WATER = 5e-3
"""[m3/kg]; five times the cement's own mass, several times the thinnest slurry in use."""

OF_CEMENT, OF_WATER, BY_SACK = "cement", "water", "sack"
_MOST = {OF_CEMENT: 3.0, OF_WATER: 1.0, BY_SACK: 2e-3}
_UNIT = {OF_CEMENT: "of the cement's mass", OF_WATER: "of the water's mass", BY_SACK: "m3/kg"}


@dataclass(frozen=True, slots=True)
class Part:
    """An additive: by mass of cement or of water [-], or by sack [m^3/kg of cement]."""

    material: Material
    of: str
    amount: float

    def __post_init__(self) -> None:
        require_range(f"The {self.material.name}", self.amount, 0.0, _MOST[self.of], _UNIT[self.of])
        if self.of == BY_SACK and self.material.dissolved:
            raise DomainError(
                f"The {self.material.name} dissolves, so it is dosed by mass; give its share of "
                "the cement or of the water."
            )


@dataclass(frozen=True, slots=True)
class Mix:
    """A recipe: `water` is fresh water by mass of cement, [m^3/kg]; `sack` is a mass, [kg]."""

    cement: Material
    water: float
    parts: tuple[Part, ...] = ()
    sack: float = STANDARD_SACK
    water_density: float = FRESH_WATER

    def __post_init__(self) -> None:
        require_range("Water", self.water, 0.0, MOST_WATER, "m3 for each kg of cement")
        require_range("Density of the water", self.water_density, 950.0, 1300.0, "kg/m3")
        require_range("Sack", self.sack, 0.1, 2000.0, "kg")


@dataclass(frozen=True, slots=True)
class Share:
    """What one material brings to a kilogram of cement: mass [kg/kg] and volume [m^3/kg]."""

    name: str
    mass: float
    volume: float
    in_fluid: bool
    """Whether it is in the mix fluid, so that the tank must hold it."""


@dataclass(frozen=True, slots=True)
class Slurry:
    """What a recipe comes to, for each kilogram of cement where not said otherwise."""

    density: float
    """[kg/m^3]"""
    yield_: float
    """Volume of slurry, [m^3/kg]."""
    water: float
    """Fresh water, [m^3/kg]."""
    mix_fluid: float
    """Water with what is in it before the cement: liquids, salts, what is dosed on it, [m^3/kg]."""
    mass: float
    """Mass of slurry, [kg/kg]."""
    sack: float
    """Mass of a sack of the cement, [kg]."""
    shares: tuple[Share, ...]
    """The cement, the water and every additive, in this order."""

    @property
    def yield_by_sack(self) -> float:
        """Volume of slurry that a sack makes, [m^3]."""
        return self.yield_ * self.sack

    @property
    def water_by_sack(self) -> float:
        """Fresh water for a sack, [m^3]."""
        return self.water * self.sack

    @property
    def mix_fluid_by_sack(self) -> float:
        """Mix fluid for a sack, [m^3]; the tanks need this, not the water."""
        return self.mix_fluid * self.sack


def slurry(mix: Mix) -> Slurry:
    """Return what a recipe comes to.

    Parameters
    ----------
    mix : Mix
        Cement, water, additives; all by mass of cement

    Returns
    -------
    slurry : Slurry
        Density [kg/m^3], yield, water and mix fluid [m^3/kg of cement], and each share

    Raises
    ------
    DomainError
        If there is no water, more of a salt than dissolves, or the slurry comes out lighter than
        its water.

    Notes
    -----
    Density is the sum of the masses by the sum of the absolute volumes [1]_. A dissolved salt
    adds the volume that the table of its strength gives, which is less than that of the dry salt.

    Examples
    --------
    >>> from tally.fluids.materials import find_material
    >>> from tally.units import from_unit, to_unit
    >>> neat = slurry(Mix(find_material("class G"), from_unit(5.0, "gal/sk")))
    >>> round(to_unit(neat.density, "lb/gal"), 1), round(to_unit(neat.yield_, "ft3/sk"), 2)
    (15.8, 1.15)

    References
    ----------
    .. [1] Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, cement
       additive calculations (web copy, netwasgroup.us).
    """
    if mix.water <= 0:
        raise DomainError("The slurry has no water; give its mix water.")
    _refuse_undissolved(mix)
    made = _made(mix)
    if made.density <= mix.water_density:
        raise DomainError(_too_light(made.density, mix.water_density))
    return made


def mix_for_density(mix: Mix, density: float) -> Mix:
    """Return the recipe with the water that brings the slurry to a density [kg/m^3].

    Raises DomainError where no water does: lighter than the water, or heavier than the solids.
    """
    require_range("Density", density, 0.0, 3500.0, "kg/m3")
    if density <= mix.water_density:
        raise DomainError(_too_light(density, mix.water_density))
    dry, thin = (_made(replace(mix, water=water)).density for water in (0.0, MOST_WATER))
    if density >= dry:
        raise DomainError(
            f"A slurry of {density:,.6g} kg/m3 cannot be mixed: without any water the cement and "
            f"its solids come to {dry:,.6g} kg/m3. Check the density, or add weighting material."
        )
    if density <= thin:
        raise DomainError(
            f"A slurry of {density:,.6g} kg/m3 would want more than {MOST_WATER * 1e3:g} m3 of "
            f"water for each tonne of cement ({thin:,.6g} kg/m3 even so). Check the density."
        )
    return _with_water(mix, lambda made: made.density - density)


def mix_for_yield(mix: Mix, yield_: float) -> Mix:
    """Return the recipe with the water that brings the slurry to a yield [m^3/kg of cement].

    Raises DomainError where the solids alone take more room, or it wants too much water.
    """
    dry, thin = (_made(replace(mix, water=water)).yield_ for water in (0.0, MOST_WATER))
    require_range("Yield", yield_, dry, thin, "m3 for each kg of cement (solids alone to thinnest)")
    return _with_water(mix, lambda made: made.yield_ - yield_)


def water_wanted(cement: Material, parts: Sequence[Part] = ()) -> float:
    """Return the water that the materials ask for by the list, [m^3/kg of cement].

    Raises DomainError where the list has none for the cement; an additive without any counts 0.
    """
    if cement.water is None:
        raise DomainError(
            f"No water requirement of {cement.name} is known; type the mix water or the density."
        )
    solids = (part for part in parts if part.of == OF_CEMENT)
    return cement.water + sum((part.material.water or 0.0) * part.amount for part in solids)


def for_the_sack(typed: Measure, sack: float) -> float:
    """Return a volume typed by sack as one by mass of cement [m^3/kg], for a sack of that mass.

    "ft3/sk" is read for 94 lb; where the job's sack weighs otherwise it means that sack. What was
    typed by mass ("m3/t") stays as it is.

    >>> from tally.units import read
    >>> round(for_the_sack(read("1.18 ft3/sk", "slurry yield"), 50.0) * 1000, 4)
    0.6683
    """
    return typed.value * STANDARD_SACK / sack if typed.text.endswith("/sk") else typed.value


def _with_water(mix: Mix, over: Callable[[Slurry], float]) -> Mix:
    water = bracketed_root(lambda water: over(_made(replace(mix, water=water))), 0.0, MOST_WATER)
    found = replace(mix, water=water)
    slurry(found)
    return found


def _made(mix: Mix) -> Slurry:
    """Return what the recipe comes to, whether it can be mixed or not."""
    shares = (
        Share(mix.cement.name, 1.0, mix.cement.absolute_volume, in_fluid=False),
        *beside_cement(mix.parts, mix.water, mix.water_density),
    )
    mass, volume = (sum(s.mass for s in shares), sum(s.volume for s in shares))
    fluid = sum(s.volume for s in shares if s.in_fluid)
    return Slurry(mass / volume, volume, mix.water, fluid, mass, mix.sack, shares)


def beside_cement(
    parts: Sequence[Part], water: float, water_density: float = FRESH_WATER
) -> tuple[Share, ...]:
    """Return what the water [m^3/kg] and each additive bring to a kilogram of cement."""
    water_mass = water * water_density
    fresh = Share("water", water_mass, water, in_fluid=True)
    return (fresh, *(_share(part, water_mass) for part in parts))


def _share(part: Part, water_mass: float) -> Share:
    material = part.material
    mass = _mass(part, water_mass)
    volume = mass * material.volume_by_mass(_strength(mass, water_mass))
    in_fluid = material.kind in ("liquid", "salt", "water") or part.of == OF_WATER
    return Share(material.name, mass, volume, in_fluid)


def _mass(part: Part, water_mass: float) -> float:
    if part.of == BY_SACK:
        return part.amount * part.material.density
    return part.amount * (water_mass if part.of == OF_WATER else 1.0)


def _strength(mass: float, water_mass: float) -> float:
    if water_mass <= 0:
        return inf if mass else 0.0
    return mass / water_mass


def _refuse_undissolved(mix: Mix) -> None:
    water_mass = mix.water * mix.water_density
    for part in mix.parts:
        strength, most = _strength(_mass(part, water_mass), water_mass), part.material.strongest
        if most and strength > most * (1 + 1e-9):
            raise DomainError(
                f"{part.material.name.capitalize()} of {strength:.1%} of the water's mass is more "
                f"than the {most:.0%} that its table goes to, about all that dissolves; check it."
            )


def _too_light(density: float, water_density: float) -> str:
    return (
        f"A slurry of {density:,.6g} kg/m3 would be lighter than its water, "
        f"{water_density:,.6g} kg/m3; check the density and the additives."
    )
