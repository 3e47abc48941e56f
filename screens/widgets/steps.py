"""The lines of a checklist: each step, and the step at hand in full."""

from __future__ import annotations

from dataclasses import dataclass

from textual.content import Content

from screens.ink import ATTENTION, BOLD, INK, QUIET, STATES, Line, cut, line, rule, wrap
from screens.widgets.age import age
from tally.job.entry import clock, seconds_between
from tally.job.expected import expected, verdict
from tally.job.gates import applies
from tally.job.job import Job, StepRecord
from tally.job.limits import LIMITS
from tally.job.witnessing import signed_how
from tally.job.working import Left
from tally.steps.model import Checklist, Step

INDENT = 10
TO_CONFIRM = "witness to confirm"
LEAST = 14
"""Columns that the text of a step keeps beside what was seen."""


@dataclass(frozen=True, slots=True)
class StepLine:
    """One drawn line, and whether it belongs to the step at the cursor."""

    content: Content
    cursor: bool = False


def worked(job: Job, lists: tuple[Checklist, ...], width: int = 0) -> str:
    """Return how far each list is; without room for all, those that are not entered in full."""
    whole = "     ".join(f"{plan.title}: {_count(job, plan)}" for plan in lists)
    if not width or len(whole) <= width:
        return whole
    still = [plan for plan in lists if not _entered_in_full(job, plan)]
    return cut("  ".join(f"{plan.title}: {_count(job, plan)}" for plan in still), width)


def _entered_in_full(job: Job, plan: Checklist) -> bool:
    return all((plan.id, step.id) in job.steps for step in plan.steps if applies(job, step))


def left_lines(found: Left | None, now: str, width: int) -> list[Content]:
    """Return where a list was left, how long ago, and the way back to the start of its block."""
    if found is None:
        return []
    left = f"left {age(seconds_between(found.record.at, now))} ago after: {found.last.text}"
    back = f"backspace: back a block, to: {found.block.text}"
    return [line(cut(left, width), ATTENTION), line(cut(back, width), QUIET)]


def _count(job: Job, plan: Checklist) -> str:
    steps = [step for step in plan.steps if applies(job, step)]
    entered = sum((plan.id, step.id) in job.steps for step in steps)
    return f"{entered} of {len(steps)}"


def step_lines(
    job: Job, lists: tuple[Checklist, ...], here: tuple[Checklist, Step] | None, width: int
) -> list[StepLine]:
    """Return every line of the lists."""
    lines: list[StepLine] = []
    for plan in lists:
        title = f"{plan.title}, {_count(job, plan)}"
        lines.append(StepLine(rule(width, (len(title) + 6, title))))
        for step in plan.steps:
            if not applies(job, step):
                continue
            at_hand = here is not None and here[0].id == plan.id and here[1].id == step.id
            lines += _step(job, plan, step, width, at_hand)
    return lines


def _step(job: Job, plan: Checklist, step: Step, width: int, at_hand: bool) -> list[StepLine]:
    record = job.steps.get((plan.id, step.id))
    lines = [StepLine(_row(job, plan, step, record, width, at_hand), at_hand)]
    if at_hand:
        lines += [StepLine(each, True) for each in _detail(job, plan, step, record, width)]
    return lines


def _row(
    job: Job, plan: Checklist, step: Step, record: StepRecord | None, width: int, at_hand: bool
) -> Content:
    drawn = Line(width).put(0, ">" if at_hand else " ", BOLD)
    style = BOLD if at_hand else INK
    if record is None:
        mark = "!" if step.critical else "."
        return drawn.put(2, mark, QUIET).put(INDENT, step.text, style).content()
    mark, word = state_of(job, plan, step, record)
    state = max(len("outside"), len(word)) + 2
    room = width - INDENT - state
    seen = cut(record.state or record.value, room - LEAST)
    return (
        drawn.put(2, mark, STATES.get(word, INK))
        .put(4, clock(record.at), QUIET)
        .put(INDENT, cut(step.text, room - len(seen) - 2), QUIET)
        .end(width - state, seen, style)
        .end(width, word, STATES.get(word, INK))
        .content()
    )


def state_of(job: Job, plan: Checklist, step: Step, record: StepRecord) -> tuple[str, str]:
    """Return the mark and the word for a step that something is entered for."""
    if record.outcome != "done":
        return "-", record.outcome
    if step.critical and not record.witness:
        return "?", TO_CONFIRM
    word = verdict(job, plan, step, record.state, record.value)
    return "x", word or ("no limit set" if record.value and _unheld(job, plan, step) else "")


def _unheld(job: Job, plan: Checklist, step: Step) -> bool:
    """Whether a value has nothing to be held against because a limit is not set."""
    if expected(job, plan, step) is None:
        return step.expect.startswith("limit:")
    return step.compare == "agrees"


def _detail(
    job: Job, plan: Checklist, step: Step, record: StepRecord | None, width: int
) -> list[Content]:
    room = width - INDENT - 1
    lines: list[Content] = []
    if record is not None:
        lines += [_put(each) for each in wrap(_entered(step, record), room)]
    if step.detail:
        lines += [_put(each) for each in wrap(step.detail, room, QUIET)]
    lines += [_put(each) for each in wrap(_wanted(job, plan, step), room)]
    if step.caution:
        lines += [_put(each) for each in wrap(f"Caution: {step.caution}", room, QUIET)]
    return lines


def _put(content: Content) -> Content:
    return Content(" " * INDENT) + content


def _entered(step: Step, record: StepRecord) -> str:
    seen = record.state or record.value
    parts = [f"{record.outcome} by {record.by} at {clock(record.at)}"]
    parts += [seen] if seen else []
    if step.hold_point and record.outcome == "done":
        parts[0] = f"released by {signed_how(record.by, record.signed)} at {clock(record.at)}"
    parts += [f"given unseen by {record.given}"] if record.given else []
    if record.witness:
        parts.append(f"seen by {_seen_by(step, record)}")
    elif step.critical:
        parts.append("witness to confirm (k)")
    parts += [record.note] if record.note else []
    parts += [f"gate passed: {record.passed}"] if record.passed else []
    parts += ["say why it was passed (k)"] if not record.answered else []
    return "; ".join(parts)


def _seen_by(step: Step, record: StepRecord) -> str:
    return signed_how(record.witness, record.signed) if step.critical else record.witness


def _nothing(step: Step) -> str:
    """Return why a value has nothing to be held against."""
    kind, _, name = step.expect.partition(":")
    if kind == "limit" and name in LIMITS:
        return f"no limit is set ({LIMITS[name].meaning})"
    return "nothing expected yet" if step.expect else "as measured"


def _wanted(job: Job, plan: Checklist, step: Step) -> str:
    who = f"{step.who}" + (f", seen by {step.witness or 'another person'}" if step.critical else "")
    want = expected(job, plan, step)
    if step.blind and (plan.id, step.id) not in job.steps:
        return f"{who}; {step.quantity}: the expected value is shown once it is entered"
    if step.want == "state":
        by = f"; {want.text} ({want.origin})" if want else ""
        return f"{who}; wanted: {' or '.join(step.good)}{by}"
    if want is None:
        nothing = _nothing(step)
        return f"{who}; {step.quantity}: {nothing}" if step.want == "value" else who
    how = "" if step.compare == "agrees" else f"{step.compare} "
    return f"{who}; expected {how}{want.text} ({want.origin})"
