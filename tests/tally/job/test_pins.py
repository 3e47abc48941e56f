"""PINs: what is kept, what matches, and what an entry signed with one must show."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from demo_db.play import entries as demo_entries
from tally.errors import EntryRefused, InputError
from tally.job.entries.correction import Correction
from tally.job.entries.people import Note, PinSet
from tally.job.entry import from_fields, to_fields
from tally.job.fold import checked_correction, fold, fold_on
from tally.job.pins import made, matches, read_pin

SAID = {"by": "Ama Osei", "at": "2026-03-12T19:00:00-06:00"}


def test_a_pin_matches_itself_and_is_not_kept():
    kept = made("2468")
    assert matches(kept, "2468")
    assert not matches(kept, "2469")
    assert "2468" not in kept.salt + kept.digest
    assert made("2468").digest != kept.digest


@settings(max_examples=8, deadline=None)
@given(st.from_regex(r"[0-9]{4,12}", fullmatch=True), st.from_regex(r"[0-9]{4,12}", fullmatch=True))
def test_only_the_same_digits_match(one: str, other: str):
    assert matches(made(one), other) == (one == other)


@pytest.mark.parametrize("text", ["", "123", "1234567890123", "12a4", "\u0661\u0662\u0663\u0664"])
def test_what_is_no_pin_is_refused_without_repeating_it(text: str):
    with pytest.raises(InputError) as refused:
        read_pin(text)
    assert not text or text not in str(refused.value)


@pytest.fixture(scope="module")
def job():
    return fold(demo_entries("third"))


def test_a_pin_is_changed_only_with_the_old_one(job):
    first = PinSet(**SAID, name="N. Haddad", pin=made("2468"), seq=job.seq + 1)
    set_once = fold_on(job, first)
    again = PinSet(**SAID, name="N. Haddad", pin=made("1357"), seq=job.seq + 2)
    with pytest.raises(EntryRefused, match="only that PIN can change it"):
        fold_on(set_once, again)
    changed = fold_on(set_once, replace(again, signed=("N. Haddad",)))
    assert matches(changed.pins["N. Haddad"], "1357")


def test_nobody_signs_with_a_pin_that_is_not_set(job):
    note = Note(**SAID, text="seen", signed=("N. Haddad",), seq=job.seq + 1)
    with pytest.raises(EntryRefused, match="has no PIN in this book"):
        fold_on(job, note)


def test_a_stranger_has_no_pin(job):
    with pytest.raises(EntryRefused, match="not among the people"):
        fold_on(job, PinSet(**SAID, name="Nobody", pin=made("2468"), seq=job.seq + 1))


def test_a_signature_is_kept_in_the_line_and_falls_with_a_correction(job):
    pin = PinSet(**SAID, name="N. Haddad", pin=made("2468"), seq=job.seq + 1)
    note = Note(**SAID, text="seen", signed=("N. Haddad",), seq=job.seq + 2)
    assert from_fields(to_fields(note)) == note
    instead = {key: value for key, value in to_fields(note).items() if key in ("text", "signed")}
    put_right = Correction(**SAID, of=note.seq, reason="misread", instead=instead, seq=job.seq + 3)
    from tally.job.fold import effective

    stands = effective((*demo_entries("third"), pin, note, put_right))
    assert next(each for each in stands if each.seq == note.seq).signed == ()
    with pytest.raises(EntryRefused, match="changed with the PIN itself"):
        checked_correction((pin,), Correction(**SAID, of=pin.seq, reason="x", seq=job.seq + 9))
