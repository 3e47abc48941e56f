"""Whether hole, casings, sections, zones and survey fit together, and the pipe into them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from tally.feeds.job_faults import Fault, Spot, turned
from tally.feeds.job_shape import Shape
from tally.feeds.job_tables import (
    HoleSectionTable,
    HoleTable,
    OtherCasingTable,
    PipeTable,
    PreviousTable,
    SurveyTable,
    ZoneTable,
)
from tally.units import Measure, shown

HOLE = Spot("hole")
PREVIOUS = Spot("previous_casing")
CLOSE = 0.000_5
"""[m]; the same depth in feet and in metres differs by less."""


def hole_faults(shape: Shape) -> Iterator[Fault]:
    """Yield everything about the hole that cannot be so."""
    yield from _hole(shape)
    yield from _casings(shape)
    yield from _sections(shape)
    yield from _zones(shape)
    yield from _pipe_fits(shape)
    yield from _survey(shape)


def _hole(shape: Shape) -> Iterator[Fault]:
    hole = shape.table("hole", HoleTable)
    if hole is not None and hole.casing_point.value > hole.depth.value:
        yield Fault(
            HOLE.at("casing_point"),
            f"{hole.casing_point.text} lies below the hole, which is {hole.depth.text} deep; "
            "type the depth at which the shoe is wanted.",
        )


def _casings(shape: Shape) -> Iterator[Fault]:
    """Yield each casing whose shoe is not above the casing point, or not below its own top."""
    hole = shape.table("hole", HoleTable)
    for spot, casing in _set(shape):
        shoe, top = casing.shoe, casing.top
        if hole is not None and shoe.value >= hole.casing_point.value:
            yield Fault(
                spot.at("shoe"),
                f"{shoe.text} is not above the casing point, {hole.casing_point.text}; "
                "look at both.",
            )
        if top is not None and top.value >= shoe.value:
            yield Fault(
                spot.at("top"), f"{top.text} is not above the shoe, {shoe.text}; look at both."
            )


def _set(shape: Shape) -> Iterator[tuple[Spot, PreviousTable]]:
    """Yield the casings that are set already."""
    previous = shape.table("previous_casing", PreviousTable)
    if previous is not None:
        yield PREVIOUS, previous
    yield from shape.placed("other_casing", OtherCasingTable)


def _sections(shape: Shape) -> Iterator[Fault]:
    """Yield sections that do not go down one after the other to the bottom of the hole."""
    sections = shape.placed("hole_section", HoleSectionTable)
    for spot, section in sections:
        yield from turned(spot, section.top, section.bottom)
        if section.excess is not None and section.caliper is not None:
            said = "the caliper says how large the hole is; take out one or the other."
            yield Fault(spot.at("excess"), said)
    if not sections or "hole_section" in shape.spoilt:
        return
    for (_, above), (spot, below) in pairwise(sections):
        if not _same(above.bottom, below.top):
            yield Fault(
                spot.at("top"),
                f"{below.top.text} is not where the section above ends, {above.bottom.text}; "
                "the sections go down in order, without a gap.",
            )
    yield from _first_section(shape, *sections[0])
    yield from _last_section(shape, *sections[-1])


def _first_section(shape: Shape, spot: Spot, section: HoleSectionTable) -> Iterator[Fault]:
    previous = shape.table("previous_casing", PreviousTable)
    if previous is not None and section.top.value > previous.shoe.value + CLOSE:
        yield Fault(
            spot.at("top"),
            f"{section.top.text} leaves a gap below the previous shoe, {previous.shoe.text}; "
            "begin the first section there.",
        )


def _last_section(shape: Shape, spot: Spot, section: HoleSectionTable) -> Iterator[Fault]:
    hole = shape.table("hole", HoleTable)
    if hole is None:
        return
    if not _same(section.bottom, hole.depth):
        yield Fault(
            spot.at("bottom"),
            f"{section.bottom.text} is not the bottom of the hole, {hole.depth.text}; the last "
            "section ends there.",
        )
    if not _same(section.diameter, hole.diameter):
        yield Fault(
            spot.at("diameter"),
            f"{section.diameter.text} is not the diameter of the hole at its bottom, "
            f"{hole.diameter.text}; look at both.",
        )


def _same(one: Measure, other: Measure) -> bool:
    return abs(one.value - other.value) <= CLOSE


def _zones(shape: Shape) -> Iterator[Fault]:
    zones, hole = shape.placed("zone", ZoneTable), shape.table("hole", HoleTable)
    for place, (spot, zone) in enumerate(zones):
        yield from turned(spot, zone.top, zone.bottom)
        if zone.name.casefold() in [each.name.casefold() for _, each in zones[:place]]:
            said = f"{shown(zone.name)} stands twice; give each zone a name of its own."
            yield Fault(spot.at("name"), said)
        if hole is not None and zone.bottom.value > hole.depth.value + CLOSE:
            yield Fault(
                spot.at("bottom"),
                f"{zone.bottom.text} lies below the hole, which is {hole.depth.text} deep.",
            )
        pore, weak = zone.pore, zone.weak_at
        if pore is not None and weak is not None and pore.value >= weak.value:
            said = (
                f"{pore.text} is not below the {weak.text} at which it takes fluid; look at both."
            )
            yield Fault(spot.at("pore"), said)


def _pipe_fits(shape: Shape) -> Iterator[Fault]:
    """Yield each pipe that does not fit into the hole, the old casing, or itself."""
    around = list(_around(shape))
    for spot, pipe in shape.placed("pipe", PipeTable):
        where = replace(spot, called=pipe.name)
        outer, inner = pipe.outer_diameter, pipe.inner_diameter
        if inner is not None and inner.value >= outer.value:
            said = f"{inner.text} is not less than {outer.text} outside."
            yield Fault(where.at("inner_diameter"), said)
        for what, room in around:
            if outer.value >= room.value:
                said = f"{outer.text} does not go into the {what}, {room.text} wide."
                yield Fault(where.at("outer_diameter"), said)


def _around(shape: Shape) -> Iterator[tuple[str, Measure]]:
    hole = shape.table("hole", HoleTable)
    if hole is not None:
        yield "hole", hole.diameter
    for spot, section in shape.placed("hole_section", HoleSectionTable):
        if hole is None or not _same(section.diameter, hole.diameter):
            yield f"hole section {spot.place}", section.diameter
    for spot, casing in _set(shape):
        what = f"casing {shown(casing.name)}" if spot.place else "previous casing"
        yield what, casing.inner_diameter


def _survey(shape: Shape) -> Iterator[Fault]:
    hole = shape.table("hole", HoleTable)
    stations = shape.placed("survey", SurveyTable)
    for (_, above), (spot, below) in pairwise(stations):
        if below.measured_depth.value <= above.measured_depth.value:
            yield Fault(
                spot.at("measured_depth"),
                f"{below.measured_depth.text} follows {above.measured_depth.text}; the stations "
                "go down in order, none twice.",
            )
    for spot, station in stations:
        depth = station.measured_depth
        if hole is not None and depth.value > hole.depth.value:
            yield Fault(
                spot.at("measured_depth"),
                f"{depth.text} lies below the hole, which is {hole.depth.text} deep.",
            )
