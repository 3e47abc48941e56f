"""The pipe waits at the shoe track until crew and hole are ready."""

import pytest

from tally.job.entries.running import ItemRun
from tally.job.entries.steps import StepDone
from tally.job.fold import fold
from tally.job.hold_point import held, not_released
from tally.job.setup import Planned
from tally.steps.reading import shipped
from tests.tally.job.invented import LEAD, REP, running, setup

(READY,) = [plan for plan in shipped() if plan.id == "crew-and-hole-ready"]
DOERS = {one.role: one.name for one in setup().people}
SHUT = (
    "Not done yet: Release the hold point: crew and hole are ready (Crew and hole ready; "
    "shoe track)."
)


def at_the_shoe_track(plan=None):
    """Return a job with the shoe track made up and the list taken."""
    return running("S1", "1", "2", "C1", plan=plan).takes(READY)


def test_the_shoe_track_is_run_with_the_list_open_and_the_next_joint_waits():
    told = running(plan=None).takes(READY)
    told.runs("S1", "1", "2", "C1")
    assert held(told.job, "3") == SHUT == not_released(told.job)
    assert told.refuses(ItemRun, number="3") == (
        f"{SHUT} This gate is passed only with a reason and a second person."
    )


@pytest.mark.parametrize(
    ("second", "sentence"),
    [("", "only with a reason"), (LEAD, "cannot be the witness"), ("Nobody", "not among")],
)
def test_a_reason_alone_or_a_wrong_second_person_does_not_pass_it(second, sentence):
    told = at_the_shoe_track()
    assert sentence in told.refuses(ItemRun, number="3", despite="late", second=second)


def test_passed_with_a_second_person_it_is_an_open_exception_and_asks_once():
    told = at_the_shoe_track()
    told.says(ItemRun, number="3", despite="list on paper", second=REP)
    (only,) = told.job.open_exceptions()
    assert only.what == (
        f"Hold point passed with 3: {SHUT} Reason: list on paper. Second person: {REP}."
    )
    told.runs("4")
    assert told.job.open_exceptions() == (only,)
    assert fold(told.entries) == told.job


def test_released_nothing_is_asked():
    told = at_the_shoe_track()
    for step in READY.steps:
        value = {"value": "3"} if step.want == "value" else {"state": step.good[0]}
        who = {"by": DOERS[step.who]} | ({"witness": DOERS[step.witness]} if step.critical else {})
        told.says(StepDone, list_id=READY.id, step_id=step.id, **value, **who)
    assert not_released(told.job) == ""
    told.runs("3")


def test_what_was_run_before_such_a_rule_stays_run():
    told = at_the_shoe_track()
    old = told.makes(ItemRun, number="3")
    job = fold([*told.entries, old])
    assert job.made("3") is not None
    assert job.exceptions == ()


def test_without_a_collar_the_first_joint_waits_and_without_a_list_none():
    items = (Planned(number="S1", kind="shoe", length=195, typed="1.95"),)
    order = ("S1", *(str(number) for number in range(1, 13)))
    told = running("S1", plan=setup(items=items, order=order)).takes(READY)
    assert held(told.job, "1") == SHUT
    assert held(running("S1").job, "1") == ""
