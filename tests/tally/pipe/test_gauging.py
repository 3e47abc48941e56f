"""Drift, length classes and make-up loss.

Must hold:
- every row of the size table with a drift keeps the rule; a special drift is larger;
- a diameter between the sizes of the rule is refused, with the sizes named;
- every length from 16 to 48 ft falls into one class that holds it.
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.pipe.gauging import (
    INCH,
    joint_length_class,
    lengths_booked_overall,
    make_up_loss,
    standard_drift,
)
from tally.pipe.sizes import casing_sizes
from tally.units import factor
from tests.tally.second_opinion import si

ROWS = [row for row in casing_sizes() if row.drift is not None]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.outer_diameter:.4f}-{row.wall:.5f}")
def test_the_size_table_keeps_the_rule(row):
    rule = standard_drift(row.outer_diameter, row.inner_diameter)
    assert rule == pytest.approx(row.drift, abs=0.0012 * INCH)
    if row.special_drift is not None:
        assert row.special_drift > rule


def test_the_table_has_enough_drifts_to_hold_the_rule():
    assert len(ROWS) > 70


@pytest.mark.parametrize("inches", [4.0, 9.0, 14.0, 31.0])
def test_a_size_between_those_of_the_rule_is_refused(inches):
    with pytest.raises(DomainError, match=rf"{inches:.3f} in lies outside .* data sheet"):
        standard_drift(inches * INCH, 3.0 * INCH)


def test_a_bore_wider_than_the_pipe_is_refused():
    with pytest.raises(DomainError, match="Inside diameter"):
        standard_drift(0.2, 0.21)


@given(length=st.floats(16.0, 48.0))
def test_every_joint_has_a_class_that_holds_it(length):
    length = float(Fraction(length) * factor("ft"))
    number, shortest, longest = joint_length_class(length)
    assert number in (1, 2, 3)
    assert shortest <= length <= longest


@pytest.mark.parametrize("feet", [15.9, 48.1])
def test_a_pup_joint_has_no_class(feet):
    with pytest.raises(DomainError, match="Length of the joint"):
        joint_length_class(feet * 0.3048)


@given(inches=st.floats(6.0, 20.0), gap=st.floats(0.0, 1.0))
def test_two_pins_and_the_gap_between_fill_the_coupling(inches, gap):
    loss = make_up_loss(inches * INCH, gap * INCH)
    assert 2 * loss + 2 * gap * si(1, "inch") == pytest.approx(inches * INCH)


@given(joints=st.integers(0, 5000), loss=st.floats(0.0, 0.3))
def test_each_joint_adds_its_loss(joints, loss):
    assert lengths_booked_overall(joints, loss) == pytest.approx(sum([loss] * joints))
