"""Whether the shoe is suspect, and why."""

from __future__ import annotations

from tally.job.figures.model import CALCULATED, Figure, Input, Missing, live
from tally.job.job import Job


@live("shoe_suspect", "Reasons to doubt the shoe")
def shoe_suspect(job: Job) -> Figure:
    """Return how many reasons there are that no test has cleared, each as an input."""
    from tally.job.wet_shoe import suspect

    if job.zeroed is None and not job.started:
        raise Missing("The top plug is not released yet.")
    found = suspect(job)
    inputs = tuple(
        Input(f"entry {each.seq}", each.why, "text", CALCULATED, "wet-shoe guard") for each in found
    )
    how = "over-displacement, bump, floats and fluid pumped back, less what a test has cleared"
    return Figure(len(found), "count", how, inputs)
