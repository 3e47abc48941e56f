"""Slack-off and pick-up along the survey.

Must hold:
- without friction both are the hanging weight, whatever the path;
- in straight hole they are weight x length x (cos -/+ friction x sin), exactly;
- a weightless string round a bend follows the capstan: pull x exp(friction x turn);
- on any path they agree with the force balance integrated by scipy;
- more friction never lightens the pick-up nor loads the slack-off;
- the band against depth is the single weights, with blocks, and quick at 400 depths.
"""

import math
import time
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from tally.errors import DomainError
from tally.hole.survey import Station, Survey
from tally.string.band import expected_band
from tally.string.columns import column
from tally.string.drag import DragPath, Weights, drag_leg
from tally.string.pieces import StringPiece, hung_at
from tally.string.weights import Span, hanging, weighed

FACTORS = st.floats(0.0, 0.6)
TURNS = st.floats(-0.12, 0.12)
MUD = column(1200.0)
PIECES = [StringPiece(300.0, 0.2445, 0.2168, 80.0), StringPiece(3000.0, 0.2445, 0.2205, 70.0)]


@st.composite
def paths(draw):
    """Return a survey of gentle legs, from the vertical to high angle, turning as it goes."""
    stations, inclination, azimuth = [Station(0.0, 0.0, 1.0)], 0.0, 1.0
    for number in range(1, 12):
        inclination = min(1.5, abs(inclination + draw(TURNS)))
        azimuth = (azimuth + draw(TURNS)) % (2 * math.pi)
        stations.append(Station(100.0 * number, inclination, azimuth))
    return Survey(stations)


def by_scipy(hole, spans, friction, bottom):
    """Return pick-up and slack-off by integrating the balance of forces up the hole."""

    def tangent(depth):
        leg, share = hole.leg_at(depth)
        return np.array(leg.direction(share)), leg

    def slope(depth, pull, sign):
        along, leg = tangent(depth)
        weight = next(s.weight for s in spans if s.top <= depth <= s.bottom)
        down = np.array([0.0, 0.0, 1.0])
        bent = np.zeros(3)
        if leg.angle > 1e-9:
            step = min(1e-3, (leg.length - 1e-6) / 2)
            middle = min(max(depth, leg.top + step), leg.top + leg.length - step)
            ahead, _ = hole.leg_at(middle + step)[0], None
            one = np.array(ahead.direction((middle + step - ahead.top) / ahead.length))
            two = np.array(leg.direction((middle - step - leg.top) / leg.length))
            bent = (one - two) / (2 * step)
        across = weight * (down - (down @ along) * along)
        push = float(np.linalg.norm(pull[0] * bent + across))
        return [-(weight * (down @ along) + sign * friction(depth) * push)]

    edges = sorted({*(s.top for s in spans), *(s.bottom for s in spans),
                    *(station.depth for station in hole.stations), 0.0, bottom})  # fmt: skip
    edges = [edge for edge in edges if 0 <= edge <= bottom]
    found = []
    for sign in (1.0, -1.0):
        pull = [0.0]
        for upper, lower in reversed(list(pairwise(edges))):
            inner = (lower - 1e-9, upper + 1e-9)
            pull = solve_ivp(slope, inner, pull, args=(sign,), rtol=1e-6, atol=1.0).y[:, -1]
        found.append(float(pull[0]))
    return found


@given(hole=paths(), depth=st.floats(100.0, 1100.0))
def test_without_friction_both_are_the_hanging_weight(hole, depth):
    path = DragPath(hole, 1100.0, 400.0, 0.0, 0.0)
    spans = weighed(hung_at(PIECES, depth), column(1200.0, 30.0), MUD)
    got = path.weights(spans)
    assert got.hanging == pytest.approx(hanging(spans, hole))
    assert got.slack_off == pytest.approx(got.hanging, rel=1e-9)
    assert got.pick_up == pytest.approx(got.hanging, rel=1e-9)


