"""Fields of the reports: a label and what the book has of it, or that it has nothing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tally.job.figures import show
from tally.job.job import Job, StepRecord
from tally.reports.final_tally import FinalTally
from tally.reports.text_parts import stamp, who
from tally.units import Measure

NOT_RECORDED = "not recorded"
Field = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Fields:
    """Fields under one title."""

    title: str
    fields: tuple[Field, ...]


def fields(title: str, told: Iterable[tuple[str, str | None]]) -> Fields:
    """Return fields; what the book does not have is said to be not recorded."""
    return Fields(title, tuple((label, value or NOT_RECORDED) for label, value in told))


def typed(measure: Measure | None) -> str:
    """Return a value of the set-up as it was typed."""
    return measure.text if measure else ""


def reckoned(tally: FinalTally, key: str) -> str:
    """Return a live figure with its unit; what it lacks where it has no value."""
    figure = tally.figures[key]
    if figure.value is None:
        return f"not worked out: {figure.missing}"
    return show(tally.job, figure.value, figure.quantity)


def depth_told(tally: FinalTally, metres: float) -> str:
    """Return a depth or a length in the unit of the tally."""
    step = tally.setup.step
    return step.with_unit(step.steps(metres))


def step_record(job: Job, step_id: str) -> StepRecord | None:
    """Return what was entered for a step, in whichever list has it."""
    return next((one for (_, each), one in job.steps.items() if each == step_id), None)


def step_told(job: Job, step_id: str) -> str:
    """Return what was seen at a step, by whom and when."""
    record = step_record(job, step_id)
    if record is None:
        return ""
    note = f" ({record.note})" if record.note else ""
    return f"{seen(record)}{note}; {who(record.by, record.at)}"


def step_at(job: Job, step_id: str) -> str:
    """Return when a step was done."""
    record = step_record(job, step_id)
    return stamp(record.at) if record is not None and record.outcome == "done" else ""


def seen(record: StepRecord) -> str:
    """Return what was seen or measured at a step, or that it was not done."""
    if record.outcome != "done":
        return record.outcome
    return ", ".join(part for part in (record.state, record.value) if part) or "done"
