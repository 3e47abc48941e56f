"""What holds the string while it is run: pull, weight going down, speed, standoff, each so far."""

from __future__ import annotations

from textual.content import Content

from screens.ink import ATTENTION, INK, QUIET, Line, line, wrap
from tally.job.figures import Figure, figure, show
from tally.job.figures.weights import GOVERNS
from tally.job.job import Job

_PARTS = (
    ("pull", ("greatest_pull", "greatest_indicator", "pick_up", "pick_up_ahead")),
    ("weight going down", ("slack_off", "least_slack_off", "slack_off_left", "slack_off_ahead")),
    ("speed", ("fastest_lowering", "least_lowering", "lowering_seen", "fastest_pulling")),
    ("pipe moved up and down", ("moving_speed", "moving_left")),
    ("standoff so far", ("standoff_least", "standoff_under", "standoff_contact")),
)
BELOW_IS_BAD = ("slack_off_left", "lowering_seen", "moving_left")
"""Figures that are a distance to a limit; below nothing the limit is broken."""


def limit_lines(job: Job, width: int) -> list[Content]:
    """Return each figure with what governs it; where one is not known, what is missing."""
    lines: list[Content] = []
    for title, keys in _PARTS:
        made = [figure(job, key) for key in keys]
        lines += [line(title, QUIET), *_known(job, width, made), *_lacking(width, made)]
    return lines


def pull_line(job: Job) -> str:
    """Return the greatest pull and what the indicator shows then, or what is missing for it."""
    pull, shows = figure(job, "greatest_pull"), figure(job, "greatest_indicator")
    if pull.value is None:
        return f"The greatest pull is not known. {pull.missing}"
    by = next((f" by {each.value}" for each in pull.inputs if each.name == GOVERNS), "")
    indicator = f"; {show(job, shows.value, 'force')} on the indicator" if shows.value else ""
    return f"Greatest pull beyond the weight {show(job, pull.value, 'force')}{by}{indicator}"


def _known(job: Job, width: int, made: list[Figure]) -> list[Content]:
    return [each for one in made if one.value is not None for each in _figure(job, width, one)]


def _figure(job: Job, width: int, one: Figure) -> list[Content]:
    bad = one.key in BELOW_IS_BAD and float(one.value or 0) < 0
    value, style = show(job, one.value, one.quantity), ATTENTION if bad else INK
    governs = next((f"by {each.value}" for each in one.inputs if each.name == GOVERNS), "")
    first = Line(width).put(1, one.label)
    if not governs and len(one.label) + len(value) + 4 <= width:
        return [first.end(width, value, style).content()]
    room = width - len(value) - 6
    below = Line(width).put(3, governs[:room], QUIET).end(width, value, style)
    return [first.content(), below.content()]


def _lacking(width: int, made: list[Figure]) -> list[Content]:
    """Return what is missing, each sentence once."""
    told = dict.fromkeys(one.missing for one in made if one.value is None)
    return [each for sentence in told for each in wrap(f" {sentence}", width, QUIET)]
