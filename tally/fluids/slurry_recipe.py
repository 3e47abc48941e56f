"""The slurry on paper: cement, one solid, one liquid, salt and water, by the sack."""

from __future__ import annotations

from tally.errors import DomainError
from tally.fluids.material import Material
from tally.fluids.materials import find_material
from tally.fluids.slurry import (
    BY_SACK,
    MOST_WATER,
    OF_CEMENT,
    OF_WATER,
    Mix,
    Part,
    Slurry,
    mix_for_density,
    slurry,
)
from tally.fluids.slurry_check import SACK, SLURRY_DENSITY, WATER, WATER_DENSITY, YIELD
from tally.formula import Term, formula, require_range

CEMENT = Term("cement", "absolute density of the cement", "density", "lb/gal", "26.156 lb/gal")
SOLIDS = [
    Term("solid", "dry solids by weight of cement", "ratio", "%", "0 %"),
    Term("solid-density", "absolute density of the solids", "density", "lb/gal", "22.075 lb/gal"),
    Term("liquid", "liquid additives for a sack", "volume per sack", "gal", "0 gal"),
    Term("liquid-density", "density of the liquid additives", "density", "lb/gal", "8.33 lb/gal"),
    Term("salt", "sodium chloride by weight of water, dissolved", "ratio", "%", "0 %"),
]
MADE = [
    YIELD,
    Term("mix-fluid", "water, liquids and dissolved salt for a sack", "volume per sack", "gal"),
    Term("mass", "mass of slurry that a sack makes", "mass", "lb"),
    Term("yield-by-mass", "slurry by mass of cement", "slurry yield", "m3/t"),
]
SOURCE = (
    "sum of masses / sum of absolute volumes; Lapeyrouse, Formulas and Calculations for Drilling, "
    "Production and Workover, cement additive calculations (web copy, netwasgroup.us); dissolved "
    "salt by the table of a cementing handbook, section 5"
)
RANGE = (
    "water to 5 m3/t; sack 0.1 to 2,000 kg; absolute densities 100 to 10,000 kg/m3; solids 0 to "
    "300 %; liquids 0 to 2 m3/t; salt 0 to 37 %; water 950 to 1,300 kg/m3"
)


@formula(
    "slurry",
    "Density and yield of a slurry from its water",
    inputs=[WATER, SACK, CEMENT, *SOLIDS, WATER_DENSITY],
    outputs=[SLURRY_DENSITY, *MADE],
    source=SOURCE,
    range=RANGE,
)
def slurry_from_water(
    water_by_sack: float,
    sack: float,
    cement: float,
    solid: float,
    solid_density: float,
    liquid: float,
    liquid_density: float,
    salt: float,
    water_density: float,
) -> tuple[float, float, float, float, float]:
    """Return density, yield, mix fluid and mass of a slurry for a sack, and its yield by mass.

    Parameters
    ----------
    water_by_sack : float
        Fresh water for a sack, [m^3]
    sack : float
        Mass of cement in a sack, [kg]
    cement : float
        Absolute density of the cement, [kg/m^3]
    solid : float
        Dry solids as a share of the cement's mass, [-]
    solid_density : float
        Their absolute density, [kg/m^3]
    liquid : float
        Liquid additives for a sack, [m^3]
    liquid_density : float
        Their density, [kg/m^3]
    salt : float
        Sodium chloride as a share of the water's mass, [-]
    water_density : float
        Density of the mix water, [kg/m^3]

    Returns
    -------
    density : float
        Density of the slurry, [kg/m^3]
    yield_by_sack : float
        Volume of slurry that a sack makes, [m^3]
    mix_fluid : float
        Water, liquids and dissolved salt for a sack, [m^3]
    mass : float
        Mass of slurry that a sack makes, [kg]
    yield_by_mass : float
        Volume of slurry by mass of cement, [m^3/kg]

    Raises
    ------
    DomainError
        If a number is out of range, more salt is given than dissolves, or the slurry comes out
        lighter than its water.

    Notes
    -----
    The densities assumed are specific gravities of 3.14 (cement) and 2.65 (bentonite) times 8.33
    lb/gal. Several solids or several liquids go in as one, with their mean density: their mass
    by their volume.

    Examples
    --------
    >>> made = slurry_from_water(0.022, 50.0, 3140.0, 0.0, 2650.0, 0.0, 1000.0, 0.0, 1000.0)
    >>> round(made[0], 1), round(made[1], 5)
    (1898.6, 0.03792)
    """
    mix = _mix(sack, cement, solid, solid_density, liquid, liquid_density, salt, water_density)
    water = _water(water_by_sack, sack)
    made = slurry(Mix(mix.cement, water, mix.parts, sack, water_density))
    return (made.density, *_for_the_sack(made))


