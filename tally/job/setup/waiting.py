"""What the waiting on cement is held to."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.stored import measured
from tally.units import Measure

WAITING_NEEDS = ("all", "any")


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthReading:
    """One reading of the laboratory: compressive strength of a slurry at a time since mixing."""

    fluid: str = ""
    """The slurry; nothing: the one at the coldest point."""
    time: Measure = measured("time")
    strength: Measure = measured("pressure")
    temperature: Measure | None = measured("temperature", optional=True)
    """At which it was cured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitingRule:
    """A rule for waiting on cement, in our own words: a time, a strength, or both."""

    name: str
    place: str
    clause: str = ""
    strings: str = ""
    """Which strings it is for; nothing: all."""
    time: Measure | None = measured("time", optional=True)
    strength: Measure | None = measured("pressure", optional=True)
    where: str = ""
    """Where, or how, the strength is wanted."""
    need: str = "all"
    """Whether time and strength are both wanted, or one of them will do."""
    says: str = ""
    meanwhile: str = ""
    """What is not allowed until then."""
    edition: str = ""
    """The edition seen, or that it was not read in a document."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """What the waiting on cement is reckoned with."""

    coldest: Measure | None = measured("temperature", optional=True)
    """At the coldest point that matters: the shallowest cement that has to hold."""
