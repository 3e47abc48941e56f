"""Sacks, mix fluid and additives for a volume of slurry, and back."""

from __future__ import annotations

from math import ceil

from tally.fluids.slurry_check import SACK, WATER, WATER_DENSITY, YIELD
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import VOLUME

SACKS = Term("sacks", "sacks of cement", "number", "")
SHARE = Term("share", "share by weight", "ratio", "%")
MASS = Term("mass", "mass of the additive", "mass", "lb")
SACKS_RANGE = "sacks 0 to 1,000,000"
YIELD_RANGE = "yield of a sack 0.00001 to 16 m3"
COUNT_SOURCE = (
    "volume of slurry / yield of a sack; Lapeyrouse, Formulas and Calculations for "
    "Drilling, Production and Workover, number of sacks of cement required"
)
RECIPE_SOURCE = (
    "share x mass of cement or water x sacks; Lapeyrouse, Formulas and Calculations "
    "for Drilling, Production and Workover, water requirements (web copy, netwasgroup.us)"
)


@formula(
    "sacks-for-volume",
    "Sacks of cement for a volume of slurry",
    inputs=[VOLUME, YIELD],
    outputs=[
        Term("sacks", "sacks of cement, not rounded", "number", ""),
        Term("whole", "sacks of cement, the part of a sack taken as a whole one", "count", ""),
    ],
    source=COUNT_SOURCE,
    range=f"volume 0 to 10,000 m3; {YIELD_RANGE}",
)
def sacks_for_volume(volume: float, yield_by_sack: float) -> tuple[float, float]:
    """Return the sacks of cement for a volume of slurry, as reckoned and as whole sacks.

    Parameters
    ----------
    volume : float
        Volume of slurry, [m^3]
    yield_by_sack : float
        Volume of slurry that a sack makes, [m^3]

    Returns
    -------
    sacks : float
        Sacks, not rounded, [-]
    whole : float
        Sacks, rounded up, [-]

    Raises
    ------
    DomainError
        If the volume is not from 0 to 10,000 m^3 or the yield not from 0.00001 to 16 m^3.

    Notes
    -----
    A sack is whatever the yield is for: 94 lb, 110 lb, 50 kg or a tonne.

    Examples
    --------
    >>> [round(value, 1) for value in sacks_for_volume(16.0, 0.0355)]
    [450.7, 451]
    """
    require_range("Volume", volume, 0.0, 10_000.0, "m3")
    _require_yield(yield_by_sack)
    sacks = volume / yield_by_sack
    return sacks, ceil(sacks * (1 - 1e-12))


@formula(
    "volume-of-sacks",
    "Volume of slurry that a number of sacks makes",
    inputs=[SACKS, YIELD],
    outputs=[VOLUME],
    source=COUNT_SOURCE,
    range=f"{SACKS_RANGE}; {YIELD_RANGE}",
)
def volume_of_sacks(sacks: float, yield_by_sack: float) -> float:
    """Return the volume of slurry that a number of sacks makes.

    Parameters
    ----------
    sacks : float
        Sacks of cement, [-]
    yield_by_sack : float
        Volume of slurry that a sack makes, [m^3]

    Returns
    -------
    volume : float
        Volume of slurry, [m^3]

    Raises
    ------
    DomainError
        If the sacks are not from 0 to 1,000,000 or the yield not from 0.00001 to 16 m^3.

    Examples
    --------
    >>> round(volume_of_sacks(450.0, 0.0355), 3)
    15.975
    """
    _require_sacks(sacks)
    _require_yield(yield_by_sack)
    return sacks * yield_by_sack


@formula(
    "fluid-for-sacks",
    "Mix fluid, water or a liquid additive for a number of sacks",
    inputs=[
        SACKS,
        Term("by-sack", "volume for each sack; tanks need the mix fluid, not the water",
             "volume per sack", "gal"),
    ],
    outputs=[VOLUME],
    source="sacks x volume for each sack",
    range=f"{SACKS_RANGE}; volume for a sack 0 to 10 m3",
)  # fmt: skip
def fluid_for_sacks(sacks: float, volume_by_sack: float) -> float:
    """Return the volume of mix fluid, water or a liquid additive for a number of sacks.

    Parameters
    ----------
    sacks : float
        Sacks of cement, [-]
    volume_by_sack : float
        Volume of it for each sack, [m^3]

    Returns
    -------
    volume : float
        Volume of it in all; dead volume of the tanks and reserve are not in it, [m^3]

    Raises
    ------
    DomainError
        If the sacks are not from 0 to 1,000,000 or the volume for a sack not from 0 to 10 m^3.

    Examples
    --------
    >>> round(fluid_for_sacks(450.0, 0.019), 2)
    8.55
    """
    _require_sacks(sacks)
    require_range("Volume for a sack", volume_by_sack, 0.0, 10.0, "m3")
    return sacks * volume_by_sack


