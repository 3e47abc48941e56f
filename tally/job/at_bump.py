"""The volume given with the bump: what a person says was displaced when the plug seated."""

from __future__ import annotations

from tally.job.job import Job, StepRecord
from tally.units import Measure, read

BUMP_VOLUME = "bump-volume"
"""The step that asks for it, in whichever list has it."""


def bump_volume(job: Job) -> Measure | None:
    """Return the volume given with the bump; nothing until it is given."""
    record = volume_record(job)
    if record is None or record.outcome != "done" or not record.value:
        return None
    return read(record.value, "volume")


def volume_record(job: Job) -> StepRecord | None:
    """Return what was entered at the step that asks for the volume at the bump."""
    return next((one for (_list, step), one in job.steps.items() if step == BUMP_VOLUME), None)
