"""The live figures of a job: each computed in one place, from what was run.

A room is read in when one of its figures is asked for: a page that shows how the pipe runs in
need not wait for the arithmetic of cement.
"""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module

from tally.errors import InputError
from tally.job.figures.model import CATALOGUE, HOMES, TALLY, Figure, Input, Live, show
from tally.job.job import Job

__all__ = ["TALLY", "Figure", "Input", "all_figures", "catalogue", "figure", "show"]

_ROOMS = (
    *("running", "volumes", "weights", "ahead", "filling", "tank", "circulating", "lowering"),
    *("surge", "moving", "standoff", "mud", "pumping", "programme", "floats", "bumping"),
    *("placing", "lifting", "mixing", "shoe", "waiting"),
)
_ORDER = {f"{__name__}.{room}": place for place, room in enumerate(_ROOMS)}


def figure(job: Job, key: str) -> Figure:
    """Return one live figure."""
    for room in _ORDER:
        if key in CATALOGUE:
            break
        import_module(room)
    if key not in CATALOGUE:
        raise InputError(f"There is no figure '{key}'; `shoedown figures` lists them all.")
    return CATALOGUE[key](job)


def catalogue() -> Mapping[str, Live]:
    """Return every live figure by its key."""
    for room in _ORDER:
        import_module(room)
    return CATALOGUE


def all_figures(job: Job) -> tuple[Figure, ...]:
    """Return every live figure, in the order of the catalogue."""
    by_room = sorted(catalogue(), key=lambda key: _ORDER[HOMES[key]])
    return tuple(CATALOGUE[key](job) for key in by_room)
