"""The well to scale: its shape by the survey with what is in it, then its depths in order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import atan2, cos, sin

from textual.content import Content

from screens.ink import INK, QUIET, Line, line, rule
from screens.widgets.chart import Axis, Dot, Dots, chart, evenly, round_up
from tally.hole.survey import Survey
from tally.job import depths
from tally.job.fittings import installed
from tally.job.geometry import path_of
from tally.job.job import Job
from tally.job.setup import Setup
from tally.job.standing import standing
from tally.units import to_unit

POINTS = 120
ENDS = (11, 22)


def section_lines(job: Job, width: int, rows: int) -> list[Content]:
    """Return the shape of the well in so many rows, then its depths in their order."""
    return [*section_chart(job, width, rows), *_told(job, width)]


def section_chart(job: Job, width: int, rows: int) -> list[Content]:
    """Return the section of the well in the plane from the wellhead to its bottom.

    Down and across are each to a scale of their own.
    """
    setup, path = job.known, path_of(job.known)
    deepest = setup.hole.depth.value
    away = [_away(path, depth, deepest) for depth in evenly(0.0, deepest, POINTS)]
    unit = setup.shown.unit("length")
    near, far = to_unit(min(away), unit), to_unit(max(away), unit)
    wide = round_up(max(1.2 * (far - near), to_unit(0.1 * deepest, unit)))
    bottom = to_unit(max(path.true_vertical(deepest), path.true_vertical(0.0)), unit)
    across = Axis(f"{unit} away", near - 0.1 * wide, near + 0.9 * wide)
    return chart(across, Axis(unit, bottom, 0.0), list(_marks(job, path)), width, rows)


def _marks(job: Job, path: Survey) -> Iterator[Dots]:
    setup = job.known
    deepest, old = setup.hole.depth.value, setup.previous
    shoe = setup.step.si(depths.shoe_depth(job)) if job.string else 0.0
    cased = old.shoe.value if old else 0.0
    yield Dots(":", "hole", _stretch(setup, path, cased, deepest))
    if shoe > 0:
        yield Dots("|", "string", _stretch(setup, path, 0.0, shoe), bold=True)
    if old:
        yield Dots("#", "old casing", _stretch(setup, path, 0.0, cased))
    if shoe > 0:
        yield Dots("v", "shoe", [_dot(setup, path, shoe)], bold=True)


def _stretch(setup: Setup, path: Survey, top: float, bottom: float) -> list[Dot]:
    return [_dot(setup, path, depth) for depth in evenly(top, bottom, POINTS)]


def _dot(setup: Setup, path: Survey, depth: float) -> Dot:
    unit, deepest = setup.shown.unit("length"), setup.hole.depth.value
    away = _away(path, depth, deepest)
    return to_unit(away, unit), to_unit(path.true_vertical(depth), unit)


def _away(path: Survey, depth: float, deepest: float) -> float:
    """Return how far a point lies from the wellhead towards the bottom of the hole, [m]."""
    end, here = path.at(deepest), path.at(depth)
    bearing = atan2(end.east, end.north)
    return here.north * cos(bearing) + here.east * sin(bearing)


def _told(job: Job, width: int) -> list[Content]:
    shown = job.known.shown
    rows = sorted([*_built(job), *_run(job), *_placed(job)])
    head = Line(width).end(ENDS[0], "measured", QUIET).end(ENDS[1], "vertical", QUIET)
    path = path_of(job.known)
    return [
        rule(width, (width, f"depth, {shown.unit('length')}")),
        head.content(),
        *(
            Line(width)
            .end(ENDS[0], shown.number(depth, "length"))
            .end(ENDS[1], shown.number(_vertical(path, depth), "length"), QUIET)
            .put(ENDS[1] + 3, what, INK)
            .content()
            for depth, what in rows
        ),
        *_pieces(job, width),
    ]


def _vertical(path: Survey, depth: float) -> float:
    """Return the vertical depth, [m]; above the datum, as at the first item run, the same."""
    return path.true_vertical(depth) if depth > 0 else depth


def _built(job: Job) -> Iterator[tuple[float, str]]:
    setup = job.known
    for casing in (setup.previous, *setup.other_casings):
        if casing is not None:
            yield casing.shoe.value, f"{casing.name}, its shoe"
    for zone in setup.zones:
        yield zone.top.value, f"{zone.name}, its top"
        yield zone.bottom.value, f"{zone.name}, its bottom"
    yield setup.hole.casing_point.value, "casing point"
    yield setup.hole.depth.value, "bottom of the hole"


def _run(job: Job) -> Iterator[tuple[float, str]]:
    si = job.known.step.si
    for each in depths.reaches(job):
        if each.made.joint:
            continue
        if each.made.kind == "shoe":
            yield si(each.bottom), "the shoe"
        elif each.top > 0:
            yield si(each.top), f"top of the {each.made.kind}"


def _placed(job: Job) -> Iterator[tuple[float, str]]:
    found = standing(job)
    if found is None:
        return
    for name, depth in found.plugs:
        yield depth, f"{name}, calculated"
    for each in found.outside:
        if each.slug is not None and each.slug < len(found.names):
            yield each.top, f"top of {each.name} around the pipe, calculated"


def _pieces(job: Job, width: int) -> Sequence[Content]:
    have = installed(job)
    if not have:
        return []
    told = ", ".join(f"{count} {what}" for what, count in have.items())
    return [line(f"installed so far: {told}"[:width], QUIET)]
