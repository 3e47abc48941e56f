"""The volumes of the string: this item and in total."""

from __future__ import annotations

from textual.content import Content

from screens.ink import INK, QUIET, Line, line
from tally.job.figures import figure, show
from tally.job.job import Job

_PAIRS = (
    ("displaced, open end", "item_displaced_open", "displaced_open"),
    ("displaced, closed end", "item_displaced_closed", "displaced_closed"),
    ("contents", "item_capacity", "casing_capacity"),
)
_TOTALS = (
    ("fluid in the pipe", "filled"),
    ("fill to the top", "room"),
    ("empty from the top", "empty_length"),
    ("annulus, shoe to surface", "annulus_volume"),
    ("weight in mud, full pipe", "weight_in_mud"),
    ("head to collar", "displacement_to_collar"),
    ("shoe track", "shoe_track_volume"),
)


def volume_lines(job: Job, width: int) -> list[Content]:
    """Return the volumes, the last item beside the whole string."""
    middle = width - 12
    lines = [Line(width).end(middle, "last item", QUIET).end(width, "in total", QUIET).content()]
    for label, item, total in _PAIRS:
        lines.append(_pair(job, width, label, item, total))
    lines.append(line(""))
    lines += [_pair(job, width, label, "", total) for label, total in _TOTALS]
    return lines


def _pair(job: Job, width: int, label: str, item: str, total: str) -> Content:
    drawn = Line(width).put(0, label, QUIET)
    if item:
        drawn.end(width - 12, _shown(job, item), INK)
    return drawn.end(width, _shown(job, total), INK).content()


def _shown(job: Job, key: str) -> str:
    one = figure(job, key)
    return show(job, one.value, one.quantity)
