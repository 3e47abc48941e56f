"""What a volume of slurry takes: sacks, water, mix fluid in the tanks, additives."""

from __future__ import annotations

from dataclasses import dataclass

from tally.fluids.slurry_amounts import sacks_for_volume
from tally.formula import require_range


@dataclass(frozen=True, slots=True)
class Needed:
    """What a volume of slurry takes: volumes [m^3], masses [kg]."""

    exact: float
    """Sacks, not rounded."""
    sacks: int
    """Whole sacks, rounded up."""
    water: float
    fluid: float
    """Mix fluid that goes into the slurry."""
    tanks: float
    """Mix fluid to make: with the reserve and what stays in the tanks."""
    additives: tuple[tuple[str, float], ...]


def needed(
    volume: float,
    makes: float,
    water: float,
    fluid: float,
    additives: tuple[tuple[str, float], ...] = (),
    reserve: float = 0.0,
    dead: float = 0.0,
) -> Needed:
    """Return what a volume of slurry takes.

    Parameters
    ----------
    volume : float
        Volume of slurry, [m^3]
    makes, water, fluid : float
        Slurry, fresh water and mix fluid of a sack, [m^3]
    additives : tuple
        Name and mass for a sack, [kg]
    reserve : float
        Mix fluid beyond that of the slurry, as a share of it, [-]
    dead : float
        Mix fluid that cannot be drawn from the tanks, [m^3]

    Returns
    -------
    needed : Needed
        Sacks rounded up; everything else is for the volume, not for the whole sacks

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    The tanks need the mix fluid, which is more than the water where liquids or salt are in it.

    Examples
    --------
    >>> made = needed(10.0, 0.04, 0.02, 0.021, (("retarder", 0.1),), reserve=0.05, dead=1.0)
    >>> made.sacks, round(made.water, 2), round(made.tanks, 4), round(made.additives[0][1], 1)
    (250, 5.0, 6.5125, 25.0)
    """
    require_range("Reserve of mix fluid", reserve, 0.0, 1.0, "")
    require_range("Dead volume", dead, 0.0, 500.0, "m3")
    exact, whole = sacks_for_volume(volume, makes)
    return Needed(
        exact,
        round(whole),
        exact * water,
        exact * fluid,
        exact * fluid * (1 + reserve) + dead,
        tuple((name, exact * mass) for name, mass in additives),
    )
