"""Volumes of hole and annulus: how they hang together, and a second opinion."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.hole.annulus import (
    annulus_capacity,
    annulus_length_filled,
    annulus_volume,
    hole_capacity,
)
from tally.pipe.capacity import closed_end_displacement
from tests.tally.second_opinion import disc, si

PIPES = st.floats(0.05, 1.1)
GAPS = st.floats(0.002, 0.4)


@given(pipe=PIPES, gap=GAPS)
def test_annulus_is_hole_less_closed_end_displacement(pipe, gap):
    hole = pipe + gap
    left = hole_capacity(hole) - closed_end_displacement(pipe)
    assert annulus_capacity(hole, pipe) == pytest.approx(left)


@given(pipe=PIPES, gap=GAPS, length=st.floats(0.1, 10_000.0))
def test_length_filled_takes_the_volume_back(pipe, gap, length):
    volume = annulus_volume(pipe + gap, pipe, length)
    assume(volume <= 10_000)
    assert annulus_length_filled(pipe + gap, pipe, volume) == pytest.approx(length)


@given(hole=st.floats(4.0, 40.0), share=st.floats(0.4, 0.9))
def test_annulus_agrees_with_polygons_in_other_units(hole, share):
    pipe = max(2.0, hole * share)
    cubic_feet = (disc(hole) - disc(pipe)) / 144
    assert annulus_capacity(si(hole, "inch"), si(pipe, "inch")) == pytest.approx(
        si(cubic_feet, "foot**3/foot"), rel=1e-5
    )


@pytest.mark.parametrize(("hole", "pipe"), [(0.25, 0.31), (0.25, 0.25)])
def test_a_pipe_that_does_not_go_into_the_hole_is_refused_with_both_numbers(hole, pipe):
    with pytest.raises(DomainError, match=rf"Outside diameter {pipe} m is not less .* {hole} m"):
        annulus_capacity(hole, pipe)


@pytest.mark.parametrize("hole", [0.04, 1.51, float("nan"), 12.25])
def test_a_hole_out_of_range_is_refused(hole):
    with pytest.raises(DomainError, match=r"Hole diameter .* is outside 0\.05 to 1\.5 m"):
        hole_capacity(hole)


def test_a_length_below_zero_is_refused():
    with pytest.raises(DomainError, match="Length -1 m is outside 0 to 20,000 m"):
        annulus_volume(0.31, 0.25, -1.0)
