"""Cement over a zone, fluids past it, scratchers that meet."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.cement.programme import SLURRY, Placed
from tally.cement.zones import contact_time, covered, scratchers_that_meet
from tally.errors import DomainError

LEAD = Placed("lead", SLURRY, 20.0, 400.0, 800.0)
TAIL = Placed("tail", SLURRY, 12.0, 800.0, 1000.0, within=4.0)
SPACER = Placed("spacer", "spacer", 6.0, 250.0, 400.0)
PLACED = (SPACER, LEAD, TAIL)


def test_a_zone_over_two_slurries_is_covered_by_both() -> None:
    found = covered(PLACED, 700.0, 850.0, 1000.0)
    assert [(each.name, each.length) for each in found.covers] == [("lead", 100.0), ("tail", 50.0)]
    assert (found.share, found.above, found.below) == (1.0, 300.0, 150.0)


def test_a_zone_that_reaches_over_the_top_of_cement() -> None:
    found = covered(PLACED, 300.0, 500.0, 1000.0)
    assert found.share == 0.5
    assert found.above == -100.0


def test_cement_in_the_pocket_counts_where_it_is_filled() -> None:
    assert covered(PLACED, 1000.0, 1020.0, 1020.0).share == 1.0
    assert covered(PLACED, 1000.0, 1020.0, 1000.0).share == 0.0


def test_without_cement_nothing_is_covered() -> None:
    found = covered((SPACER,), 300.0, 350.0, 1000.0)
    assert (found.covers, found.share) == ((), 0.0)


@settings(max_examples=60)
@given(top=st.floats(0.0, 1200.0), length=st.floats(1.0, 500.0))
def test_what_is_covered_is_never_more_than_the_zone(top: float, length: float) -> None:
    found = covered(PLACED, top, top + length, 1000.0)
    inside = max(0.0, min(top + length, 1000.0) - max(top, 400.0))
    assert sum(each.length for each in found.covers) == pytest.approx(inside, abs=1e-5)
    assert 0.0 <= found.share <= 1.0 + 1e-9


def test_a_spacer_above_the_zone_has_passed_it_and_one_on_it_has_not() -> None:
    assert contact_time(SPACER, 500.0, 600.0, 0.01) == pytest.approx(600.0)
    assert contact_time(SPACER, 350.0, 600.0, 0.01) is None
    with pytest.raises(DomainError, match="rate of 0"):
        contact_time(SPACER, 500.0, 600.0, 0.0)


@pytest.mark.parametrize(
    ("depths", "stroke", "meet"),
    [
        ([], 5.0, 0),
        ([100.0], 50.0, 0),
        ([100.0, 104.0], 4.0, 2),
        ([100.0, 104.0], 3.9, 0),
        ([130.0, 100.0, 110.0, 105.0], 6.0, 3),
        ([100.0, 110.0, 115.0], 5.0, 1),
    ],
)
def test_a_scratcher_counts_where_the_stroke_is_at_least_its_spacing(
    depths: list[float], stroke: float, meet: int
) -> None:
    assert scratchers_that_meet(depths, stroke) == meet


def test_a_zone_without_length_is_refused() -> None:
    with pytest.raises(DomainError, match="no length"):
        covered(PLACED, 500.0, 500.0, 1000.0)
