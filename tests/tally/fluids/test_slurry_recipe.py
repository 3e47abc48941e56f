"""The slurry on paper: both ways, and the weighting material."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.fluids.slurry_recipe import (
    slurry_from_density,
    slurry_from_water,
    weighting_for_density,
)
from tally.formulas import find

SACK, CEMENT, WATER = 50.0, 3140.0, 998.0
SHARES = st.floats(0.0, 0.3)


@given(water=st.floats(0.015, 0.08), solid=SHARES, salt=SHARES, liquid=st.floats(0.0, 0.005))
def test_water_and_density_each_give_the_other(water, solid, salt, liquid):
    recipe = (SACK, CEMENT, solid, 2650.0, liquid, 1100.0, salt, WATER)
    density, *made = slurry_from_water(water, *recipe)
    again, *made_again = slurry_from_density(density, *recipe)
    assert again == pytest.approx(water, rel=1e-6)
    assert made_again == pytest.approx(made, rel=1e-6)


@given(water=st.floats(0.015, 0.03), more=st.floats(10.0, 400.0), own=st.floats(0.0, 2e-4))
def test_weighting_material_brings_the_slurry_there(water, more, own):
    density = slurry_from_water(water, SACK, CEMENT, 0.0, 2650.0, 0.0, WATER, 0.0, WATER)[0] + more
    mass, share, in_all = weighting_for_density(density, water, 5000.0, own, SACK, CEMENT, WATER)
    made = slurry_from_water(in_all, SACK, CEMENT, share, 5000.0, 0.0, WATER, 0.0, WATER)
    assert made[0] == pytest.approx(density)
    assert mass == pytest.approx(share * SACK)
    assert in_all == pytest.approx(water + mass * own)


@pytest.mark.parametrize(
    ("density", "solid_density"), [(1700.0, 5000.0), (2100.0, 1500.0), (2900.0, 2650.0)]
)
def test_no_weighting_material_that_cannot_do_it(density, solid_density):
    with pytest.raises(DomainError, match=r"No weighting material|outside 0 to 3"):
        weighting_for_density(density, 0.022, solid_density, 0.0, SACK, CEMENT, WATER)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"water": "-1 gal"}, "water"),
        ({"water": "5 gal", "salt": "40 %"}, "more than the 37%"),
        ({"water": "0 gal"}, "has no water"),
        ({"water": "5 gal", "cement": "1 lb/gal"}, "Given: water = 5 gal, cement = 1 lb/gal"),
    ],
)
def test_what_cannot_be_is_told_with_what_was_typed(typed, said):
    with pytest.raises(Exception, match=said):
        find("slurry").evaluate_text(typed)
