"""Whether the shoe is suspect, and why."""

from __future__ import annotations

from tally.job.figures.model import CALCULATED, Figure, Input, Missing, live
from tally.job.job import Job

LOOKED_AT = "over-displacement, bump, floats, fluid pumped back in, tests of the shoe"


@live("shoe_suspect", "Reasons to doubt the shoe")
def shoe_suspect(job: Job) -> Figure:
    """Return how many reasons there are that no test has cleared, each as an input."""
    from tally.job.wet_shoe import suspect

    if job.zeroed is None and not job.started:
        raise Missing("The top plug is not released yet.")
    found = suspect(job)
    looked = Input("looked at", LOOKED_AT, "text", CALCULATED, "entries of the job")
    reasons = tuple(
        Input(f"entry {each.seq}", each.why, "text", CALCULATED, "wet-shoe guard") for each in found
    )
    how = "reasons seen, less those that a test has cleared"
    return Figure(len(found), "count", how, (looked, *reasons))