@given(inclination=st.floats(0.0, 1.5), friction=FACTORS, shoe=st.floats(0.0, 900.0))
def test_in_straight_hole_it_is_exact(inclination, friction, shoe):
    hole = Survey([Station(0.0, inclination, 0.3), Station(1000.0, inclination, 0.3)])
    path = DragPath(hole, 1000.0, shoe, friction / 2, friction)
    got = path.weights([Span(0.0, 1000.0, 500.0)])
    drag = math.sin(inclination) * (friction / 2 * shoe + friction * (1000.0 - shoe))
    weight = 500.0 * 1000.0 * math.cos(inclination)
    assert got.pick_up == pytest.approx(weight + 500.0 * drag)
    assert got.slack_off == pytest.approx(weight - 500.0 * drag, abs=1e-3)


@given(turned=st.floats(0.01, 1.5), friction=FACTORS, pull=st.floats(1e3, 1e6))
def test_a_weightless_string_round_a_bend_follows_the_capstan(turned, friction, pull):
    _, down, up = drag_leg(pull, 0.0, 100.0, 0.05, 0.0, 400.0, 0.05 + turned, 0.0, friction)
    assert up == pytest.approx(pull * math.exp(friction * turned), rel=2e-4)
    assert down == pytest.approx(pull * math.exp(-friction * turned), rel=2e-4)


@settings(deadline=None, max_examples=8)
@given(hole=paths(), cased=st.floats(0.1, 0.3), open_hole=st.floats(0.2, 0.5))
def test_on_any_path_it_agrees_with_scipy(hole, cased, open_hole):
    path = DragPath(hole, 1100.0, 500.0, cased, open_hole)
    spans = weighed(hung_at(PIECES, 1100.0), MUD, MUD)
    got = path.weights(spans)
    up, down = by_scipy(hole, spans, lambda d: cased if d <= 500.0 else open_hole, 1100.0)
    scale = got.hanging
    assert got.pick_up == pytest.approx(up, abs=0.002 * scale)
    assert got.slack_off == pytest.approx(down, abs=0.002 * scale)


@pytest.mark.parametrize(
    ("first", "last"),
    [((0.1, 0.3), (1.4, 0.3)), ((1.4, 0.3), (0.2, 0.3)), ((0.9, 0.2), (1.1, 1.6))],
)
def test_in_one_sharp_leg_it_agrees_with_scipy(first, last):
    hole = Survey([Station(0.0, *first), Station(500.0, *last)])
    spans = [Span(0.0, 500.0, 600.0)]
    got = DragPath(hole, 500.0, 0.0, 0.3, 0.3).weights(spans)
    up, down = by_scipy(hole, spans, lambda _: 0.3, 500.0)
    assert got.pick_up == pytest.approx(up, rel=5e-4)
    assert got.slack_off == pytest.approx(down, rel=2e-3)


@given(hole=paths(), friction=st.floats(0.0, 0.5), more=st.floats(0.0, 0.1))
def test_more_friction_never_helps(hole, friction, more):
    spans = weighed(hung_at(PIECES, 1000.0), MUD, MUD)
    one = DragPath(hole, 1100.0, 400.0, friction, friction).weights(spans)
    two = DragPath(hole, 1100.0, 400.0, friction + more, friction + more).weights(spans)
    assert two.pick_up >= one.pick_up - 1e-6
    assert two.slack_off <= one.slack_off + 1e-6
    assert one.slack_off <= one.hanging + 1e-6 <= one.pick_up + 2e-6


@given(hole=paths(), depth=st.floats(150.0, 1099.0), cut=st.floats(10.0, 140.0))
def test_how_the_spans_are_cut_hardly_matters(hole, depth, cut):
    path = DragPath(hole, 1100.0, 400.0, 0.2, 0.3)
    one = path.weights([Span(0.0, depth, 600.0)])
    two = path.weights([Span(0.0, depth - cut, 600.0), Span(depth - cut, depth, 600.0)])
    assert two.pick_up == pytest.approx(one.pick_up, rel=1e-3)
    assert two.slack_off == pytest.approx(one.slack_off, abs=1e-3 * one.pick_up)
    assert two.hanging == pytest.approx(one.hanging)


