"""Volumes of pipe: how they hang together, and a second opinion."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.pipe.capacity import (
    closed_end_displacement,
    open_end_displacement,
    pipe_capacity,
    pipe_length_filled,
    pipe_volume,
)
from tests.tally.second_opinion import disc, si

BORES = st.floats(0.05, 1.0)
WALLS = st.floats(0.001, 0.1)
LENGTHS = st.floats(0.0, 20_000.0)


@given(bore=st.floats(0.05, 0.5), times=st.floats(1, 2))
def test_capacity_grows_with_the_square_of_the_bore(bore, times):
    assert pipe_capacity(times * bore) == pytest.approx(times**2 * pipe_capacity(bore))


@given(bore=BORES, wall=WALLS)
def test_closed_end_is_open_end_and_capacity_together(bore, wall):
    outside = bore + 2 * wall
    if outside <= 1.1:
        together = open_end_displacement(outside, bore) + pipe_capacity(bore)
        assert closed_end_displacement(outside) == pytest.approx(together)


@given(bore=BORES, first=LENGTHS, second=LENGTHS)
def test_volumes_of_two_lengths_add_up(bore, first, second):
    if first + second <= 20_000:
        parts = pipe_volume(bore, first) + pipe_volume(bore, second)
        assert pipe_volume(bore, first + second) == pytest.approx(parts)


@given(bore=BORES, length=st.floats(0.0, 10_000.0))
def test_length_filled_takes_the_volume_back(bore, length):
    assert pipe_length_filled(bore, pipe_volume(bore, length)) == pytest.approx(length)


@given(inches=st.floats(2.0, 39.0))
def test_capacity_agrees_with_a_polygon_in_other_units(inches):
    barrels_a_foot = disc(inches) / 144 / si(1, "oil_barrel") * si(1, "foot**3")
    assert pipe_capacity(si(inches, "inch")) == pytest.approx(
        si(barrels_a_foot, "oil_barrel/foot"), rel=1e-6
    )


@given(inches=st.floats(2.0, 39.0), wall=st.floats(0.1, 2.0))
def test_steel_pushed_aside_is_wall_times_mean_circumference(inches, wall):
    outside = inches + 2 * wall
    expected = si(3.141592653589793 * (inches + wall) * wall, "inch**2")
    assert open_end_displacement(si(outside, "inch"), si(inches, "inch")) == pytest.approx(expected)


def test_inside_not_less_than_outside_is_refused_with_both_numbers():
    with pytest.raises(DomainError, match=r"Inside diameter 0\.25 m is not less than .* 0\.22 m"):
        open_end_displacement(0.22, 0.25)
    with pytest.raises(DomainError, match="not less"):
        open_end_displacement(0.25, 0.25)


@pytest.mark.parametrize("diameter", [0.0499, 1.101, -0.2, float("nan"), 9.625])
def test_a_diameter_out_of_range_is_refused(diameter):
    for call in (pipe_capacity, closed_end_displacement):
        with pytest.raises(DomainError, match=r"diameter .* is outside 0\.05 to"):
            call(diameter)
