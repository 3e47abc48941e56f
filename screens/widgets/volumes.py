"""The volumes of the string, this item and in total; the weights to expect; the next fill."""

from __future__ import annotations

from textual.content import Content

from screens.ink import ATTENTION, INK, QUIET, Line, line
from tally.job.blind import HIDDEN, in_sight
from tally.job.figures import Figure, figure, show
from tally.job.figures.filling import OPEN_ENDED
from tally.job.figures.weights import GOVERNS, LEAST, NOT_COUNTED
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
_LET_IN = (("let in at the foot", "let_in"),)
_PUMPING = (
    ("pocket, below the shoe", "pocket_volume"),
    ("weight less lift, conditioning", "lift_conditioning"),
    ("weight less lift, before bump", "lift_bump"),
    ("pull at the top at the bump", "tension_bump"),
)
"""What is shown once the string is on depth."""


def volume_lines(job: Job, width: int) -> list[Content]:
    """Return the volumes, the last item beside the whole string."""
    middle = width - 12
    lines = [Line(width).end(middle, "last item", QUIET).end(width, "in total", QUIET).content()]
    for label, item, total in _PAIRS:
        lines.append(_pair(job, width, label, item, total))
    lines.append(line(""))
    lines += [_pair(job, width, label, "", total) for label, total in _TOTALS]
    lines += _known(job, width, _LET_IN)
    below = [*_weights(job, width), *_next_fill(job, width)]
    return [*lines, line(""), *below] if below else lines


def _weights(job: Job, width: int) -> list[Content]:
    """Return the weights to expect and the greatest pull; what was not set up is left out."""
    lines = [*_down(job, width), *_known(job, width, (("weight expected, up", "pick_up"),))]
    if job.landing is not None:
        lines += _known(job, width, _PUMPING)
    pull = figure(job, "greatest_pull")
    if pull.value is None:
        return lines
    among = "" if _named(pull, NOT_COUNTED) == "nothing" else ", of those set"
    label, value = "greatest pull beyond weight", _shown(job, "greatest_pull")
    return [*lines, *_governed(width, label, value, f"{_named(pull, GOVERNS)}{among}")]


def _down(job: Job, width: int) -> list[Content]:
    """Return the weight going down, with the least that a named person set."""
    if figure(job, "slack_off").value is None:
        return []
    label, value = "weight expected, down", _shown(job, "slack_off")
    left, limit = figure(job, "slack_off_left").value, job.known.limits.get(LEAST)
    if left is None or limit is None:
        return _governed(width, label, value, "")
    under = float(left) < 0
    told = f"{'UNDER the ' if under else ''}least {limit.text}, {limit.owner}"
    return _governed(width, label, value, told, ATTENTION if under else INK)


def _known(job: Job, width: int, pairs: tuple[tuple[str, str], ...]) -> list[Content]:
    known = [pair for pair in pairs if figure(job, pair[1]).value is not None]
    return [_pair(job, width, label, "", total) for label, total in known]


def _next_fill(job: Job, width: int) -> list[Content]:
    """Return how many joints may be run before the pipe is filled, and what governs."""
    due = figure(job, "fill_joints")
    if due.value is None or job.landing is not None:
        return []
    governs, joints = _named(due, GOVERNS), int(due.value)
    if governs.startswith(OPEN_ENDED):
        return _governed(width, "fill", f"not within {joints} joints", "")
    if not joints:
        return _governed(width, "fill", "now", governs, ATTENTION)
    return _governed(width, "fill", f"within {joints} joint{'' if joints == 1 else 's'}", governs)


def _governed(width: int, label: str, value: str, governs: str, style: str = INK) -> list[Content]:
    """Return a value with what governs it between, or below where there is no room."""
    drawn = Line(width).put(0, label, QUIET).end(width, value, style)
    if not governs:
        return [drawn.content()]
    if len(label) + len(governs) + len(value) + 4 <= width:
        return [drawn.put(len(label) + 2, governs, QUIET).content()]
    return [drawn.content(), line(f"  {governs}"[:width], QUIET)]


def _named(made: Figure, name: str) -> str:
    return next((str(one.value) for one in made.inputs if one.name == name), "")


def _pair(job: Job, width: int, label: str, item: str, total: str) -> Content:
    drawn = Line(width).put(0, label, QUIET)
    if item:
        drawn.end(width - 12, _shown(job, item), INK)
    return drawn.end(width, _shown(job, total), INK).content()


def _shown(job: Job, key: str) -> str:
    one = in_sight(job, key)
    if one.missing == HIDDEN:
        return "hidden, the second person first"
    return show(job, one.value, one.quantity)
