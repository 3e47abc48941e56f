"""What the job keeps of the string: fills, trip tank, weights, rates and the two landings."""

from __future__ import annotations

from dataclasses import dataclass

from tally.units import Measure


@dataclass(frozen=True, slots=True)
class Fill:
    """Fluid put into the pipe from the top."""

    seq: int
    volume: float
    source: str
    at: str


@dataclass(frozen=True, slots=True)
class TankLevel:
    """The trip tank as read, with what the string and the fills stood at then."""

    seq: int
    volume: Measure
    mark: bool
    """A new start: the tank was emptied, filled or first read."""
    items: int
    """Items in the string when it was read."""
    displaced: float
    """Volume that the string should have put into the tank by then, [m^3]."""
    drawn: float
    """Volume drawn from the tank into the pipe by then, [m^3]."""
    at: str
    since: str = ""
    """Where the total starts anew ("the old shoe"); empty: it goes on."""


@dataclass(frozen=True, slots=True)
class Landing:
    """The string on depth."""

    seq: int
    stick_up: int
    counted: int
    """Joints left on the rack, as a person counted them."""
    reason: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class HungOff:
    """The string hung off, and the load it was hung with."""

    seq: int
    load: Measure
    how: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class Converted:
    """The auto-fill float converted: who said so, and what was seen."""

    seq: int
    by: str
    at: str
    pressure: Measure | None
    rate: Measure | None


@dataclass(frozen=True, slots=True)
class WeightReading:
    """The indicator as it was read: depth of the shoe in whole steps, pipe empty at the top [m]."""

    seq: int
    shoe: int
    slack_off: Measure | None
    pick_up: Measure | None
    hanging: Measure | None
    at: str
    empty: float


@dataclass(frozen=True, slots=True)
class RatePressure:
    """The pressure of circulating at a steady rate, ahead of the cement."""

    seq: int
    rate: Measure
    pressure: Measure
    at: str


@dataclass(frozen=True, slots=True)
class Moved:
    """How the pipe was moved up and down, and turned, as somebody said it last."""

    seq: int
    stroke: Measure
    by: str
    at: str
    note: str
    strokes: Measure | None = None
    """Times up and down in a minute."""
    rotation: Measure | None = None
    torque: Measure | None = None
    slack_off: Measure | None = None
    """On the indicator while it goes down."""
    pick_up: Measure | None = None
    """While it comes up."""
    stopped: str = ""
    """When it was stopped; empty while it moves."""
