"""Displacement from the head to the collar, strokes, the two counts, what is left."""

from dataclasses import replace
from fractions import Fraction

import pytest

from tally.job.entries.pumping import Pumped
from tally.job.entries.running import ItemRun
from tally.job.figures import figure, show
from tally.job.figures.pumping import aged_left
from tally.job.job import PumpReading
from tally.units import from_unit, read
from tests.tally.job.invented import (
    CEMENTER,
    REP,
    length_of,
    limits,
    pumping,
    pumping_down,
    running,
    setup,
)
from tests.tally.job.second_opinion import BORE, CUBIC_METRES_IN_A_BARREL, bbl
from tests.tally.job.test_depths import of_lengths

BARREL = from_unit(1, "bbl")
ABOVE = sum(length_of(n) for n in range(3, 13))
TO_COLLAR = bbl(BORE * ABOVE) + Fraction("0.3")
STROKE = Fraction("0.1044") * Fraction("0.96")


def barrels(job, key):
    """Return a figure of volume in barrels."""
    return figure(job, key).value / BARREL


def counts(told, tank=None, strokes=None, rate=None, **more):
    """Read the counts."""
    return told.says(
        Pumped,
        tank=read(tank, "volume") if tank else None,
        strokes=strokes,
        rate=read(rate, "flow rate") if rate else None,
        **more,
    )


def test_head_to_collar_in_volume_and_strokes():
    told = running("S1", "1", "2", "C1")
    assert figure(told.job, "displacement_to_collar").missing == (
        "No pipe is run above the collar yet."
    )
    job = told.runs(*map(str, range(3, 13))).job
    assert barrels(job, "displacement_to_collar") == pytest.approx(float(TO_COLLAR))
    assert barrels(job, "stroke_volume") == pytest.approx(float(STROKE))
    assert figure(job, "strokes_to_collar").value == round(TO_COLLAR / STROKE)
    assert figure(job, "time_to_bump").value == pytest.approx(float(TO_COLLAR) / 5.8 * 60)


def test_the_sketch_of_the_pumping_page():
    """A collar 8,157 ft down in 8.681 in pipe is 597.1 bbl; 38.5 bbl left are 384 strokes."""
    told = of_lengths([815700], casing_point="8240 ft")
    collar = replace(setup().items[1], number="C1")
    plan = setup(
        items=(collar,),
        order=("C1", "1"),
        pumping=pumping(head_volume=None),
        lengths=told.job.known.lengths,
    )
    told = running("C1", plan=plan)
    job = told.says(ItemRun, number="1", length=815700, typed="8157", despite="all in one")
    assert show(job, figure(job, "displacement_to_collar").value, "volume") == "597.1 bbl"
    seen = PumpReading(9, read("558.65 bbl", "volume"), None, None, None, job.last)
    job = replace(job, pumped=(seen,))
    assert show(job, figure(job, "left_to_bump").value, "volume") == "38.5 bbl"
    assert figure(job, "strokes_left").value == 384
    assert f"{figure(job, 'time_to_bump').value / 60:.1f}" == "6.6"


def test_buoyancy_of_the_mud_in_the_sketch():
    job = running("S1").job
    assert show(job, figure(job, "buoyancy_factor").value, "ratio") == "84.4 %"


def test_a_head_that_is_not_in_the_set_up_is_taken_as_nothing_and_said():
    job = running(plan=setup(pumping=pumping(head_volume=None))).runs().job
    made = figure(job, "displacement_to_collar")
    assert made.value / BARREL == pytest.approx(float(bbl(BORE * ABOVE)))
    assert made.inputs[-1].where == "not in the job set-up, taken as nothing"


def test_without_a_pump_there_are_no_strokes():
    job = running(plan=setup(pumping=pumping(efficiency=None))).runs().job
    said = "Pump efficiency is not in the job set-up."
    for key in ("stroke_volume", "strokes_to_collar", "strokes_left"):
        assert figure(job, key).missing in (said, "Nothing was read since the zero.")
    job = running(plan=setup(pumping=pumping(volume_per_stroke=None))).runs().job
    assert figure(job, "strokes_to_collar").missing == (
        "Volume of one stroke is not in the job set-up."
    )


