"""Which entry came between what somebody saw and what they enter."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tally.job.between import Seen, came_between, told_between
from tally.job.entries.people import Note
from tally.job.entries.running import ItemRun, Rejected
from tally.job.fold import carry_on, fold
from tests.drive.jobs import before, unhurried

AT = "2026-03-12T03:20:00-06:00"
SAID = unhurried(before("89"))
SEEN = Seen(fold(SAID), len(SAID))


def said(*new):
    """Return the entries of the book with some on top, numbered as the book does."""
    return (*SAID, *(replace(one, seq=len(SAID) + 1 + at) for at, one in enumerate(new)))


def note(text):
    """Return a note of somebody else."""
    return Note(by="N. Haddad", at=AT, text=text)


RUN_89 = ItemRun(by="Ama Osei", at=AT, number="89")
REJECT_89 = Rejected(by="Ivo Marek", at=AT, number="89", reason="failed drift")


@pytest.mark.parametrize(
    ("mine", "theirs", "at"),
    [
        (REJECT_89, [note("rain"), RUN_89, note("wind")], 1),
        (RUN_89, [REJECT_89], 0),
        (RUN_89, [note("rain"), RUN_89], 1),
    ],
)
def test_it_is_the_entry_since_which_the_book_answers_otherwise(mine, theirs, at):
    entries = said(*theirs)
    assert came_between(mine, SEEN, entries) == entries[len(SAID) + at]


def test_nothing_came_between_where_nobody_entered_anything():
    assert came_between(RUN_89, SEEN, SAID) is None


def test_what_was_refused_before_is_nobodys_doing():
    run_88 = ItemRun(by="Ama Osei", at=AT, number="88")
    assert came_between(run_88, SEEN, said(note("rain"), RUN_89)) is None


def test_what_holds_only_for_one_state_of_the_book_names_the_first_that_was_not_seen():
    entries = said(note("rain"), note("wind"))
    assert came_between(note("signed as seen"), SEEN, entries) == entries[len(SAID)]


def test_it_is_told_with_name_time_number_and_words():
    entries = said(RUN_89)
    told = told_between(entries[-1], carry_on(SEEN.job, entries[len(SAID) :]))
    assert told == (
        f"It came in between: Ama Osei entered at 03:20, as entry {len(entries)}: 89 run."
    )
