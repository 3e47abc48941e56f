"""Weight on the indicator against the depth of the shoe: what is expected, and the readings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from textual.content import Content

from screens.widgets.chart import Axis, Dot, Dots, chart, evenly, round_up
from tally.errors import ShoedownError
from tally.job.job import Job
from tally.job.weight_band import weight_band
from tally.string.drag import Weights
from tally.units import UnitSet, to_unit

POINTS = 24
"""Depths at which the weights are worked out; the chart draws straight on between them."""
BETWEEN = 4
SHALLOWEST = 0.02
"""Share of the depth at which the lines begin."""


def weight_chart(job: Job, width: int, rows: int) -> list[Content]:
    """Return the chart in so many rows, depth downwards; nothing where no weight can be told."""
    if not job.string:
        return []
    deepest = job.known.hole.casing_point.value
    depths = list(evenly(SHALLOWEST * deepest, deepest, POINTS))
    try:
        band = weight_band(job, depths)
    except ShoedownError:
        return []
    drawn = [*_expected(job, depths, band), *_least(job, deepest), *_read(job)]
    heaviest = max(load for dots in drawn for load, _ in dots.places)
    shown = job.known.shown
    return chart(
        Axis(shown.unit("force"), 0.0, round_up(heaviest)),
        Axis(shown.unit("length"), to_unit(deepest, shown.unit("length")), 0.0),
        drawn,
        width,
        rows,
    )


def _expected(job: Job, depths: Sequence[float], band: Sequence[Weights]) -> Iterator[Dots]:
    shown = job.known.shown
    for mark, means, loads in (
        (".", "down", [each.slack_off for each in band]),
        (":", "up", [each.pick_up for each in band]),
    ):
        corners = [_dot(shown, *each) for each in zip(loads, depths, strict=True)]
        yield Dots(mark, means, list(_joined(corners)))


def _joined(corners: Sequence[Dot]) -> Iterator[Dot]:
    """Yield the corners with the places on the straight lines between them."""
    for (x, y), (other_x, other_y) in pairwise(corners):
        for share in evenly(0.0, 1.0, BETWEEN):
            yield x + (other_x - x) * share, y + (other_y - y) * share


def _least(job: Job, deepest: float) -> Iterator[Dots]:
    limit = job.known.limit("least_slack_off")
    if limit is not None:
        places = [_dot(job.known.shown, limit.value, depth) for depth in evenly(0, deepest, POINTS)]
        yield Dots("|", "least", places)


def _read(job: Job) -> Iterator[Dots]:
    si, shown = job.known.step.si, job.known.shown
    down = [(each.slack_off.value, si(each.shoe)) for each in job.weighed if each.slack_off]
    up = [(each.pick_up.value, si(each.shoe)) for each in job.weighed if each.pick_up]
    yield Dots("v", "read down", [_dot(shown, *each) for each in down], bold=True)
    yield Dots("^", "read up", [_dot(shown, *each) for each in up], bold=True)


def _dot(shown: UnitSet, load: float, depth: float) -> Dot:
    return to_unit(load, shown.unit("force")), to_unit(depth, shown.unit("length"))
