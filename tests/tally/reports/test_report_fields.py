"""Fields of the reports: what an entry says is told, what no entry says is not recorded."""

from dataclasses import replace

import pytest

from tally.job.cementing_records import MixReading, Sample, SeenAtSurface, ShoeTest
from tally.job.setup import MUD, Dial
from tally.reports.cement_fields import (
    after_fields,
    design_fields,
    done_fields,
    fluid_fields,
    per_sack,
    slurry_of,
)
from tally.reports.fields import NOT_RECORDED
from tally.reports.final_tally import FinalTally
from tally.reports.mixing_fields import mixed, mixing_curve, samples
from tally.reports.regulator_fields import regulator_fields
from tally.reports.running_fields import intervals, running_fields, weights
from tally.units import from_unit, read
from tests.tally.reports.jobs import tally
from tests.tally.reports.pdf.jobs import demonstration

AT = "2026-03-12T15:10:00-06:00"


def mixed_job() -> FinalTally:
    """Return the demonstration with a mixing log, cement at surface and a test of the shoe."""
    made = demonstration()
    reading = MixReading(
        900, "lead", read("12.8 lb/gal", "density"), None, read("40 bbl", "volume"),
        110, None, None, AT,
    )  # fmt: skip
    heavier = replace(reading, balance=read("12.9 lb/gal", "density"), sacks=220)
    job = replace(
        made.job,
        mixing=(reading, heavier),
        samples=(Sample(902, "lead", "start", "", "Ivo Marek", AT),),
        at_surface=(SeenAtSurface(903, "cement", read("12 bbl", "volume"), None, AT),),
        shoe_tests=(ShoeTest(904, "by pressure", True, "N. Haddad", AT),),
    )
    return replace(made, job=job)


def test_what_the_book_does_not_have_is_not_recorded() -> None:
    made = demonstration()
    made = replace(made, job=replace(made.job, mixing=(), at_surface=(), shoe_tests=()))
    for told, label in (
        (done_fields(made), "cement returned to surface"),
        (after_fields(made), "test of the shoe"),
        (after_fields(made), "log run"),
        (running_fields(made), "thread compound"),
        (fluid_fields(made)[1], "density measured"),
    ):
        assert dict(told.fields)[label] == NOT_RECORDED
    assert all(value for one in regulator_fields(tally()) for _, value in one.fields)


def test_a_slurry_in_doubt_has_one_density_and_its_doubt_in_every_report() -> None:
    """11 gal of water to the sack makes another density by the recipe than the 12.8 typed."""
    made = demonstration()
    wet = read("13.5 gal/sk", "mix water")
    plan = made.job.known
    fluids = tuple(
        replace(each, mix_water=wet) if each.name == "lead" else each for each in plan.fluids
    )
    job = replace(made.job, setup=replace(plan, fluids=fluids))
    made = replace(made, job=job, setup=job.known)
    lead = dict(fluid_fields(made)[1].fields)
    everything = {label: value for one in regulator_fields(made) for label, value in one.fields}
    assert lead["density by the programme"] == "12.8 lb/gal"
    assert everything["lead: amounts"].endswith("; density 12.8 lb/gal")
    assert lead["in doubt"] == everything["lead: in doubt"]
    assert lead["in doubt"].startswith("Density of lead is typed as 12.8 lb/gal, but its recipe")
    assert "in doubt" not in dict(fluid_fields(demonstration())[1].fields)


def test_what_was_entered_is_told() -> None:
    made = mixed_job()
    lead = dict(fluid_fields(made)[1].fields)
    assert lead["density measured"] == "12.8 lb/gal to 12.9 lb/gal, weighed 2 times"
    assert lead["cement, amount"].startswith("590 sacks of ")
    told = "seen, 12 bbl, 2026-03-12 15:10"
    assert dict(done_fields(made).fields)["cement returned to surface"] == told
    test = "by pressure: held, cleared by N. Haddad, 2026-03-12 15:10"
    assert dict(after_fields(made).fields)["test of the shoe"] == test
    everything = {label: value for one in regulator_fields(made) for label, value in one.fields}
    assert (everything["cement returned to surface"], everything["test of the shoe"]) == (
        told,
        test,
    )
    assert everything["setting depth"] == "8,240.00 ft"
    assert everything["bump pressure"] == "1735 psi"
    assert [row[1:6] for row in mixed(made)] == [
        ("lead", "12.8 lb/gal", "-", "40 bbl", "110 sacks"),
        ("lead", "12.8 lb/gal", "12.9 lb/gal", "40 bbl", "220 sacks"),
    ]
    assert samples(made) == (("lead, start", "Ivo Marek, 2026-03-12 15:10"),)


