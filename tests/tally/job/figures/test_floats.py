"""Plugs by the count, what comes back at the float check, and the weakest part."""

from __future__ import annotations

from typing import Any

import pytest

from tally.cement.floats import COMPRESSION, HOLDING, U_TUBE, UNSETTLED, bore_swelling
from tally.job.entries.pumping import Pumped
from tally.job.figures import figure, show
from tally.job.float_check import float_check
from tally.job.job import Job
from tally.units import from_unit, read
from tests.tally.job.figures.test_pumping import TO_COLLAR
from tests.tally.job.invented import CEMENTER, REP, Telling, limits, pumping_down, running
from tests.tally.job.invented_programme import TOLERANCES, cemented, cementing
from tests.tally.job.second_opinion import BORE, bbl
from tests.tally.job.whole_figures import assert_whole

BARREL, PSI, FOOT = from_unit(1, "bbl"), from_unit(1, "psi"), 0.3048
BY_FOOT = float(bbl(BORE * 100))
COLLAR = float((TO_COLLAR - bbl(BORE * 322)) / bbl(BORE * 100)) - 0.3 / BY_FOOT


def displacing(tank: str, **changed: Any) -> Telling:
    """Return a job with slurry away and so much read behind the top plug."""
    told = pumping_down(cemented(**changed))
    told.witnessed("plug-release", "slurry-away", value="25 bbl")
    told.does("plug-release", "displacement-started")
    told.says(Pumped, tank=read(tank, "volume"), despite="as read")
    return told


def feet(job: Job, key: str) -> float:
    made = figure(job, key)
    assert not made.missing, made.missing
    return float(made.value or 0.0) / FOOT


def test_the_top_plug_follows_the_count_and_stops_on_the_collar() -> None:
    job = displacing("12 bbl").job
    assert feet(job, "top_plug_depth") == pytest.approx(11.7 / BY_FOOT - 3.22)
    assert feet(displacing("99 bbl").job, "top_plug_depth") == pytest.approx(COLLAR)
    assert figure(displacing("0.2 bbl").job, "top_plug_depth").missing == (
        "The plug is still in the head by the count."
    )
    assert_whole(job)


def test_the_bottom_plugs_are_ahead_by_what_was_pumped_between() -> None:
    told = pumping_down(cemented())
    assert figure(told.job, "bottom_plug_depth").missing == "Slurry pumped was not read yet."
    none = cemented(pumping=cementing(bottom_plugs=0))
    without = figure(pumping_down(none).job, "bottom_plug_depth")
    assert without.missing == "The programme has no bottom plug."
    one = cemented(pumping=cementing(bottom_plugs=1))
    single = figure(pumping_down(one).job, "first_bottom_plug_depth")
    assert single.missing == "The programme has no second bottom plug."
    told.witnessed("plug-release", "slurry-away", value="25 bbl")
    assert feet(told.job, "bottom_plug_depth") == pytest.approx(24.7 / BY_FOOT - 3.22)
    assert feet(told.job, "first_bottom_plug_depth") == pytest.approx(COLLAR)
    job = displacing("2 bbl").job
    assert feet(job, "bottom_plug_depth") == pytest.approx(26.7 / BY_FOOT - 3.22)
    assert feet(job, "first_bottom_plug_depth") == pytest.approx(COLLAR)


def bumped(**limited: str) -> Telling:
    """Return a job with the plug seated and 1,400 psi on it."""
    told = displacing("30 bbl", limits=limits(**(TOLERANCES | limited)))
    told.does("plug-release", "pressure-before-bump", value="900 psi")
    told.does("plug-release", "bumped")
    told.witnessed("plug-release", "bumped", state="rose sharply and stands")
    return told


def test_what_comes_back_is_what_fluid_and_pipe_give() -> None:
    told = bumped()
    planned = figure(told.job, "expected_back")
    told.does("plug-release", "bump-pressure", value="1500 psi")
    job = told.job
    made = figure(job, "expected_back")
    assert [each.value for each in planned.inputs if each.name.startswith("Pressure to bump")]
    fluid = float(TO_COLLAR) * 0.003 * 1.5
    od, bore = 9.625 * 0.0254, 8.681 * 0.0254
    pipe = (float(TO_COLLAR) - 0.3) * bore_swelling(od, bore, 1500 * PSI)
    assert float(made.value or 0) / BARREL == pytest.approx(fluid + pipe)


@pytest.mark.parametrize(
    ("back", "state", "verdict"),
    [
        ("0.2 bbl", "flow stopped and stayed stopped", COMPRESSION),
        ("0.8 bbl", "flow stopped and stayed stopped", HOLDING),
        ("0.8 bbl", "flow goes on", U_TUBE),
        ("0.8 bbl", "shut in with pressure kept on", U_TUBE),
        ("0.8 bbl", "", UNSETTLED),
    ],
)
def test_the_float_check_is_told_in_words(back: str, state: str, verdict: str) -> None:
    told = bumped()
    told.does("plug-release", "bump-pressure", value="1400 psi")
    assert float_check(told.job) is None
    told.does("plug-release", "bled-back", value=back)
    accepted = {} if state.startswith("flow stopped") else {"despite": "shut in, watched"}
    if state:
        seen = {"state": state, "by": REP, "witness": CEMENTER, **accepted}
        told.does("plug-release", "floats-held", **seen)
    meaning = float_check(told.job)
    assert meaning is not None
    assert meaning.verdict == verdict


def test_without_a_band_nobody_says_what_came_back_means() -> None:
    told = bumped(back_flow_band="")
    told.does("plug-release", "bled-back", value="0.2 bbl")
    assert float_check(told.job) is None


def test_only_the_differential_is_held_and_heat_has_its_limit() -> None:
    job = running(plan=cemented()).runs().job
    held, differential = figure(job, "hold_pressure"), figure(job, "bump_differential")
    assert held.value == differential.value
    assert held.formula.startswith("the differential alone; heat raises it")
    low = limits(**(TOLERANCES | {"heat_pressure": "10 psi"}))
    over = figure(running(plan=cemented(limits=low)).runs().job, "hold_pressure")
    assert "over the limit" in over.formula


def test_the_weakest_part_governs_and_what_is_not_rated_is_named() -> None:
    job = pumping_down(cemented()).job
    made = figure(job, "highest_pressure")
    assert show(job, made.value, "pressure") == "3,000 psi"
    assert made.formula == "least of the ratings: plugs governs; all are rated"
    casing = next(each.value for each in made.inputs if each.name == "casing")
    assert show(job, casing, "pressure") == "5,492 psi"
    bare = running(plan=cemented(pumping=cementing(plug_rating=None), limits={})).runs().job
    made = figure(bare, "highest_pressure")
    assert made.formula == (
        "least of the ratings: pump relief governs; not rated: tested line, plugs, casing"
    )
    nothing = figure(running().runs().job, "highest_pressure")
    assert nothing.missing.startswith("Nothing that the pressure acts on is rated")
