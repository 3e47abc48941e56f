"""The size table: what it holds, that it holds together, and what it says when it has no row."""

import pytest

from tally.errors import InputError
from tally.pipe.sizes import casing_sizes, find_casing
from tally.units import from_unit, to_unit

ROWS = casing_sizes()
UNSTATED_DRIFT = {(9.625, 58.4)}


def inches(metres):
    return round(to_unit(metres, "in"), 3)


def pounds(kilograms):
    return round(to_unit(kilograms, "lb/ft"), 2)


def name(row):
    return f"{inches(row.outer_diameter)}-{pounds(row.nominal_weight)}"


@pytest.mark.parametrize(
    ("od", "weight", "bore", "drift", "coupling"),
    [
        (4.5, 11.6, 4.000, 3.875, 5.000),
        (5.5, 17.0, 4.892, 4.767, 6.050),
        (7.0, 29.0, 6.184, 6.059, None),
        (9.625, 47.0, 8.681, 8.525, 10.625),
        (9.625, 53.5, 8.535, 8.379, 10.625),
        (13.375, 68.0, 12.415, 12.259, 14.375),
        (20.0, 133.0, 18.730, 18.542, None),
    ],
)
def test_a_row_is_found_as_printed(od, weight, bore, drift, coupling):
    row = find_casing(from_unit(od, "in"), from_unit(weight, "lb/ft"))
    assert (inches(row.inner_diameter), inches(row.drift)) == (bore, drift)
    assert (row.coupling_diameter and inches(row.coupling_diameter)) == coupling


def test_metric_names_of_a_size_find_it_too():
    assert inches(find_casing(0.2445, 69.94).inner_diameter) == 8.681
    assert inches(find_casing(0.3397, 101.19).inner_diameter) == 12.415


@pytest.mark.parametrize("row", ROWS, ids=name)
def test_every_row_holds_together(row):
    assert inches(row.inner_diameter) == pytest.approx(
        inches(row.outer_diameter) - 2 * inches(row.wall), abs=0.0011
    )
    if (inches(row.outer_diameter), pounds(row.nominal_weight)) in UNSTATED_DRIFT:
        assert row.drift is None
    else:
        od = inches(row.outer_diameter)
        allowance = 0.125 if od <= 8.625 else 0.15625 if od <= 13.375 else 0.1875
        assert inches(row.inner_diameter) - inches(row.drift) == pytest.approx(
            allowance, abs=0.0013
        )
    if row.special_drift is not None:
        assert row.drift < row.special_drift < row.inner_diameter
        assert "special drift" in row.note
    if row.coupling_diameter is not None:
        assert row.coupling_diameter > row.outer_diameter
    assert row.source


@pytest.mark.parametrize("row", ROWS, ids=name)
def test_every_row_is_found_by_its_own_name_and_only_that_row(row):
    assert find_casing(row.outer_diameter, row.nominal_weight) is row


def test_rows_are_in_order_and_none_is_twice():
    keys = [(row.outer_diameter, row.nominal_weight) for row in ROWS]
    assert keys == sorted(set(keys))
    assert len(ROWS) == 86


def test_an_unknown_weight_names_the_weights_there_are():
    with pytest.raises(InputError) as caught:
        find_casing(from_unit(13.375, "in"), from_unit(48, "lb/ft"))
    assert str(caught.value) == (
        "The size table has no 13.375 in casing of 48 lb/ft, only 54.5, 61, 68, 72. "
        "Give the inside diameter and the drift of the pipe on location instead."
    )


def test_an_unknown_size_names_the_sizes_there_are():
    with pytest.raises(
        InputError, match=r"no 6 in casing, only 4\.5, 5, 5\.5, 6\.625, .*, 20 in\."
    ):
        find_casing(from_unit(6, "in"), from_unit(23, "lb/ft"))
