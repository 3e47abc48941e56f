"""The fluids of the cementing programme, and the mud as it was measured."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.stored import measured
from tally.units import Measure

FLUID_KINDS = ("preflush", "spacer", "slurry", "displacement")
BEHIND = FLUID_KINDS[-1]
"""The kind of fluid that follows behind the top plug."""
SHARE_OF = ("cement", "water")
MUD = "mud"
"""The fluid in the hole, where a fluid is named."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dial:
    """One reading of the viscometer, of the mud or of a fluid of the programme."""

    fluid: str = MUD
    speed: Measure = measured("rotary speed")
    dial: Measure = measured("number")
    """Degrees of the dial."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fluid:
    """A fluid of the cementing programme; how much of it is said in one way."""

    name: str
    kind: str
    density: Measure | None = measured("density", optional=True)
    plastic_viscosity: Measure | None = measured("viscosity", optional=True)
    yield_point: Measure | None = measured("yield point", optional=True)
    volume: Measure | None = measured("volume", optional=True)
    length: Measure | None = measured("length", optional=True)
    """Of annulus that it fills."""
    top: Measure | None = measured("length", optional=True)
    """Measured depth of its top in the annulus when the job is done."""
    contact: Measure | None = measured("time", optional=True)
    """How long it passes a point of the annulus at its rate."""
    rate: Measure | None = measured("flow rate", optional=True)
    cement: str = ""
    """Of a slurry, the cement by its name among the materials."""
    sack: Measure | None = measured("mass", optional=True)
    slurry_yield: Measure | None = measured("slurry yield", optional=True)
    mix_water: Measure | None = measured("mix water", optional=True)
    thickening_time: Measure | None = measured("time", optional=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Additive:
    """What is mixed into a slurry, as a share of the cement or the water, or by the sack."""

    fluid: str
    material: str
    share: Measure | None = measured("ratio", optional=True)
    of: str = "cement"
    per_sack: Measure | None = measured("mix water", optional=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnMaterial:
    """A material that the job brings itself, in the words of a list of materials."""

    name: str
    kind: str
    also: str = ""
    """Other names, parted by semicolons."""
    specific_gravity: str = ""
    absolute_volume: str = ""
    water: str = ""
    """What it asks for, by `water_per`."""
    water_per: str = ""
    sack: str = ""
    origin: str = ""
    source: str = ""
    note: str = ""
