"""The picture of the well and the charts: what they show is what the book has."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.reports.pdf.chart import scale
from tally.reports.pdf.well import OPEN, well_of
from tally.reports.pdf.well_picture import spread
from tally.units import from_unit
from tests.tally.reports.pdf.jobs import demonstration, long_string

FOOT = from_unit(1.0, "ft")


def test_the_well_of_the_demonstration() -> None:
    well = well_of(demonstration())
    assert well.shoe == pytest.approx(8240 * FOOT)
    assert well.collar == pytest.approx(8151.64 * FOOT)
    assert [(one.what, one.bottom / FOOT) for one in well.casings] == [
        ("13-3/8 in surface", pytest.approx(3010))
    ]
    bare = [one for one in well.hole if one.what == OPEN]
    assert bare[0].top == pytest.approx(3010 * FOOT)
    assert bare[-1].bottom == pytest.approx(8260 * FOOT) == well.deepest
    tops = {one.name: one.top / FOOT for one in well.fluids}
    assert tops["lead"] == pytest.approx(3010)
    assert tops["tail"] == pytest.approx(6900)
    assert {what: len(depths) for what, depths in well.pieces}["scratcher"] == 12
    for text in (
        "shoe 8,240.00 ft",
        "collar 8,151.64 ft",
        "tail, top 6,900.00 ft by the programme",
    ):
        assert text in [one.text for one in well.names]


def test_a_well_without_a_programme_says_what_it_lacks() -> None:
    well = well_of(long_string(403, "mm"))
    assert well.fluids == ()
    assert well.lacks
    assert well.collar is None


@given(st.lists(st.floats(0, 400), max_size=40).map(lambda each: sorted(each, reverse=True)))
@settings(max_examples=60, deadline=None)
def test_names_never_stand_on_one_another(wanted: list[float]) -> None:
    places = spread(wanted, 400.0, 0.0)
    assert len(places) == len(wanted)
    for upper, lower in pairwise(places):
        assert upper - lower >= 9.0 - 1e-9
    assert all(place >= -1e-9 for place in places)


@given(st.lists(st.floats(0, 1e9), max_size=20))
@settings(max_examples=60, deadline=None)
def test_a_scale_holds_its_numbers_in_few_round_steps(numbers: list[float]) -> None:
    made = scale(numbers, 0.0, 100.0)
    assert all(-1e-6 <= made.at(number) <= 100 + 1e-6 for number in numbers)
    ticks = list(made.ticks())
    assert 2 <= len(ticks) <= 11
    assert ticks[-1][0] == pytest.approx(100.0)
