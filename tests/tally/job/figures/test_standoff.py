"""Figures of standoff: against the sums worked by hand in straight leaning hole."""

from __future__ import annotations

from dataclasses import replace
from math import pi, radians, sin

import pytest

from tally.job.entries.running import ItemRun
from tally.job.figures import figure
from tally.job.job import Job
from tally.job.setup import CentralizerLoad
from tally.job.standoff import standoff_profile
from tally.units import read
from tests.tally.job.centred import BOW_NAME, ON_IT, RIGID, centred, runs_with, slant
from tests.tally.job.invented import ORDER, assert_plain, limits
from tests.tally.job.whole_figures import assert_whole

KEYS = (
    *("standoff_least", "standoff_programmed", "standoff_over_programmed"),
    *("standoff_under", "standoff_contact", "centralizer_spacing"),
)
POUND, GALLON = 0.45359237, 231 * 0.0254**3
FOOT, INCH, G = 0.3048, 0.0254, 9.80665
RIGID_NAME = RIGID.what


def value(job: Job, key: str) -> float:
    found = figure(job, key)
    assert found.value is not None, found.missing
    return float(found.value)


def named(job: Job, key: str, name: str) -> object:
    return next(one.value for one in figure(job, key).inputs if one.name == name)


def weight_by_length(inside: float, outside: float) -> float:
    """Return steel + fluid inside - fluid pushed aside of 9-5/8 in. 47 lb/ft, [N/m]."""
    density = POUND / GALLON
    steel = 47 * POUND / FOOT
    bore = pi / 4 * (8.681 * INCH) ** 2
    closed = bore + steel / (65.5 * density)
    return (steel + bore * inside * density - closed * outside * density) * G


def test_the_least_standoff_is_that_of_the_hand_sum() -> None:
    job = runs_with().job
    across = weight_by_length(15.8, 10.2) * sin(radians(60))
    stiffness = 30e6 * 6894.757293168 * pi / 64 * ((9.625**4 - 8.681**4) * INCH**4)
    lengths = [row.bottom - row.top for row in standoff_profile(job).rows[:9]]
    found = []
    for below, length, above in zip(lengths, lengths[1:], lengths[2:], strict=False):
        loads = [across * (length + other) / 2 for other in (below, above)]
        given = 0.33 * sum(loads) / 2 / (1600 * POUND * G)
        bent = across * length**4 / (384 * stiffness) / ((12.25 - 9.625) / 2 * INCH)
        found.append(1 - given - bent)
    # the hand sum leaves out the tension, which takes a little off the sag
    assert 0 < value(job, "standoff_least") - min(found) < 3e-3
    assert named(job, "standoff_least", "it is") == "between two centralizers"
    where = named(job, "standoff_least", "measured depth of it")
    assert where == pytest.approx(min(standoff_profile(job).rows[:9], key=lambda r: r.least).where)


def test_the_origin_names_slurry_mud_and_the_straight_line() -> None:
    job = runs_with().job
    told = {one.name: one for one in figure(job, "standoff_least").inputs}
    assert told["inside: tail slurry"].where == "job set-up, heaviest slurry"
    assert told["mud weight outside"].value == job.known.pumping.mud_weight.value
    assert "an assumption" in str(told[BOW_NAME].value)
    assert "recommended-practice beam model" in figure(job, "standoff_least").formula
    assert told["survey"].value == "2 stations"
    short = tuple(
        replace(one, measured_depth=read(depth, "length"))
        for one, depth in zip(slant(60), ("0 ft", "400 ft"), strict=True)
    )
    straight = runs_with(plan=centred(survey=short)).job
    said = named(straight, "standoff_least", "survey")
    assert said == "2 stations, taken as straight below 400.00 ft"
    alone = runs_with(plan=centred(fluids=())).job
    told = {one.name: one for one in figure(alone, "standoff_least").inputs}
    assert "mud on both sides" in told["inside: mud"].where


