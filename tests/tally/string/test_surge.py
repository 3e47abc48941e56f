"""Surge along a string.

Must hold:
- it is the sum of its annuli, each by itself, and grows with speed and with depth of pipe;
- auto-fill lowers it, open pipe takes the same friction inside and outside;
- the greatest speed gives the bound back, names it, and breaks no other;
- a joint added makes no annulus anew.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.fluids.flow_curve import FlowCurve
from tally.fluids.surge import bore, moving_annulus, surge_annulus
from tally.fluids.surge_speed import SLOWEST
from tally.fluids.surge_velocity import FASTEST
from tally.hole.sections import Hole, HoleSection
from tally.pipe.interval import PipeInterval
from tally.string.surge import Bound, Mud, moving_string

HOLE = Hole([HoleSection(0.0, 900.0, 0.315, cased=True), HoleSection(900.0, 1800.0, 0.311),
             HoleSection(1800.0, 3000.0, 0.33, lower_diameter=0.30)])  # fmt: skip
THICK = Mud(1222.0, FlowCurve(6.0, 0.02))
SPEEDS = st.floats(0.02, 3.0)
MUDS = st.builds(
    Mud,
    st.floats(1000.0, 2000.0),
    st.builds(FlowCurve, st.floats(0.0, 10.0), st.floats(0.01, 0.5), st.floats(0.5, 1.0)),
)


def string(shoe, split=300.0):
    """Return heavy pipe over the last `split` metres below lighter pipe, stick-up 1 m."""
    light = PipeInterval(-1.0, max(0.0, shoe - split), 0.2445, 0.2205, 70.0)
    return [light, PipeInterval(light.bottom, shoe, 0.2445, 0.2168, 80.0)]


@given(mud=MUDS, speed=SPEEDS)
def test_it_is_the_sum_of_its_annuli(mud, speed):
    moving = moving_string(string(2000.0), HOLE, mud)
    curve = (mud.curve.yield_stress, mud.curve.consistency, mud.curve.index)

    def alone(hole, length):
        return surge_annulus(hole, 0.2445, length, speed, mud.density, *curve)[0]

    # the widening hole counts with its narrow end
    parts = [alone(0.315, 900.0), alone(0.311, 900.0), alone(0.30, 200.0)]
    assert moving.pressure(speed, 900.0) == pytest.approx(parts[0])
    assert moving.pressure(speed, 2000.0) == pytest.approx(sum(parts))
    assert moving.pressure(speed, 2900.0) == moving.pressure(speed, 2000.0)


@given(mud=MUDS, speed=SPEEDS, shoe=st.floats(400.0, 2500.0), more=st.floats(1.0, 400.0))
def test_it_grows_with_speed_and_with_depth_of_pipe(mud, speed, shoe, more):
    shallow, deep = (moving_string(string(each), HOLE, mud) for each in (shoe, shoe + more))
    assert deep.pressure(speed, 3000.0) > shallow.pressure(speed, 3000.0) > 0
    assert deep.pressure(speed * 1.1, 3000.0) > deep.pressure(speed, 3000.0)


@given(mud=MUDS, speed=SPEEDS, share=st.floats(0.05, 1.0))
def test_auto_fill_lowers_it_and_coming_up_it_is_not_counted(mud, speed, share):
    closed = moving_string(string(2000.0), HOLE, mud)
    filling = moving_string(string(2000.0), HOLE, mud, share)
    assert filling.pressure(speed, 2000.0) < closed.pressure(speed, 2000.0)
    assert filling.held_closed() == closed


@settings(deadline=None, max_examples=50)
@given(mud=MUDS, speed=SPEEDS)
def test_open_pipe_takes_the_same_friction_on_both_ways(mud, speed):
    opened = moving_string(string(2000.0), HOLE, mud, None)
    rate = opened.entering(speed)
    inside = 0.0
    for inner, length in ((0.2205, 1700.0), (0.2168, 300.0)):
        inside += bore(inner, mud.density, mud.curve).gradient(rate) * length
    outside = opened.pressure(speed, 2000.0)
    closed = moving_string(string(2000.0), HOLE, mud).pressure(speed, 2000.0)
    assert 0 < outside < closed
    assert outside == pytest.approx(inside, rel=2e-3)
    assert opened.held_closed() is opened


@settings(deadline=None, max_examples=50)
@given(mud=MUDS, share=st.one_of(st.floats(0.0, 0.9), st.none()), allowed=st.floats(1e5, 5e6),
       other=st.floats(1e5, 5e6))  # fmt: skip
def test_the_greatest_speed_gives_the_bound_back(mud, share, allowed, other):
    moving = moving_string(string(2000.0), HOLE, mud, share)
    bounds = [Bound("the old shoe", 900.0, other), Bound("the marl", 2000.0, allowed)]
    if any(moving.pressure(SLOWEST, one.depth) > one.pressure for one in bounds):
        with pytest.raises(DomainError, match="No speed is slow enough at the"):
            moving.greatest_speed(bounds)
        return
    best = moving.greatest_speed(bounds)
    lost = {one.name: moving.pressure(best.speed, one.depth) / one.pressure for one in bounds}
    assert all(share <= 1.0001 for share in lost.values())
    if best.governs:
        assert lost[best.governs] == pytest.approx(1.0, rel=1e-4)
    else:
        assert best.speed == FASTEST


def test_the_speed_is_found_from_below_and_above():
    moving = moving_string(string(2000.0), HOLE, THICK)
    bound = Bound("the marl", 2000.0, 2.0e6)
    best = moving.greatest_speed([bound])
    assert moving.pressure(best.speed * 0.999, 2000.0) < 2.0e6 < moving.pressure(
        best.speed * 1.001, 2000.0
    )  # fmt: skip
    tighter = moving.greatest_speed([Bound("the shoe", 900.0, 0.6e6), bound])
    assert tighter.governs == "the shoe"
    assert tighter.speed < best.speed
    assert moving.greatest_speed([]).speed == FASTEST


def test_no_pipe_in_the_hole_moves_nothing():
    out = moving_string([PipeInterval(-5.0, 0.0, 0.2445, 0.2205, 70.0)], HOLE, THICK, None)
    assert out.pressure(1.0, 500.0) == 0.0


def test_a_joint_added_makes_no_annulus_anew():
    before = moving_string(string(2000.0), HOLE, THICK)
    made = moving_annulus.cache_info().misses, bore.cache_info().misses
    after = moving_string(string(2012.0), HOLE, THICK)
    assert (moving_annulus.cache_info().misses, bore.cache_info().misses) == made
    kept = {id(each.annulus) for each in before.stretches}
    assert {id(each.annulus) for each in after.stretches} <= kept