def test_the_curve_of_the_mixing_goes_on_from_fluid_to_fluid() -> None:
    made = mixed_job()
    first, second = made.job.mixing
    tail = replace(first, fluid="tail", pumped=read("18 bbl", "volume"))
    lost = replace(tail, pumped=None)
    made = replace(made, job=replace(made.job, mixing=(first, second, lost, tail)))
    curve = mixing_curve(made)
    barrel = from_unit(1.0, "bbl")
    assert [round(one.volume / barrel, 6) for one in curve] == [40, 40, 58]
    assert [one.fluid for one in curve] == ["lead", "lead", "tail"]
    assert curve[0].balance is None
    assert curve[0].gauge == first.gauge.value if first.gauge else None


def test_the_setting_depth_is_told_once_it_is_known() -> None:
    everything = {
        label: value
        for one in regulator_fields(demonstration("third"))
        for label, value in one.fields
    }
    assert everything["setting depth"] == NOT_RECORDED
    assert everything["well"] == "Larkspur 14"


def test_the_pace_of_a_block_and_the_weights() -> None:
    made = demonstration()
    second = intervals(made)[1]
    # ten joints from 22:10 to 22:41, nine times from one to the next
    assert second[:2] == ("joints 11-20", "10 joints")
    assert 17.0 < float(second[4]) < 18.0
    first = weights(made)[0]
    assert (first[0], first[1], first[3], first[5]) == ("1,235.38 ft", "93 klbf", "95 klbf", "-")


def test_mix_water_and_yield_are_told_in_the_units_that_they_are_set_up_in() -> None:
    """A barrel is 42 gal; what a sack takes times the sacks is what the slurry takes."""
    made = demonstration()
    told = dict(fluid_fields(made)[1].fields)
    number = {label: float(value.split()[0].replace(",", "")) for label, value in told.items()
              if value[0].isdigit()}  # fmt: skip
    assert told["mix water of a sack"].endswith(" gal/sk")
    assert told["yield of a sack"].endswith(" ft3/sk")
    in_all = number["mix water of a sack"] * number["cement, amount"] / 42
    assert in_all == pytest.approx(number["mix water, in all"], rel=2e-3)


def test_for_a_sack_of_another_weight_it_is_the_same_gallons() -> None:
    made = slurry_of(demonstration(), demonstration().setup.fluids[1])
    assert made is not None
    gallons = 5.2 * from_unit(1.0, "gal")
    heavy = replace(made, recipe=replace(made.recipe, sack=50.0))
    assert per_sack(demonstration().job, heavy, gallons, "mix water") == "5.20 gal/sk"


def test_plastic_viscosity_by_the_readings_is_named_so() -> None:
    """PV = R600 - R300, YP = R300 - PV: 60 and 38 are 22 cP and 16 lbf/100ft2."""
    made = demonstration()
    bare = replace(made.setup.pumping, plastic_viscosity=None, yield_point=None)
    dials = tuple(
        Dial(fluid=MUD, speed=read(f"{speed} rpm", "rotary speed"), dial=read(degrees, "number"))
        for speed, degrees in ((600, "60"), (300, "38"))
    )
    setup = replace(made.setup, pumping=bare, dials=dials)
    made = replace(made, job=replace(made.job, setup=setup), setup=setup)
    told = dict(design_fields(made).fields)
    assert told["plastic viscosity, by the set-up"] == "22 cP by the readings at 600 and 300 rpm"
    assert told["yield point, by the set-up"].startswith("16 lbf/100ft2 by the readings")
    one = replace(made, setup=replace(setup, dials=dials[:1]))
    assert dict(design_fields(one).fields)["plastic viscosity, by the set-up"] == NOT_RECORDED
