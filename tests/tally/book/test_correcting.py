"""Corrections in a book: put in place, refused, or leaving a named exception."""

import sqlite3
from contextlib import closing
from dataclasses import replace

import pytest

from tally.book.book import Book
from tally.errors import EntryRefused
from tally.job.entries.correction import Correction
from tally.job.stored import to_fields
from tests.tally.book.invented import BY, at, note, run, setup


def correction(of, instead=None, reason="typed wrong"):
    """Return a correction of an entry."""
    return Correction(by=BY, at=at(), of=of, reason=reason, instead=instead)


@pytest.fixture
def running(book):
    """Return the book with the shoe and three joints in the string: entries 4 to 7."""
    for number in ("SHOE", "1", "2", "3"):
        book.record(run(number))
    return book


def test_a_correction_gives_the_job_as_if_it_had_been_right(running, tmp_path):
    with Book.create(tmp_path / "right.book", running.entries[:4]) as right:
        for entry in running.entries[4:]:
            length = {"length": 4150, "typed": "41.50", "despite": "typed wrong"}
            right.record(replace(entry, **(length if entry.seq == 5 else {})))
        job = running.record(correction(5, {"number": "1", "length": 4150, "typed": "41.50"}))
        same = {"seq": 7, "corrections": (), "last": right.job.last}
        assert replace(job, **same) == right.job
        assert job.corrections == (8,)


def test_what_a_correction_makes_impossible_is_a_named_exception(running):
    job = running.record(correction(3, None, "counted twice"))
    assert [made.number for made in job.string] == ["SHOE"]
    assert [each.seq for each in job.open_exceptions()] == [5, 6, 7]
    assert "no longer fits" in job.open_exceptions()[0].what


@pytest.mark.parametrize(
    ("of", "instead", "said"),
    [
        (99, None, "no entry 99"),
        (0, None, "no entry 0"),
        (5, {"number": "999"}, "There is no item 999"),
        (5, {"length": "long"}, "cannot be corrected so"),
        (5, {"colour": "red"}, "colour"),
        (1, None, "the set-up is not struck"),
        (3, {"items": "none"}, "cannot be corrected so"),
    ],
)
def test_a_correction_that_cannot_be_is_refused_in_a_sentence(running, of, instead, said):
    before = (running.path.read_bytes(), running.job)
    with pytest.raises(EntryRefused, match=said):
        running.record(correction(of, instead))
    assert (running.path.read_bytes(), running.job) == before


def test_a_correction_is_not_corrected_but_its_target_is_again(running):
    running.record(correction(7))
    with pytest.raises(EntryRefused, match="itself a correction"):
        running.record(correction(8))
    job = running.record(correction(7, {"number": "4"}, "it was joint 4"))
    assert [made.number for made in job.string] == ["SHOE", "1", "2", "4"]


def test_striking_the_last_entry_leaves_no_exception(running):
    job = running.record(correction(7))
    assert job.open_exceptions() == ()
    assert job.corrections == (8,)


def test_a_reason_is_wanted(running):
    with pytest.raises(EntryRefused, match="Say why"):
        running.record(correction(5, None, ""))


def test_the_tally_unit_is_never_corrected(running):
    lengths = replace(setup().lengths, unit="m")
    with pytest.raises(EntryRefused, match="tally unit"):
        running.record(correction(1, {"setup": to_fields(replace(setup(), lengths=lengths))}))
    stick_up = replace(setup().lengths, stick_up=410, stick_up_typed="4.10")
    job = running.record(correction(1, {"setup": to_fields(replace(setup(), lengths=stick_up))}))
    assert job.known.lengths.stick_up == 410


def test_both_stay_readable(running):
    running.record(correction(5, {"number": "1", "length": 4150, "typed": "41.50"}))
    with Book.open(running.path, look_only=True) as again:
        assert again.entries[4] == running.entries[4]
        assert again.entries[4].length is None
        assert again.entries[7].instead["typed"] == "41.50"
    with closing(sqlite3.connect(running.path)) as other:
        row = other.execute(
            "SELECT kind, number, corrected_by FROM entries WHERE seq = 5"
        ).fetchone()
    assert row == ("item run", "1", 8)


def test_entries_after_a_correction_go_on_top(running):
    running.record(correction(7))
    job = running.record(note("joint 3 was never run"))
    assert job.notes == ((9, "joint 3 was never run"),)
    assert job.joints_run == 2
