"""What an entry changed in the cementing programme, in a sentence."""

from __future__ import annotations

from tally.errors import ShoedownError
from tally.job import cement_job
from tally.job.counts import next_item
from tally.job.job import Job
from tally.job.planned_string import as_planned

_LEAST_VOLUME = 0.001
"""[m3]; a smaller change is rounding."""

_LEAST_LENGTH = 0.003
"""[m]"""


def programme_change(before: Job, after: Job) -> str:
    """Return what changed from one job to the next: "collar 41.2 ft higher: displacement ..."."""
    if before.setup is None or after.setup is None or _as_listed(before, after):
        return ""
    try:
        return _change(as_planned(before), as_planned(after))
    except ShoedownError:
        return ""


def _as_listed(before: Job, after: Job) -> bool:
    """Whether nothing was done to the string but running the item that was due, as listed."""
    if before.setup is not after.setup or before.landing is not after.landing:
        return False
    if before.items is after.items and before.order is after.order:
        return True
    due = next_item(before)
    if due is None or len(after.string) != len(before.string) + 1:
        return False
    made = after.string[-1]
    return after.string[:-1] == before.string and (made.number, made.length) == (
        due.number,
        due.length,
    )


def _change(before: Job, after: Job) -> str:
    shown = after.known.shown
    moved = cement_job.collar_depth(after) - cement_job.collar_depth(before)
    volume = cement_job.displacement(after) - cement_job.displacement(before)
    parts = []
    if abs(volume) >= _LEAST_VOLUME:
        parts.append(f"displacement {shown.show(abs(volume), 'volume')} {_more(volume)}")
    parts += _slurry(before, after)
    if abs(moved) >= _LEAST_LENGTH:
        way = "deeper" if moved > 0 else "higher"
        collar = f"collar {shown.show(abs(moved), 'length')} {way}"
        return f"{collar}: {', '.join(parts)}" if parts else collar
    return ", ".join(parts)


def _slurry(before: Job, after: Job) -> list[str]:
    """Return how the slurry changed, where the set-up has fluids to work it out with."""
    try:
        volume = cement_job.programme_of(after).slurry - cement_job.programme_of(before).slurry
    except ShoedownError:
        return []
    if abs(volume) < _LEAST_VOLUME:
        return []
    return [f"slurry {after.known.shown.show(abs(volume), 'volume')} {_more(volume)}"]


def _more(change: float) -> str:
    return "more" if change > 0 else "less"
