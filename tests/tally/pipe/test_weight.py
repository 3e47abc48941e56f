"""Weights of pipe: how they hang together, and a second opinion."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.pipe.capacity import closed_end_displacement, open_end_displacement, pipe_capacity
from tally.pipe.weight import (
    STANDARD_GRAVITY,
    STEEL_DENSITY,
    buoyancy_factor,
    buoyancy_factor_two_fluids,
    plain_end_weight,
    string_weight,
)
from tests.tally.second_opinion import si

FLUIDS = st.floats(0.0, 3000.0)
STEELS = st.floats(7000.0, 9000.0)
BORES = st.floats(0.05, 0.9)
WALLS = st.floats(0.003, 0.1)


@given(bore=BORES, wall=WALLS, fluid=FLUIDS, steel=STEELS)
def test_two_like_fluids_are_one_fluid(bore, wall, fluid, steel):
    both = buoyancy_factor_two_fluids(bore + 2 * wall, bore, fluid, fluid, steel)
    assert both == pytest.approx(buoyancy_factor(fluid, steel), abs=1e-9)


@given(bore=BORES, wall=WALLS, outside=FLUIDS, inside=FLUIDS)
def test_hanging_weight_is_steel_and_contents_less_fluid_pushed_aside(bore, wall, outside, inside):
    outer = bore + 2 * wall
    steel = open_end_displacement(outer, bore) * STEEL_DENSITY
    contents = pipe_capacity(bore) * inside
    pushed_aside = closed_end_displacement(outer) * outside
    factor = buoyancy_factor_two_fluids(outer, bore, outside, inside)
    balance = steel + contents - pushed_aside
    assert factor * steel == pytest.approx(balance, abs=1e-9 * (steel + contents + pushed_aside))


@given(fluid=FLUIDS, steel=STEELS)
def test_buoyancy_agrees_with_pint(fluid, steel):
    weighed = si(steel, "kg/m**3") - si(fluid, "kg/m**3")
    assert buoyancy_factor(fluid, steel) == pytest.approx(weighed / steel)


def test_nothing_but_air_leaves_the_weight_as_it_is():
    assert buoyancy_factor(0.0) == 1.0
    assert buoyancy_factor_two_fluids(0.25, 0.22, 0.0, 0.0) == 1.0


def test_an_empty_string_may_float():
    assert buoyancy_factor_two_fluids(0.5, 0.48, 1500.0, 0.0) < 0


@given(outer=st.floats(0.14, 0.6), wall=st.floats(0.004, 0.04))
def test_plain_end_weight_agrees_with_the_published_metric_factor(outer, wall):
    mm, thick = outer * 1000, wall * 1000
    assert plain_end_weight(outer, wall) == pytest.approx(
        0.0246615 * (mm - thick) * thick, rel=1e-6
    )


@given(pounds_a_foot=st.floats(4.0, 900.0), feet=st.floats(0.0, 60_000.0), factor=st.floats(-3, 3))
def test_string_weight_in_pounds_is_feet_times_pounds_a_foot(pounds_a_foot, feet, factor):
    load = string_weight(si(pounds_a_foot, "pound/foot"), si(feet, "foot"), factor)
    assert load == pytest.approx(si(pounds_a_foot * feet * factor, "force_pound"))


def test_gravity_and_steel_are_the_conventional_values():
    assert si(1, "standard_gravity") == STANDARD_GRAVITY
    assert si(65.5, "pound/gallon") == pytest.approx(STEEL_DENSITY, rel=1e-12)


@pytest.mark.parametrize("wall", [0.0, 0.002, 0.11, float("nan")])
def test_a_wall_out_of_range_is_refused(wall):
    with pytest.raises(DomainError, match=r"Wall .* is outside 0\.003 to 0\.1 m"):
        plain_end_weight(0.25, wall)


def test_a_wall_that_leaves_no_bore_is_refused():
    with pytest.raises(DomainError, match="Inside diameter"):
        plain_end_weight(0.1, 0.05)
