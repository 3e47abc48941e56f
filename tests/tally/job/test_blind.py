"""A figure that a second person works out unseen is awaited until that step is entered."""

from __future__ import annotations

import pytest

from tally.job.blind import awaited
from tally.job.entries.passing import DifferenceAnswered
from tally.job.entries.people import PinSet
from tally.job.entries.steps import StepDone
from tally.job.fold import fold
from tally.job.pins import made
from tests.tally.job.invented import (
    CEMENTER,
    LEAD,
    REP,
    conditioned,
    landed,
    loaded,
    ready_to_pump,
)

FIGURES = ("displacement_to_collar", "strokes_to_collar", "sacks", "mix_fluid", "bump_differential")


def test_all_five_figures_are_asked_for_unseen() -> None:
    job = landed().job
    assert [awaited(job, key) for key in FIGURES] == [True] * 5
    assert not awaited(job, "slurry_volume")


def test_a_figure_is_awaited_no_more_once_its_step_is_entered() -> None:
    told = loaded(conditioned(landed()))
    told.does("plug-release", "line-test", value="3600 psi", witness=REP)
    told.does(
        "plug-release",
        "volumes-agreed",
        by=REP,
        value="99 bbl",
        witness=CEMENTER,
        despite="worked out again together",
    )
    job = told.job
    assert [awaited(job, key) for key in FIGURES] == [False, True, True, True, True]
    (open_one,) = job.open_exceptions()
    assert "99 bbl" in open_one.what


def before_the_volumes(**named):
    """Return a job with the lines tested, and what is said of the displacement."""
    told = loaded(conditioned(landed()))
    told.does("plug-release", "line-test", value="3600 psi", witness=REP)
    volumes = {"list_id": "plug-release", "step_id": "volumes-agreed", "value": "99 bbl"}
    return told, volumes | {"by": CEMENTER, "released": REP, "witness": CEMENTER, **named}


@pytest.mark.parametrize(
    ("named", "sentence"),
    [
        ({}, "A second person works this figure out without seeing ours; name who gave it."),
        (
            {"given": CEMENTER},
            f"{CEMENTER} is at the keys and cannot be the second person; name somebody else.",
        ),
        (
            {"given": LEAD},
            f"{LEAD} set up the programme and cannot be the second person; name somebody else.",
        ),
        ({"given": "Al Roe"}, "Al Roe is not among the people of this job; add the person first."),
    ],
)
def test_the_second_person_is_another_than_who_is_at_the_keys_or_set_it_up(named, sentence):
    told, volumes = before_the_volumes(**named)
    assert told.refuses(StepDone, **volumes) == sentence


def test_the_strokes_carry_the_name_of_who_gave_them_and_its_pin():
    told = ready_to_pump()
    strokes = {"list_id": "plug-release", "step_id": "strokes-agreed", "value": "900"}
    assert "name who gave it" in told.refuses(StepDone, by=CEMENTER, **strokes)
    told.says(PinSet, name=REP, pin=made("2468"), by=REP)
    assert f"{REP} has a PIN" in told.refuses(StepDone, by=CEMENTER, given=REP, **strokes)
    told.says(StepDone, by=CEMENTER, given=REP, signed=(REP,), **strokes)
    record = told.job.steps["plug-release", "strokes-agreed"]
    assert (record.given, record.by) == (REP, REP)


def test_a_figure_that_differs_is_recorded_without_a_question_and_answered_afterwards():
    told, volumes = before_the_volumes(given=REP)
    told.says(StepDone, **volumes)  # no question: that would tell ours before theirs stands
    record = told.job.steps["plug-release", "volumes-agreed"]
    assert record.value == "99 bbl"
    assert record.differs.startswith("Seen: 99 bbl; expected: ")
    assert "Not as wanted" in told.refuses(
        StepDone, list_id="plug-release", step_id="spacer-pumped", value="20 bbl", by=CEMENTER
    )
    place = {"list_id": "plug-release", "step_id": "volumes-agreed"}
    told.says(DifferenceAnswered, reason="ours counts the head", by=REP, **place)
    assert told.job.steps["plug-release", "volumes-agreed"].differs == ""
    (still,) = told.job.open_exceptions()
    assert still.what.endswith("Accepted: ours counts the head.")
    assert fold(told.entries) == told.job
    assert told.refuses(DifferenceAnswered, reason="again", by=REP, **place) == (
        "Nothing that differs waits for a reason here."
    )
