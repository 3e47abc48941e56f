"""What marks the shoe as suspect, and that only a test with a name clears it."""

from __future__ import annotations

from typing import Any

import pytest

from tally.job.entries.calling import ListStarted
from tally.job.entries.pumping import Pumped
from tally.job.entries.shoe import PumpedBackIn, ShoeTested
from tally.job.entries.steps import StepPassed
from tally.job.figures import figure
from tally.job.wet_shoe import doubts, shoe_words, suspect
from tally.steps.reading import shipped
from tally.units import read
from tests.tally.job.invented import (
    CEMENTER,
    REP,
    Telling,
    displacement_text,
    limits,
    pumping_down,
    setup,
)

RELEASE = "plug-release"
LIMITS = limits(over_displacement="1 bbl", bump_band="2 bbl")


def displaced() -> Telling:
    """Return a job with the top plug gone, limits set, the lists for trouble at hand."""
    told = pumping_down(setup(limits=LIMITS))
    return told.takes(*(plan for plan in shipped() if plan.on_call))


def past(told: Telling, more: float) -> str:
    """Return the calculated volume and so many barrels more."""
    value = float(figure(told.job, "displacement_to_collar").value or 0.0) / 0.158987294928
    return f"{value + more:.2f} bbl"


def bumped(told: Telling, state: str = "rose sharply and stands") -> Telling:
    told.says(Pumped, tank=read(past(told, 0.0), "volume"))
    told.does(RELEASE, "bumped")
    return told.witnessed(RELEASE, "bumped", state=state, despite="as seen")


def over(told: Telling) -> None:
    told.says(Pumped, tank=read(past(told, 1.2), "volume"))


def far_bump(told: Telling) -> None:
    bumped(told).does(RELEASE, "bump-volume", value=past(told, -3.0), despite="as read")


def no_bump(told: Telling) -> None:
    bumped(told, "no rise up to the volume limit")


def leak(told: Telling) -> None:
    bumped(told).does(RELEASE, "bled-back", value="1 bbl")
    seen: dict[str, Any] = {"by": REP, "witness": CEMENTER, "despite": "seen"}
    told.does(RELEASE, "floats-held", state="flow goes on", **seen)


def called(told: Telling) -> None:
    told.says(ListStarted, list_id="floats-leak", why="flow at the head")


def back_in(told: Telling) -> None:
    told.says(PumpedBackIn, volume=read("2 bbl", "volume"), decided=REP)


CAUSES = {
    over: "past the calculated bump, limit 1 bbl",
    far_bump: "short of the calculated volume, band 2 bbl",
    no_bump: "not proved to seat: no rise up to the volume limit",
    leak: "floats do not hold: flow goes on",
    called: "floats leak, called at",
    back_in: "2 bbl that came back was pumped in again",
}


@pytest.mark.parametrize("cause", CAUSES, ids=lambda one: one.__name__)
def test_each_cause_marks_the_shoe_until_a_test_clears_it(cause: Any) -> None:
    told = displaced()
    assert doubts(told.job) == ()
    cause(told)
    assert [CAUSES[cause] in each.why for each in suspect(told.job)] == [True]
    assert "SHOE SUSPECT" in shoe_words(told.job)
    assert figure(told.job, "shoe_suspect").value == 1
    marks = [one for one in told.job.open_exceptions() if one.what.startswith("Shoe suspect:")]
    assert len(marks) == 1
    told.says(ShoeTested, how="300 psi", held=False, cleared=REP)
    assert len(suspect(told.job)) == 2
    told.says(ShoeTested, how="500 psi for 30 min", held=True, cleared=REP)
    assert suspect(told.job) == ()
    assert shoe_words(told.job).startswith(f"shoe cleared by {REP}")
    marks = [one for one in told.job.exceptions if one.what.startswith("Shoe suspect:")]
    assert {one.closed_by for one in marks} == {REP}


def test_a_job_that_went_as_calculated_marks_nothing() -> None:
    told = bumped(displaced())
    told.does(RELEASE, "bump-volume", value=past(told, 1.9))
    assert shoe_words(told.job) == ""
    assert figure(told.job, "shoe_suspect").value == 0


def test_without_a_band_a_bump_past_the_limit_marks_it() -> None:
    told = pumping_down(setup(limits=limits(over_displacement="1 bbl", bump_band="")))
    bumped(told).does(RELEASE, "bump-volume", value=past(told, 1.5))
    assert "bump 1.5 bbl past the calculated volume, limit 1 bbl" in shoe_words(told.job)
    told = pumping_down(setup(limits=limits(over_displacement="1 bbl", bump_band="")))
    bumped(told).does(RELEASE, "bump-volume", value=past(told, -1.5))
    assert shoe_words(told.job) == ""


def test_where_nobody_gives_the_volume_the_last_count_is_held_against_the_band() -> None:
    told = displaced()
    told.says(Pumped, tank=read(past(told, -3.0), "volume"))
    told.does(RELEASE, "bumped")
    told.witnessed(RELEASE, "bumped", state="rose sharply and stands")
    assert shoe_words(told.job) == ""
    step: dict[str, Any] = {"outcome": "not done", "reason": "nobody looked", "second": REP}
    told.says(StepPassed, by=CEMENTER, list_id=RELEASE, step_id="bump-volume", **step)
    assert "bump 3.0 bbl short of the calculated volume, band 2 bbl (last count, by the tank)" in (
        shoe_words(told.job)
    )


def test_what_comes_after_the_test_marks_it_again() -> None:
    told = displaced()
    over(told)
    told.says(ShoeTested, how="500 psi", held=True, cleared=REP)
    back_in(told)
    assert [each.seq for each in suspect(told.job)] == [told.job.seq]


def test_what_is_refused() -> None:
    told = displaced()
    two = read("2 bbl", "volume")
    assert "Nobody is not among" in told.refuses(PumpedBackIn, volume=two, decided="")
    none = read("0 bbl", "volume")
    assert "is nothing pumped back" in told.refuses(PumpedBackIn, volume=none, decided=REP)
    assert "Say how" in told.refuses(ShoeTested, how=" ", held=True, cleared=REP)
    early = Telling().starts()
    assert "not released yet" in early.refuses(PumpedBackIn, volume=two, decided=REP)


def test_displacement_is_what_these_tests_take_it_for() -> None:
    told = displaced()
    typed = read(displacement_text(told.job), "volume").value
    assert read(past(told, 0.0), "volume").value == pytest.approx(typed, abs=0.02)