def test_the_count_that_is_further_on_is_the_one_that_counts():
    told = pumping_down()
    job = counts(told, "10 bbl", 102)
    assert barrels(job, "pumped_by_tank") == pytest.approx(10)
    assert barrels(job, "pumped_by_strokes") == pytest.approx(float(102 * STROKE))
    difference = 10 - 102 * STROKE
    assert barrels(job, "count_difference") == pytest.approx(float(difference))
    left = TO_COLLAR - 102 * STROKE
    assert barrels(job, "left_to_bump") == pytest.approx(float(left))
    assert figure(job, "strokes_left").value == round(left / STROKE)
    job = counts(told, "12 bbl", 110)
    assert barrels(job, "left_to_bump") == pytest.approx(float(TO_COLLAR - 12))


def test_one_count_alone_carries_the_figures():
    told = pumping_down()
    job = counts(told, strokes=100)
    assert figure(job, "pumped_by_tank").missing == (
        "The displacement tank was not read since the zero."
    )
    assert figure(job, "count_difference").missing == (
        "The last reading does not have both counts."
    )
    assert barrels(job, "left_to_bump") == pytest.approx(float(TO_COLLAR - 100 * STROKE))


def test_past_the_bump_there_is_less_than_nothing_left_and_no_stroke():
    job = counts(pumping_down(), "90 bbl", rate="2 bbl/min", despite="as read")
    assert barrels(job, "left_to_bump") == pytest.approx(float(TO_COLLAR - 90))
    assert figure(job, "strokes_left").value == 0
    assert figure(job, "time_to_bump").value == 0.0


def test_the_rate_last_read_tells_the_time_and_else_the_planned_one():
    told = pumping_down()
    counts(told, "10 bbl", rate="4 bbl/min")
    job = counts(told, "12 bbl")
    assert figure(job, "time_to_bump").value == pytest.approx(float(TO_COLLAR - 12) / 4 * 60)


def test_a_rate_of_nothing_is_said_in_a_sentence():
    job = counts(pumping_down(), "10 bbl", rate="0 bbl/min")
    assert figure(job, "time_to_bump").missing.startswith("Pump rate 0 m3/s is outside ")
    assert aged_left(job, job.last).time is None


def test_the_pressure_to_bump_with_is_the_one_before_plus_the_margin():
    told = pumping_down()
    assert figure(told.job, "bump_pressure").missing == (
        "Pressure before the bump was not read yet."
    )
    told.does("plug-release", "displacement-started")
    told.does("plug-release", "pressure-before-bump", value="900 psi")
    assert figure(told.job, "bump_pressure").value / from_unit(1, "psi") == pytest.approx(1400)
    bare = replace(told.job, setup=setup(limits=limits(bump_margin="")))
    assert figure(bare, "bump_pressure").missing == "Bump margin is not in the limits."


def test_a_step_of_that_name_with_another_quantity_breaks_no_figure():
    told = pumping_down()
    told.does("plug-release", "displacement-started")
    told.does("plug-release", "pressure-before-bump", value="900 psi")
    place = ("plug-release", "pressure-before-bump")
    other = replace(told.job.steps[place], value="3 bbl")
    job = replace(told.job, steps={**told.job.steps, place: other})
    assert '"3 bbl"' in figure(job, "bump_pressure").missing


# The estimate


def test_nothing_is_left_to_say_before_the_first_reading():
    assert aged_left(pumping_down().job, "2026-05-02T08:00:00+02:00") is None
    assert aged_left(running("S1").job, "2026-05-02T08:00:00+02:00") is None


@pytest.mark.parametrize(
    ("seconds", "estimated"),
    [(0, False), (14, False), (15, False), (16, True), (60, True)],
)
def test_it_is_an_estimate_once_age_times_rate_passes_half_the_limit(seconds, estimated):
    """The limit is 3 bbl; at 6 bbl/min half of it goes by in 15 s."""
    job = counts(pumping_down(), "10 bbl", rate="6 bbl/min", at="2026-05-02T08:00:00+02:00")
    aged = aged_left(job, f"2026-05-02T08:{seconds // 60:02}:{seconds % 60:02}+02:00")
    gone = seconds / 10 if estimated else 0
    assert aged.estimated is estimated
    assert not aged.held_back
    assert aged.age == seconds
    assert aged.count == "tank"
    assert aged.left / BARREL == pytest.approx(float(TO_COLLAR) - 10 - gone)
    assert aged.strokes == round((float(TO_COLLAR) - 10 - gone) / float(STROKE))
    assert aged.time == pytest.approx((float(TO_COLLAR) - 10 - gone) * 10)


