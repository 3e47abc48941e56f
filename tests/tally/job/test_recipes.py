"""What governs a slurry: what is typed, two of three for the third, the recipe as the check."""

from __future__ import annotations

from dataclasses import replace
from math import ceil

import pytest

from tally.errors import InputError
from tally.job.cement_job import slurries
from tally.job.recipes import density_of, recipe, slurry_doubts
from tally.job.setup import Additive, Fluid, OwnMaterial, Setup
from tally.units import from_unit, read
from tests.tally.job.invented import assert_plain, running
from tests.tally.job.invented_programme import BENTONITE, LEAD_SLURRY, cemented

FOOT3, GALLON, POUND = (from_unit(1, unit) for unit in ("ft3", "gal", "lb"))
MEASURES = {
    "density": ("density", "density"),
    "made": ("slurry yield", "slurry_yield"),
    "water": ("mix water", "mix_water"),
    "sack": ("mass", "sack"),
}


def lead(cement: str = "class G", **typed: str) -> Fluid:
    """Return the lead with what a laboratory's sheet says of it, and nothing else."""
    bare = replace(LEAD_SLURRY, cement=cement, density=None)
    read_in = {
        MEASURES[name][1]: read(text, MEASURES[name][0]) for name, text in typed.items() if text
    }
    return replace(bare, **read_in)


def planned(fluid: Fluid, **changed: object) -> Setup:
    """Return the set-up with this lead alone, 4 % of bentonite in it."""
    return cemented(fluids=(fluid,), **changed)


def told(fluid: Fluid, **changed: object) -> list[tuple[str, str]]:
    """Return the doubts of a lead: the key and the sentence of each."""
    found = [(each.key, each.text) for each in slurry_doubts(planned(fluid, **changed))]
    for _, sentence in found:
        assert_plain(sentence)
    return found


def test_a_typed_yield_makes_the_sacks() -> None:
    """By hand: the volume of the lead divided by 2.30 ft3, rounded up."""
    fluid = lead(density="12.8 lb/gal", made="2.30 ft3/sk")
    job = running(plan=planned(fluid)).runs().job
    (made,) = slurries(job)
    assert made.recipe.makes == pytest.approx(2.30 * FOOT3)
    assert made.needed.sacks == ceil(made.volume / (2.30 * FOOT3))
    (by_recipe,) = slurries(running(plan=planned(lead(density="12.8 lb/gal"))).runs().job)
    assert by_recipe.needed.sacks > 1.1 * made.needed.sacks


def test_a_typed_yield_that_the_recipe_does_not_make_is_told_at_its_key() -> None:
    fluid = lead(density="12.8 lb/gal", made="2.30 ft3/sk")
    (key, sentence), (other, third) = told(fluid)
    assert (key, other) == ("slurry_yield", "mix_water")
    assert sentence.startswith(
        "Yield of lead is typed as 2.30 ft3/sk, but its recipe makes 1.99 ft3/sk. "
        "The typed one is used for the sacks"
    )
    assert "m3/t" not in sentence + third
    metric = told(fluid, units="metric")
    assert metric[0][1].startswith("Yield of lead is typed as 1.527 m3/t")


def test_what_agrees_with_the_recipe_is_not_doubted() -> None:
    made = recipe(planned(lead(density="12.8 lb/gal")), lead(density="12.8 lb/gal"))
    typed = f"{made.makes / FOOT3:.2f} ft3/sk"
    assert told(lead(density="12.8 lb/gal", made=typed)) == []


def test_two_typed_give_the_third_by_mass() -> None:
    """By hand, for a sack of 94 lb with 4 % of bentonite: 97.76 lb of solids.

    12.8 lb/gal x 2.30 ft3 x 7.48052 gal/ft3 = 220.23 lb; less 97.76 lb is 122.47 lb of water,
    at 8.33 lb/gal (the water's density here, DEVELOPERS.md) 14.70 gal.
    """
    fluid = lead(density="12.8 lb/gal", made="2.30 ft3/sk")
    made = recipe(planned(fluid), fluid)
    assert made.water / GALLON == pytest.approx(14.70, abs=0.005)
    assert made.additives == (("bentonite", pytest.approx(3.76 * POUND)),)
    dense = lead(made="2.30 ft3/sk", water="14.70 gal/sk")
    assert density_of(planned(dense), dense) == pytest.approx(from_unit(12.8, "lb/gal"), rel=1e-3)
    big = lead(density="12.8 lb/gal", water="14.70 gal/sk")
    assert recipe(planned(big), big).makes / FOOT3 == pytest.approx(2.30, abs=0.001)


