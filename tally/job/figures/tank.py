"""Figures of the trip tank: since the last reading, and since the mark."""

from __future__ import annotations

from tally.job.figures.model import CALCULATED, READ, Figure, Input, Missing, live
from tally.job.figures.volumes import let_in_by
from tally.job.job import Job
from tally.job.tank import TankCheck, last_reading, since_mark


@live("tank_expected", "Trip tank, last reading, expected")
def tank_expected(job: Job) -> Figure:
    """Return the change that the string and the fills should have made."""
    return _figure(job, last_reading(job), "expected")


@live("tank_seen", "Trip tank, last reading, seen")
def tank_seen(job: Job) -> Figure:
    """Return the change that was read."""
    return _figure(job, last_reading(job), "seen")


@live("tank_difference", "Trip tank, last reading, difference")
def tank_difference(job: Job) -> Figure:
    """Return seen less expected at the last reading."""
    return _figure(job, last_reading(job), "difference")


@live("tank_total_expected", "Trip tank, in all, expected")
def tank_total_expected(job: Job) -> Figure:
    """Return the change expected over all readings."""
    return _figure(job, since_mark(job), "expected")


@live("tank_total_seen", "Trip tank, in all, seen")
def tank_total_seen(job: Job) -> Figure:
    """Return the change read over all readings."""
    return _figure(job, since_mark(job), "seen")


@live("tank_total_difference", "Trip tank, in all, difference")
def tank_total_difference(job: Job) -> Figure:
    """Return seen less expected over all readings."""
    return _figure(job, since_mark(job), "difference")


def _figure(job: Job, check: TankCheck | None, part: str) -> Figure:
    if check is None:
        raise Missing("The trip tank was not read twice since its mark.")
    how = let_in_by(job)
    formula = {
        "expected": f"displaced by the items run between ({how}) - fill drawn from the trip tank",
        "seen": "level now - level before",
        "difference": "seen - expected",
    }[part]
    inputs = (
        Input("counted from", check.since, "text", READ, "entries"),
        Input("items run between", check.items, "count", READ, "entries"),
        Input("expected", check.expected, "volume", CALCULATED, "items run and fills"),
        Input("seen", check.seen, "volume", READ, f"entry {job.tank[-1].seq}"),
    )
    return Figure(getattr(check, part), "volume", formula, inputs)
