"""Slurry by absolute volume: what goes in comes out, and what cannot be is told."""

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.fluids.material import FRESH_WATER, Material
from tally.fluids.materials import find_material, materials
from tally.fluids.slurry import (
    BY_SACK,
    OF_CEMENT,
    OF_WATER,
    STANDARD_SACK,
    Mix,
    Part,
    for_the_sack,
    mix_for_density,
    mix_for_yield,
    slurry,
    water_wanted,
)
from tally.units import from_unit, read, to_unit

CEMENTS = [each for each in materials() if each.kind == "cement"]
SOLIDS = [each for each in materials() if each.kind == "solid"]
LIQUIDS = [
    Material(f"liquid {density}", "liquid", 1 / density, "measured", "typed")
    for density in (1020.0, 1180.0)
]
SALT, G, BENTONITE = (find_material(name) for name in ("salt", "class G", "bentonite"))

PARTS = st.one_of(
    st.builds(Part, st.sampled_from(SOLIDS), st.just(OF_CEMENT), st.floats(0.0, 0.5)),
    st.builds(Part, st.sampled_from(SOLIDS), st.just(OF_WATER), st.floats(0.0, 0.05)),
    st.builds(Part, st.sampled_from(LIQUIDS), st.just(BY_SACK), st.floats(0.0, 2e-4)),
    st.builds(Part, st.just(SALT), st.just(OF_WATER), st.floats(0.0, 0.37)),
)
MIXES = st.builds(
    Mix,
    st.sampled_from(CEMENTS),
    st.floats(2e-4, 2e-3),
    st.lists(PARTS, max_size=4).map(tuple),
    st.sampled_from([STANDARD_SACK, 50.0, 1000.0]),
)


@settings(max_examples=80)
@given(MIXES)
def test_mass_in_is_mass_out_and_volume_in_volume_out(mix):
    made = slurry(mix)
    assert made.density * made.yield_ == pytest.approx(made.mass)
    assert sum(each.mass for each in made.shares) == pytest.approx(made.mass)
    assert sum(each.volume for each in made.shares) == pytest.approx(made.yield_)
    assert len(made.shares) == 2 + len(mix.parts)
    assert made.water <= made.mix_fluid < made.yield_


@settings(max_examples=80)
@given(MIXES)
def test_density_and_yield_each_give_the_water_back(mix):
    made = slurry(mix)
    assume(made.density < slurry(replace(mix, water=mix.water * 0.99)).density)
    assert mix_for_density(mix, made.density).water == pytest.approx(mix.water, rel=1e-6)
    assert mix_for_yield(mix, made.yield_).water == pytest.approx(mix.water, rel=1e-6)


@given(st.floats(3e-4, 2e-3), st.floats(1.01, 2.0))
def test_more_water_makes_it_lighter_and_more_of_it(water, times):
    less, more = (slurry(Mix(G, amount)) for amount in (water, water * times))
    assert more.density < less.density
    assert more.yield_ > less.yield_


@given(MIXES)
def test_by_the_sack_or_by_the_tonne_it_is_the_same_slurry(mix):
    one, tonne = slurry(mix), slurry(replace(mix, sack=1000.0))
    assert one.density == tonne.density
    assert one.yield_by_sack / mix.sack == pytest.approx(tonne.yield_by_sack / 1000)
    assert one.mix_fluid_by_sack / mix.sack == pytest.approx(tonne.mix_fluid_by_sack / 1000)
    assert one.water_by_sack == pytest.approx(mix.water * mix.sack)


def test_a_dissolved_salt_takes_less_room_than_a_solid_one():
    water = from_unit(4.97, "gal/sk")
    salt = Material("salt as a solid", "solid", 1 / (2.17 * FRESH_WATER), "measured", "typed")
    dissolved, solid = (
        slurry(Mix(G, water, (Part(material, OF_WATER, 0.15),))) for material in (SALT, salt)
    )
    assert to_unit(dissolved.density, "lb/gal") == pytest.approx(16.06, abs=0.005)
    assert to_unit(solid.density, "lb/gal") == pytest.approx(15.90, abs=0.005)


