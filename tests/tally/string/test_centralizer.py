"""Centralizers and their spacing.

Must hold:
- a table is read along straight lines, exact at its lines, never past the last one, and rises;
- a bow by its restoring force leaves 67 % under it and twice the loss under twice the load;
- in a hole larger than the free bow the play is taken off; a rigid one does not give way;
- standoff falls with spacing and rises with restoring force; the spacing found just keeps it.
"""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.string.centralizer import (
    Bow,
    Rigid,
    bow_standoff,
    rigid_standoff,
    straight_bow,
    tabled_bow,
)
from tally.string.sag import bending_stiffness
from tally.string.spacing import MOST, bow_spacing, longest_spacing, standoff_at

TABLE = [(0.004, 1000.0), (0.010, 4000.0), (0.013, 9000.0)]
PIPE, HOLE, CLEARANCE = 0.2445, 0.3112, (0.3112 - 0.2445) / 2
STIFFNESS = bending_stiffness(PIPE, 0.2205)
SIDES, TENSIONS = st.floats(1.0, 800.0), st.floats(-5e4, 2e6)
FORCES, SPACINGS = st.floats(500.0, 2e4), st.floats(1.0, 40.0)


def test_a_table_is_read_between_its_lines_and_not_past_the_last():
    bow = tabled_bow(0.34, reversed(TABLE))
    assert [bow.deflection(load) for _, load in TABLE] == pytest.approx([x for x, _ in TABLE])
    assert bow.deflection(0.0) == 0.0
    assert bow.deflection(500.0) == pytest.approx(0.002)
    assert bow.deflection(2500.0) == pytest.approx(0.007)
    assert bow.deflection(9000.1) == math.inf
    assert bow.gap(9000.1, CLEARANCE, PIPE) == -math.inf


@pytest.mark.parametrize(
    "table",
    [
        ((0.004, 1000.0), (0.010, 1000.0)),
        ((0.004, 1000.0), (0.004, 2000.0)),
        ((0.004, 2000.0), (0.010, 1000.0)),
        ((0.004, -1.0),),
    ],
)
def test_a_table_that_does_not_rise_is_refused(table):
    with pytest.raises(DomainError, match="both must grow from line to line"):
        Bow(0.34, table)


def test_a_table_without_a_line_is_refused():
    with pytest.raises(DomainError, match="no line"):
        tabled_bow(0.34, [])


def test_the_restoring_force_leaves_67_percent_in_the_hole_of_the_test():
    assert bow_standoff(7117.0, HOLE, PIPE, 0.34, 7117.0, HOLE)[0] == pytest.approx(0.67)
    assert bow_standoff(2 * 7117.0, HOLE, PIPE, 0.34, 7117.0, HOLE)[0] == pytest.approx(0.34)
    assert bow_standoff(4 * 7117.0, HOLE, PIPE, 0.34, 7117.0, HOLE) == (0.0, 0.0)


def test_in_a_larger_hole_the_play_comes_off_first():
    wide = 0.36
    standoff, gap = bow_standoff(1000.0, wide, PIPE, 0.34, 7117.0, HOLE)
    bow = straight_bow(0.34, 7117.0, CLEARANCE)
    assert gap == pytest.approx((0.34 - PIPE) / 2 - bow.deflection(1000.0))
    assert standoff == pytest.approx(gap / ((wide - PIPE) / 2))


def test_a_rigid_one_does_not_give_way_and_must_fit():
    assert Rigid(0.30).gap(1e6, CLEARANCE, PIPE) == Rigid(0.30).gap(0.0, CLEARANCE, PIPE)
    with pytest.raises(DomainError, match=r"outside 0\.05 to 0\.3112"):
        rigid_standoff(HOLE, PIPE, 0.32)
    with pytest.raises(DomainError, match="is not larger than the pipe"):
        rigid_standoff(HOLE, PIPE, 0.24)


@settings(max_examples=60)
@given(SIDES, TENSIONS, FORCES, SPACINGS, st.floats(1.01, 1.5))
def test_standoff_falls_with_spacing_and_rises_with_restoring_force(
    side, tension, force, spacing, more
):
    def at(force, spacing):
        bow = straight_bow(0.34, force, CLEARANCE)
        return standoff_at(bow, spacing, side, tension, CLEARANCE, PIPE, STIFFNESS)

    here = at(force, spacing)
    assert at(force, spacing * more) < here or here == -math.inf
    assert at(force * more, spacing) > here or here == -math.inf


@settings(max_examples=60)
@given(SIDES, TENSIONS, FORCES, st.floats(0.3, 0.9))
def test_the_spacing_found_just_keeps_the_standoff(side, tension, force, target):
    bow = straight_bow(0.34, force, CLEARANCE)
    rest = (side, tension, CLEARANCE, PIPE, STIFFNESS)
    found = longest_spacing(bow, target, *rest)
    assert standoff_at(bow, found, *rest) >= target
    if found < MOST:
        assert standoff_at(bow, found + 2e-4, *rest) < target


def test_in_vertical_hole_the_search_ends_and_what_cannot_be_kept_is_said():
    assert bow_spacing(0.0, HOLE, PIPE, 0.2205, 0.34, 7117.0, HOLE) == MOST
    with pytest.raises(DomainError, match="A standoff of 67% is not kept"):
        longest_spacing(Rigid(0.25), 0.67, 300.0, 0.0, CLEARANCE, PIPE, STIFFNESS)
