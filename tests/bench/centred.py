"""Our sides of the measures of standoff: a whole string, and one joint run over it."""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from functools import cache

from tally.job.job import Fitting, Job
from tally.job.setup import CentralizerKind, Fluid
from tally.job.standoff import standoff_profile
from tally.units import read
from tests.bench.ours import weighed
from tests.bench.ratio import Sample

BOW = CentralizerKind(
    what="bow centralizer",
    kind="bow",
    outer_diameter=read("13.25 in", "diameter"),
    restoring_force=read("1600 lbf", "force"),
)
SLURRY = Fluid(name="slurry", kind="slurry", density=read("15.8 lb/gal", "density"))


@cache
def centred(run: int) -> Job:
    """Return the job with so many joints run, a bow on each, at the casing point."""
    job = weighed(run)
    on_it = (Fitting(BOW.what, "mid-joint"),)
    string = tuple(replace(made, fittings=on_it if made.joint else ()) for made in job.string)
    deep = read(f"{job.length / 100:.2f} ft", "length")
    hole = replace(job.known.hole, casing_point=deep, depth=deep)
    plan = replace(job.known, hole=hole, centralizers=(BOW,), fluids=(SLURRY,))
    return replace(job, setup=plan, string=string)


@contextmanager
def whole_string(run: int) -> Iterator[Sample]:
    """Yield a sample: the standoff of a string worked out from nothing [s]."""
    job = centred(run)
    if len(standoff_profile(job).rows) != run - 1:
        raise AssertionError(f"Not every length of {run} joints was worked out.")

    def sample() -> float:
        new = replace(job, setup=replace(job.known))
        began = time.perf_counter()
        standoff_profile(new)
        return time.perf_counter() - began

    yield sample


@contextmanager
def joint_added(run: int) -> Iterator[Sample]:
    """Yield a sample: the standoff once one more joint is run over a string known [s]."""
    job = centred(run)

    def sample() -> float:
        standoff_profile(replace(job, string=job.string[:-1]))
        new = replace(job)
        began = time.perf_counter()
        standoff_profile(new)
        return time.perf_counter() - began

    yield sample
