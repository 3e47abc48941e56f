"""Waiting on cement: since when, what each rule asks, what is left, and what is in doubt."""

from __future__ import annotations

from textual.content import Content

from screens.ink import ATTENTION, BOLD, INK, QUIET, Line, cut, line, rule, wrap
from tally.errors import Missing
from tally.job.entry import clock
from tally.job.figures import show
from tally.job.job import Job
from tally.job.waiting import HABIT, Cured, Waited, cured, gone, governing, hours, in_place, waits
from tally.job.waiting_rules import asks

MOST = 4
"""Rules shown on the page; the figures show them all."""


def waiting_headline(job: Job, now: str, width: int) -> list[Content]:
    """Return since when the cement is in place, how long that is, and what is left."""
    since, passed = in_place(job), gone(job, now)
    if since is None or passed is None:
        first = line("CEMENT NOT IN PLACE YET: the clock starts at the bump", BOLD)
        return [first, line(cut(HABIT, width), QUIET)]
    text = f"WAITED {hours(passed)}   {_left(job, passed)}"
    how = f"In place since {clock(since.at)}, {since.how}. {HABIT}"
    return [line(cut(text, width), BOLD), line(cut(how, width), QUIET)]


def _left(job: Job, passed: float) -> str:
    """Return what is left by the rule that governs, in words."""
    try:
        governs = governing(waits(job))
    except Missing:
        return "no rule is confirmed for the place"
    left = governs.left(passed)
    if left is None:
        return f"what is left cannot be told: {governs.wait.lacks}"
    if not left:
        return f"the time of {governs.rule.name} has passed"
    return f"LEFT {hours(left)}   {governs.rule.name}"


def waiting_lines(job: Job, now: str, width: int) -> list[Content]:
    """Return the rules with what is left of each, the laboratory, and what is not allowed."""
    if job.setup is None:
        return []
    try:
        found = waits(job)
    except Missing as lack:
        return [*wrap(f"{lack} r picks and confirms them.", width, ATTENTION), line("")]
    return [
        rule(width, (8, "rule"), (width - 16, "to wait"), (width, "left")),
        *_rules(job, found, gone(job, now), width),
        *_confirmed(job, width),
        *_laboratory(job, cured(job), width),
        *_meanwhile(found, width),
        line(""),
    ]


def _rules(job: Job, found: tuple[Waited, ...], passed: float | None, width: int) -> list[Content]:
    governs = governing(found)
    shown = [governs, *(each for each in found if each is not governs)]
    lines = [_rule(job, each, passed, width, each is governs) for each in shown[:MOST]]
    more = len(shown) - MOST
    return [*lines, line(f"and {more} more: figure waiting_needed", QUIET)] if more > 0 else lines


def _rule(job: Job, one: Waited, passed: float | None, width: int, governs: bool) -> Content:
    drawn = Line(width).put(0, ">" if governs else " ", BOLD)
    room = width - 28
    drawn.put(1, cut(f"{one.rule.name}: {asks(one.rule)}", room), BOLD if governs else INK)
    if one.wait.time is None:
        return drawn.end(width, "not known", ATTENTION).content()
    left = one.left(passed) if passed is not None else None
    told = "-" if left is None else hours(left) if left else "passed"
    style = ATTENTION if left else INK
    drawn.end(width - 16, hours(one.wait.time), INK)
    return drawn.end(width, told, style).content()


def _confirmed(job: Job, width: int) -> list[Content]:
    assert job.picked is not None  # waits() has refused a job without rules
    text = f"confirmed for the place by {job.picked.confirmed}, {clock(job.picked.at)}"
    text += f": {job.picked.reason}" if job.picked.reason else ""
    return [line(cut(text, width), QUIET)]


def _laboratory(job: Job, lab: Cured | None, width: int) -> list[Content]:
    if lab is None:
        return [line("laboratory: no strength is in the job set-up", QUIET)]
    last = lab.curve.readings[-1]
    at = f", cured at {lab.temperature.text}" if lab.temperature else ""
    slurry = f"{lab.slurry}, " if lab.slurry else ""
    text = f"laboratory: {slurry}{show(job, last[1], 'pressure')} at {hours(last[0])}{at}"
    return [
        line(cut(text, width), QUIET),
        *(wrap(lab.doubt, width, ATTENTION) if lab.doubt else ()),
    ]


def _meanwhile(found: tuple[Waited, ...], width: int) -> list[Content]:
    """Return what the rules do not allow until then."""
    named = [each.strip() for one in found for each in one.rule.meanwhile.split(",")]
    words = ", ".join(dict.fromkeys(each for each in named if each))
    return wrap(f"not allowed meanwhile: {words}", width, ATTENTION) if words else []
