"""Pressure against volume since the zero: what is expected, and the readings on it, in ASCII."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from screens.ink import BOLD, INK, QUIET, Line, line
from tally.errors import ShoedownError
from tally.job.job import Job
from tally.job.placement import Live, counts, live
from tally.units import UnitSet, to_unit

EXPECTED, READ = ".", "*"
AXIS = 7
"""Columns that the numbers beside the chart take."""
LEAST_ROWS = 6
STEPS = (1, 1.5, 2, 3, 4, 5, 6, 8, 10)

Dot = tuple[float, float]


def pressure_chart(job: Job, width: int, rows: int) -> list[Content]:
    """Return the chart in so many rows, its heading and its axis among them."""
    if rows < LEAST_ROWS:
        return []
    try:
        here = live(job)
    except ShoedownError as lack:
        return [line(f" No chart: {lack}"[:width], QUIET)]
    shown = job.known.shown
    expected = list(_expected(here, shown, 2 * (width - AXIS)))
    read = list(_read(job, shown))
    return _drawn(shown, expected, read, width, rows)


def _expected(here: Live, shown: UnitSet, points: int) -> Iterator[Dot]:
    end = here.placement.volume[-1] - here.zero
    for point in range(points + 1):
        count = end * point / points
        pressure = here.at_count(count).pressure
        yield _shown(shown, count, pressure)


def _read(job: Job, shown: UnitSet) -> Iterator[Dot]:
    for each in counts(job):
        if each.reading.pressure is not None:
            pressure = each.reading.pressure.value
            yield _shown(shown, each.volume, pressure)


def _shown(shown: UnitSet, volume: float, pressure: float) -> Dot:
    return to_unit(volume, shown.unit("volume")), to_unit(pressure, shown.unit("pressure"))


def _drawn(
    shown: UnitSet, expected: list[Dot], read: list[Dot], width: int, rows: int
) -> list[Content]:
    high, plot = rows - 3, width - AXIS - 1
    top = _round_up(max(value for _, value in (*expected, *read)) or 1.0)
    last = _round_up(max(volume for volume, _ in (*expected, *read)) or 1.0)
    cells: dict[tuple[int, int], str] = {}
    for dots, mark in ((expected, EXPECTED), (read, READ)):
        for volume, value in dots:
            row = high - 1 - min(high - 1, int(max(0.0, value) / top * (high - 1) + 0.5))
            cells[row, min(plot - 1, int(volume / last * (plot - 1) + 0.5))] = mark
    lines = [_heading(shown, width)]
    for row in range(high):
        value = top * (high - 1 - row) / (high - 1)
        lines.append(_row(cells, row, width, f"{value:,.0f}" if row % 3 == 0 else ""))
    ruled = "+" + "-" * (plot - 1)
    lines.append(Line(width).put(AXIS, ruled, QUIET).content())
    marks = Line(width)
    for part in range(5):
        place = AXIS + int(plot * part / 5)
        marks.put(place, f"{last * part / 5:,.0f}", QUIET)
    lines.append(marks.end(width, shown.unit("volume"), QUIET).content())
    return lines


def _heading(shown: UnitSet, width: int) -> Content:
    key = f"{EXPECTED} expected   {READ} read"
    return Line(width).put(1, shown.unit("pressure"), QUIET).end(width, key, QUIET).content()


def _row(cells: dict[tuple[int, int], str], row: int, width: int, label: str) -> Content:
    drawn = Line(width).end(AXIS - 1, label, QUIET).put(AXIS, "|", QUIET)
    marks = sorted((column, mark) for (at, column), mark in cells.items() if at == row)
    for column, mark in marks:
        drawn.put(AXIS + 1 + column, mark, BOLD if mark == READ else INK)
    return drawn.content()


def _round_up(value: float) -> float:
    """Return the next number that divides into even parts.

    >>> _round_up(1193.0), _round_up(597.1), _round_up(0.7)
    (1500.0, 600.0, 0.8)
    """
    power = 1.0
    while power * 10 < value:
        power *= 10
    while power > value:
        power /= 10
    return next(step * power for step in STEPS if step * power >= value)
