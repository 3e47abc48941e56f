"""Density, yield and water of a slurry held against one another: any two give the third."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tally.errors import DomainError
from tally.fluids.material import FRESH_WATER
from tally.fluids.slurry import MOST_WATER, Mix, Part, beside_cement, slurry
from tally.formula import Term, formula, require_range
from tally.units import from_unit

SACK = Term("sack", "mass of cement in a sack", "mass", "lb", "94 lb")
YIELD = Term("yield", "slurry that a sack makes", "volume per sack", "ft3")
WATER = Term("water", "fresh water for a sack", "volume per sack", "gal")
ADDITIVES = Term("additives", "mass of all additives for a sack", "mass", "lb", "0 lb")
WATER_DENSITY = Term("water-density", "density of the mix water", "density", "lb/gal",
                     "8.33 lb/gal")  # fmt: skip
SLURRY_DENSITY = Term("density", "density of the slurry", "density", "lb/gal")

BALANCE_SOURCE = (
    "density x yield = sack + additives + water x its density; Lapeyrouse, Formulas and "
    "Calculations for Drilling, Production and Workover, cement additive calculations (web copy, "
    "netwasgroup.us)"
)
BALANCE_RANGE = (
    "density 900 to 3,500 kg/m3; yield and water by mass of cement to 8 and 5 m3/t; sack 0.1 to "
    "2,000 kg; additives 0 to 3 x the sack; water 950 to 1,300 kg/m3"
)


@dataclass(frozen=True, slots=True)
class Tolerances:
    """How far printed figures may lie apart and still agree, for rounding, [SI, by mass]."""

    density: float = from_unit(0.05, "lb/gal")
    yield_: float = from_unit(0.01, "ft3/sk")
    water: float = from_unit(0.05, "gal/sk")


TOLERANCES = Tolerances()
ONE_MORE = "Two of density, yield and water give the third; type one more."


@dataclass(frozen=True, slots=True)
class Printed:
    """Figures of a slurry as somebody gives them, None where not given; volumes by mass of cement.

    Density [kg/m^3]; yield and water [m^3/kg]; what one kilogram of cement brings along [kg/kg].
    """

    density: float | None = None
    yield_: float | None = None
    water: float | None = None
    additives: float = 0.0


@dataclass(frozen=True, slots=True)
class Whole:
    """Density, yield and water of a slurry, and the mass of its additives, as `Printed`."""

    density: float
    yield_: float
    water: float
    additives: float = 0.0


@dataclass(frozen=True, slots=True)
class Difference:
    """A figure of a slurry that is not what it should be; by mass of cement, as `Printed`."""

    what: str
    """"density", "yield" or "water"."""
    given: float
    makes: float
    """What it comes to by the others, or by the recipe."""


def unbalanced(
    printed: Printed, water_density: float = FRESH_WATER, tolerances: Tolerances = TOLERANCES
) -> Difference | None:
    """Return how density, yield and water, all three given, disagree by mass; else nothing.

    No absolute volume is wanted for it, only the mass of the additives. The tolerance is that of
    the density and what the tolerances of yield and water make of it.

    >>> found = unbalanced(Printed(1890.0, 1.18e-3, 0.44e-3), 1000.0)
    >>> found.what, found.given, round(found.makes, 1)
    ('density', 1890.0, 1220.3)
    """
    density, yield_, water = printed.density, printed.yield_, printed.water
    if density is None or yield_ is None or water is None:
        return None
    implied = _mass(1.0, printed.additives, water, water_density) / yield_
    slack = tolerances.density + (
        implied * tolerances.yield_ + water_density * tolerances.water
    ) / yield_  # fmt: skip
    return Difference("density", density, implied) if abs(implied - density) > slack else None


def with_third(
    printed: Printed,
    parts: Sequence[Part] = (),
    sack: float = 1.0,
    water_density: float = FRESH_WATER,
) -> Whole:
    """Return the figures with the third by mass where two are given, and the additives' mass.

    Parameters
    ----------
    printed : Printed
        Density, yield and water, two or three of them
    parts : sequence of Part
        The additives, which have mass too
    sack : float
        Mass of a sack, in which a fault is told, [kg]
    water_density : float
        Density of the mix water, [kg/m^3]

    Returns
    -------
    whole : Whole
        All three, and the mass of the additives for a kilogram of cement

    Raises
    ------
    DomainError
        If fewer than two are given, a number is out of range, or the water would be below zero.

    Notes
    -----
    density x yield = 1 + additives + water x its density, for a kilogram of cement. What is dosed
    on the water grows with it, so it is counted as if the water were so much heavier.

    Examples
    --------
    >>> found = with_third(Printed(density=2000.0, yield_=0.72e-3), water_density=1000.0)
    >>> round(found.water * 1000, 4)
    0.44
    """
    density, yield_, water = printed.density, printed.yield_, printed.water
    if water is None and density is not None and yield_ is not None:
        dry = _additives(parts, 0.0, water_density)
        on_water = _additives(parts, 1 / water_density, water_density) - dry
        fresh = water_by_mass(density, yield_ * sack, sack, dry * sack, water_density)[0]
        water = fresh / sack / (1 + on_water)
    elif water is None:
        raise DomainError(ONE_MORE)
    additives = _additives(parts, water, water_density)
    if yield_ is None and density is not None:
        makes = yield_by_mass(density, water * sack, sack, additives * sack, water_density)[0]
        yield_ = makes / sack
    elif yield_ is not None and density is None:
        by_sack = (yield_ * sack, water * sack, sack, additives * sack)
        density = density_by_mass(*by_sack, water_density)[0]
    elif yield_ is None or density is None:
        raise DomainError(ONE_MORE)
    return Whole(density, yield_, water, additives)


def _additives(parts: Sequence[Part], water: float, water_density: float) -> float:
    return sum(each.mass for each in beside_cement(parts, water, water_density)[1:])


def differences(
    mix: Mix, printed: Printed | Whole, tolerances: Tolerances = TOLERANCES
) -> list[Difference]:
    """Return each printed figure that the recipe does not come to.

    >>> from tally.fluids.materials import find_material
    >>> mix = Mix(find_material("Portland cement"), 0.5e-3, water_density=1000.0)
    >>> [(each.what, round(each.makes)) for each in differences(mix, Printed(density=1920.0))]
    [('density', 1834)]
    """
    made = slurry(mix)
    pairs = (
        ("density", printed.density, made.density, tolerances.density),
        ("yield", printed.yield_, made.yield_, tolerances.yield_),
        ("water", printed.water, made.water, tolerances.water),
    )
    return [
        Difference(what, given, got)
        for what, given, got, width in pairs
        if given is not None and abs(given - got) > width
    ]


@formula(
    "slurry-density-by-mass",
    "Density of a slurry from its yield and water, by mass alone",
    inputs=[YIELD, WATER, SACK, ADDITIVES, WATER_DENSITY],
    outputs=[SLURRY_DENSITY, Term("mass", "mass of slurry that a sack makes", "mass", "lb")],
    source=BALANCE_SOURCE,
    range=BALANCE_RANGE,
)
def density_by_mass(
    yield_by_sack: float, water_by_sack: float, sack: float, additives: float, water_density: float
) -> tuple[float, float]:
    """Return the density that yield and water of a sack imply, and the mass that a sack makes.

    Parameters
    ----------
    yield_by_sack : float
        Volume of slurry that a sack makes, [m^3]
    water_by_sack : float
        Fresh water for a sack, [m^3]
    sack : float
        Mass of cement in a sack, [kg]
    additives : float
        Mass of all additives for a sack, [kg]
    water_density : float
        Density of the mix water, [kg/m^3]

    Returns
    -------
    density : float
        Density of the slurry, [kg/m^3]
    mass : float
        Mass of slurry that a sack makes, [kg]

    Raises
    ------
    DomainError
        If a number is out of range, or the density comes out as none of a slurry.

    Examples
    --------
    >>> [round(value, 1) for value in density_by_mass(0.036, 0.022, 50.0, 0.0, 1000.0)]
    [2000.0, 72.0]
    """
    _require_sack(sack, additives, water_density)
    _require_by_sack("Yield", yield_by_sack, sack, 1e-4, 8e-3)
    _require_by_sack("Water", water_by_sack, sack, 0.0, MOST_WATER)
    mass = _mass(sack, additives, water_by_sack, water_density)
    require_range("Density of the slurry", mass / yield_by_sack, 900.0, 3500.0, "kg/m3")
    return mass / yield_by_sack, mass


@formula(
    "slurry-yield-by-mass",
    "Yield of a slurry from its density and water, by mass alone",
    inputs=[SLURRY_DENSITY, WATER, SACK, ADDITIVES, WATER_DENSITY],
    outputs=[YIELD, Term("mass", "mass of slurry that a sack makes", "mass", "lb")],
    source=BALANCE_SOURCE,
    range=BALANCE_RANGE,
)
def yield_by_mass(
    density: float, water_by_sack: float, sack: float, additives: float, water_density: float
) -> tuple[float, float]:
    """Return the yield that density and water of a sack imply, and the mass that a sack makes.

    Parameters
    ----------
    density : float
        Density of the slurry, [kg/m^3]
    water_by_sack : float
        Fresh water for a sack, [m^3]
    sack : float
        Mass of cement in a sack, [kg]
    additives : float
        Mass of all additives for a sack, [kg]
    water_density : float
        Density of the mix water, [kg/m^3]

    Returns
    -------
    yield_by_sack : float
        Volume of slurry that a sack makes, [m^3]
    mass : float
        Mass of slurry that a sack makes, [kg]

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> [round(value, 4) for value in yield_by_mass(2000.0, 0.022, 50.0, 0.0, 1000.0)]
    [0.036, 72.0]
    """
    _require_sack(sack, additives, water_density)
    require_range("Density of the slurry", density, 900.0, 3500.0, "kg/m3")
    _require_by_sack("Water", water_by_sack, sack, 0.0, MOST_WATER)
    mass = _mass(sack, additives, water_by_sack, water_density)
    return mass / density, mass


@formula(
    "slurry-water-by-mass",
    "Water of a slurry from its density and yield, by mass alone",
    inputs=[SLURRY_DENSITY, YIELD, SACK, ADDITIVES, WATER_DENSITY],
    outputs=[WATER, Term("mass", "mass of slurry that a sack makes", "mass", "lb")],
    source=BALANCE_SOURCE,
    range=BALANCE_RANGE,
)
def water_by_mass(
    density: float, yield_by_sack: float, sack: float, additives: float, water_density: float
) -> tuple[float, float]:
    """Return the water that density and yield of a sack imply, and the mass that a sack makes.

    Parameters
    ----------
    density : float
        Density of the slurry, [kg/m^3]
    yield_by_sack : float
        Volume of slurry that a sack makes, [m^3]
    sack : float
        Mass of cement in a sack, [kg]
    additives : float
        Mass of all additives for a sack, [kg]
    water_density : float
        Density of the mix water, [kg/m^3]

    Returns
    -------
    water_by_sack : float
        Fresh water for a sack, [m^3]
    mass : float
        Mass of slurry that a sack makes, [kg]

    Raises
    ------
    DomainError
        If a number is out of range, or the water would be below zero.

    Examples
    --------
    >>> [round(value, 4) for value in water_by_mass(2000.0, 0.036, 50.0, 0.0, 1000.0)]
    [0.022, 72.0]
    """
    _require_sack(sack, additives, water_density)
    require_range("Density of the slurry", density, 900.0, 3500.0, "kg/m3")
    _require_by_sack("Yield", yield_by_sack, sack, 1e-4, 8e-3)
    mass = density * yield_by_sack
    if mass < sack + additives:
        raise DomainError(
            f"A sack would make {mass:,.6g} kg of slurry, less than its own cement and additives, "
            f"{sack + additives:,.6g} kg: the water would be below zero. Check the three."
        )
    return (mass - sack - additives) / water_density, mass


def _mass(sack: float, additives: float, water: float, water_density: float) -> float:
    """Return what a sack, its additives and its water weigh together, [kg]."""
    return sack + additives + water * water_density


def _require_sack(sack: float, additives: float, water_density: float) -> None:
    require_range("Sack", sack, 0.1, 2000.0, "kg")
    require_range("Additives for a sack", additives, 0.0, 3 * sack, "kg")
    require_range("Density of the water", water_density, 950.0, 1300.0, "kg/m3")


def _require_by_sack(name: str, volume: float, sack: float, low: float, high: float) -> None:
    require_range(f"{name} for a sack of {sack:.6g} kg", volume, low * sack, high * sack, "m3")
