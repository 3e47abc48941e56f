"""Gain and loss of the trip tank against the items run, since the mark of its total."""

from __future__ import annotations

from textual.content import Content

from screens.ink import QUIET, line
from screens.widgets.chart import LEFT, Axis, Dots, chart, evenly, round_up
from tally.job.job import Job
from tally.job.tank import looks_since, mark
from tally.units import to_unit


def tank_chart(job: Job, width: int, rows: int) -> list[Content]:
    """Return the chart in so many rows under the mark it counts from; or why there is none."""
    shown = job.known.shown
    unit = shown.unit("volume")
    read = [(look.level.items, to_unit(look.out, unit)) for look in looks_since(job)]
    if len(read) < 2:
        return [line("The trip tank is not read twice yet: r on the page.", QUIET)]
    limit = job.known.limit("tank_total")
    bound = to_unit(limit.value, unit) if limit is not None else 0.0
    most = round_up(1.2 * max(bound, *(abs(volume) for _, volume in read)) or 1.0)
    first, last = float(read[0][0]), float(max(read[-1][0], read[0][0] + 1))
    across = list(evenly(first, last, 2 * (width - LEFT)))
    drawn = [Dots("-", "as expected", [(items, 0.0) for items in across])]
    if limit is not None:
        edges = [(items, edge) for items in across for edge in (bound, -bound)]
        drawn.append(Dots("=", f"limit {limit.text}", edges))
    drawn.append(Dots("*", "read", read, bold=True))
    return [
        line(f"above the line gained, under it lost, since {mark(job)}", QUIET),
        *chart(Axis("items run", first, last), Axis(unit, -most, most), drawn, width, rows - 1),
    ]
