"""The cementing programme of an invented job, each figure worked by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from tally.job.figures import figure
from tally.job.figures.model import Figure
from tally.job.job import Job
from tally.job.setup import HoleSection
from tally.units import from_unit, read
from tests.tally.job.figures.test_pumping import STROKE, TO_COLLAR
from tests.tally.job.invented import length_of, limits, running
from tests.tally.job.invented_programme import LEAD_SLURRY, TAIL_SLURRY, WASH, cemented, cementing
from tests.tally.job.second_opinion import BORE, CLOSED, HOLE, bbl
from tests.tally.job.whole_figures import assert_whole

BARREL, PSI = from_unit(1, "bbl"), from_unit(1, "psi")
SHOE = 195 + 152 + sum(length_of(number) for number in range(1, 13)) - 322
TRACK = 195 + 152 + length_of(1) + length_of(2)
AROUND = HOLE - CLOSED
POCKET = bbl(HOLE * (52000 - SHOE))
TAIL = bbl(AROUND * (SHOE - 35000)) + bbl(BORE * TRACK) + POCKET
LEAD = bbl(AROUND * 10000)


def run(**changed: Any) -> Job:
    """Return the job with the whole string run."""
    return running(plan=cemented(**changed)).runs().job


def barrels(job: Job, key: str) -> float:
    """Return a figure of volume in barrels."""
    made = worked_out(job, key)
    return float(made.value or 0.0) / BARREL


def worked_out(job: Job, key: str) -> Figure:
    made = figure(job, key)
    assert not made.missing, made.missing
    return made


def given(made: Figure, name: str) -> float:
    """Return the value of an input."""
    return float(next(each.value for each in made.inputs if each.name == name) or 0.0)


def test_the_volumes_by_hand() -> None:
    job = run()
    assert_whole(job)
    made = worked_out(job, "slurry_volume")
    assert given(made, "tail") / BARREL == pytest.approx(float(TAIL))
    assert given(made, "lead") / BARREL == pytest.approx(float(LEAD))
    assert barrels(job, "slurry_volume") == pytest.approx(float(LEAD + TAIL))
    assert barrels(job, "spacer_volume") == pytest.approx(5.0)
    tops = worked_out(job, "cement_top")
    assert given(tops, "top of tail") / 0.3048 == pytest.approx(350)
    assert float(tops.value or 0) / 0.3048 == pytest.approx(250)
    wash = Fraction(5) / bbl(AROUND * 100)
    assert given(tops, "top of wash") / 0.3048 == pytest.approx(float(250 - wash))


def test_the_pocket_can_be_left_out_and_it_is_said() -> None:
    job = run(pumping=cementing(pocket_filled=False))
    made = worked_out(job, "slurry_volume")
    assert given(made, "tail") / BARREL == pytest.approx(float(TAIL - POCKET))
    assert "keeps its mud" in [each.value for each in made.inputs]


def test_without_fluids_the_volumes_are_those_typed() -> None:
    job = running().runs().job
    assert barrels(job, "slurry_volume") == pytest.approx(60)
    assert figure(job, "slurry_volume").formula == "as typed"
    assert figure(job, "sacks").missing == (
        "No fluid to pump is in the job set-up; add them in the order of pumping."
    )


def test_before_it_is_run_the_running_list_goes_on_and_it_is_said() -> None:
    half = running("S1", "1", "2", "C1", "3", plan=cemented()).job
    made, whole = worked_out(half, "slurry_volume"), worked_out(run(), "slurry_volume")
    assert made.inputs[-1].where == "the string as run, and as the running list goes on"
    assert whole.inputs[-1].where == "the string as run"
    assert given(made, "shoe") == given(whole, "shoe") == SHOE
    assert made.value == pytest.approx(whole.value)


def test_sacks_water_mix_fluid_and_additives_by_hand() -> None:
    job = run()
    tail = float(TAIL) * 42 * 231 / 1728 / 1.15
    made = worked_out(job, "sacks")
    assert given(made, "tail") == int(tail) + 1
    lead_yield = given(made, "yield of lead") / from_unit(1, "ft3")
    lead = float(LEAD) * 42 * 231 / 1728 / lead_yield
    assert made.value == int(lead) + int(tail) + 2
    water = worked_out(job, "mix_water")
    assert given(water, "tail") / BARREL == pytest.approx(tail * 4.97 / 42)
    fluid = worked_out(job, "mix_fluid")
    both = given(fluid, "lead") + given(fluid, "tail")
    assert float(fluid.value or 0) == pytest.approx(both * 1.1 + 2 * BARREL)
    bentonite = lead * 0.04 * 94
    assert float(worked_out(job, "additives").value or 0) == pytest.approx(
        from_unit(bentonite, "lb")
    )


def test_a_recipe_that_disagrees_with_what_was_typed_is_said() -> None:
    wrong = replace(TAIL_SLURRY, slurry_yield=read("1.4 ft3/sk", "slurry yield"))
    made = worked_out(run(fluids=(WASH, LEAD_SLURRY, wrong)), "sacks")
    doubts = [str(each.value) for each in made.inputs if each.name == "in doubt"]
    assert len(doubts) == 1
    assert "1.4 ft3/sk" in doubts[0]
    assert "do not agree" in doubts[0]


def test_the_wash_up_counts_and_the_strokes_are_for_the_rest() -> None:
    job = run()
    assert barrels(job, "after_wash_up") == pytest.approx(float(TO_COLLAR) - 5)
    assert figure(job, "strokes_after_wash_up").value == round((TO_COLLAR - 5) / STROKE)
    much = run(pumping=cementing(wash_up_volume=read("99 bbl", "volume")))
    assert figure(much, "after_wash_up").missing.startswith("The wash-up is more than")


def test_an_empty_line_is_part_of_the_count_and_a_full_one_is_not() -> None:
    line = read("1.5 bbl", "volume")
    full = run(pumping=cementing(line_volume=line))
    empty = run(pumping=cementing(line_volume=line, line_full_at_zero=False))
    assert barrels(full, "displacement_to_collar") == pytest.approx(float(TO_COLLAR))
    assert barrels(empty, "displacement_to_collar") == pytest.approx(float(TO_COLLAR) + 1.5)
    unknown = run(pumping=cementing(line_full_at_zero=False))
    assert figure(unknown, "displacement_to_collar").missing.startswith("Surface line, empty at")


def test_the_band_of_the_bump_by_hand() -> None:
    job, total = run(), float(TO_COLLAR)
    either = total * 0.01 + (total - 0.3) * 0.005
    assert barrels(job, "bump_earliest") == pytest.approx(total - either)
    squeezed = total * 0.003 * 0.9
    assert barrels(job, "bump_latest") == pytest.approx(total + either + squeezed)
    nobody = run(limits=limits())
    assert figure(nobody, "bump_latest").missing == "Efficiency known to is not in the limits."


def test_the_times_by_hand_with_and_without_a_batch() -> None:
    job = run()
    tail = float(TAIL) / 4 + 10 + float(TO_COLLAR) / 5.8
    lead = tail + float(LEAD) / 5.8
    assert float(worked_out(job, "job_time").value or 0) / 60 == pytest.approx(lead)
    left = worked_out(job, "thickening_left")
    assert float(left.value or 0) / 60 == pytest.approx(min(200 - lead, 180 - tail))
    assert given(left, "to be kept in hand") == 3600
    rate = read("2 bbl/min", "flow rate")
    batch = run(pumping=cementing(batch_mixed=True, mixing_rate=rate))
    spans = worked_out(batch, "job_time")
    assert given(spans, "tail") / 60 == pytest.approx(tail + float(TAIL) / 2)
    assert given(spans, "lead") / 60 == pytest.approx(lead + float(LEAD) / 2)


def test_the_differential_at_the_bump_by_hand() -> None:
    job = run()
    made = worked_out(job, "bump_differential")
    gallon = float(Fraction(1) / 231 * 12)
    feet = [given(worked_out(job, "cement_top"), f"top of {name}") / 0.3048
            for name in ("wash", "lead", "tail")]  # fmt: skip
    shoe, collar = SHOE / 100, (SHOE - TRACK) / 100
    ends = [*feet, shoe]
    outside = ends[0] * 10.2 + sum(
        (ends[n + 1] - ends[n]) * density for n, density in enumerate((8.4, 13.5, 15.8))
    )
    water = 5 / float(bbl(BORE * 100))
    inside = water * 8.33 + (collar + 3.22 - water) * 10.2
    by_hand = (outside - (shoe - collar) * 15.8 - inside) * gallon
    assert float(made.value or 0) / PSI == pytest.approx(by_hand, abs=0.5)


def test_an_excess_asks_what_it_is_a_share_of() -> None:
    section = HoleSection(
        top=read("120 ft", "length"),
        bottom=read("520 ft", "length"),
        diameter=read("12-1/4 in", "diameter"),
        excess=read("20 %", "ratio"),
    )
    assert figure(run(sections=(section,)), "slurry_volume").missing.startswith(
        "A section of the hole has an excess, and sources differ"
    )
    on_annulus = run(sections=(section,), pumping=cementing(excess_applies_to="annulus"))
    on_hole = run(sections=(section,), pumping=cementing(excess_applies_to="hole"))
    lead = given(worked_out(on_annulus, "slurry_volume"), "lead") / BARREL
    assert lead == pytest.approx(float(LEAD) * 1.2)
    lead = given(worked_out(on_hole, "slurry_volume"), "lead") / BARREL
    assert lead == pytest.approx(float(bbl((HOLE * Fraction("1.2") - CLOSED) * 10000)))


def test_what_lacks_is_said() -> None:
    no_top = replace(TAIL_SLURRY, top=read("486 ft", "length"))
    assert "lies below" in figure(run(fluids=(no_top,)), "slurry_volume").missing
    typed = replace(TAIL_SLURRY, mix_water=None, density=None)
    assert figure(run(fluids=(typed,)), "sacks").missing.startswith("The tail has no cement to")
    no_density = replace(WASH, density=None)
    missing = figure(run(fluids=(no_density, TAIL_SLURRY)), "bump_differential").missing
    assert missing == "Density of the wash is not in the job set-up."
    no_collar = running("S1", "1", plan=cemented(order=("S1", "1"))).job
    assert figure(no_collar, "slurry_volume").missing
    assert figure(run(additives=(), fluids=(TAIL_SLURRY,)), "additives").missing