def test_a_table_is_told_and_a_load_past_it_counts_as_on_the_wall() -> None:
    lines = tuple(
        CentralizerLoad(
            what=BOW_NAME, deflection=read(deflection, "length"), load=read(load, "force")
        )
        for deflection, load in (("0.1 in", "500 lbf"), ("0.2 in", "1000 lbf"))
    )
    job = runs_with(plan=centred(centralizer_loads=lines)).job
    assert value(job, "standoff_least") == 0.0
    assert named(job, "standoff_least", BOW_NAME) == "bow, by its table of 2 lines"
    assert named(job, "standoff_least", "lengths with a load past the table") == 8
    assert value(job, "standoff_contact") == 8
    assert value(job, "standoff_under") == 1.0


def test_rigid_ones_hold_the_joints_over_the_limit() -> None:
    fitted = {str(number): (replace(ON_IT[0], what=RIGID_NAME),) for number in range(1, 13)}
    job = runs_with(fitted).job
    assert value(job, "standoff_under") == 0.0
    assert value(job, "standoff_contact") == 0
    assert value(job, "standoff_over_programmed") == pytest.approx(
        value(job, "standoff_least") - value(job, "standoff_programmed")
    )
    assert value(job, "standoff_over_programmed") > 0.1


def test_left_out_centralizers_show_against_the_programme() -> None:
    bare = dict.fromkeys(("4", "5", "6", "7"), ())
    job = runs_with(bare).job
    assert value(job, "standoff_over_programmed") < -0.2
    assert value(job, "standoff_contact") == 1
    assert value(job, "standoff_least") == 0.0


def test_the_spacing_is_shorter_where_the_hole_leans_more_and_longer_for_rigid_ones() -> None:
    steep, flat = (runs_with(plan=centred(survey=slant(lean))).job for lean in (20, 60))
    assert value(steep, "centralizer_spacing") > value(flat, "centralizer_spacing")
    assert named(flat, "centralizer_spacing", "centralizer") == BOW_NAME
    fitted = {"12": (replace(ON_IT[0], what=RIGID_NAME),)}
    rigid = runs_with(fitted).job
    assert named(rigid, "centralizer_spacing", "centralizer") == RIGID_NAME
    assert value(rigid, "centralizer_spacing") > value(flat, "centralizer_spacing")
    across = named(flat, "centralizer_spacing", "load across by length")
    assert across == pytest.approx(weight_by_length(15.8, 10.2) * sin(radians(60)))
    assert named(flat, "centralizer_spacing", "inclination") == pytest.approx(radians(60))
    upright = runs_with(plan=centred(survey=slant(0))).job
    assert value(upright, "centralizer_spacing") == 150.0


def test_the_spacing_is_for_the_centralizer_due_next() -> None:
    told = runs_with(numbers=ORDER[:6])
    assert named(told.job, "centralizer_spacing", "centralizer") == BOW_NAME
    job = told.says(ItemRun, number=ORDER[6], fittings=ON_IT, despite="as told")
    depth = float(str(named(job, "centralizer_spacing", "depth")))
    assert depth == pytest.approx((486 - job.length / 100) * FOOT)


def test_without_a_limit_the_figures_that_want_it_say_so() -> None:
    job = runs_with(plan=centred(limits=limits())).job
    for key in ("standoff_under", "centralizer_spacing"):
        assert figure(job, key).missing == "Least standoff wanted is not in the limits."
    assert value(job, "standoff_least") < 0.67


def test_every_lack_is_one_plain_sentence_in_every_figure() -> None:
    cased = read("480 ft", "length")
    plan = centred()
    assert plan.previous is not None
    deep = replace(plan, previous=replace(plan.previous, shoe=cased))
    for job in (
        runs_with(numbers=ORDER[:3]).job,
        runs_with(plan=centred(survey=())).job,
        runs_with(plan=centred(centralizers=())).job,
        runs_with(plan=deep).job,
    ):
        for key in KEYS[:5]:
            found = figure(job, key)
            if found.value is None:
                assert_plain(found.missing)
        assert_whole(job)
    assert figure(runs_with(plan=deep).job, "standoff_least").missing == (
        "No two centralizers will lie in open hole yet."
    )


def test_every_figure_is_whole() -> None:
    job = runs_with().job
    made = {one.key: one for one in assert_whole(job)}
    assert all(made[key].value is not None for key in KEYS)
