"""What was read and seen at the steps of the checklists, as figures and as yes or no."""

from __future__ import annotations

from tally.errors import ShoedownError
from tally.job.job import Job, StepRecord
from tally.reports.fields import step_record
from tally.reports.witsml.extra import Extra
from tally.reports.witsml.uom import Amount
from tally.steps.model import Step
from tally.units import read

_BUMPED = {"rose sharply and stands": True, "no rise up to the volume limit": False}
_HELD = {"flow stopped and stayed stopped": True, "flow goes on": False}
_SAID = (
    ("line-test", "line test, pressure held"),
    ("bottom-plug-released", "bottom plug released"),
    ("top-plug-released", "top plug released"),
    ("displacement-started", "returns at the start of the displacement"),
    ("diaphragm-gave-way", "diaphragm gave way, pressure rise"),
    ("returns-to-end", "returns to the end of the displacement"),
    ("bumped", "plug bumped"),
    ("bump-volume", "volume at the bump"),
    ("counts-compared", "tank count less stroke count"),
    ("casing-test", "casing test, pressure held"),
    ("bled-back", "volume bled back"),
    ("floats-held", "floats"),
    ("waiting-started", "waiting on cement began, casing left"),
)


def done(job: Job, step_id: str) -> StepRecord | None:
    """Return the record of a step that was done."""
    record = step_record(job, step_id)
    return record if record is not None and record.outcome == "done" else None


def measured(job: Job, step_id: str) -> Amount | None:
    """Return the figure that was read at a step, in SI."""
    record, step = done(job, step_id), _step(job, step_id)
    if record is None or step is None or not record.value or not step.quantity:
        return None
    try:
        return Amount(read(record.value, step.quantity).value, step.quantity)
    except ShoedownError:
        return None


def moment(job: Job, step_id: str) -> str:
    """Return when a step was done; nothing where it was not."""
    record = done(job, step_id)
    return record.at if record else ""


def was_done(job: Job, step_id: str) -> bool | None:
    """Return whether a step was done; nothing where nobody entered it."""
    record = step_record(job, step_id)
    return None if record is None else record.outcome == "done"


def bumped(job: Job) -> bool | None:
    """Return whether the plug bumped; nothing where what was seen says neither."""
    return _as_seen(job, "bumped", _BUMPED)


def floats_held(job: Job) -> bool | None:
    """Return whether the floats held; nothing where what was seen says neither."""
    return _as_seen(job, "floats-held", _HELD)


def _as_seen(job: Job, step_id: str, means: dict[str, bool]) -> bool | None:
    record = done(job, step_id)
    return means.get(record.state) if record else None


def seen(job: Job) -> list[Extra]:
    """Return what was read or seen at each step with its moment, in the words of its list."""
    return [
        Extra(name, measured(job, step_id) or record.state or record.outcome, record.at)
        for step_id, name in _SAID
        if (record := done(job, step_id)) is not None
    ]


def _step(job: Job, step_id: str) -> Step | None:
    return next(
        (step for plan in job.lists.values() for step in plan.steps if step.id == step_id), None
    )
