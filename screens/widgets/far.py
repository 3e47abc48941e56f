"""The figures of the floor in digits of five rows and more, each with its label beside it."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from screens.ink import ATTENTION, BOLD, QUIET, STOP, Line, line
from screens.widgets.age import age
from screens.widgets.large import huge
from screens.widgets.running import named
from tally.job import depths
from tally.job.counts import next_item
from tally.job.entry import clock, seconds_between
from tally.job.job import Job
from tally.job.tank import call, since_mark

FIGURES = 3
"""Rows of figures: the shoe, what is to go, and the next joint with gain or loss."""
LONGEST = 8
"""Letters of the longest figure expected: 12345.67."""
LABEL = 14
APART = 3

Told = tuple[str, tuple[tuple[str, str], ...]]
"""A figure, and the words beside it with their looks."""


def far_lines(job: Job, now: str, width: int, height: int) -> list[Content]:
    """Return the figures as large as the page allows."""
    wide, high = _size(width, height)
    rows = [[_shoe(job)], [_to_go(job)], [_next(job), _tank(job, now)]]
    lines: list[Content] = []
    for place, figures in enumerate(rows):
        lines += [line("")] * (1 if place and height >= FIGURES * (5 * high + 1) - 1 else 0)
        lines += _drawn(figures, width, wide, high)
    return lines


def _size(width: int, height: int) -> tuple[int, int]:
    """Return columns and rows of a dot: twice as many columns as rows, or nearly."""
    high = max(1, min((height - FIGURES + 1) // (5 * FIGURES), 3))
    wide = max(1, min(2 * high, (width - LABEL) // (4 * LONGEST)))
    return wide, high


def _drawn(figures: Sequence[Told], width: int, wide: int, high: int) -> list[Content]:
    rows, column = [Line(width) for _ in range(5 * high)], 0
    for text, words in figures:
        digits = huge(text, wide, high)
        looks = words[0][1] if words[0][1] in (STOP, ATTENTION) else BOLD
        for row, drawn in zip(rows, digits, strict=True):
            row.put(column, drawn, looks)
        column += len(digits[0]) + APART
        for row, (word, style) in zip(rows, words, strict=False):
            row.put(column, word, style)
        column += max(len(word) for word, _ in words) + APART
    return [row.content() for row in rows]


def _shoe(job: Job) -> Told:
    if not job.string:
        return "0", (("SHOE AT", BOLD), ("nothing is run", QUIET))
    step = job.known.step
    return step.show(depths.shoe_depth(job)), (("SHOE AT", BOLD), (step.unit, QUIET))


def _to_go(job: Job) -> Told:
    step, left = job.known.step, depths.to_go(job)
    if job.landing is not None:
        return step.show(abs(left)), ((f"ON DEPTH {clock(job.landing.at)}", BOLD),)
    word = ("TO GO", BOLD) if left >= 0 else ("PAST", ATTENTION)
    return step.show(abs(left)), (word, (step.unit, QUIET))


def _next(job: Job) -> Told:
    item = next_item(job)
    if item is None or job.landing is not None:
        return "-", (("NEXT", BOLD), ("no pipe", QUIET))
    number = item.number if item.number.isdigit() else "-"
    return number, (("NEXT", BOLD), (named(item), QUIET))


def _tank(job: Job, now: str) -> Told:
    check = since_mark(job)
    if check is None:
        return "-", (("TRIP TANK", BOLD), ("not read twice", QUIET))
    shown = job.known.shown
    text = shown.number(check.difference, "volume")
    state = call(check).upper()
    return text if text.startswith("-") else f"+{text}", (
        (state, STOP) if state else ("GAIN, LOSS", BOLD),
        (f"{shown.unit('volume')} since", QUIET),
        (check.since, QUIET),
        (f"read {age(seconds_between(job.tank[-1].at, now))} ago", QUIET),
    )