def test_two_figures_of_a_laboratory_are_enough_without_a_cement() -> None:
    """By hand: 94 lb + 5.0 gal x 8.33 lb/gal = 135.65 lb; by 15.8 lb/gal 8.5854 gal, 1.1477 ft3."""
    fluid = lead(cement="", density="15.8 lb/gal", water="5.0 gal/sk")
    made = recipe(planned(fluid, additives=()), fluid)
    assert made.makes / FOOT3 == pytest.approx(1.1477, abs=0.0001)


def test_one_figure_without_a_cement_says_what_lacks() -> None:
    fluid = lead(cement="", made="1.15 ft3/sk")
    with pytest.raises(Exception, match="no density and no mix water"):
        recipe(planned(fluid), fluid)
    assert told(fluid) == []


def test_three_typed_are_held_against_one_another() -> None:
    """By hand: (94 + 3.76 + 11 x 8.33) lb / (2.30 x 7.48052) gal = 11.0 lb/gal, not 12.8."""
    fluid = lead(cement="", density="12.8 lb/gal", made="2.30 ft3/sk", water="11 gal/sk")
    ((key, sentence),) = told(fluid)
    assert key == "density"
    assert "12.8 lb/gal, 2.30 ft3/sk, 11 gal/sk, do not agree" in sentence
    assert "make 11.0 lb/gal" in sentence


def test_a_typed_density_is_the_density_everywhere() -> None:
    """The water makes another density by the recipe: the one typed is used, and it is told."""
    fluid = lead(density="12.8 lb/gal", water="11.6 gal/sk")
    plan = planned(fluid)
    made = recipe(plan, fluid)
    typed = from_unit(12.8, "lb/gal")
    assert made.density == density_of(plan, fluid) == pytest.approx(typed)
    assert any(key == "density" and "typed as 12.8 lb/gal" in text for key, text in told(fluid))


def test_a_yield_for_another_sack_is_told_for_that_sack() -> None:
    fluid = lead(density="12.8 lb/gal", made="3.00 ft3/sk", sack="50 kg")
    made = recipe(planned(fluid), fluid)
    assert made.makes == pytest.approx(3.00 * FOOT3)
    assert told(fluid)[0][1].startswith("Yield of lead is typed as 3.00 ft3/sk")


def test_a_water_below_nothing_is_told_when_the_set_up_is_taken() -> None:
    fluid = lead(density="12.8 lb/gal", made="0.9 ft3/sk")
    ((key, sentence),) = told(fluid, additives=(BENTONITE,))
    assert key == "density"
    assert "the water would be below zero" in sentence


BEADS = OwnMaterial(
    name="light beads",
    kind="solid",
    also="beads",
    specific_gravity="0.70",
    origin="data sheet",
    source="maker, sheet of 2025",
)


@pytest.mark.parametrize("called", ["light beads", "Beads"])
def test_a_material_of_the_jobs_own_goes_into_the_recipe(called):
    """By hand, gal/sk of 94 lb: cement 94 / (3.14 x 8.33) = 3.594, water 5.0, and 10 % beads
    9.4 / (0.70 x 8.33) = 1.612; 10.206 gal are 1.3643 ft3.
    """
    mixed = Additive(fluid=LEAD_SLURRY.name, material=called, share=read("10 %", "ratio"))
    plan = planned(lead(water="5.0 gal/sk"), additives=(mixed,), materials=(BEADS,))
    gallons = 94 / (3.14 * 8.33) + 5.0 + 9.4 / (0.70 * 8.33)
    assert recipe(plan, plan.fluids[0]).makes / FOOT3 == pytest.approx(gallons / 7.4805, rel=1e-4)


def test_without_it_the_name_is_refused_with_what_to_do():
    mixed = Additive(fluid=LEAD_SLURRY.name, material="light beads", share=read("10 %", "ratio"))
    plan = planned(lead(water="5.0 gal/sk"), additives=(mixed,))
    with pytest.raises(InputError, match='no material "light beads"'):
        recipe(plan, plan.fluids[0])


def test_the_jobs_own_goes_before_the_list_that_is_shipped():
    heavier = replace(BEADS, name="class G", kind="cement", also="", specific_gravity="3.20")
    plan = planned(lead(water="5.0 gal/sk"), additives=(), materials=(heavier,))
    gallons = 94 / (3.20 * 8.33) + 5.0
    assert recipe(plan, plan.fluids[0]).makes / FOOT3 == pytest.approx(gallons / 7.4805, rel=1e-4)