def test_salt_by_cement_is_the_same_salt_as_by_its_share_of_the_water():
    water = 5e-4
    by_water = slurry(Mix(G, water, (Part(SALT, OF_WATER, 0.2),)))
    by_cement = slurry(Mix(G, water, (Part(SALT, OF_CEMENT, 0.2 * water * FRESH_WATER),)))
    assert by_cement.density == pytest.approx(by_water.density)
    assert by_cement.mix_fluid == pytest.approx(by_water.mix_fluid)


def test_the_mix_fluid_is_the_water_with_what_is_in_it():
    parts = (
        Part(BENTONITE, OF_CEMENT, 0.04),
        Part(LIQUIDS[0], BY_SACK, from_unit(0.7, "gal/sk")),
        Part(find_material("prehydrated bentonite"), OF_WATER, 0.015),
    )
    made = slurry(Mix(G, from_unit(6.56, "gal/sk"), parts))
    inside = [each.name for each in made.shares if each.in_fluid]
    assert inside == ["water", "liquid 1020.0", "prehydrated bentonite"]
    assert to_unit(made.mix_fluid, "gal/sk") == pytest.approx(6.56 + 0.7 + 6.56 * 0.015 / 2.65)


def test_the_list_gives_the_water_of_cement_and_bentonite():
    wanted = water_wanted(find_material("class A"), (Part(BENTONITE, OF_CEMENT, 0.04),))
    assert to_unit(wanted, "gal/sk") == pytest.approx(5.2 + 2.6)


def test_a_yield_by_the_sack_means_the_sack_of_the_job():
    typed = read("2.514 ft3/sk", "slurry yield")
    by_mass = for_the_sack(typed, from_unit(110, "lb"))
    assert to_unit(by_mass * from_unit(110, "lb"), "ft3") == pytest.approx(2.514)
    assert for_the_sack(typed, STANDARD_SACK) == pytest.approx(typed.value)
    assert for_the_sack(read("0.757 m3/t", "slurry yield"), 50.0) == pytest.approx(0.757e-3)


FLOATS_ON_WATER = Part(Material("hollow spheres", "solid", 1 / 200.0, "measured", "typed"),
                       OF_CEMENT, 1.0)  # fmt: skip


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: slurry(Mix(G, 0.0)), "has no water"),
        (lambda: Mix(G, -1e-4), "Water -0.0001 m3"),
        (lambda: Mix(G, 6e-3), "Water 0.006 m3"),
        (lambda: Mix(G, 5e-4, sack=0.0), "Sack 0 kg"),
        (lambda: Mix(G, 5e-4, water_density=8.33), "Density of the water 8.33 kg/m3"),
        (lambda: mix_for_density(Mix(G, 0.0), 990.0), "990 kg/m3 would be lighter than its water"),
        (lambda: mix_for_density(Mix(G, 0.0), 3200.0), "3,200 kg/m3 cannot be mixed"),
        (lambda: mix_for_density(Mix(G, 0.0), 1100.0), "would want more than 5 m3 of water"),
        (lambda: mix_for_yield(Mix(G, 0.0), 1e-4), "Yield 0.0001 m3"),
        (lambda: slurry(Mix(G, 5e-4, (FLOATS_ON_WATER,))), "would be lighter than its water"),
        (lambda: Part(BENTONITE, OF_CEMENT, -0.01), "The bentonite -0.01 of the cement's mass"),
        (lambda: Part(SALT, BY_SACK, 1e-4), "sodium chloride dissolves, so it is dosed by mass"),
        (
            lambda: slurry(Mix(G, 4e-4, (Part(SALT, OF_CEMENT, 0.2),))),
            "Sodium chloride of 50.1% of the water's mass is more than the 37%",
        ),
        (
            lambda: mix_for_density(Mix(G, 0.0, (Part(SALT, OF_CEMENT, 0.2),)), 2200.0),
            "more than the 37%",
        ),
        (lambda: water_wanted(find_material("Portland")), "No water requirement of Portland"),
    ],
)
def test_what_cannot_be_is_told(call, said):
    with pytest.raises(DomainError) as told:
        call()
    assert said in str(told.value)
