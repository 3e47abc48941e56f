"""Since when the cement is in place, what the rules come to, and which readings count."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tally.errors import Missing
from tally.job.entries.pumping import Pumped
from tally.job.entries.steps import StepPassed
from tally.job.entries.waiting import WaitingPicked
from tally.job.figures import figure
from tally.job.setup import StrengthReading, Waiting, WaitingRule
from tally.job.waiting import cured, gone, governing, in_place, waits
from tally.units import read
from tests.tally.job.invented import CEMENTER, REP, Telling, limits, pumping_down, setup

HOUR = 3600.0


def reading(hours: int, psi: int, degrees: int | None = None, fluid: str = "") -> StrengthReading:
    return StrengthReading(
        fluid=fluid,
        time=read(f"{hours} h", "time"),
        strength=read(f"{psi} psi", "pressure"),
        temperature=read(f"{degrees} degF", "temperature") if degrees else None,
    )


LAB = (reading(6, 100, 90), reading(12, 500, 90), reading(24, 1500, 90))
WARM = (reading(4, 400, 140), reading(8, 2000, 140))
TIME = WaitingRule(name="time", place="here", time=read("8 h", "time"), meanwhile="drilling")
STRENGTH = WaitingRule(name="strength", place="here", strength=read("300 psi", "pressure"))
STRONG = WaitingRule(name="strong", place="here", strength=read("3000 psi", "pressure"))


def bumped(state: str = "rose sharply and stands", **changed: Any) -> Telling:
    told = pumping_down(setup(**changed))
    told.does("plug-release", "displacement-started", state="full returns")
    despite = {} if state.startswith("rose sharply") else {"despite": "seen"}
    return told.does("plug-release", "bumped", state=state, witness=REP, **despite)


def picked(*rules: WaitingRule, **changed: Any) -> Telling:
    told = bumped(**changed)
    told.says(WaitingPicked, rules=rules, confirmed=REP)
    return told


def test_nothing_is_in_place_before_the_bump() -> None:
    job = pumping_down().job
    assert in_place(job) is None
    assert gone(job, job.last) is None


def test_the_clock_starts_at_the_bump() -> None:
    told = bumped()
    since = in_place(told.job)
    assert since is not None
    assert (since.at, since.how) == (told.entries[-1].at, "bump")
    assert gone(told.job, "2026-05-02T20:00:00+02:00") == pytest.approx(
        gone(told.job, "2026-05-02T19:00:00+02:00") + HOUR  # type: ignore[operator]
    )
    assert gone(told.job, "2026-05-01T20:00:00+02:00") == 0.0


def test_without_a_bump_it_starts_at_the_end_of_displacement() -> None:
    since = in_place(bumped("no rise up to the volume limit").job)
    assert since is not None
    assert since.how == "end of displacement: no rise up to the volume limit"


def test_a_bump_passed_over_leaves_the_last_reading_of_the_displacement() -> None:
    told = pumping_down()
    told.does("plug-release", "displacement-started", state="full returns")
    told.says(Pumped, tank=read("20 bbl", "volume"))
    at = told.entries[-1].at
    where = {"list_id": "plug-release", "step_id": "bumped", "outcome": "not done"}
    told.says(StepPassed, by=CEMENTER, reason="stopped early", second=REP, **where)
    since = in_place(told.job)
    assert since is not None
    assert (since.at, since.how) == (at, "end of displacement; no bump was entered")


def test_the_longest_rule_governs_and_the_limit_of_the_job_is_one_of_them() -> None:
    job = picked(TIME, STRENGTH, strengths=LAB).job
    assert governing(waits(job)).rule == STRENGTH
    needed = figure(job, "waiting_needed")
    assert needed.value == pytest.approx(9 * HOUR)
    assert needed.inputs[0].value == "strength"
    later = picked(TIME, STRENGTH, strengths=LAB, limits=limits(waiting_time="12 h")).job
    assert governing(waits(later)).rule.name == "limit-of-the-job"
    assert figure(later, "waiting_needed").value == pytest.approx(12 * HOUR)


def test_the_time_left_of_a_rule_ends_at_nothing() -> None:
    one = waits(picked(TIME, strengths=LAB).job)[0]
    assert one.left(2 * HOUR) == pytest.approx(6 * HOUR)
    assert one.left(9 * HOUR) == 0.0


def test_a_strength_past_the_readings_is_missing_with_its_reason() -> None:
    job = picked(TIME, STRONG, strengths=LAB).job
    assert governing(waits(job)).left(90 * HOUR) is None
    assert figure(job, "waiting_needed").missing == (
        "The rule strong (3000 psi) cannot be told: the laboratory readings end below the strength."
    )
    assert "they are not carried on" in figure(job, "strength_time").missing


def test_without_rules_or_laboratory_it_is_missing() -> None:
    with pytest.raises(Missing, match="No waiting rule is confirmed"):
        waits(bumped().job)
    job = picked(STRENGTH).job
    assert "no laboratory strength" in figure(job, "waiting_needed").missing
    assert figure(picked(TIME).job, "strength_time").missing == (
        "No confirmed waiting rule asks for a strength."
    )


def test_the_coldest_curing_counts() -> None:
    lab = cured(bumped(strengths=(*WARM, *LAB)).job)
    assert lab is not None
    assert lab.temperature is not None
    assert lab.temperature.text == "90 degF"
    assert len(lab.curve.readings) == 3


def test_of_curings_without_temperature_the_slowest_counts() -> None:
    quick, slow = reading(8, 1000, fluid="tail"), reading(8, 200, fluid="lead")
    lab = cured(bumped(strengths=(quick, slow)).job)
    assert lab is not None
    assert lab.slurry == "lead"


@pytest.mark.parametrize(
    ("coldest", "readings", "said"),
    [
        (None, LAB, "not in the job set-up"),
        ("80 degF", LAB, "warmer than the coldest point, 80 degF"),
        ("80 degF", (reading(8, 500),), "at what temperature"),
        ("90 degF", LAB, ""),
        ("120 degF", LAB, ""),
    ],
)
def test_what_makes_the_laboratory_doubtful(
    coldest: str | None, readings: tuple[StrengthReading, ...], said: str
) -> None:
    point = Waiting(coldest=read(coldest, "temperature") if coldest else None)
    lab = cured(bumped(strengths=readings, waiting=point).job)
    assert lab is not None
    assert said in lab.doubt
    assert bool(lab.doubt) is bool(said)


def test_a_rule_is_kept_as_it_was_picked() -> None:
    told = picked(TIME, strengths=LAB)
    changed = replace(TIME, time=read("1 h", "time"))
    told.job = replace(told.job, setup=replace(told.job.known, waiting_rules=(changed,)))
    assert waits(told.job)[0].wait.time == pytest.approx(8 * HOUR)
