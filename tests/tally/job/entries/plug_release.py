"""The list of plug release, as the tests of steps work it."""

from tests.tally.job.invented import REP

RELEASE = {"list_id": "plug-release"}


def record(job, step_id, list_id="plug-release"):
    """Return what is kept of a step."""
    return job.steps[list_id, step_id]


def released(told, **seen):
    """Release the bottom plug."""
    seen = {"state": "indicator moved", "witness": REP, **seen}
    return told.does("plug-release", "bottom-plug-released", **seen)
