"""Density, yield and water held against one another."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.fluids.materials import find_material
from tally.fluids.slurry import Mix, slurry
from tally.fluids.slurry_check import (
    Printed,
    Tolerances,
    density_by_mass,
    differences,
    unbalanced,
    water_by_mass,
    with_third,
    yield_by_mass,
)
from tests.tally.fluids.test_slurry import MIXES

PORTLAND = find_material("Portland cement")
METRIC_WATER = 1000.0
SACK = 50.0

S18 = Printed(1890.0, 1.18e-3, 0.44e-3)
S22 = Printed(density=1920.0)
S24 = Printed(1950.0, 0.03605 / SACK, 0.02205 / SACK)


@pytest.mark.parametrize(("printed", "makes"), [(S18, 1220.3), (S24, 1998.6)])
def test_three_figures_that_do_not_balance_are_told_with_what_two_of_them_make(printed, makes):
    found = unbalanced(printed, METRIC_WATER)
    assert found is not None
    assert (found.what, found.given) == ("density", printed.density)
    assert found.makes == pytest.approx(makes, abs=0.05)


@pytest.mark.parametrize(
    ("water", "printed", "off"),
    [
        (0.44e-3, S18, {"density": 1890.0, "yield": 1.18e-3}),
        (0.5e-3, S22, {"density": 1920.0}),
        (S24.water, S24, {"density": 1950.0, "yield": 0.721e-3}),
    ],
)
def test_a_figure_that_the_recipe_does_not_come_to_is_told(water, printed, off):
    found = differences(Mix(PORTLAND, water, (), SACK, METRIC_WATER), printed)
    assert {each.what: each.given for each in found} == pytest.approx(off)


def test_the_recipe_of_a_source_is_told_as_it_comes_out():
    found = differences(Mix(PORTLAND, 0.5e-3, (), SACK, METRIC_WATER), S22)
    assert found[0].makes == pytest.approx(1834, abs=0.5)


@settings(max_examples=60)
@given(MIXES)
def test_what_a_recipe_makes_agrees_with_itself(mix):
    made = slurry(mix)
    additives = sum(each.mass for each in made.shares[2:])
    printed = Printed(made.density, made.yield_, made.water, additives)
    assert unbalanced(printed) is None
    assert differences(mix, printed) == []


@settings(max_examples=60)
@given(MIXES)
def test_any_two_figures_of_a_recipe_give_the_third_with_its_additives(mix):
    made = slurry(mix)
    whole = Printed(made.density, made.yield_, made.water)
    for left_out in ("density", "yield_", "water"):
        found = with_third(
            replace(whole, **{left_out: None}), mix.parts, mix.sack, mix.water_density
        )
        for name in ("density", "yield_", "water"):
            assert getattr(found, name) == pytest.approx(getattr(whole, name), rel=1e-9)


def test_one_figure_gives_no_other():
    for one in (Printed(density=1900.0), Printed(yield_=0.76e-3), Printed(water=0.44e-3)):
        with pytest.raises(DomainError, match="type one more"):
            with_third(one)


@pytest.mark.parametrize(("off", "told"), [(0.9, False), (1.1, True)])
def test_the_tolerance_is_where_it_is_said(off, told):
    mix, width = Mix(PORTLAND, 0.46e-3), Tolerances(density=7.0)
    printed = Printed(density=slurry(mix).density + off * 7.0)
    assert bool(differences(mix, printed, width)) is told


def test_rounded_figures_still_agree():
    assert unbalanced(Printed(1893.0, 0.7640e-3, 0.4430e-3)) is None


def test_two_figures_are_not_held_against_one_another():
    assert unbalanced(Printed(1890.0, None, 0.44e-3)) is None


@given(
    water=st.floats(0.2, 1.5), made=st.floats(0.6, 2.0), more=st.floats(0, 0.4),
    sack=st.sampled_from([42.6, 50.0, 1000.0]),
)  # fmt: skip
def test_any_two_give_the_third(water, made, more, sack):
    volume, fresh, additives = made * sack / 1e3, water * sack / 1e3, more * sack
    mass = sack + additives + fresh * 998.0
    if not 900 <= mass / volume <= 3500:
        return
    density, weight = density_by_mass(volume, fresh, sack, additives, 998.0)
    assert weight == pytest.approx(mass)
    assert yield_by_mass(density, fresh, sack, additives, 998.0)[0] == pytest.approx(volume)
    assert water_by_mass(density, volume, sack, additives, 998.0)[0] == pytest.approx(fresh)


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: water_by_mass(1300.0, 0.036, 50.0, 0.0, 998.0), "the water would be below zero"),
        (lambda: density_by_mass(0.2, 0.022, 50.0, 0.0, 998.0), "Density of the slurry 359.78"),
        (lambda: yield_by_mass(1900.0, 0.3, 50.0, 0.0, 998.0), "Water for a sack of 50 kg 0.3 m3"),
        (lambda: yield_by_mass(1900.0, 0.02, 50.0, 151.0, 998.0), "Additives for a sack 151 kg"),
    ],
)
def test_what_cannot_be_is_told(call, said):
    with pytest.raises(DomainError) as told:
        call()
    assert said in str(told.value)
