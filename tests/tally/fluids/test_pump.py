"""What a pump delivers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.fluids.pump import (
    double_acting_stroke,
    pump_rate,
    single_acting_stroke,
    stroke_at_efficiency,
    strokes_for_volume,
    time_at_rate,
)
from tests.tally.second_opinion import disc, si

LINERS = st.floats(0.05, 0.4)
STROKES = st.floats(0.05, 1.0)
SHARES = st.floats(0.3, 1.0)
DELIVERED = st.floats(0.0001, 0.5)


@given(liner=LINERS, stroke=STROKES, share=SHARES)
def test_efficiency_scales_the_full_stroke(liner, stroke, share):
    full = single_acting_stroke(liner, stroke, 1.0)
    assert single_acting_stroke(liner, stroke, share) == pytest.approx(full * share)
    if 0.0001 <= full <= 0.5:
        assert stroke_at_efficiency(full, share) == pytest.approx(full * share)


@given(inches=st.floats(2.0, 15.0), stroke=st.floats(2.0, 39.0))
def test_a_triplex_stroke_is_three_cylinders_full(inches, stroke):
    gallons = 3 * disc(inches) * stroke / 231
    got = single_acting_stroke(si(inches, "inch"), si(stroke, "inch"), 1.0)
    assert got == pytest.approx(si(gallons, "gallon"), rel=1e-6)


@given(liner=LINERS, stroke=STROKES, share=SHARES)
def test_a_double_acting_cylinder_without_a_rod_is_two(liner, stroke, share):
    two = single_acting_stroke(liner, stroke, share, 2)
    assert double_acting_stroke(liner, 0.0, stroke, share, 1) == pytest.approx(two)


@given(volume=st.floats(0.0, 10_000.0), delivered=DELIVERED)
def test_strokes_take_the_volume_back(volume, delivered):
    assert strokes_for_volume(volume, delivered) * delivered == pytest.approx(volume)


@given(speed=st.floats(0.1, 2.0), delivered=DELIVERED, minutes=st.floats(0.0, 100.0))
def test_time_at_the_rate_of_a_pump_is_its_strokes_over_its_speed(speed, delivered, minutes):
    strokes = speed * minutes * 60
    rate = pump_rate(speed, delivered)
    if rate >= 0.000_01 and strokes * delivered <= 10_000 and rate <= 1:
        assert time_at_rate(strokes * delivered, rate) == pytest.approx(minutes * 60)


@pytest.mark.parametrize("cylinders", [0, 8, 2.5, float("nan")])
def test_cylinders_are_a_whole_number(cylinders):
    with pytest.raises(DomainError, match="not a whole number from 1 to 7"):
        single_acting_stroke(0.15, 0.3, 0.96, cylinders)


@pytest.mark.parametrize("share", [0.0, 0.29, 1.01, 96.0])
def test_an_efficiency_out_of_range_is_refused(share):
    with pytest.raises(DomainError, match=r"Efficiency .* is outside 0\.3 to 1"):
        stroke_at_efficiency(0.016, share)


def test_a_rod_as_thick_as_the_liner_is_refused():
    with pytest.raises(DomainError, match=r"Rod diameter 0\.15 m is outside 0 to the liner"):
        double_acting_stroke(0.15, 0.15, 0.3, 0.85)


def test_a_rate_of_nothing_is_refused():
    with pytest.raises(DomainError, match="Pump rate 0 m3/s is outside"):
        time_at_rate(1.0, 0.0)
