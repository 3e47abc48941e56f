"""Weights as run, against a free body cut out of the string and worked by hand."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, radians, sin

import pytest

from tally.job.entries.pipe import Received
from tally.job.entries.watching import Filled
from tally.job.figures import figure, show
from tally.job.figures.weights import GOVERNS, NOT_COUNTED
from tally.job.job import Job
from tally.job.setup import Station
from tally.units import read
from tests.tally.job.invented import GEAR, Telling, arrivals, pipe, running, weighed
from tests.tally.job.whole_figures import assert_whole

G = 9.80665
FOOT, INCH = 0.3048, 0.0254
STEEL = 65.5 * 0.45359237 / (231 * INCH**3)
MUD = 10.2 * 0.45359237 / (231 * INCH**3)
AIR = 47 * 0.45359237 / FOOT
CLOSED_BODY, BORE = pi / 4 * (9.625 * INCH) ** 2, pi / 4 * (8.681 * INCH) ** 2
CLOSED = BORE + AIR / STEEL
"""What the closed pipe pushes aside by length; its steel is its weight over the steel's density."""


def slanted(degrees: float) -> tuple[Station, ...]:
    """Return a hole that is straight and leans from the datum on."""
    angle, north = read(f"{degrees} deg", "angle"), read("0 deg", "angle")
    depths = [read(text, "length") for text in ("0 ft", "1000 ft")]
    return tuple(
        Station(measured_depth=depth, inclination=angle, azimuth=north) for depth in depths
    )


def value(job: Job, key: str) -> float:
    found = figure(job, key)
    assert found.value is not None, found.missing
    return float(found.value)


def named(job: Job, key: str, name: str) -> object:
    return next(one.value for one in figure(job, key).inputs if one.name == name)


def free_body(job: Job, lean: float = 0.0) -> float:
    """Return steel + fluid inside - pressure on the closed end, on the string cut at the datum."""
    up = 322 / 100 * FOOT
    shoe = job.length / 100 * FOOT - up
    level = value(job, "empty_length") - up
    vertical = shoe * cos(lean)
    steel = AIR * (vertical + up) * G
    inside = MUD * BORE * (vertical - (level * cos(lean) if level > 0 else level)) * G
    return steel + inside - MUD * vertical * G * CLOSED


def test_an_empty_string_hangs_with_what_a_free_body_of_it_needs() -> None:
    job = running(plan=weighed()).runs().job
    assert value(job, "empty_length") > 100
    assert value(job, "weight_hanging") == pytest.approx(free_body(job), rel=1e-9)


def test_a_filled_string_hangs_with_what_a_free_body_of_it_needs() -> None:
    told = running(plan=weighed()).runs()
    empty = value(told.job, "weight_hanging")
    told.says(Filled, volume=read("12 bbl", "volume"), source="active pit")
    part = value(told.job, "weight_hanging")
    assert part == pytest.approx(free_body(told.job), rel=1e-9)
    assert part - empty == pytest.approx(12 * 0.158987294928 * MUD * G, rel=1e-9)
    full = told.says(Filled, source="active pit")
    assert value(full, "empty_length") == pytest.approx(0, abs=1e-6)
    assert value(full, "weight_hanging") == pytest.approx(free_body(full), rel=1e-9)


def test_in_a_straight_leaning_hole_the_drag_is_friction_times_what_leans_on_the_wall() -> None:
    lean = radians(40)
    told = running(plan=weighed(survey=slanted(40), previous=None)).runs()
    job = told.says(Filled, source="active pit")
    along = (AIR + MUD * BORE - MUD * CLOSED) * G
    shoe = (job.length - 322) / 100 * FOOT
    drag = 0.3 * along * sin(lean) * shoe
    hanging = free_body(job, lean)
    block = read("45 klbf", "force").value
    assert value(job, "weight_hanging") == pytest.approx(hanging, rel=1e-9)
    assert value(job, "slack_off") == pytest.approx(hanging - drag + block, rel=1e-6)
    assert value(job, "pick_up") == pytest.approx(hanging + drag + block, rel=1e-6)


