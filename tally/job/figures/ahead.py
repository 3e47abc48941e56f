"""Figures of the weights ahead: down to the casing point, by the running list."""

from __future__ import annotations

from tally.job.figures.model import TYPED, Figure, Input, Missing, calculated, live, typed
from tally.job.figures.weights import as_it_stands, frictions
from tally.job.geometry import Last
from tally.job.job import Job
from tally.job.weight_band import depths_ahead, weight_band
from tally.string.drag import Weights


@live("slack_off_ahead", "Least weight expected going down, to the casing point")
def slack_off_ahead(job: Job) -> Figure:
    """Return the least weight going down from here to the casing point, the pipe full."""
    rows = _ahead(job, "slack_off")
    how = "weight against depth with the pipe still to run, full pipe; least of those going down"
    return Figure(min(load for _, load in rows), "force", how, _inputs(job, rows))


@live("pick_up_ahead", "Greatest weight expected coming up, to the casing point")
def pick_up_ahead(job: Job) -> Figure:
    """Return the greatest weight coming up from here to the casing point, the pipe full."""
    rows = _ahead(job, "pick_up")
    how = "weight against depth with the pipe still to run, full pipe; greatest of those coming up"
    return Figure(max(load for _, load in rows), "force", how, _inputs(job, rows))


def _ahead(job: Job, which: str) -> list[tuple[float, float]]:
    if not job.string:
        raise Missing("Nothing is run yet.")
    return [(depth, getattr(each, which)) for depth, each in band_ahead(job)]


def _band_ahead(job: Job) -> tuple[tuple[float, Weights], ...]:
    depths = depths_ahead(job)
    return tuple(zip(depths, weight_band(job, depths), strict=True))


band_ahead = Last(_band_ahead)
"""The weights to expect from here to the casing point, by depth of the shoe [m]."""


def _inputs(job: Job, rows: list[tuple[float, float]]) -> tuple[Input, ...]:
    shown, where = job.known.shown, "soft string along the survey"
    points = (
        calculated(f"with the shoe at {shown.show(depth, 'length')}", load, "force", where)
        for depth, load in rows
    )
    still = Input("pipe still to run", "as the running list has it", "text", TYPED, "running list")
    point = typed("casing point", job.known.hole.casing_point)
    return (*points, point, still, *as_it_stands(job), *frictions(job))
