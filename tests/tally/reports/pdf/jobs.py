"""Tallies for the tests of the PDF files: a long string, and a job cemented to the end."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from demo_db.play import entries as played
from tally.job.entries.landing import OnDepth
from tally.job.entries.people import SetUp
from tally.job.entries.pipe import Arrival, Received
from tally.job.entries.running import ItemRun
from tally.job.entry import Entry
from tally.job.fold import fold
from tally.job.job import Fitting
from tally.reports.final_tally import FinalTally, final_tally
from tally.units import read, unit_set
from tests.tally.job.invented import setup
from tests.tally.reports.jobs import HEAD


@cache
def demonstration(until: str = "end", units: str = "field") -> FinalTally:
    """Return the tally of the demonstration, its figures in one of the unit sets."""
    said = played(until)
    job = fold(said)
    job = replace(job, setup=replace(job.known, units=unit_set(units).name))
    return final_tally(job, said, (len(said), HEAD))


@cache
def long_string(joints: int, unit: str = "ft") -> FinalTally:
    """Return the tally of a string of so many joints, a centralizer on every third."""
    made = setup()
    deep = read(f"{12 * joints} m", "length")
    made = replace(
        made,
        hole=replace(made.hole, depth=deep, casing_point=deep),
        lengths=replace(made.lengths, unit=unit, stick_up=0),
        items=(),
        order=(),
        programme=(),
    )
    who = {"by": "Oda Linde", "at": "2026-05-02T06:00:00+02:00"}
    step = made.step
    arrivals = tuple(
        Arrival(number=str(n), length=step.steps(11.5 + n % 89 / 100), typed="-", pipe="9-5/8 47")
        for n in range(1, joints + 1)
    )
    bow = (Fitting("bow centralizer", "mid-joint"),)
    said: list[Entry] = [
        SetUp(setup=made, **who),
        Received(items=arrivals, source="list", **who),
        *(
            ItemRun(number=str(n), fittings=() if n % 3 else bow, **who)
            for n in range(1, joints + 1)
        ),
        OnDepth(stick_up=0, counted=0, typed="0", **who),
    ]
    numbered = [replace(entry, seq=seq) for seq, entry in enumerate(said, start=1)]
    return final_tally(fold(numbered), numbered, (len(numbered), HEAD))
