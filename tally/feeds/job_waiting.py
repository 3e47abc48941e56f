"""Whether the laboratory's strengths rise, and the job's own waiting rules ask for something."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tally.feeds.job_cement_tables import FluidTable, StrengthTable, WaitingRuleTable
from tally.feeds.job_faults import Fault, Spot, named
from tally.feeds.job_shape import Shape
from tally.units import shown


def waiting_faults(shape: Shape) -> Iterator[Fault]:
    """Yield what cannot be so about strengths and waiting rules."""
    yield from _fluids(shape)
    yield from _rise(shape)
    yield from _rules(shape)


def _fluids(shape: Shape) -> Iterator[Fault]:
    slurries = [fluid.name for fluid in shape.rows("fluid", FluidTable) if fluid.kind == "slurry"]
    for spot, one in shape.placed("strength", StrengthTable):
        if one.fluid and one.fluid not in slurries and "fluid" not in shape.spoilt:
            said = f"there is no slurry '{shown(one.fluid)}'; the slurries are: {named(slurries)}."
            yield Fault(spot.at("fluid"), said)


def _rise(shape: Shape) -> Iterator[Fault]:
    """Yield readings of one curing that go back in time, or lose strength."""
    curves: dict[tuple[str, float | None], list[tuple[Spot, StrengthTable]]] = {}
    for spot, one in shape.placed("strength", StrengthTable):
        cured = one.temperature.value if one.temperature else None
        curves.setdefault((one.fluid, cured), []).append((spot, one))
    for curve in curves.values():
        for (_, first), (spot, then) in pairwise(curve):
            if then.time.value <= first.time.value:
                said = f"{then.time.text} is not later than {first.time.text} of the reading above."
                yield Fault(spot.at("time"), said)
            elif then.strength.value < first.strength.value:
                said = f"{then.strength.text} is less than {first.strength.text} before it; look."
                yield Fault(spot.at("strength"), said)


def _rules(shape: Shape) -> Iterator[Fault]:
    names: set[str] = set()
    for spot, rule in shape.placed("waiting_rule", WaitingRuleTable):
        if rule.time is None and rule.strength is None:
            said = "is missing, and so is a strength; a rule asks for one of them, or for both."
            yield Fault(spot.at("time"), said)
        if rule.name in names:
            said = f"{shown(rule.name)} stands twice; give each rule a name of its own."
            yield Fault(spot.at("name"), said)
        names.add(rule.name)
