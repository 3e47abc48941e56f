"""The condition of the mud in full: targets, wanted values, and the pressure at each rate."""

from __future__ import annotations

from textual.content import Content

from screens.ink import ATTENTION, INK, QUIET, STATES, Line, cut, line, rule, wrap
from screens.widgets.steps import state_of
from tally.job.entry import clock
from tally.job.figures import figure, show
from tally.job.figures.model import Figure
from tally.job.gates import applies
from tally.job.job import Job, StepRecord
from tally.job.mud import not_filled, pairs, pressure_at
from tally.steps.model import Checklist, Step

WIDTH = 70
SEEN, WANTED, STATE = 44, 58, 60
TARGETS = (
    ("annulus_volume", "circulated_annulus", "Bottoms up: the annulus"),
    ("casing_capacity", "circulated_casing", "Contents of the casing"),
)


def mud_lines(job: Job) -> list[Content]:
    """Return everything that is known of the condition of the mud."""
    if job.setup is None:
        return [line("The job is not set up yet.", QUIET)]
    return [
        *_circulated(job),
        line(""),
        *_pairs(job),
        line(""),
        *_steps(job),
        line(""),
        *_moved(job),
        *pipe_lines(job, WIDTH),
    ]


def _circulated(job: Job) -> list[Content]:
    """Return what was circulated beside each target."""
    lines = [rule(WIDTH, (13, "circulated"), (SEEN, "so far"), (WANTED, "target"))]
    seen = figure(job, "circulated")
    for key, times, label in TARGETS:
        lines.append(_target(job, label, figure(job, key), figure(job, times)))
    target = figure(job, "circulation_target")
    limit = job.known.limits.get("circulation_target")
    label = f"{limit.text} of the casing ({limit.owner})" if limit else "Share of the casing"
    lines.append(_target(job, label, target, seen))
    left = figure(job, "circulation_left")
    if seen.value is None:
        return [*lines, line(f" {seen.missing}", QUIET)]
    if left.value is None:
        return [*lines, line(f" {left.missing}", QUIET)]
    still = show(job, left.value, "volume")
    said = f" Left to the larger of one annulus and the target: {still}"
    return [*lines, line(said, ATTENTION if left.value else INK)]


def _target(job: Job, label: str, target: Figure, seen: Figure) -> Content:
    drawn = Line(WIDTH).put(1, cut(label, 32), QUIET)
    if target.value is None:
        return drawn.put(34, cut(target.missing, WIDTH - 34), QUIET).content()
    return (
        drawn.end(SEEN, show(job, seen.value, seen.quantity))
        .end(WANTED, show(job, target.value, target.quantity))
        .content()
    )


def _steps(job: Job) -> list[Content]:
    """Return what was entered for each step of the list that has something to be held against."""
    lines = [rule(WIDTH, (9, "seen"), (SEEN, "at the mud"))]
    for plan in job.lists.values():
        if plan.page == "mud":
            lines += [_step(job, plan, step) for step in plan.steps if _told(job, step)]
    return lines


def _told(job: Job, step: Step) -> bool:
    """Whether a step says something of the mud: what is read or seen, the hold point left out."""
    return step.want != "none" and not step.critical and applies(job, step)


def _step(job: Job, plan: Checklist, step: Step) -> Content:
    record: StepRecord | None = job.steps.get((plan.id, step.id))
    drawn = Line(WIDTH)
    if record is None:
        return drawn.put(1, cut(step.text, 32), QUIET).put(34, "not entered", QUIET).content()
    _, word = state_of(job, plan, step, record)
    seen = record.state or record.value or record.outcome
    style = STATES.get(word, INK)
    return (
        drawn.put(1, cut(step.text, 32), QUIET)
        .put(34, cut(seen, STATE - 35), INK)
        .put(STATE, word, style)
        .content()
    )


def _pairs(job: Job) -> list[Content]:
    """Return the pressure at each rate, and beside it what displacement takes at its own."""
    lines = [rule(WIDTH, (20, "pressure at rates"), (SEEN, "rate"), (WANTED, "pressure"))]
    for one in pairs(job):
        drawn = Line(WIDTH).put(1, f"circulated, {clock(one.at)}", QUIET)
        lines.append(drawn.end(SEEN, one.rate.text).end(WANTED, one.pressure.text).content())
    if not pairs(job):
        lines.append(line(" none noted yet: r notes one", QUIET))
    return [*lines, *_displaced(job)]


def _displaced(job: Job) -> list[Content]:
    read = next((one for one in reversed(job.pumped) if one.rate and one.pressure), None)
    if read is None or read.rate is None or read.pressure is None:
        return []
    drawn = Line(WIDTH).put(1, f"displacing, {clock(read.at)}", QUIET)
    drawn.end(SEEN, read.rate.text).end(WANTED, read.pressure.text)
    over = figure(job, "pressure_over_circulating")
    if pressure_at(job, read.rate.value) is None or over.value is None:
        return [drawn.content(), *wrap(f" {over.missing}", WIDTH - 1, QUIET)]
    more = show(job, over.value, over.quantity)
    return [drawn.content(), line(f" over the mud alone at that rate: {more}", INK)]


def _moved(job: Job) -> list[Content]:
    if job.moved is None:
        return [line(" Stroke of the pipe: not said yet (m)", QUIET)]
    by = f"{job.moved.by}, {clock(job.moved.at)}"
    return [line(f" Stroke of the pipe: {job.moved.stroke.text} ({by})", INK)]


def pipe_lines(job: Job, width: int) -> list[Content]:
    """Return how the pipe of the book differs from mud that was seen at its top, or nothing."""
    room = not_filled(job)
    if not room:
        return []
    said = (
        f"Mud was seen at the top, but by the fills entered the pipe still takes "
        f"{show(job, room, 'volume')}: f enters the fill."
    )
    return wrap(said, width, ATTENTION)
