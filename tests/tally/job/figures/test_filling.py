"""Joints to the fill limit as run, against columns worked by hand."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest

from tally.job.entries.watching import Filled
from tally.job.figures import figure
from tally.job.figures.weights import GOVERNS
from tally.job.job import Job
from tally.job.setup import Filling, Setup
from tally.units import read
from tests.tally.job.figures.test_weights import BORE, CLOSED, FOOT, INCH, MUD, G, named, value
from tests.tally.job.invented import length_of, limits, running, setup, weighed


def limited(filling: Filling, **texts: str) -> Setup:
    """Return the set-up with limits of the filling."""
    return replace(weighed(), filling=filling, limits=limits(**texts))


def answer(job: Job) -> tuple[float, object]:
    return value(job, "fill_joints"), named(job, "fill_joints", GOVERNS)


def test_the_interval_counts_from_the_last_fill() -> None:
    told = running("S1", "1", "2", "C1", "3", plan=limited(Filling(interval=5)))
    assert answer(told.job) == (2, "interval of the programme")
    told.says(Filled, source="active pit")
    assert answer(told.job) == (5, "interval of the programme")
    told.runs("4")
    assert answer(told.job) == (4, "interval of the programme")


def test_the_float_governs_at_its_rated_difference() -> None:
    told = running("S1", "1", "2", "C1", "3", plan=limited(Filling(float_rating=None, interval=30)))
    up, next_joint = 3.22, length_of(4) / 100
    shoe = told.job.length / 100 - up
    after_two = MUD * G * (shoe + 2 * next_joint) * FOOT
    rating = read(f"{after_two / 6894.757293168 + 1:.1f} psi", "pressure")
    job = running("S1", "1", "2", "C1", "3", plan=limited(Filling(float_rating=rating))).job
    assert answer(job) == (2, "rating of the float")
    assert value(job, "float_difference") == pytest.approx(MUD * G * shoe * FOOT, rel=1e-9)


def test_the_difference_at_the_shoe_is_gone_when_the_pipe_is_full() -> None:
    told = running("S1", "1", "2", plan=limited(Filling(interval=5)))
    job = told.says(Filled, source="active pit")
    assert value(job, "float_difference") == pytest.approx(-MUD * G * 3.22 * FOOT, rel=1e-6)


def test_a_string_too_light_when_full_is_not_told_to_be_filled_for_the_slips() -> None:
    plan = limited(Filling(interval=9), slip_load="25 klbf")
    told = running("S1", "1", "2", plan=plan)
    told.says(Filled, source="active pit")
    assert answer(told.job) == (9, "interval of the programme")
    heavy = replace(plan, limits=limits(slip_load="3 klbf"))
    held = running("S1", "1", "2", plan=heavy).job
    assert answer(held) == (0, "weight that holds the slips")


def test_a_float_that_lets_go_takes_from_the_annulus_what_the_pipe_gains() -> None:
    told = running("S1", "1", "2", "C1", "3", "4", plan=weighed())
    told.says(Filled, volume=read("2 bbl", "volume"), source="active pit")
    empty = value(told.job, "empty_length") - 3.22 * FOOT
    annulus = pi / 4 * (12.415 * INCH) ** 2 - CLOSED
    fall = empty * BORE / (BORE + annulus)
    assert 0 < fall < 120 * FOOT, "the previous casing holds the level"
    assert value(told.job, "annulus_falls") == pytest.approx(fall, rel=1e-6)
    assert value(told.job, "annulus_loses") == pytest.approx(fall * MUD * G, rel=1e-6)
    full = told.says(Filled, source="active pit")
    assert value(full, "annulus_falls") == 0


def test_open_pipe_fills_itself_and_no_limit_is_no_answer() -> None:
    open_end = running("S1", "1", plan=limited(Filling(closed_end=False))).job
    assert "fills itself" in figure(open_end, "fill_joints").missing
    bare = running("S1", "1", plan=setup()).job
    assert "No limit of filling is known" in figure(bare, "fill_joints").missing
    just = running("S1", plan=limited(Filling(interval=5))).job
    assert figure(just, "fill_joints").missing == "The shoe is not below the datum yet."
