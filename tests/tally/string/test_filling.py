"""Joints to the fill limit.

Must hold:
- at the joints given no limit breaks, with one more the limit named does;
- each of the five limits governs in its turn, and a tighter limit never lets more be run;
- when the float lets go, what the annulus loses the pipe gains, and the columns balance;
- an auto-fill float that lets in a share lengthens the way to every limit but the interval;
- a tension-reduced rating lets fewer joints be run than the plain one.
"""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.hole.annulus import annulus_volume
from tally.hole.sections import Hole, HoleSection
from tally.hole.survey import Station, Survey
from tally.pipe.capacity import pipe_volume
from tally.pipe.collapse import collapse
from tally.pipe.interval import PipeInterval
from tally.pipe.weight import STANDARD_GRAVITY
from tally.string.empty_pipe import annulus_fall, float_difference, greatest_empty_length
from tally.string.fill_limit import fill_limit
from tally.string.filling import (
    COLLAPSE,
    FALL,
    FLOAT,
    INTERVAL,
    SLIPS,
    FillLimits,
    FillState,
    joints_to_limit,
    level_fall,
    standing,
)
from tally.string.pieces import StringPiece
from tests.tally.second_opinion import disc

UNIT_DISC = disc(1.0)


def area_of(diameter):
    """Return the area of a circle from the polygon of its unit circle."""
    return UNIT_DISC * diameter**2


JOINT = StringPiece(12.0, 0.2445, 0.2205, 70.0, 0.0004, yield_strength=552e6)
HOLE = Hole([HoleSection(0.0, 900.0, 0.315, cased=True), HoleSection(900.0, 3000.0, 0.311)])
BENT = Survey([Station(600.0, 0.0, 0.0), Station(1500.0, 0.9, 0.7)])


def state(**given_parts):
    parts = {
        "pieces": (replace(JOINT, length=1200.0),), "joint": JOINT, "shoe_depth": 1200.0,
        "survey": BENT, "hole": HOLE, "outside_density": 1400.0, "inside_density": 1400.0,
    }  # fmt: skip
    return FillState(**(parts | given_parts))


LIMITS = st.builds(
    FillLimits,
    st.floats(1.0, 1.5),
    st.one_of(st.none(), st.floats(1e5, 1e7)),
    st.one_of(st.none(), st.integers(0, 60)),
    st.one_of(st.none(), st.floats(1e4, 8e5)),
    st.one_of(st.none(), st.floats(1e5, 5e6)),
)


@settings(deadline=None, max_examples=40)
@given(limits=LIMITS, empty=st.floats(0.0, 300.0), run=st.integers(0, 10))
def test_one_joint_more_breaks_the_limit_that_is_named(limits, empty, run):
    here = state(empty=empty, since_fill=run)
    answer = joints_to_limit(here, limits, most=80)
    if answer.now:
        assert (answer.joints, answer.past) == (0, answer.at)
    else:
        assert not standing(here, limits, answer.joints).broken
    if answer.past is None:
        assert (answer.joints, answer.governs) == (80, "")
    else:
        broken = [check.name for check in answer.past.broken]
        assert answer.governs == " and ".join(broken)
        assert answer.past.joints == answer.joints + (not answer.now)


@pytest.mark.parametrize(
    ("limits", "name", "mud"),
    [
        (FillLimits(design_factor=3.0), COLLAPSE, 1400.0),
        (FillLimits(float_rating=2e6), FLOAT, 1400.0),
        (FillLimits(interval=12), INTERVAL, 1400.0),
        (FillLimits(least_load=6e5), SLIPS, 1700.0),
        (FillLimits(greatest_fall=1e6), FALL, 1400.0),
    ],
)
def test_each_limit_governs_in_its_turn(limits, name, mud):
    muds = {"outside_density": mud, "inside_density": mud}
    answer = joints_to_limit(state(**muds), limits)
    assert (answer.governs, answer.now) == (name, False)
    assert answer.joints > 5
    assert joints_to_limit(state(empty=24.0, **muds), limits).joints <= answer.joints