def test_an_estimate_goes_no_further_than_the_limit_past_the_bump():
    job = counts(pumping_down(), "10 bbl", rate="6 bbl/min", at="2026-05-02T08:00:00+02:00")
    aged = aged_left(job, "2026-08-02T08:00:00+02:00")
    assert aged.estimated
    assert aged.held_back
    assert aged.left / BARREL == pytest.approx(-3)


def test_without_a_limit_or_a_rate_it_is_never_an_estimate():
    later = "2026-05-02T12:00:00+02:00"
    bare = setup(limits=limits(over_displacement=""))
    job = counts(pumping_down(bare), "10 bbl", rate="6 bbl/min", at="2026-05-02T08:00:00+02:00")
    assert not aged_left(job, later).estimated
    job = counts(pumping_down(), "10 bbl", at="2026-05-02T08:00:00+02:00")
    aged = aged_left(job, later)
    assert (aged.estimated, aged.time) == (False, None)


def test_the_age_is_that_of_the_reading_the_count_came_from():
    told = pumping_down(setup(pumping=pumping(efficiency=None)))
    counts(told, "10 bbl", rate="6 bbl/min", at="2026-05-02T08:00:00+02:00")
    job = counts(told, strokes=110, at="2026-05-02T08:00:40+02:00")
    aged = aged_left(job, "2026-05-02T08:00:50+02:00")
    assert (aged.count, aged.age, aged.estimated) == ("tank", 50, True)


def test_the_volume_given_with_the_bump_is_what_was_displaced():
    """The last count was 35.0 bbl; the bump came between two looks, at 35.9 bbl."""
    told = pumping_down()
    counts(told, "35.0 bbl", strokes=340, rate="2 bbl/min")
    assert figure(told.job, "displaced").formula == "last count, by the tank"
    told.does("plug-release", "displacement-started").does("plug-release", "bumped")
    told.does("plug-release", "bump-volume", value="35.9 bbl", despite="as read")
    job = told.job
    assert barrels(job, "displaced") == pytest.approx(35.9)
    assert figure(job, "displaced").formula == "given with the bump"
    assert barrels(job, "left_to_bump") == pytest.approx(float(TO_COLLAR) - 35.9)
    aged = aged_left(job, "2026-05-02T12:00:00+02:00")
    assert (aged.count, aged.estimated) == ("", False)
    assert aged.left / BARREL == pytest.approx(float(TO_COLLAR) - 35.9)
    assert figure(job, "top_plug_depth").inputs[0].value == figure(job, "displaced").value


def test_a_volume_given_with_the_bump_needs_no_reading():
    told = pumping_down()
    told.does("plug-release", "displacement-started").does("plug-release", "bumped")
    told.does("plug-release", "bump-volume", value="35.9 bbl", despite="as read")
    assert aged_left(told.job, told.job.last).left / BARREL == (
        pytest.approx(float(TO_COLLAR) - 35.9)
    )
    assert figure(told.job, "time_to_bump").inputs[0].where == "figure left_to_bump"


def test_a_clock_put_back_estimates_nothing():
    job = counts(pumping_down(), "10 bbl", rate="6 bbl/min", at="2026-05-02T08:00:00+02:00")
    aged = aged_left(job, "2026-05-02T07:00:00+02:00")
    assert (aged.age, aged.estimated) == (-3600, False)


def test_what_the_programme_says_is_shown_as_typed():
    job = pumping_down().job
    for key, value in (("slurry_volume", 60), ("spacer_volume", 20)):
        assert barrels(job, key) == pytest.approx(value)
        assert figure(job, key).formula == "as typed"
    assert float(CUBIC_METRES_IN_A_BARREL) == pytest.approx(BARREL)
    assert {REP, CEMENTER} <= set(job.people)