@given(hole=paths())
def test_a_leg_by_itself_is_the_leg_in_the_path(hole):
    upper, lower = hole.stations[5], hole.stations[6]
    leg = (upper.depth, upper.inclination, upper.azimuth)
    foot = (lower.depth, lower.inclination, lower.azimuth)
    path = DragPath(hole, lower.depth, 0.0, 0.0, 0.3)
    below = Survey([Station(0.0, *leg[1:]), Station(100.0, *foot[1:])])
    alone = DragPath(below, 100.0, 0.0, 0.0, 0.3).weights([Span(0.0, 100.0, 600.0)])
    rest, down, up = drag_leg(0.0, 600.0, *leg, *foot, 0.3)
    assert (alone.hanging, alone.slack_off, alone.pick_up) == pytest.approx((rest, down, up))
    assert path.bottom == lower.depth


def test_the_band_is_the_single_weights_with_blocks():
    hole = Survey([Station(0.0, 0.0, 0.0), Station(400.0, 0.0, 0.0), Station(1000.0, 0.8, 0.5)])
    path = DragPath(hole, 3000.0, 500.0, 0.2, 0.3)
    depths = [250.0, 777.7, 3000.0]
    band = expected_band(path, PIECES, depths, lambda d: column(1200.0, d / 10), MUD, 1e5)
    for depth, got in zip(depths, band, strict=True):
        spans = weighed(hung_at(PIECES, depth), column(1200.0, depth / 10), MUD)
        assert got == path.weights(spans).with_block(1e5)
        assert got.hanging == pytest.approx(hanging(spans, hole) + 1e5)


def test_a_stick_up_adds_its_own_weight():
    path = DragPath(Survey(), 1000.0, 0.0, 0.2, 0.3)
    pieces = [StringPiece(500.0, 0.2445, 0.2205, 70.0)]
    band = expected_band(path, pieces, [400.0], MUD, MUD, top=-3.0)
    without = expected_band(path, pieces, [400.0], MUD, MUD)
    assert band[0].pick_up - without[0].pick_up == pytest.approx(3 * 70 * 9.80665)
    assert band[0].hanging == pytest.approx(band[0].pick_up)


def test_four_hundred_depths_are_quick():
    stations = [Station(0.0, 0.0, 0.0)]
    for number in range(1, 201):
        inclination = min(1.2, 0.02 * number)
        stations.append(Station(30.0 * number, inclination, 1 + 0.3 * math.sin(number / 15)))
    pieces = [StringPiece(12.0, 0.2445, 0.2205, 70.0)] * 500
    path = DragPath(Survey(stations), 6000.0, 2000.0, 0.25, 0.35)
    depths = [15.0 * number for number in range(1, 401)]
    taken = []
    for _ in range(3):
        began = time.perf_counter()
        band = expected_band(path, pieces, depths, lambda d: column(1200.0, d / 30), MUD, 2e5)
        taken.append(time.perf_counter() - began)
    assert len(band) == 400
    assert min(taken) < 0.2


def test_weights_below_the_path_are_refused():
    path = DragPath(Survey(), 1000.0, 0.0, 0.2, 0.3)
    with pytest.raises(DomainError, match="Depth 1,200 m is outside"):
        path.weights([Span(0.0, 1200.0, 500.0)])


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"cased": 1.1}, "Friction factor in casing"),
        ({"open_hole": -0.1}, "Friction factor in open hole"),
        ({"previous_shoe": -1.0}, "Previous shoe"),
        ({"bottom": 0.0}, "Bottom of the path"),
    ],
)
def test_what_cannot_be_is_refused_by_name(wrong, said):
    good = {"bottom": 1000.0, "previous_shoe": 100.0, "cased": 0.2, "open_hole": 0.3}
    with pytest.raises(DomainError, match=said):
        DragPath(Survey(), **(good | wrong))


def test_blocks_are_added_to_all_three():
    assert Weights(1.0, 2.0, 3.0).with_block(10.0) == Weights(11.0, 12.0, 13.0)
