"""Sacks, mix fluid and additives for a volume of slurry, and back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.fluids.slurry_amounts import (
    additive_by_cement_weight,
    additive_by_slurry_volume,
    additive_by_water_weight,
    fluid_for_sacks,
    sacks_for_volume,
    volume_of_sacks,
)
from tally.formulas import find

SACK, WATER = 50.0, 998.0


@given(st.floats(0.1, 500.0), st.floats(0.01, 2.0))
def test_sacks_and_volume_are_the_same_both_ways(volume, by_sack):
    sacks, whole = sacks_for_volume(volume, by_sack)
    assert volume_of_sacks(sacks, by_sack) == pytest.approx(volume)
    assert sacks * (1 - 1e-9) <= whole < sacks + 1


def test_a_volume_of_whole_sacks_takes_no_sack_more():
    assert [sacks_for_volume(n * 0.0331, 0.0331)[1] for n in range(1, 400)] == list(range(1, 400))


@given(st.integers(1, 5000), st.integers(1, 5000), st.floats(0.001, 0.1))
def test_amounts_of_two_lots_add_up(first, second, by_sack):
    both = first + second
    assert fluid_for_sacks(both, by_sack) == pytest.approx(
        fluid_for_sacks(first, by_sack) + fluid_for_sacks(second, by_sack)
    )
    assert additive_by_cement_weight(0.02, both, SACK) == pytest.approx(both)
    mass, water = additive_by_water_weight(0.1, both, by_sack, WATER)
    assert mass == pytest.approx(0.1 * WATER * water)
    assert additive_by_slurry_volume(3.0, water) == pytest.approx(3 * both * by_sack)


def test_a_sack_is_whatever_the_yield_is_for():
    typed = find("sacks-for-volume").evaluate_text
    by_unit = [typed({"volume": "100 bbl", "yield": text})["sacks"]
               for text in ("1.18 ft3/sk", "1.18 ft3", "8.8270 gal/sk", "1.18")]  # fmt: skip
    assert by_unit == pytest.approx([by_unit[0]] * 4, rel=1e-5)
