"""Pressure of standing columns."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.fluids.hydrostatic import hydrostatic_pressure, pressure_gradient
from tests.tally.second_opinion import si

DENSITIES = st.floats(0.0, 3000.0)


@given(density=DENSITIES, upper=st.floats(0.0, 7000.0), lower=st.floats(0.0, 7000.0))
def test_columns_on_top_of_one_another_add_up(density, upper, lower):
    parts = hydrostatic_pressure(density, upper) + hydrostatic_pressure(density, lower)
    assert hydrostatic_pressure(density, upper + lower) == pytest.approx(parts)


@given(pounds_a_gallon=st.floats(0.0, 25.0), feet=st.floats(0.0, 45_000.0))
def test_pressure_agrees_with_weight_on_a_square_inch(pounds_a_gallon, feet):
    gallons_over_an_inch = feet * 12 / 231
    expected = si(pounds_a_gallon * gallons_over_an_inch, "force_pound/inch**2")
    got = hydrostatic_pressure(si(pounds_a_gallon, "pound/gallon"), si(feet, "foot"))
    assert got == pytest.approx(expected)


def test_gradient_is_the_pressure_of_one_metre():
    assert pressure_gradient(1200.0) == hydrostatic_pressure(1200.0, 1.0)


@pytest.mark.parametrize(("density", "depth"), [(-1.0, 10.0), (3001.0, 10.0), (1200.0, 15_001.0)])
def test_out_of_range_is_refused(density, depth):
    with pytest.raises(DomainError, match="is outside 0 to"):
        hydrostatic_pressure(density, depth)
