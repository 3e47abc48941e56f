"""A PIN typed where words are asked for is refused, by whatever way the entry comes."""

from __future__ import annotations

from tally.job.entries.correction import Correction
from tally.job.entries.people import Note, PinSet
from tally.job.in_clear import pin_in_clear
from tally.job.pins import made
from tests.tally.job.invented import CEMENTER, REP, Telling, setup

PIN = "2468"


def with_pin() -> Telling:
    told = Telling().starts(setup())
    told.says(PinSet, name=REP, pin=made(PIN))
    return told


def test_words_that_are_a_pin_of_somebody_named_are_refused_without_repeating_it() -> None:
    said = with_pin().refuses(Note, text=PIN, by=REP)
    assert said.startswith(f"That is the PIN of {REP}")
    assert PIN not in said


def test_words_of_a_correction_are_looked_through_too() -> None:
    told = with_pin()
    told.says(Note, text="rain", by=REP)
    note = told.job.seq
    for wrong in ({"reason": PIN, "instead": None}, {"reason": "x", "instead": {"text": PIN}}):
        assert "is the PIN" in told.refuses(Correction, of=note, by=REP, **wrong)


def test_a_number_that_is_nobodys_here_is_a_number() -> None:
    told = with_pin()
    told.says(Note, text="2469", by=REP)
    told.says(Note, text=PIN, by=CEMENTER)  # whose PIN it is not named: no hash is made
    assert pin_in_clear(told.job.pins, PIN, (CEMENTER,)) == ""
