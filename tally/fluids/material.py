"""A material of a slurry: the room that it takes, the water that it asks for, where both stand."""

from __future__ import annotations

from dataclasses import dataclass

from tally.units import from_unit

FRESH_WATER = from_unit(8.33, "lb/gal")
"""[kg/m3]; the handbook value at 68 degF, and what a specific gravity in the list is times."""

Dissolved = tuple[tuple[float, float], ...]
"""Mass of salt by mass of water, and the volume that each mass of it adds, [m3/kg]."""


@dataclass(frozen=True, slots=True)
class Material:
    """One material in SI; `water` is by mass of itself, [m3/kg], None where nothing was found."""

    name: str
    kind: str
    absolute_volume: float
    origin: str
    source: str
    also: tuple[str, ...] = ()
    dissolved: Dissolved = ()
    water: float | None = None
    water_origin: str = ""
    water_source: str = ""
    sack: float | None = None
    note: str = ""

    @property
    def density(self) -> float:
        """Mass by absolute volume, [kg/m3]."""
        return 1 / self.absolute_volume

    @property
    def strongest(self) -> float:
        """The most salt by mass of water that the table goes to, [-]; 0 where there is no table."""
        return self.dissolved[-1][0] if self.dissolved else 0.0

    def volume_by_mass(self, share_of_water: float = 0.0) -> float:
        """Return the volume that each mass of it adds, [m3/kg]; of a salt, in water so strong.

        Between the rows of the table it runs straight; beyond its ends the end is taken.
        """
        if not self.dissolved or share_of_water <= self.dissolved[0][0]:
            return self.dissolved[0][1] if self.dissolved else self.absolute_volume
        for (weak, low), (strong, high) in zip(self.dissolved, self.dissolved[1:], strict=False):
            if share_of_water <= strong:
                return low + (high - low) * (share_of_water - weak) / (strong - weak)
        return self.dissolved[-1][1]