def test_the_cased_part_drags_by_its_own_friction_factor() -> None:
    lean, cased = radians(40), 120 * FOOT
    told = running(plan=weighed(survey=slanted(40))).runs()
    job = told.says(Filled, source="active pit")
    along = (AIR + MUD * BORE - MUD * CLOSED) * G
    shoe = (job.length - 322) / 100 * FOOT
    drag = (0.2 * cased + 0.3 * (shoe - cased)) * along * sin(lean)
    both = value(job, "pick_up") - value(job, "slack_off")
    assert both == pytest.approx(2 * drag, rel=1e-6)


def test_the_greatest_pull_is_the_least_of_the_ratings_and_names_it() -> None:
    job = running(plan=weighed()).runs().job
    load = value(job, "weight_hanging")
    kip = read("1 klbf", "force").value
    assert value(job, "greatest_pull") == pytest.approx((650 - 45) * kip - load)
    assert named(job, "greatest_pull", GOVERNS) == "hoisting gear"
    assert named(job, "greatest_pull", NOT_COUNTED) == "nothing"
    assert show(job, value(job, "greatest_indicator"), "force") == "650 klbf"
    share = replace(GEAR, tension_share=read("40 %", "ratio"))
    weak = running(plan=replace(weighed(), weights=share)).runs().job
    assert named(weak, "greatest_pull", GOVERNS) == "pipe body"
    assert value(weak, "greatest_pull") == pytest.approx(0.4 * 1086 * kip - load)


def test_a_lighter_pipe_below_may_govern_and_is_named() -> None:
    light = replace(pipe("9-5/8 36", "8.921 in", "36 lb/ft"), grade="J-55")
    heavy = replace(pipe("9-5/8 53.5", "8.535 in", "53.5 lb/ft"), grade="P-110")
    told = Telling().starts(replace(weighed(), pipes=(light, heavy)), joints=2)
    told.says(Received, items=arrivals(3, 4, pipe=heavy.name))
    job = told.runs("S1", "1", "2", "C1", "3", "4").job
    assert named(job, "greatest_pull", GOVERNS) == "pipe body of 9-5/8 36"
    lacking = str(named(job, "greatest_pull", NOT_COUNTED))
    assert lacking == "connection of 9-5/8 36, connection of 9-5/8 53.5"


def test_ratings_are_those_of_the_published_tables() -> None:
    job = running(plan=weighed()).runs().job
    shown = {
        key: show(job, value(job, key), figure(job, key).quantity)
        for key in ("internal_yield_top", "body_yield_top", "collapse_bottom")
    }
    assert shown == {
        "internal_yield_top": "6,870 psi",
        "body_yield_top": "1,086 klbf",
        "collapse_bottom": "4,754 psi",
    }
    assert value(job, "collapse_top") < value(job, "collapse_bottom")


def test_the_stretch_is_that_of_the_printed_formula() -> None:
    told = running(plan=weighed()).runs()
    job = told.says(Filled, source="active pit")
    length = job.length / 100 * FOOT
    strain = STEEL - MUD * (2 - 2 * 0.28)
    printed = G * length**2 / (2 * 206_842_718_795.3) * strain
    assert value(job, "stretch") == pytest.approx(printed, rel=0.05)


def test_what_was_not_set_is_asked_for_by_name() -> None:
    told = running().runs()
    job = told.job
    assert figure(job, "slack_off").missing == "Block weight is not in the job set-up."
    assert "No limit of the pull is known" in figure(job, "greatest_pull").missing
    assert "has no standard grade" in figure(job, "body_yield_top").missing
    assert figure(running(plan=weighed()).job, "pick_up").missing == "Nothing is run yet."


def test_a_mill_grade_stands_as_its_data_sheet_has_it() -> None:
    mill = replace(pipe(), grade="L80 HC", collapse_rating=read("5740 psi", "pressure"))
    job = running(plan=replace(weighed(), pipes=(mill,))).runs().job
    assert show(job, value(job, "collapse_top"), "pressure") == "5,740 psi"


def test_every_figure_is_whole_at_every_item() -> None:
    told = Telling().starts(weighed(survey=slanted(20)))
    for number in told.job.order:
        assert_whole(told.runs(number).job)
