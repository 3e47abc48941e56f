"""Pressure against volume since the zero: what is expected, and the readings on it."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from screens.ink import QUIET, line
from screens.widgets.chart import LEFT, Axis, Dot, Dots, chart, evenly, round_up
from tally.errors import ShoedownError
from tally.job.job import Job
from tally.job.placement import Live, counts, live
from tally.units import UnitSet, to_unit


def pressure_chart(job: Job, width: int, rows: int) -> list[Content]:
    """Return the chart in so many rows, its heading and its axis among them."""
    try:
        here = live(job)
    except ShoedownError as lack:
        return [line(f" No chart: {lack}"[:width], QUIET)]
    shown = job.known.shown
    expected = list(_expected(here, shown, 2 * (width - LEFT)))
    read = list(_read(job, shown))
    last = round_up(max(volume for volume, _ in (*expected, *read)) or 1.0)
    top = round_up(max(value for _, value in (*expected, *read)) or 1.0)
    return chart(
        Axis(shown.unit("volume"), 0.0, last),
        Axis(shown.unit("pressure"), 0.0, top),
        (Dots(".", "expected", expected), Dots("*", "read", read, bold=True)),
        width,
        rows,
    )


def _expected(here: Live, shown: UnitSet, points: int) -> Iterator[Dot]:
    end = here.placement.volume[-1] - here.zero
    for count in evenly(0.0, end, points):
        yield _shown(shown, count, here.expected(count).pressure)


def _read(job: Job, shown: UnitSet) -> Iterator[Dot]:
    for each in counts(job):
        if each.reading.pressure is not None:
            yield _shown(shown, each.volume, each.reading.pressure.value)


def _shown(shown: UnitSet, volume: float, pressure: float) -> Dot:
    return to_unit(volume, shown.unit("volume")), to_unit(pressure, shown.unit("pressure"))
