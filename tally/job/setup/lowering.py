"""How the string is filled, and what its weight is worked out with."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.stored import measured
from tally.units import Measure

FILL_SOURCES = ("active pit", "trip tank")


@dataclass(frozen=True, slots=True, kw_only=True)
class Filling:
    """Whether the pipe runs in closed, and where its fill comes from."""

    closed_end: bool = True
    source: str = "active pit"
    interval: int | None = None
    """Joints from fill to fill by the programme."""
    design_factor: Measure | None = measured("number", optional=True)
    """The collapse ratings are divided by it."""
    float_rating: Measure | None = measured("pressure", optional=True)
    """The pressure difference that the float is rated for."""
    auto_fill: Measure | None = measured("ratio", optional=True)
    """Share of its contents that the pipe takes in at its foot until the float is converted."""
    converts_at_rate: Measure | None = measured("flow rate", optional=True)
    """The flow that the float wants to go over, by its data sheet."""
    converts_at_pressure: Measure | None = measured("pressure", optional=True)
    """The pressure that it wants, by its data sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """What the weights on the indicator are worked out with, and what may be pulled with."""

    block_weight: Measure | None = measured("force", optional=True)
    friction_cased: Measure | None = measured("number", optional=True)
    friction_open: Measure | None = measured("number", optional=True)
    elevator_rating: Measure | None = measured("force", optional=True)
    """Elevators and spider, the lesser."""
    hoisting_rating: Measure | None = measured("force", optional=True)
    """The hoisting gear as rigged."""
    tension_share: Measure | None = measured("ratio", optional=True)
    """Share of the body yield and of the connection that may be used."""