@formula(
    "additive-by-cement-weight",
    "Mass of an additive by weight of cement",
    inputs=[SHARE, SACKS, SACK],
    outputs=[MASS],
    source=RECIPE_SOURCE,
    range=f"share 0 to 300 %; {SACKS_RANGE}; sack 0.1 to 2,000 kg",
)
def additive_by_cement_weight(share: float, sacks: float, sack: float) -> float:
    """Return the mass of an additive that is dosed by weight of cement.

    Parameters
    ----------
    share : float
        Share of the cement's mass, [-]
    sacks : float
        Sacks of cement, [-]
    sack : float
        Mass of cement in a sack, [kg]

    Returns
    -------
    mass : float
        Mass of the additive, [kg]

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> round(additive_by_cement_weight(0.08, 225.0, 50.0), 1)
    900.0
    """
    require_range("Share", share, 0.0, 3.0, "")
    _require_sacks(sacks)
    require_range("Sack", sack, 0.1, 2000.0, "kg")
    return share * sacks * sack


@formula(
    "additive-by-water-weight",
    "Mass of an additive by weight of water",
    inputs=[SHARE, SACKS, WATER, WATER_DENSITY],
    outputs=[MASS, Term("volume", "fresh water in all", "volume", "bbl")],
    source=RECIPE_SOURCE,
    range=f"share 0 to 100 %; {SACKS_RANGE}; water for a sack 0 to 10 m3, 950 to 1,300 kg/m3",
)
def additive_by_water_weight(
    share: float, sacks: float, water_by_sack: float, water_density: float
) -> tuple[float, float]:
    """Return the mass of an additive that is dosed by weight of water, and that water's volume.

    Parameters
    ----------
    share : float
        Share of the water's mass, [-]
    sacks : float
        Sacks of cement, [-]
    water_by_sack : float
        Fresh water for a sack, [m^3]
    water_density : float
        Density of the mix water, [kg/m^3]

    Returns
    -------
    mass : float
        Mass of the additive, [kg]
    volume : float
        Fresh water in all, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    Salt and prehydrated bentonite are dosed so.

    Examples
    --------
    >>> [round(value, 3) for value in additive_by_water_weight(0.015, 240.0, 0.0325, 1000.0)]
    [117.0, 7.8]
    """
    require_range("Share", share, 0.0, 1.0, "")
    require_range("Density of the water", water_density, 950.0, 1300.0, "kg/m3")
    water = fluid_for_sacks(sacks, water_by_sack)
    return share * water * water_density, water


@formula(
    "additive-by-slurry-volume",
    "Mass of an additive, such as fibre, by volume of slurry",
    inputs=[Term("dose", "mass by volume of slurry", "concentration", "lb/bbl"), VOLUME],
    outputs=[MASS],
    source="dose x volume of slurry",
    range="dose 0 to 3,000 kg/m3; volume 0 to 10,000 m3",
)
def additive_by_slurry_volume(dose: float, volume: float) -> float:
    """Return the mass of an additive that is dosed by volume of slurry.

    Parameters
    ----------
    dose : float
        Mass by volume of slurry, [kg/m^3]
    volume : float
        Volume of slurry, [m^3]

    Returns
    -------
    mass : float
        Mass of the additive, [kg]

    Raises
    ------
    DomainError
        If the dose is not from 0 to 3,000 kg/m^3 or the volume not from 0 to 10,000 m^3.

    Examples
    --------
    >>> round(additive_by_slurry_volume(3.0, 16.0), 1)
    48.0
    """
    require_range("Dose", dose, 0.0, 3000.0, "kg/m3")
    require_range("Volume", volume, 0.0, 10_000.0, "m3")
    return dose * volume


def _require_sacks(sacks: float) -> None:
    require_range("Number of sacks", sacks, 0.0, 1_000_000.0, "")


def _require_yield(yield_by_sack: float) -> None:
    require_range("Yield of a sack", yield_by_sack, 1e-5, 16.0, "m3")
