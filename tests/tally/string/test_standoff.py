"""Standoff along a string.

Must hold:
- in straight hole each centralizer carries half of both its neighbours' lengths, by hand;
- in a bent hole it is the balance of a free body cut in the middle of both lengths;
- tension starts from 0 at the shoe; a string that floats is in compression, one that hangs in
  tension, which takes load off the low side in a build;
- what lies on the wall is flagged, and does not load its centralizers without end;
- a load past a table, a logged hole and a change of pipe are seen;
- adding and taking off items gives what a new string gives.
"""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.hole.sections import Hole, HoleSection
from tally.hole.survey import Station, Survey
from tally.pipe.weight import STANDARD_GRAVITY
from tally.string.centralizer import Rigid, straight_bow, tabled_bow
from tally.string.pieces import StringPiece
from tally.string.sag import bending_stiffness, sag
from tally.string.standoff import Centring

WIDE, PIPE, BORE = 0.3112, 0.2445, 0.2205
CLEARANCE = (WIDE - PIPE) / 2
STIFFNESS = bending_stiffness(PIPE, BORE)
GAUGE = Hole([HoleSection(0.0, 3000.0, WIDE)])
BOW = straight_bow(0.34, 7117.0, CLEARANCE)
STIFF = Rigid(0.305)
WEIGHT = (70.0 + math.pi / 4 * (BORE**2 * 1900.0 - PIPE**2 * 1200.0)) * STANDARD_GRAVITY


def slanted(inclination):
    return Survey([Station(0.0, inclination, 0.3), Station(3000.0, inclination, 0.3)])


def joint(length=12.0):
    return StringPiece(length, PIPE, BORE, 70.0)


def string(survey, joints, inside=1900.0, hole=GAUGE, centralizer=BOW, outside=1200.0):
    """Return a string of joints: each a length, and a centralizer in its middle or none."""
    made = Centring(survey, hole, 2000.0, inside, outside)
    for length, held in joints:
        made.add(joint(length), [(0.5, centralizer)] if held else [])
    return made


def test_in_straight_hole_loads_gaps_and_sag_are_those_by_hand():
    lengths = [10.0, 14.0, 12.0]
    made = string(slanted(0.7), [(length, True) for length in lengths])
    lower, upper = made.rows()
    across = WEIGHT * math.sin(0.7)
    apart = [12.0, 13.0]
    loads = [across * (5.0 + 6.0), across * (6.0 + 6.5), across * (6.5 + 6.0)]
    assert [lower.load_bottom, lower.load_top, upper.load_bottom, upper.load_top] == pytest.approx(
        [loads[0], loads[1], loads[1], loads[2]]
    )
    for row, length, low, high in zip((lower, upper), apart, loads[:2], loads[1:], strict=True):
        gaps = [CLEARANCE - 0.33 * CLEARANCE * load / 7117.0 for load in (low, high)]
        pull = WEIGHT * math.cos(0.7) * (2000.0 - (row.top + row.bottom) / 2)
        middle = sum(gaps) / 2 - sag(across, length, pull, STIFFNESS)
        assert row.at_bottom == pytest.approx(gaps[0] / CLEARANCE)
        assert row.at_top == pytest.approx(gaps[1] / CLEARANCE)
        assert row.middle == pytest.approx(middle / CLEARANCE)
        assert row.least == row.middle
        assert row.where == (row.top + row.bottom) / 2


def test_in_a_bent_hole_a_centralizer_holds_a_free_body_cut_in_the_middle_of_its_lengths():
    survey = Survey([Station(1000.0, 0.4, 0.3), Station(2500.0, 1.2, 1.1)])
    made = string(survey, [(12.0, True)] * 60)
    row = made.rows()[-10]
    here, half = row.top, 6.0

    def along(depth):
        leg, share = survey.leg_at(depth)
        return np.array(leg.direction(share))

    def pull(depth):
        return WEIGHT * (survey.true_vertical(2000.0) - survey.true_vertical(depth))

    body = WEIGHT * 2 * half * np.array([0.0, 0.0, 1.0])
    body += pull(here + half) * along(here + half) - pull(here - half) * along(here - half)
    across = body - (body @ along(here)) * along(here)
    assert row.load_top == pytest.approx(float(np.linalg.norm(across)), rel=2e-4)


def test_a_string_that_floats_is_in_compression_from_the_shoe_up():
    build = Survey([Station(0.0, 0.0, 0.0), Station(1000.0, 0.0, 0.0), Station(2000.0, 1.0, 0.0)])
    light = string(build, [(12.0, True)] * 30, inside=0.0, outside=1900.0)
    heavy = string(build, [(12.0, True)] * 30)
    floats, hangs = light.weight(joint()), heavy.weight(joint())
    assert hangs == pytest.approx(WEIGHT)
    assert floats < 0
    rise = build.true_vertical(2000.0) - build.true_vertical(1994.0)
    assert light.supports[0].tension == pytest.approx(floats * rise)
    assert heavy.supports[0].tension == pytest.approx(hangs * rise)
    assert light.tension < 0 < heavy.tension
    # weight and tension change sign together: the pipe lies on the other side, loads in proportion
    for one, other in zip(light.rows(), heavy.rows(), strict=True):
        assert one.load_top / other.load_top == pytest.approx(-floats / hangs)