@formula(
    "slurry-water",
    "Water and yield of a slurry from its density",
    inputs=[SLURRY_DENSITY, SACK, CEMENT, *SOLIDS, WATER_DENSITY],
    outputs=[WATER, *MADE],
    source=SOURCE,
    range=f"density to 3,500 kg/m3; {RANGE}",
)
def slurry_from_density(
    density: float,
    sack: float,
    cement: float,
    solid: float,
    solid_density: float,
    liquid: float,
    liquid_density: float,
    salt: float,
    water_density: float,
) -> tuple[float, float, float, float, float]:
    """Return water, yield, mix fluid and mass of a slurry for a sack, and its yield by mass.

    Parameters
    ----------
    density : float
        Density of the slurry, [kg/m^3]
    sack : float
        Mass of cement in a sack, [kg]
    cement : float
        Absolute density of the cement, [kg/m^3]
    solid : float
        Dry solids as a share of the cement's mass, [-]
    solid_density : float
        Their absolute density, [kg/m^3]
    liquid : float
        Liquid additives for a sack, [m^3]
    liquid_density : float
        Their density, [kg/m^3]
    salt : float
        Sodium chloride as a share of the water's mass, [-]
    water_density : float
        Density of the mix water, [kg/m^3]

    Returns
    -------
    water_by_sack : float
        Fresh water for a sack, [m^3]
    yield_by_sack : float
        Volume of slurry that a sack makes, [m^3]
    mix_fluid : float
        Water, liquids and dissolved salt for a sack, [m^3]
    mass : float
        Mass of slurry that a sack makes, [kg]
    yield_by_mass : float
        Volume of slurry by mass of cement, [m^3/kg]

    Raises
    ------
    DomainError
        If a number is out of range, or no water brings the slurry to the density.

    Examples
    --------
    >>> made = slurry_from_density(1900.0, 50.0, 3140.0, 0.0, 2650.0, 0.0, 1000.0, 0.0, 1000.0)
    >>> round(made[0], 5), round(made[1], 5)
    (0.02194, 0.03786)
    """
    mix = _mix(sack, cement, solid, solid_density, liquid, liquid_density, salt, water_density)
    made = slurry(mix_for_density(mix, density))
    return (made.water_by_sack, *_for_the_sack(made))


