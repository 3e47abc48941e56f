"""Our sides of the measures: a joint saved, a joint painted, a program started on a book."""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import datetime, timedelta
from functools import cache
from itertools import accumulate
from pathlib import Path

from tally.book.book import Book
from tally.job.counts import next_item
from tally.job.entries.running import ItemRun
from tally.job.entry import Entry
from tally.job.figures import (
    ahead,
    circulating,
    figure,
    filling,
    lowering,
    running,
    surge,
    tank,
    volumes,
    weights,
)
from tally.job.figures.model import HOMES
from tally.job.fittings import due_next
from tally.job.fold import fold
from tally.job.job import Job
from tally.job.lowering import fastest_at
from tally.job.running_records import Fill
from tally.job.setup import Filling, Limit, Setup, Station, Weights, Zone
from tally.job.volumes import capacity
from tally.job.weight_band import whole_string
from tally.string.space_out import space_out
from tally.string.space_out_question import Candidate, Question, Stretch, Wish
from tally.units import read
from tests.bench import minimal, timed
from tests.bench.ratio import Sample
from tests.screens.books import AMA, Story, setup

SPARE = 400
"""Joints left on the rack: enough for the rounds of one measure."""

MAY_LACK = {key for key in HOMES if key.startswith("tank_")} | {
    "circulation_target",
    "least_slack_off",
    "let_in",
    "pocket_volume",
    "slack_off_left",
}
"""Figures that the measured job has no readings for."""


@cache
def entries(run: int) -> tuple[Entry, ...]:
    """Return the entries of a job with so many joints run and enough left to go on."""
    joints = run + SPARE
    plan = setup(
        order=("S1", "1", "2", "C1", *(str(number) for number in range(3, joints + 1))), limits={}
    )
    deep = {name: read(f"{joints * 60} ft", "length") for name in ("depth", "casing_point")}
    story = Story()
    story.starts(replace(plan, hole=replace(plan.hole, **deep)), joints)
    story.runs(run + 2)
    return tuple(story.entries)


