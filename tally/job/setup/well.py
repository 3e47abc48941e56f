"""Where the job is, and the hole: its casings, parts, zones and survey."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.stored import measured
from tally.units import Measure

ZONE_FLUIDS = ("oil", "gas", "water", "other")


@dataclass(frozen=True, slots=True, kw_only=True)
class Well:
    """Where the job is and what string is run."""

    name: str
    string: str
    rig: str = ""
    operator: str = ""
    location: str = ""
    datum: str = "rotary table"
    datum_elevation: Measure | None = measured("length", optional=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """The open hole and the depth at which the shoe is wanted."""

    diameter: Measure = measured("diameter")
    depth: Measure = measured("length")
    casing_point: Measure = measured("length")


@dataclass(frozen=True, slots=True, kw_only=True)
class PreviousCasing:
    """A casing already set, and its shoe; one that does not reach surface has a top."""

    name: str
    shoe: Measure = measured("length")
    inner_diameter: Measure = measured("diameter")
    top: Measure | None = measured("length", optional=True)
    weak_at: Measure | None = measured("density", optional=True)
    """The density, standing or circulating, at which the hole at its shoe takes fluid."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleSection:
    """A part of the hole drilled with one bit, and how much larger it is than the bit."""

    top: Measure = measured("length")
    bottom: Measure = measured("length")
    diameter: Measure = measured("diameter")
    excess: Measure | None = measured("ratio", optional=True)
    """Volume of the annulus over that in gauge hole, as far as anybody said."""
    caliper: Measure | None = measured("diameter", optional=True)
    """Mean diameter of the hole as it was logged."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """One survey station."""

    measured_depth: Measure = measured("length")
    inclination: Measure = measured("angle")
    azimuth: Measure = measured("angle")


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A part of the hole by depth that has a name."""

    name: str
    top: Measure = measured("length")
    bottom: Measure = measured("length")
    weak_at: Measure | None = measured("density", optional=True)
    """The density, standing or circulating, at which it is expected to take fluid."""
    fluid: str = ""
    """What it holds."""
    pore: Measure | None = measured("density", optional=True)
    """The density of a standing column that presses as the fluid in it does."""