@formula(
    "weighting-for-density",
    "Weighting material that brings a slurry to a density",
    inputs=[
        SLURRY_DENSITY,
        Term("water", "fresh water for a sack, before the weighting material's own",
             "volume per sack", "gal"),
        Term("solid-density", "absolute density of the weighting material", "density", "lb/gal"),
        Term("solid-water", "water that the weighting material asks for", "specific volume",
             "gal/lb", "0 gal/lb"),
        SACK,
        CEMENT,
        WATER_DENSITY,
    ],
    outputs=[
        Term("weighting", "weighting material for a sack", "mass", "lb"),
        Term("share", "weighting material by weight of cement", "ratio", "%"),
        Term("water-in-all", "fresh water for a sack with it", "volume per sack", "gal"),
    ],
    source="masses and absolute volumes balanced; Lapeyrouse, Formulas and Calculations for "
    "Drilling, Production and Workover, weighted cement calculations (web copy, docs.kws.tn)",
    range=f"density to 3,500 kg/m3; water of the weighting material 0 to 0.01 m3/kg; {RANGE}",
)  # fmt: skip
def weighting_for_density(
    density: float,
    water_by_sack: float,
    solid_density: float,
    solid_water: float,
    sack: float,
    cement: float,
    water_density: float,
) -> tuple[float, float, float]:
    """Return the weighting material for a sack, its share of the cement, and all the water then.

    Parameters
    ----------
    density : float
        Density wanted, [kg/m^3]
    water_by_sack : float
        Fresh water for a sack without the weighting material, [m^3]
    solid_density : float
        Absolute density of the weighting material, [kg/m^3]
    solid_water : float
        Water that it asks for, by its mass, [m^3/kg]
    sack : float
        Mass of cement in a sack, [kg]
    cement : float
        Absolute density of the cement, [kg/m^3]
    water_density : float
        Density of the mix water, [kg/m^3]

    Returns
    -------
    weighting : float
        Weighting material for a sack, [kg]
    share : float
        The same as a share of the cement's mass, [-]
    water_in_all : float
        Fresh water for a sack, that of the weighting material in it, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range, the slurry is as heavy without it, or it cannot get so heavy.

    Examples
    --------
    >>> made = weighting_for_density(2100.0, 0.0163, 5020.0, 3e-5, 42.64, 3140.0, 1000.0)
    >>> [round(value, 4) for value in made]
    [6.9389, 0.1627, 0.0165]
    """
    base = slurry(Mix(_cement(cement), _water(water_by_sack, sack), (), sack, water_density))
    require_range("Density", density, 0.0, 3500.0, "kg/m3")
    require_range("Density of the weighting material", solid_density, 100.0, 10_000.0, "kg/m3")
    require_range("Water of the weighting material", solid_water, 0.0, 0.01, "m3/kg")
    gain = 1 + solid_water * (water_density - density) - density / solid_density
    short = density * base.yield_ - base.mass
    share = short / gain if gain > 0 else -1.0
    if share < 0:
        raise DomainError(
            f"No weighting material brings a slurry of {base.density:,.6g} kg/m3 to "
            f"{density:,.6g} kg/m3; check the density wanted and that of the material."
        )
    require_range("Weighting material by weight of cement", share, 0.0, 3.0, "")
    return share * sack, share, (base.water + share * solid_water) * sack


def _mix(
    sack: float, cement: float, solid: float, solid_density: float, liquid: float,
    liquid_density: float, salt: float, water_density: float,
) -> Mix:  # fmt: skip
    require_range("Sack", sack, 0.1, 2000.0, "kg")
    parts = (
        Part(_material("solids", "solid", solid_density), OF_CEMENT, solid),
        Part(_material("liquid additives", "liquid", liquid_density), BY_SACK, liquid / sack),
        Part(find_material("sodium chloride"), OF_WATER, salt),
    )
    return Mix(_cement(cement), 0.0, parts, sack, water_density)


def _water(water_by_sack: float, sack: float) -> float:
    require_range("Sack", sack, 0.1, 2000.0, "kg")
    require_range("Water for a sack", water_by_sack, 0.0, MOST_WATER * sack, "m3")
    return water_by_sack / sack


def _cement(density: float) -> Material:
    return _material("cement", "cement", density)


def _material(name: str, kind: str, density: float) -> Material:
    require_range(f"Density of the {name}", density, 100.0, 10_000.0, "kg/m3")
    return Material(name, kind, 1 / density, "measured", "typed")


def _for_the_sack(made: Slurry) -> tuple[float, float, float, float]:
    return made.yield_by_sack, made.mix_fluid_by_sack, made.mass * made.sack, made.yield_
