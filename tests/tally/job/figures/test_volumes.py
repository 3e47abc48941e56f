"""Figures of volume and weight, against exact fractions."""

from dataclasses import replace
from fractions import Fraction

import pytest

from tally.job.entries.pipe import Received
from tally.job.entries.watching import Filled
from tally.job.figures import figure
from tally.job.figures.model import TYPED
from tally.job.setup import HoleSection
from tally.units import from_unit, read
from tests.tally.job.invented import (
    Telling,
    arrivals,
    length_of,
    limits,
    pipe,
    pumping,
    running,
    setup,
)
from tests.tally.job.second_opinion import BORE, CLOSED, HOLE, OLD_CASING, STEEL, bbl, disc

BARREL = from_unit(1, "bbl")
TOTAL = 195 + 152 + sum(length_of(n) for n in range(1, 13))


SECTIONS = tuple(
    HoleSection(
        top=read(top, "length"),
        bottom=read(bottom, "length"),
        diameter=read("12-1/4 in", "diameter"),
        excess=read(excess, "ratio") if excess else None,
        caliper=read(caliper, "diameter") if caliper else None,
    )
    for top, bottom, excess, caliper in (
        ("120 ft", "300 ft", "20 %", ""),
        ("300 ft", "520 ft", "", "13 in"),
    )
)


@pytest.fixture(scope="module")
def job():
    """Return the whole string, run."""
    return running().runs().job


@pytest.mark.parametrize(
    ("key", "by_hand"),
    [
        ("casing_capacity", bbl(BORE * TOTAL)),
        ("displaced_open", bbl(STEEL * TOTAL)),
        ("displaced_closed", bbl(CLOSED * TOTAL)),
        ("item_displaced_open", bbl(STEEL * length_of(12))),
        ("item_displaced_closed", bbl(CLOSED * length_of(12))),
        ("item_capacity", bbl(BORE * length_of(12))),
        ("filled", Fraction(0)),
        ("room", bbl(BORE * TOTAL)),
        ("circulation_target", Fraction(3, 2) * bbl(BORE * TOTAL)),
        ("shoe_track_volume", bbl(BORE * (195 + 152 + length_of(1) + length_of(2)))),
        (
            "annulus_volume",
            bbl((OLD_CASING - CLOSED) * 12000 + (HOLE - CLOSED) * (TOTAL - 322 - 12000)),
        ),
    ],
)
def test_each_volume_by_hand(job, key, by_hand):
    assert figure(job, key).value / BARREL == pytest.approx(float(by_hand))


def test_the_weight_in_air_and_in_mud(job):
    air = TOTAL / 100 * 47
    pounds = figure(job, "weight_in_air").value / from_unit(1, "lbf")
    assert pounds == pytest.approx(air, rel=1e-6)
    factor = figure(job, "buoyancy_factor").value
    assert factor == pytest.approx((65.5 - 10.2) / 65.5, abs=2e-4)
    assert figure(job, "weight_in_mud").value == pytest.approx(
        factor * figure(job, "weight_in_air").value
    )


def test_the_annulus_and_the_pocket_of_a_hole_by_sections_name_what_they_rest_on():
    """Shoe at 485.71 ft: a fifth of excess from 120 to 300 ft, 13 in by caliper below that."""
    plan = setup(sections=SECTIONS, pumping=pumping(excess_applies_to="annulus"))
    job = running(plan=plan).runs().job
    shoe = TOTAL - 322
    around = (OLD_CASING - CLOSED) * 12000 + (HOLE - CLOSED) * 18000 * Fraction(6, 5)
    around += (disc("13") - CLOSED) * (shoe - 30000)
    assert figure(job, "annulus_volume").value / BARREL == pytest.approx(float(bbl(around)))
    below = bbl(disc("13") * (52000 - shoe))
    assert figure(job, "pocket_volume").value / BARREL == pytest.approx(float(below))
    named = {one.name: one.value for one in figure(job, "annulus_volume").inputs}
    assert named["excess, 120 ft to 300 ft"] == pytest.approx(0.2)
    assert named["caliper, 300 ft to 520 ft"] == pytest.approx(13 * 0.0254)
    assert named["hole diameter, 120 ft to 300 ft"] == pytest.approx(12.25 * 0.0254)
    assert named["couplings of 9-5/8 47, by weight"] > 0


def test_an_excess_of_the_hole_itself_counts_around_the_pipe_in_full():
    plan = setup(sections=SECTIONS, pumping=pumping(excess_applies_to="hole"))
    job = running(plan=plan).runs().job
    around = (OLD_CASING - CLOSED) * 12000 + (HOLE * Fraction(6, 5) - CLOSED) * 18000
    around += (disc("13") - CLOSED) * (TOTAL - 322 - 30000)
    assert figure(job, "annulus_volume").value / BARREL == pytest.approx(float(bbl(around)))


def test_an_excess_of_which_nobody_said_what_it_is_a_share_of_is_asked_about():
    said = figure(running(plan=setup(sections=SECTIONS)).runs().job, "annulus_volume").missing
    assert said.startswith("A section of the hole has an excess, and sources differ")
    without = tuple(replace(part, excess=None) for part in SECTIONS)
    assert figure(running(plan=setup(sections=without)).runs().job, "annulus_volume").value


def test_there_is_no_pocket_under_a_shoe_below_the_bottom():
    deep = replace(setup().hole, depth=read("480 ft", "length"))
    said = figure(
        running(plan=setup(hole=deep)).runs(despite="as drilled").job, "pocket_volume"
    ).missing
    assert said.startswith("The shoe at 485.71 ft is below the bottom of the hole at 480 ft;")


def test_what_stands_in_the_pipe_is_the_sum_of_the_fills():
    told = running("S1", "1")
    told.says(Filled, source="trip tank", volume=read("2 bbl", "volume"))
    job = told.says(Filled, source="active pit", volume=read("0.5 bbl", "volume"))
    assert figure(job, "filled").value / BARREL == pytest.approx(2.5)
    assert [one.name for one in figure(job, "filled").inputs[1:]] == [
        "fill from the trip tank",
        "fill from the active pit",
    ]
    room = figure(job, "room").value / BARREL
    assert room == pytest.approx(float(bbl(BORE * 4202)) - 2.5)


def test_each_pipe_is_named_once_however_its_items_name_it():
    told = Telling().starts(joints=1)
    told.says(Received, items=arrivals(2, 2, pipe=pipe().name))
    job = told.runs("S1", "1", "2").job
    names = [one.name for one in figure(job, "casing_capacity").inputs]
    assert names == ["String length", "inside diameter of 9-5/8 47"]
    assert figure(job, "casing_capacity").inputs[1].origin == TYPED


def test_without_its_limit_there_is_no_target():
    job = running("S1", plan=setup(limits=limits(circulation_target=""))).job
    assert figure(job, "circulation_target").missing == "Circulation target is not in the limits."


def test_pipe_that_does_not_go_into_the_hole_has_no_annulus_and_breaks_nothing():
    narrow = replace(setup().hole, diameter=read("9 in", "diameter"))
    job = running("S1", "1", plan=setup(hole=narrow, previous=None)).job
    assert figure(job, "annulus_volume").value is None
    assert figure(job, "annulus_volume").missing.endswith(".")
