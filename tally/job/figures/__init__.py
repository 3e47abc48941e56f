"""The live figures of a job: each computed in one place, from what was run."""

from __future__ import annotations

from tally.errors import InputError
from tally.job.figures import (
    ahead,
    bumping,
    circulating,
    filling,
    floats,
    lifting,
    lowering,
    mixing,
    moving,
    mud,
    placing,
    programme,
    pumping,
    running,
    shoe,
    standoff,
    surge,
    tank,
    volumes,
    waiting,
    weights,
)
from tally.job.figures.model import CATALOGUE, HOMES, TALLY, Figure, Input, show
from tally.job.job import Job

__all__ = ["CATALOGUE", "TALLY", "Figure", "Input", "all_figures", "figure", "show"]

_ROOMS = (
    *(running, volumes, weights, ahead, filling, tank, circulating, lowering, surge, moving),
    *(standoff, mud, pumping, programme, floats, bumping, placing, lifting, mixing, shoe, waiting),
)
_ORDER = {room.__name__: place for place, room in enumerate(_ROOMS)}


def figure(job: Job, key: str) -> Figure:
    """Return one live figure."""
    if key not in CATALOGUE:
        raise InputError(f"There is no figure '{key}'; `shoedown figures` lists them all.")
    return CATALOGUE[key](job)


def all_figures(job: Job) -> tuple[Figure, ...]:
    """Return every live figure, in the order of the catalogue."""
    by_room = sorted(CATALOGUE, key=lambda key: _ORDER[HOMES[key]])
    return tuple(CATALOGUE[key](job) for key in by_room)
