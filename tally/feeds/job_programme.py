"""Whether the lines of the centralizer and scratcher programme say where, and in one way only."""

from __future__ import annotations

from collections.abc import Iterator

from tally.feeds.job_faults import Fault, Spot, named, turned
from tally.feeds.job_shape import Shape
from tally.feeds.job_tables import FittingTable, ZoneTable
from tally.feeds.job_words import like, typed_like
from tally.units import shown

FITTINGS = ("centralizer", "fitting")


def rule_faults(shape: Shape) -> Iterator[Fault]:
    """Yield what is wrong with the lines of the programme."""
    zones = [zone.name for zone in shape.rows("zone", ZoneTable)]
    for name in FITTINGS:
        for spot, rule in shape.placed(name, FittingTable):
            yield from _where(spot, rule)
            if rule.zone and rule.zone not in zones and "zone" not in shape.spoilt:
                said = (
                    f"there is no zone '{shown(rule.zone)}'; the zones of the job are: "
                    f"{named(zones)}."
                )
                yield Fault(spot.at("zone"), said)


def _where(spot: Spot, rule: FittingTable) -> Iterator[Fault]:
    top, bottom = rule.top, rule.bottom
    by_depth = top is not None or bottom is not None
    if not (rule.joints or by_depth or rule.zone):
        where = spot.at("joints")
        said = "is missing, and so are depths and a zone;"
        yield Fault(
            where,
            f"{said} write it like {like(where.title, where.key)}.",
            f"{said} type it like {typed_like(where.title, where.key)}.",
        )
    if rule.zone and by_depth:
        said = "the line names depths too; give one or the other."
        yield Fault(spot.at("zone"), said)
    if top is not None and bottom is not None:
        yield from turned(spot, top, bottom)
    if rule.every > 1 and not (by_depth or rule.zone):
        said = f"every {rule.every} goes with depths or a zone; name the joints as 18-60/4 instead."
        yield Fault(spot.at("every"), said)
