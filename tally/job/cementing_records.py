"""What is kept of the cementing beside its steps: trouble called, the mixing log, the shoe."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.setup import WaitingRule
from tally.units import Measure


@dataclass(frozen=True, slots=True)
class ListStart:
    """A list for trouble was started: by whom, when, and why."""

    seq: int
    why: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class MixReading:
    """A look at the mixing of one fluid: its density by two means, and what is used so far."""

    seq: int
    fluid: str
    gauge: Measure | None
    balance: Measure | None
    pumped: Measure | None
    sacks: int | None
    cement: Measure | None
    mix_fluid: Measure | None
    at: str
    pressure: Measure | None = None
    """At the pump, while it was mixed."""
    rate: Measure | None = None

    @property
    def density(self) -> Measure | None:
        """The density that counts: by the balance, else by the gauge in the line."""
        return self.balance or self.gauge


@dataclass(frozen=True, slots=True)
class Sample:
    """A sample of a slurry that is kept."""

    seq: int
    fluid: str
    part: str
    note: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class SeenAtSurface:
    """Spacer or cement seen in the returns."""

    seq: int
    what: str
    volume: Measure | None
    density: Measure | None
    at: str


@dataclass(frozen=True, slots=True)
class BackIn:
    """Fluid that had come back was pumped in again, and who decided it."""

    seq: int
    volume: Measure
    decided: str
    at: str


@dataclass(frozen=True, slots=True)
class ShoeTest:
    """A test of the shoe: how, whether it held, and who clears the shoe by it."""

    seq: int
    how: str
    held: bool
    cleared: str
    at: str


@dataclass(frozen=True, slots=True)
class Picked:
    """The rules for waiting on cement, who confirmed them for the place, and what was said."""

    seq: int
    rules: tuple[WaitingRule, ...]
    confirmed: str
    at: str
    reason: str
