"""The hole section by section.

Must hold:
- volumes between depths add up, and depend on no order of asking;
- inside, steel and annulus fill the gauge hole to the last drop;
- a section without excess is the cylinder of annulus.py; excess is a share of its annulus;
- by caliper the volume is the area integrated between the readings;
- no pipe is counted below its shoe: that is the pocket;
- a pipe that does not go in is refused with both diameters and the depth.
"""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from tally.errors import DomainError
from tally.hole.annulus import annulus_volume, hole_capacity
from tally.hole.excess import (
    annulus_volume_with_excess,
    excess_from_diameters,
    hole_diameter_from_volume,
    pocket_volume,
)
from tally.hole.sections import Hole, HoleSection, caliper_sections
from tally.pipe.interval import PipeInterval, inside_volume
from tests.tally.second_opinion import disc

UNIT_DISC = disc(1.0)


def area_of(diameter):
    """Return the area of a circle from the polygon of its unit circle."""
    return UNIT_DISC * diameter**2


CASED = HoleSection(0.0, 1000.0, 0.315, cased=True)
PIPE = [
    PipeInterval(-3.0, 800.0, 0.2445, 0.2205, 70.0, 0.0004),
    PipeInterval(800.0, 1490.0, 0.2445, 0.2168, 80.0, 0.0004),
]
SHARES = st.floats(0.0, 1.0)
EXCESS = st.floats(0.0, 1.0)


def hole_with(excess):
    return Hole([CASED, HoleSection(1000.0, 1500.0, 0.311, excess=excess)])


@given(excess=EXCESS, cuts=st.lists(SHARES, max_size=6))
def test_volumes_of_the_parts_add_up(excess, cuts):
    hole = hole_with(excess)
    depths = [0.0, *sorted(1490.0 * cut for cut in cuts), 1490.0]
    parts = sum(hole.annulus(PIPE, a, b) for a, b in pairwise(depths))
    assert parts == pytest.approx(hole.annulus(PIPE, 0.0, 1490.0))
    whole = sum(hole.volume(a, b) for a, b in pairwise(depths))
    assert whole == pytest.approx(hole.volume(0.0, 1490.0))


@given(one=SHARES, two=SHARES)
def test_bore_steel_and_annulus_fill_the_gauge_hole(one, two):
    hole = hole_with(0.0)
    top, bottom = sorted((1490.0 * one, 1490.0 * two))
    steel = sum(p.steel * max(0.0, min(p.bottom, bottom) - max(p.top, top)) for p in PIPE)
    filled = steel + inside_volume(PIPE, top, bottom) + hole.annulus(PIPE, top, bottom)
    assert filled == pytest.approx(hole.volume(top, bottom), abs=1e-9)


@given(excess=EXCESS)
def test_a_section_is_the_cylinder_of_the_plain_formula(excess):
    plain = [PipeInterval(0.0, 1490.0, 0.2445, 0.2205, 70.0)]
    got = hole_with(excess).annulus(plain, 1000.0, 1490.0)
    assert got == pytest.approx(annulus_volume_with_excess(0.311, 0.2445, 490.0, excess)[0])
    pocket = hole_with(excess).pocket(1490.0)
    assert pocket == pytest.approx(pocket_volume(0.311, 10.0, excess))
    assert pocket == pytest.approx(area_of(0.311) * 10 * (1 + excess), rel=1e-5)


@settings(deadline=None, max_examples=25)
@given(diameters=st.lists(st.floats(0.28, 0.45), min_size=2, max_size=8), one=SHARES, two=SHARES)
def test_by_caliper_the_volume_is_the_area_integrated(diameters, one, two):
    readings = [(1000.0 + 10 * number, value) for number, value in enumerate(diameters)]
    hole = Hole(caliper_sections(readings, excess=0.1))
    span = hole.bottom - hole.top
    top, bottom = sorted((hole.top + span * one, hole.top + span * two))
    pipe = [PipeInterval(0.0, 2000.0, 0.2445, 0.2205, 70.0)]
    depths = [depth for depth, _ in readings]

    def area(depth):
        place = min(len(readings) - 2, int((depth - 1000.0) // 10))
        share = (depth - depths[place]) / 10
        first, last = (hole_capacity(readings[place + step][1]) for step in (0, 1))
        return first + share * (last - first) - hole_capacity(0.2445)

    inner = [depth for depth in depths if top < depth < bottom]
    integral = quad(area, top, bottom, points=inner or None, limit=200)[0]
    assert hole.annulus(pipe, top, bottom) == pytest.approx(1.1 * integral, abs=1e-7)


def test_nothing_is_counted_below_the_shoe():
    hole = hole_with(0.25)
    assert hole.annulus(PIPE, 1490.0, 1500.0) == 0.0
    assert hole.annulus(PIPE, 900.0, 1500.0) == pytest.approx(hole.annulus(PIPE, 900.0, 1490.0))


def test_the_previous_shoe_is_that_of_the_deepest_casing():
    assert hole_with(0.0).previous_shoe == 1000.0
    assert Hole([HoleSection(5.0, 100.0, 0.4)]).previous_shoe == 5.0


def test_a_pipe_that_does_not_go_in_is_refused_with_both_diameters():
    tight = Hole([HoleSection(0.0, 50.0, 0.3), HoleSection(50.0, 60.0, 0.3, lower_diameter=0.24)])
    with pytest.raises(DomainError, match=r"pipe of 0\.2445 m .* hole of 0\.24 m at 60 m"):
        tight.annulus([PipeInterval(0.0, 60.0, 0.2445, 0.22, 70.0)], 0.0, 60.0)


def test_a_gap_between_sections_is_refused_with_both_depths():
    with pytest.raises(DomainError, match=r"from 1001 m does not begin .* at 1000 m"):
        Hole([CASED, HoleSection(1001.0, 1500.0, 0.311)])


@pytest.mark.parametrize("wrong", [(-1.0, 100.0), (0.0, 1501.0), (100.0, 50.0)])
def test_depths_outside_the_hole_are_refused(wrong):
    with pytest.raises(DomainError, match="depth"):
        hole_with(0.0).volume(*wrong)


def test_a_hole_of_nothing_and_a_casing_with_excess_are_refused():
    with pytest.raises(DomainError, match="no section"):
        Hole([])
    with pytest.raises(DomainError, match="excess belongs to open hole"):
        HoleSection(0.0, 100.0, 0.3, cased=True, excess=0.1)


@given(gap=st.floats(0.01, 0.3), share=st.floats(0.0, 1.0), length=st.floats(1.0, 3000.0))
def test_excess_and_mean_diameter_are_two_ways_to_say_one_volume(gap, share, length):
    gauge = 0.2445 + gap
    volume, added = annulus_volume_with_excess(gauge, 0.2445, length, share)
    assert volume - added == pytest.approx(annulus_volume(gauge, 0.2445, length))
    mean = hole_diameter_from_volume(0.2445, length, volume)
    assert excess_from_diameters(gauge, mean, 0.2445) == pytest.approx(share, abs=1e-6)
