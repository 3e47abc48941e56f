"""The pipe list as a CSV file: what came on location and is still there, to be read in again.

RFC 4180, UTF-8; lengths are running lengths in plain digits, text guarded. Reading it into a book
gives the same numbers, lengths, pipe, serial and heat numbers.
"""

from __future__ import annotations

from tally.job.job import SENT_AWAY, Item, Job
from tally.reports.guard import Number, record


def pipe_list_csv(job: Job) -> str:
    """Return one line for each item that was received, in the order of the book."""
    here = [item for item in job.items.values() if item.received and item.state != SENT_AWAY]
    return record(pipe_list_header(job)) + "".join(record(_line(job, item)) for item in here)


def pipe_list_header(job: Job) -> tuple[str, ...]:
    """Return the names of the columns; the length says that it is running, and its unit."""
    length = f"running_length_{job.known.step.unit}"
    return ("number", length, "kind", "pipe", "serial", "heat", "remarks")


def _line(job: Job, item: Item) -> tuple[str, ...]:
    return (
        item.number,
        Number(job.known.step.show(item.length)),
        item.kind,
        job.known.pipe(item.pipe).name,
        item.serial,
        item.heat,
        item.description,
    )
