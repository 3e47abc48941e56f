"""The weights against depth: what was seen beside what hung then, and what to expect ahead."""

from __future__ import annotations

from textual.content import Content

from screens.ink import ATTENTION, INK, QUIET, Line, line, rule
from tally.errors import ShoedownError
from tally.job.job import Job
from tally.job.running_records import WeightReading
from tally.job.weight_band import depths_ahead, expected_then, weight_band
from tally.string.drag import Weights
from tally.units import Measure

SEEN = 8
"""Readings shown, the last ones."""

ENDS = (13, 22, 31, 40, 51, 60)
TITLES = ("at rest", "down", "up", "seen down", "seen up")


def weight_lines(job: Job, width: int) -> list[Content]:
    """Return the readings, then the depths ahead; or the sentence that says what is missing."""
    if not job.string:
        return [line("Nothing is run yet.", QUIET)]
    try:
        ahead = _ahead(job, width)
    except ShoedownError as lack:
        return [line(str(lack), QUIET)]
    force = job.known.shown.unit("force")
    depth = f"shoe, {job.known.shown.unit('length')}"
    titles = zip(ENDS, (depth, *TITLES), strict=True)
    head = Line(width)
    for end, title in titles:
        head.end(end, title, QUIET)
    return [
        line(f"{force} on the indicator, blocks in it; expected, then seen", QUIET),
        head.content(),
        *[_read(job, width, each) for each in job.weighed[-SEEN:]],
        rule(width, (34, "ahead, by the running list, full pipe")),
        *ahead,
    ]


def _ahead(job: Job, width: int) -> list[Content]:
    depths = depths_ahead(job)
    band = weight_band(job, depths)
    rows = [
        _row(job, width, depth, each, _under(job, each))
        for depth, each in zip(depths, band, strict=True)
    ]
    return [*rows, *_least(job, depths, band)]


def _under(job: Job, each: Weights) -> bool:
    least = job.known.limit("least_slack_off")
    return least is not None and each.slack_off < least.value


def _least(job: Job, depths: tuple[float, ...], band: tuple[Weights, ...]) -> list[Content]:
    """Return the least weight going down with who set it, and from where on it is not reached."""
    limit = job.known.limits.get("least_slack_off")
    if limit is None:
        return [line("no least weight going down is set", QUIET)]
    told = f"least going down {limit.text} ({limit.owner})"
    low = [depth for depth, each in zip(depths, band, strict=True) if _under(job, each)]
    if not low:
        return [line(f"{told}: expected above it", QUIET)]
    where = job.known.shown.show(low[0], "length")
    return [line(f"{told}: expected UNDER it at {where}", ATTENTION)]


def _read(job: Job, width: int, reading: WeightReading) -> Content:
    depth = job.known.step.si(reading.shoe)
    try:
        expected = expected_then(job, reading)
    except ShoedownError:
        expected = None
    return _row(job, width, depth, expected, False, reading)


def _row(
    job: Job,
    width: int,
    depth: float,
    expected: Weights | None,
    under: bool,
    reading: WeightReading | None = None,
) -> Content:
    shown = job.known.shown
    loads = (expected.hanging, expected.slack_off, expected.pick_up) if expected else ()
    cells = [shown.number(depth, "length"), *(shown.number(load, "force") for load in loads)]
    drawn = Line(width)
    for place, (end, text) in enumerate(zip(ENDS, cells, strict=False)):
        drawn.end(end, text, ATTENTION if under and place == 2 else INK)
    if reading is not None:
        drawn.end(ENDS[4], _seen(job, reading.slack_off)).end(ENDS[5], _seen(job, reading.pick_up))
    return drawn.content()


def _seen(job: Job, measure: Measure | None) -> str:
    return "-" if measure is None else job.known.shown.number(measure.value, "force")