def test_the_float_limit_counts_joints_by_hand():
    vertical = state(survey=Survey())
    answer = joints_to_limit(vertical, FillLimits(float_rating=2e6))
    a_joint = 12.0 * 1400.0 * STANDARD_GRAVITY
    assert answer.joints == int(2e6 // a_joint)
    assert answer.at.difference == pytest.approx(answer.joints * a_joint)
    assert answer.at.difference == pytest.approx(
        float_difference(1200.0 + 12 * answer.joints, 12.0 * answer.joints, 1400.0, 1400.0)
    )


def test_limits_that_break_together_are_both_named():
    a_joint = 12.0 * 1400.0 * STANDARD_GRAVITY
    limits = FillLimits(float_rating=10.5 * a_joint, interval=10)
    answer = joints_to_limit(state(survey=Survey()), limits)
    assert answer.governs == f"{FLOAT} and {INTERVAL}"


@given(rating=st.floats(2e5, 8e6), tighter=st.floats(0.5, 1.0))
def test_a_tighter_limit_never_lets_more_be_run(rating, tighter):
    one = joints_to_limit(state(), FillLimits(float_rating=rating), most=60)
    two = joints_to_limit(state(), FillLimits(float_rating=rating * tighter), most=60)
    assert two.joints <= one.joints


def test_an_auto_fill_float_lengthens_the_way():
    limits = FillLimits(float_rating=2e6)
    alone = joints_to_limit(state(), limits).joints
    half = joints_to_limit(state(self_filled=0.5), limits).joints
    assert half in (2 * alone, 2 * alone + 1)
    assert joints_to_limit(state(self_filled=1.0), limits, most=40).governs == ""
    assert joints_to_limit(state(self_filled=1.0), FillLimits(interval=7)).joints == 7


def test_the_pull_on_the_pipe_takes_joints_away():
    plain = collapse(JOINT.outer_diameter, 0.012, 552e6)[0]
    bare = state(survey=Survey(), shoe_depth=2400.0, pieces=(replace(JOINT, length=2400.0),))
    pulled = joints_to_limit(bare, FillLimits(design_factor=4.5))
    typed = replace(JOINT, yield_strength=None, collapse_rating=plain)
    sheet = replace(bare, joint=typed, pieces=(replace(typed, length=2400.0),))
    # At the shoe: po - pi * d/D = rho g (z - (z - h) * d/D), with z = 2,400 + h, no pull on it.
    share = JOINT.inner_diameter / JOINT.outer_diameter
    most = (plain / 4.5 / (1400.0 * STANDARD_GRAVITY) - 2400.0 * (1 - share)) / 12
    assert joints_to_limit(sheet, FillLimits(design_factor=4.5)).joints == int(most)
    assert 0 < pulled.joints <= int(most)


def test_where_the_pull_is_great_the_level_governs():
    deep = state(
        survey=Survey(), shoe_depth=2400.0, hole=Hole([HoleSection(0.0, 9000.0, 0.315)]),
        pieces=(replace(JOINT, length=2400.0),), outside_density=1100.0, inside_density=1100.0,
    )  # fmt: skip
    plain = collapse(JOINT.outer_diameter, 0.012, 552e6)[0]
    answer = joints_to_limit(deep, FillLimits(design_factor=1.125), most=400)
    unpulled = greatest_empty_length(plain, 1.125, 1100.0)[1] / 12
    assert answer.governs == COLLAPSE
    assert 0.75 * unpulled < answer.joints < unpulled


def test_the_weakest_place_of_a_tapered_string_counts():
    weak = replace(JOINT, yield_strength=None, collapse_rating=3e6)
    tapered = state(pieces=(replace(weak, length=600.0), replace(JOINT, length=600.0)))
    answer = joints_to_limit(tapered, FillLimits(float_rating=1e8))
    assert answer.governs == COLLAPSE
    assert answer.joints < joints_to_limit(state(), FillLimits(float_rating=1e8)).joints


@given(level=st.floats(1.0, 800.0), inside=st.floats(900.0, 2000.0))
def test_what_the_annulus_loses_the_pipe_gains(level, inside):
    pipe = [PipeInterval(0.0, 1200.0, 0.2445, 0.2205, 70.0)]
    here = state(survey=Survey(), inside_density=inside)
    fall = level_fall(here, pipe, level)
    column_inside = inside * (1200.0 - level)
    if fall == 0:
        assert column_inside >= 1400.0 * 1200.0 * 0.999
        return
    gained = HOLE.annulus(pipe, 0.0, fall)
    assert gained == pytest.approx(annulus_volume(0.315, 0.2445, fall))
    risen = gained / pipe_volume(0.2205, 1.0)
    if risen < level - 1e-6:
        outside_left = 1400.0 * (1200.0 - fall)
        assert column_inside + 1400.0 * risen == pytest.approx(outside_left, rel=1e-6)


@given(empty=st.floats(0.0, 2000.0))
def test_with_like_mud_the_levels_meet(empty):
    fall, pressure, volume = annulus_fall(empty, 0.2205, 0.2445, 0.315, 1400.0)
    assert volume == pytest.approx((area_of(0.315) - area_of(0.2445)) * fall, rel=1e-4)
    assert volume == pytest.approx(area_of(0.2205) * (empty - fall), rel=1e-4, abs=1e-9)
    assert pressure == pytest.approx(1400.0 * STANDARD_GRAVITY * fall)
    if empty < 800:
        pipe = [PipeInterval(0.0, 1200.0, 0.2445, 0.2205, 70.0)]
        found = level_fall(state(survey=Survey()), pipe, empty)
        assert found == pytest.approx(fall, abs=1e-6)


def test_the_formula_is_the_same_steps():
    values = fill_limit(0.2445, 0.2205, 70.0, 552e6, 0.315, 1200.0, 12.0, 1400.0, 1400.0, 1.125,
                        2e6, 50, 1e5, 5e6)  # fmt: skip
    assert values[:2] == (12, 2)
    assert values[2] == pytest.approx(12 * 12.0 * 1400.0 * STANDARD_GRAVITY)


def test_without_any_limit_it_says_what_to_set():
    bare = replace(JOINT, yield_strength=None)
    with pytest.raises(DomainError, match="No limit of filling is known; set the grade"):
        joints_to_limit(state(joint=bare, pieces=(replace(bare, length=1200.0),)), FillLimits())


def test_more_empty_than_there_is_is_refused():
    with pytest.raises(DomainError, match="Empty pipe 1,300 m is outside 0 to 1,200 m"):
        joints_to_limit(state(empty=1300.0), FillLimits(interval=5))


@pytest.mark.parametrize("interval", [2.5, -1.0, float("nan"), 2000.0])
def test_an_interval_is_a_whole_number(interval):
    with pytest.raises(DomainError, match="not a whole number of joints"):
        fill_limit(0.2445, 0.2205, 70.0, 552e6, 0.315, 1200.0, 12.0, 1400.0, 1400.0, 1.125,
                   2e6, interval, 1e5, 5e6)  # fmt: skip
