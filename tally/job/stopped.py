"""Whether something stops the run, and how that is said."""

from __future__ import annotations

from tally.job.entry import clock
from tally.job.flow import flowing
from tally.job.job import Job

STEPS_BACK = "the shut-in plan and the people in charge lead, not this book"


def stopped(job: Job) -> str:
    """Return why no pipe is run now, in a sentence, or nothing."""
    if job.shut_in is not None:
        return f"The well is shut in since {clock(job.shut_in.at)}; {STEPS_BACK}."
    seen = flowing(job)
    if seen is not None:
        return f"The well {seen.state} by the flow check of {clock(seen.at)}; {STEPS_BACK}."
    if job.stuck is not None:
        return f"The pipe is stuck since {clock(job.stuck.at)}."
    return ""
