"""Gel, columns and their balance, as worked by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.cement.columns_on_paper import (
    balanced_columns,
    column_difference,
    columns_pressure,
    gel_pressure_annulus,
    gel_pressure_pipe,
)
from tally.errors import DomainError
from tally.hole.annulus import annulus_volume, hole_capacity
from tally.pipe.capacity import pipe_volume

HEIGHTS = st.floats(0.0, 1500.0)
DENSITIES = st.floats(900.0, 2300.0)


@given(st.floats(0.0, 50.0), st.floats(0.1, 0.5), st.floats(0.0, 4000.0))
def test_the_gel_on_the_wall_holds_the_pressure_on_the_bore(gel, bore, length):
    on_the_bore = gel_pressure_pipe(gel, bore, length) * hole_capacity(bore)
    assert on_the_bore == pytest.approx(gel * 3.141592653589793 * bore * length)


@given(st.floats(0.0, 50.0), st.floats(0.1, 0.3), st.floats(0.01, 0.2), st.floats(0.0, 4000.0))
def test_the_gel_on_both_walls_holds_the_pressure_on_the_annulus(gel, pipe, gap, length):
    hole = pipe + gap
    on_the_annulus = gel_pressure_annulus(gel, hole, pipe, length) * (
        hole_capacity(hole) - hole_capacity(pipe)
    )
    assert on_the_annulus == pytest.approx(gel * 3.141592653589793 * (hole + pipe) * length)


@given(DENSITIES, DENSITIES, HEIGHTS, HEIGHTS, st.floats(0.0, 50.0))
def test_equal_slurry_in_the_shoe_track_presses_alike_on_both_sides(mud, tail, high, low, track):
    def difference(slurry_inside):
        return column_difference(
            mud, high + low, mud, high, 1000.0, 0.0, 1000.0, 0.0, tail, low + slurry_inside,
            tail, slurry_inside,
        )[0]  # fmt: skip

    assert difference(track) == pytest.approx(difference(0.0), abs=1.0)
    assert difference(track) == pytest.approx(
        columns_pressure([(tail, low)]) - columns_pressure([(mud, low)]), abs=1.0
    )


def test_sides_that_are_not_equally_high_are_told():
    with pytest.raises(DomainError, match=r"outside are 1,000 m high and those inside 900 m"):
        column_difference(1000.0, 900.0, 1200.0, 1000.0, *[1000.0, 0.0] * 4)


@given(st.floats(0.1, 8.0), st.floats(0.0, 5.0), st.floats(1000.0, 4000.0))
def test_balanced_columns_stand_equally_high_and_lose_nothing(volume, spacer, depth):
    hole, pipe, bore = 0.2159, 0.127, 0.1086
    high, out, behind, displacement = balanced_columns(volume, hole, pipe, bore, depth, spacer)
    assert annulus_volume(hole, pipe, high) + pipe_volume(bore, high) == pytest.approx(volume)
    assert hole_capacity(hole) * out == pytest.approx(volume)
    inside = pipe_volume(bore, high) + behind + displacement
    assert inside == pytest.approx(pipe_volume(bore, depth))
    spacer_high = behind / hole_capacity(bore)
    assert annulus_volume(hole, pipe, spacer_high) == pytest.approx(spacer)


def test_more_than_the_hole_holds_is_told():
    with pytest.raises(DomainError, match="above the top of a hole of 100 m"):
        balanced_columns(5.0, 0.2159, 0.127, 0.1086, 100.0)
    with pytest.raises(DomainError, match="check which is which"):
        balanced_columns(5.0, 0.2159, 0.127, 0.1270001, 1000.0)