@contextmanager
def book_with(run: int) -> Iterator[Path]:
    """Yield the path of a new book with so many joints run."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "measured.book"
        Book.create(path, entries(run)).close()
        yield path


@contextmanager
def bare_insert() -> Iterator[Sample]:
    """Yield a sample: one row inserted and committed by sqlite3 [s]."""
    with tempfile.TemporaryDirectory() as folder, minimal.bare_insert(Path(folder)) as sample:
        yield sample


@contextmanager
def saved_joint(run: int) -> Iterator[Sample]:
    """Yield a sample: the next joint recorded in a book that is open [s]."""
    with book_with(run) as path, Book.open(path) as book:

        def sample() -> float:
            due = next_item(book.job)
            assert due is not None
            at = datetime.fromisoformat(book.job.last) + timedelta(minutes=5)
            entry = ItemRun(
                by=AMA, at=at.isoformat(), number=due.number, fittings=due_next(book.job)
            )
            began = time.perf_counter()
            book.record(entry)
            return time.perf_counter() - began

        yield sample


@cache
def weighed(run: int) -> Job:
    """Return the job with so many joints run and everything set that its figures want.

    The joints are of half the length, so that 2,000 of them are a string that can hang.
    """
    job = _halved(fold(entries(run)))
    pipes = tuple(replace(pipe, grade="Q-125") for pipe in job.known.pipes)
    gear = Weights(
        block_weight=read("45 klbf", "force"),
        friction_cased=read("0.2", "number"),
        friction_open=read("0.3", "number"),
        elevator_rating=read("9000 klbf", "force"),
        hoisting_rating=read("9000 klbf", "force"),
    )
    survey = tuple(
        Station(
            measured_depth=read(f"{place * 500} ft", "length"),
            inclination=read(f"{min(45, place)} deg", "angle"),
            azimuth=read(f"{100 + place % 7} deg", "angle"),
        )
        for place in range(run * 20 // 500)
    )
    filling = Filling(interval=10, float_rating=read("20000 psi", "pressure"))
    mud = replace(
        job.known.pumping,
        plastic_viscosity=read("18 cP", "viscosity"),
        yield_point=read("12 lbf/100ft2", "yield point"),
        conditioning_rate=read("8 bbl/min", "flow rate"),
        gel_strength=read("4 lbf/100ft2", "yield point"),
    )
    plan = replace(
        job.known, pipes=pipes, weights=gear, survey=survey, filling=filling, pumping=mud
    )
    plan = _weak(plan, run)
    full = Fill(seq=job.string[-4].seq, volume=capacity(job), source="active pit", at=job.last)
    string = (*job.string[:-1], replace(job.string[-1], lowering=40.0))
    return replace(job, setup=plan, fills=(full,), string=string)


def _weak(plan: Setup, run: int) -> Setup:
    """Return the set-up with an old shoe and zones that take fluid, and one that holds gas."""
    assert plan.previous is not None
    depth = run * 20
    previous = replace(plan.previous, weak_at=read("14 lb/gal", "density"))
    zones = tuple(
        Zone(
            name=f"zone {place}",
            top=read(f"{depth * place // 10} ft", "length"),
            bottom=read(f"{depth * (place + 1) // 10} ft", "length"),
            weak_at=read(f"{14 - 0.1 * place:.1f} lb/gal", "density"),
            pore=read("5 lb/gal", "density") if place > 7 else None,
        )
        for place in range(4, 10)
    )
    limits = {"peak_factor": Limit(text="1.5", owner=AMA)}
    return replace(plan, previous=previous, zones=zones, limits=limits)


def _halved(job: Job) -> Job:
    """Return the job with joints of half the length in the string."""
    tops = accumulate(made.length // 2 for made in job.string)
    string = (
        replace(made, length=made.length // 2, top=top)
        for made, top in zip(job.string, tops, strict=True)
    )
    return replace(job, string=tuple(string))


RUNNING_ROOMS = (
    *(running, volumes, weights, ahead, filling, tank, circulating),
    *(lowering, surge),
)


@contextmanager
def running_figures(run: int) -> Iterator[Sample]:
    """Yield a sample: every figure of running worked out for a job that is new to them [s]."""
    rooms = {room.__name__ for room in RUNNING_ROOMS}
    keys = [key for key, home in HOMES.items() if home in rooms]
    job = weighed(run)

    def sample() -> float:
        new = replace(job, seq=job.seq)
        began = time.perf_counter()
        for key in keys:
            figure(new, key)
        return time.perf_counter() - began

    lacking = [key for key in keys if figure(job, key).missing]
    if set(lacking) - MAY_LACK:
        raise AssertionError(f"These figures were not worked out: {lacking}.")
    yield sample


@contextmanager
def speed_limits(run: int, depths: int) -> Iterator[Sample]:
    """Yield a sample: the greatest running speed at so many depths, the job new to it [s]."""
    job = weighed(run)
    now, last = job.known.step.si(job.length), job.known.hole.casing_point.value
    reach = min(last, sum(piece.length for piece in whole_string(job)))
    shoes = [now + (reach - now) * place / depths for place in range(depths)]

    def sample() -> float:
        new = replace(job, seq=job.seq)
        began = time.perf_counter()
        fastest_at(new, shoes)
        return time.perf_counter() - began

    without = [one for one in fastest_at(job, shoes) if isinstance(one, str)]
    if without:
        raise AssertionError(f"No speed was found at {len(without)} depths: {without[0]}")
    yield sample


@contextmanager
def start(run: int) -> Iterator[Sample]:
    """Yield a sample: from starting the program on a book to its first key taken [s]."""
    with book_with(run) as path:
        program = timed.Program(command=[sys.executable, "-m", "screens.start", path])
        side = timed.start_to_key(lambda: program, key="4", wanted="number or length 4")
        with side as sample:
            yield sample


@contextmanager
def painted_joint(run: int) -> Iterator[Sample]:
    """Yield a sample: from Enter to the joint that was typed shown as saved [s]."""
    with book_with(run) as path:
        program = timed.Program(command=[sys.executable, "-m", "screens.start", path])
        with program.started() as terminal:
            numbers = iter(range(run + 1, run + SPARE))
            terminal.wait_for(f"NEXT  joint {run + 1}")

            def sample() -> float:
                number = next(numbers)
                terminal.type(str(number))
                terminal.wait_for(f"joint {number}, ")
                terminal.wait_still(0.05)
                return terminal.time_to(f"  {number} run", "enter")

            yield sample


@contextmanager
def spaced_out() -> Iterator[Sample]:
    """Yield a sample: a space-out of 30 joints and 8 pups, with all the wishes it can have [s]."""
    joints = tuple(Candidate(str(n), 1200 + n * n * 7 % 83) for n in range(1, 31))
    pups = tuple(Candidate(f"P{n}", 150 + n * n * 11 % 301) for n in range(1, 9))
    clear = (Stretch("slips", -60, 30), Stretch("rams", 640, 720), Stretch("seal", 900, 960))
    question = Question(
        hole=259_000,
        run=240_000,
        couplings=tuple(range(1200, 240_001, 1200)),
        joints=tuple(replace(each, must=each.number in ("3", "11")) for each in joints),
        pups=pups,
        top=(45, 1130),
        coupling=27,
        pocket=Wish(600, 598, 602),
        stick_up=Wish(98, 94, 102),
        keep_clear=clear,
        marker=Wish(198_000, 197_950, 198_050),
        marker_run=60_400,
    )

    def sample() -> float:
        began = time.perf_counter()
        found = space_out(question)
        took = time.perf_counter() - began
        assert found
        return took

    yield sample
