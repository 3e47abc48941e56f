"""Rules for waiting, picked and confirmed by name."""

from __future__ import annotations

from tally.job.entries.waiting import WaitingPicked
from tally.job.setup import WaitingRule
from tally.job.waiting_rules import shipped_rules
from tests.tally.job.invented import LEAD, REP, running

BY_NAME = {rule.name: rule for rule in shipped_rules()}
MONTANA, WYOMING = BY_NAME["montana"], BY_NAME["wyoming"]
ALBERTA = BY_NAME["alberta"]


def test_the_rules_are_kept_as_they_read_with_who_confirmed_them() -> None:
    job = running().says(WaitingPicked, rules=(MONTANA,), confirmed=REP)
    assert job.picked is not None
    assert (job.picked.rules, job.picked.confirmed) == ((MONTANA,), REP)


def test_a_rule_from_memory_asks_where_its_text_was_read() -> None:
    asked = running().asks(WaitingPicked, rules=(ALBERTA,), confirmed=REP)
    assert asked == (
        "Not read in a document: alberta. Hold it against its text and say where that was read."
    )


def test_other_rules_than_before_want_a_reason() -> None:
    told = running()
    told.says(WaitingPicked, rules=(MONTANA,), confirmed=REP)
    asked = told.asks(WaitingPicked, rules=(WYOMING,), confirmed=LEAD)
    assert f"Rules were confirmed by {REP}" in asked
    again = told.says(WaitingPicked, rules=(MONTANA,), confirmed=LEAD).picked
    assert again is not None
    assert again.confirmed == LEAD


def test_what_cannot_be_picked() -> None:
    told = running()
    empty = WaitingRule(name="empty", place="here")
    assert "Pick at least one" in told.refuses(WaitingPicked, rules=(), confirmed=REP)
    twice = told.refuses(WaitingPicked, rules=(MONTANA, MONTANA), confirmed=REP)
    assert "montana is picked twice" in twice
    assert "neither a time nor" in told.refuses(WaitingPicked, rules=(empty,), confirmed=REP)
    stranger = told.refuses(WaitingPicked, rules=(MONTANA,), confirmed="Nobody Known")
    assert "Nobody Known is not among the people" in stranger
