"""The mud, the pump and the head, and how the programme is pumped."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.stored import measured
from tally.units import Measure

EXCESS_ON = ("annulus", "hole")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pumping:
    """The mud, the pump that displaces, the head, and the cementing programme in short."""

    mud_weight: Measure = measured("density")
    plastic_viscosity: Measure | None = measured("viscosity", optional=True)
    yield_point: Measure | None = measured("yield point", optional=True)
    conditioning_rate: Measure | None = measured("flow rate", optional=True)
    """The rate at which the mud is conditioned before cementing."""
    gel_strength: Measure | None = measured("yield point", optional=True)
    """Of the mud after as long as it stands while a joint is made up."""
    volume_per_stroke: Measure | None = measured("volume per stroke", optional=True)
    efficiency: Measure | None = measured("ratio", optional=True)
    rate: Measure | None = measured("flow rate", optional=True)
    head_volume: Measure | None = measured("volume", optional=True)
    slurry_volume: Measure | None = measured("volume", optional=True)
    spacer_volume: Measure | None = measured("volume", optional=True)
    final_pressure: Measure | None = measured("pressure", optional=True)
    bottom_plugs: int = 1
    relief: Measure | None = measured("pressure", optional=True)
    """The pressure at which the relief valve of the pump opens."""
    head_rating: Measure | None = measured("pressure", optional=True)
    plug_rating: Measure | None = measured("pressure", optional=True)
    collar_rating: Measure | None = measured("pressure", optional=True)
    excess_applies_to: str = ""
    """What the excess of a hole section is a share of; sources differ, so nobody assumes it."""
    pocket_filled: bool = True
    """Whether slurry is counted for the hole below the shoe."""
    line_volume: Measure | None = measured("volume", optional=True)
    """Of the surface line, from where the pumped volume is counted to the head."""
    line_full_at_zero: bool = True
    """Whether the line stands full when the count is zeroed; full, it is no part of the count."""
    wash_up_volume: Measure | None = measured("volume", optional=True)
    """Pumped behind the top plug first, from washing up; it counts."""
    dead_volume: Measure | None = measured("volume", optional=True)
    """Of mix fluid that stays in the tanks."""
    reserve: Measure | None = measured("ratio", optional=True)
    """Of mix fluid, over what the programme takes."""
    batch_mixed: bool = False
    """Whether each slurry is mixed whole before it is pumped."""
    mixing_rate: Measure | None = measured("flow rate", optional=True)
    plug_time: Measure | None = measured("time", optional=True)
    """What it takes to release the top plug."""
    compressibility: Measure | None = measured("compressibility", optional=True)
    """Of the fluid behind the top plug."""
