"""The sample book of each schema that was released verifies, opens and takes entries, for ever."""

import shutil
from contextlib import closing
from sqlite3 import connect

import pytest

from tally.book.book import Book
from tally.book.reported import Reported
from tally.book.verify import verify
from tally.job.entry import catalogue
from tests.tally.book.invented import note
from tests.tally.book.samples.make import BOOK_ID, FOLDER, entries, make

SAMPLES = sorted(FOLDER.glob("schema_*.book"))


def printed(path):
    """Return the count and hash written beside a sample when it was made."""
    count, head = path.with_suffix(".txt").read_text().split()
    return int(count), head


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.name)
def test_a_sample_verifies_and_opens_to_look(sample):
    content = sample.read_bytes()
    report = verify(sample, Reported(*printed(sample)))
    assert report.ok, [str(each) for each in report.findings if not each.good]
    assert (report.count, report.head) == printed(sample)
    with Book.open(sample, look_only=True) as book:
        assert book.head == printed(sample)
        assert book.job.seq == report.count
    assert sample.read_bytes() == content


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.name)
def test_a_copy_of_a_sample_takes_entries(sample, tmp_path):
    copy = shutil.copy(sample, tmp_path)
    with Book.open(copy) as book:
        book.record(note("still in use"))
    report = verify(copy, Reported(*printed(sample)))
    assert report.ok, [str(each) for each in report.findings if not each.good]


def test_the_first_sample_says_what_was_entered():
    with Book.open(FOLDER / "schema_1.book", look_only=True) as book:
        job = book.job
    assert book.id == BOOK_ID
    assert [made.number for made in job.string] == ["SHOE", "7", "2", "6"]
    assert {n: i.state for n, i in job.items.items() if i.state not in ("run", "on rack")} == {
        "3": "laid down",
        "4": "rejected",
        "8": "sent away",
    }
    assert job.corrections == (21, 23, 33)
    assert [seq for seq, _ in job.notes] == [6]
    assert (job.landing.stick_up, job.hung_off.load.text) == (410, "186 klbf")
    assert job.steps["sample", "drop"].witness == "Second Hand"
    assert job.exceptions[0].closed_by == "Second Hand"


def test_the_first_sample_holds_every_kind_of_its_time():
    kinds = {entry.KIND for entry in entries()}
    assert kinds <= catalogue().keys()
    assert len(kinds) == 21


def test_a_sample_is_made_the_same_again_and_never_written_over(tmp_path):
    from tally.errors import BookError

    once = make(tmp_path)
    head = printed(once)
    with pytest.raises(BookError, match="already"):
        make(tmp_path)
    once.unlink()
    assert printed(make(tmp_path)) == head


def test_the_second_sample_holds_a_signature():
    with Book.open(FOLDER / "schema_2.book", look_only=True) as book:
        (one,) = book.job.signatures
    assert (one.name, one.meaning, one.reports) == ("Second Hand", "approved", ("tally",))
    assert one.entries == one.seq - 1


def test_the_third_sample_holds_what_is_kept_beside_the_work_in_rows_of_its_own():
    with Book.open(FOLDER / "schema_3.book", look_only=True) as book:
        assert book.job.handovers[0].taken_by == "Second Hand"
    with closing(connect(FOLDER / "schema_3.book")) as rows:
        asked = {
            "SELECT told, about, means FROM notices": ("district office", "cementing", "telephone"),
            "SELECT what, day, due FROM calibrations": ("pump gauge", "2026-01-31", "2036-01-31"),
            "SELECT cause, minutes, note FROM time_lost": ("weather", 25.0, "lightning"),
            "SELECT what, pressure, time, ended, held FROM pressure_tests": (
                *("casing", "1500 psi", "30 min", "1490 psi", 1),
            ),
            "SELECT handed_to, watch, taken_by FROM handovers": (
                *("Second Hand", "the trip tank", "Second Hand"),
            ),
        }
        for question, wanted in asked.items():
            assert rows.execute(question).fetchall() == [wanted], question