def test_a_build_takes_load_off_pipe_that_hangs():
    build = Survey([Station(0.0, 0.0, 0.0), Station(1000.0, 0.0, 0.0), Station(2000.0, 1.0, 0.0)])
    bent = string(build, [(12.0, True)] * 30)
    straight = string(slanted(build.at(1658.0).inclination), [(12.0, True)] * 30)
    assert bent.rows()[-2].load_top < straight.rows()[-2].load_top


def test_a_length_on_the_wall_is_flagged_and_its_centralizers_carry_what_hangs_free():
    gap = [(12.0, True), *[(12.0, False)] * 20, (12.0, True), (12.0, True)]
    made = string(slanted(1.2), gap, centralizer=STIFF)
    long, short = made.rows()
    assert long.contact
    assert long.middle == 0.0
    assert long.where == (long.top + long.bottom) / 2
    assert not short.contact
    across = WEIGHT * math.sin(1.2)
    free = (long.load_top - across * 6.0) * 2 / across
    pull = (made.supports[0].tension + made.supports[1].tension) / 2
    assert sag(across, free, pull, STIFFNESS) == pytest.approx(CLEARANCE, rel=1e-6)
    assert 20.0 < free < 60.0


def test_a_load_past_the_table_counts_as_on_the_wall_and_is_told():
    weak = tabled_bow(0.34, [(0.004, 1000.0)])
    strong = tabled_bow(0.34, [(0.004, 1e5)])
    row = string(slanted(0.7), [(12.0, True)] * 3, centralizer=weak).rows()[0]
    assert not row.known
    assert row.contact
    assert string(slanted(0.7), [(12.0, True)] * 3, centralizer=strong).rows()[0].known


def test_a_logged_hole_and_a_change_of_pipe_are_seen():
    logged = Hole([
        HoleSection(0.0, 1970.0, 0.315, cased=True),
        HoleSection(1970.0, 2000.0, WIDE, lower_diameter=0.34),
    ])  # fmt: skip
    made = string(slanted(0.7), [(12.0, True)] * 4, hole=logged)
    assert made.hole_diameter(1960.0) == pytest.approx(0.315)
    assert made.hole_diameter(2000.0) == pytest.approx(0.34)
    lowest, row = made.supports[0], made.rows()[0]
    assert lowest.clearance == pytest.approx((made.hole_diameter(1994.0) - PIPE) / 2)
    assert 1.2 * CLEARANCE < lowest.clearance < 1.5 * CLEARANCE
    given_way = 0.33 * CLEARANCE * row.load_bottom / 7117.0
    assert row.at_bottom == pytest.approx(1 - given_way / lowest.clearance)
    mixed = Centring(slanted(0.7), GAUGE, 2000.0, 1900.0, 1200.0)
    mixed.add(StringPiece(12.0, PIPE, 0.2168, 80.0), [(0.5, BOW)])
    mixed.add(joint(), [(0.5, BOW)])
    assert mixed.supports[0].stiffness > mixed.supports[1].stiffness
    pull = sum(each.tension for each in mixed.supports) / 2
    across = (mixed.supports[1].weight_below - mixed.supports[0].weight_below) * math.sin(0.7)
    row = mixed.rows()[0]
    bent = (row.at_top + row.at_bottom) / 2 - row.middle
    assert bent * CLEARANCE == pytest.approx(sag(across / 12, 12.0, pull, STIFFNESS))


def test_two_in_one_place_count_as_one_and_one_above_the_datum_not_at_all():
    made = Centring(slanted(0.7), GAUGE, 20.0, 1900.0, 1200.0)
    made.add(joint(), [(0.5, BOW), (0.51, BOW)])
    made.add(joint(), [(0.5, BOW)])
    assert len(made.supports) == 2
    assert len(made.rows()) == 1
    made.add(joint(), [(0.5, BOW)])
    assert len(made.supports) == 2


JOINTS = st.lists(st.tuples(st.floats(9.0, 14.0), st.booleans()), min_size=1, max_size=12)


@settings(max_examples=60)
@given(JOINTS, JOINTS, st.data())
def test_adding_and_taking_off_gives_what_a_new_string_gives(first, second, data):
    survey = Survey([Station(0.0, 0.2, 0.3), Station(1850.0, 0.5, 0.3), Station(2500.0, 1.1, 0.9)])
    grown = string(survey, first)
    grown.rows()
    kept = data.draw(st.integers(0, len(first)))
    grown.keep(kept)
    for length, held in second:
        grown.add(joint(length), [(0.5, BOW)] if held else [])
        grown.rows()
    assert grown.rows() == string(survey, [*first[:kept], *second]).rows()
    assert grown.items == kept + len(second)


@settings(max_examples=30)
@given(st.floats(0.3, 1.4), st.floats(9.0, 14.0), st.floats(1.02, 1.4))
def test_every_standoff_falls_when_centralizers_stand_further_apart(inclination, length, more):
    near, far = (
        string(slanted(inclination), [(each, True)] * 6).rows() for each in (length, length * more)
    )
    assert all(one.least > other.least for one, other in zip(near, far, strict=True))
