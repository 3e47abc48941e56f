"""The well as one tube: volume to depth and back."""

from itertools import pairwise
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.cement.tube import Gap, Tube, Well
from tally.errors import DomainError
from tally.hole.sections import Hole, HoleSection, caliper_sections
from tally.hole.survey import Station, Survey
from tally.pipe.interval import PipeInterval, inside_volume

PIPE = (
    PipeInterval(-3.0, 400.0, 0.2445, 0.2205, 70.0, coupling_area=0.001),
    PipeInterval(400.0, 1200.0, 0.2445, 0.2168, 80.0, coupling_area=0.001),
)
CALIPER = caliper_sections([(800.0, 0.311), (900.0, 0.36), (1000.0, 0.33), (1205.0, 0.35)], 0.1)
HOLE = Hole([
    HoleSection(0.0, 500.0, 0.32, cased=True), HoleSection(500.0, 800.0, 0.311, excess=0.2),
    *CALIPER,
])  # fmt: skip
SURVEY = Survey([Station(0.0, 0.0, 0.0), Station(300.0, 0.0, 0.0), Station(900.0, 0.9, 0.5)])
TUBE = Tube(Well(PIPE, HOLE, SURVEY, collar=1170.0, head=0.4))


def test_ends_are_the_volumes_of_pipe_and_annulus():
    assert pytest.approx(0.4 + inside_volume(PIPE, -3.0, 1200.0)) == TUBE.shoe
    assert TUBE.collar == pytest.approx(0.4 + inside_volume(PIPE, -3.0, 1170.0))
    assert TUBE.end - TUBE.shoe == pytest.approx(HOLE.annulus(PIPE, 0.0, 1200.0))


@given(depth=st.floats(0.0, 1200.0))
@settings(max_examples=60)
def test_depth_to_volume_and_back(depth):
    inside, outside = TUBE.inside(depth), TUBE.outside(depth)
    assert inside <= TUBE.shoe * (1 + 1e-12)
    assert outside >= TUBE.shoe * (1 - 1e-12)
    assert TUBE.depth(inside) == pytest.approx(depth, abs=1e-6)
    assert TUBE.depth(outside) == pytest.approx(depth, abs=1e-6)
    assert outside - TUBE.shoe == pytest.approx(HOLE.annulus(PIPE, depth, 1200.0), abs=1e-9)
    assert TUBE.vertical(outside) == pytest.approx(SURVEY.true_vertical(depth), abs=1e-6)


def test_between_nodes_the_way_down_is_straight_within_centimetres():
    nodes = TUBE.nodes
    for before, after in pairwise(nodes):
        middle = (before.at + after.at) / 2
        assert TUBE.vertical(middle) == pytest.approx((before.down + after.down) / 2, abs=0.03)
    assert sum(node.length for node in nodes) == pytest.approx(1203.0 + 1200.0)


def test_the_gap_is_as_wide_as_its_volume_says():
    piece = next(each for each in TUBE.annulus if each.near == 800.0)
    area = (pi / 4 * 0.311**2 - PIPE[1].closed) * 1.2
    assert pi / 4 * (piece.gap.wide**2 - piece.gap.pipe**2) == pytest.approx(area)
    assert TUBE.casing[0].gap == Gap(0.2205)


def test_a_plug_in_the_head_is_at_the_top_of_the_casing():
    assert TUBE.depth(0.1) == -3.0


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"pipe": ()}, "no casing"),
        ({"collar": 1300.0}, "Float collar 1,300 m"),
        ({"head": 30.0}, "Volume of line and head 30 m3"),
        ({"hole": Hole([HoleSection(0.0, 1100.0, 0.32)])}, "Shoe 1,200 m"),
    ],
)
def test_a_well_that_cannot_be_is_refused(change, said):
    good = {"pipe": PIPE, "hole": HOLE, "survey": SURVEY, "collar": 1170.0, "head": 0.4}
    with pytest.raises(DomainError, match=said):
        Well(**(good | change))


def test_pipe_that_does_not_go_into_the_hole_is_refused():
    tight = Hole([HoleSection(0.0, 1300.0, 0.244)])
    with pytest.raises(DomainError, match="does not go into the hole"):
        Tube(Well(PIPE, tight, SURVEY, collar=1170.0))
