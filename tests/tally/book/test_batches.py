"""Readings in batches: one line in the journal, the rows beside it, and nothing between them."""

import sqlite3
from contextlib import closing
from dataclasses import replace

import pytest

from tally.book.backup import backup
from tally.book.book import Book
from tally.book.document import document_text, read_document
from tally.book.rebuilding import rebuilt
from tally.book.verify import verify
from tally.errors import BookDamaged, EntryRefused
from tally.job.batch import MOST_ROWS, BatchColumn, hash_of, payload_of, rows_of
from tally.job.entries.correction import Correction
from tally.job.entries.readings import Readings
from tests.tally.book.invented import BY, at, new_book, note

COLUMNS = (BatchColumn("volume", "bbl"), BatchColumn("pressure", "psi"))
ROWS = [(0.0, (10.0, 800.0)), (5.0, (10.4, None)), (10.0, (10.8, 812.5))]
FIRST, LAST = "2026-03-14T09:00:00+01:00", "2026-03-14T09:00:10+01:00"


def batch(read=ROWS, **instead):
    """Return a batch of readings: the entry, and its rows as text."""
    payload = payload_of(COLUMNS, read)
    fields = {"by": BY, "at": at(), "source": "job.csv", "columns": COLUMNS, "rows": len(read)}
    fields |= {"first": FIRST, "last": LAST, "sha256": hash_of(payload), **instead}
    return Readings(**fields), payload


@pytest.fixture
def book(tmp_path):
    """Return a book with two batches, and an entry between them."""
    with new_book(tmp_path / "job.book") as book:
        book.record(*batch())
        book.record(note("wind from the north"))
        book.record(*batch(ROWS[:1], last=FIRST))
        yield book


def altered(book, statement):
    """Return the faults that verifying finds once a statement was run behind the book's back."""
    with closing(sqlite3.connect(book.path)) as other:
        other.execute(statement)
        other.commit()
    return [str(each) for each in verify(book.path).findings if not each.good]


def test_a_batch_is_one_line_and_changes_nothing_in_the_job(tmp_path):
    with new_book(tmp_path / "job.book") as book:
        before, (count, _) = book.job, book.head
        after = book.record(*batch())
        assert book.head[0] == count + 1
        assert after == replace(before, seq=count + 1, last=after.last)


def test_rows_come_back_when_the_book_is_opened_again(book):
    count, _ = book.head
    book.close()
    with Book.open(book.path, look_only=True) as again:
        kept = again.batches()
        assert list(kept) == [count - 2, count]
        assert list(rows_of(kept[count - 2])) == ROWS
        assert list(again.batches(after=count - 2)) == [count]


def test_a_book_without_readings_has_no_table_of_them(tmp_path):
    with new_book(tmp_path / "job.book") as book:
        assert book.batches() == {}
        assert '"batches"' not in document_text(book.document())


@pytest.mark.parametrize(
    ("fault", "change"),
    [
        ("SHA-256", {"sha256": "0" * 64}),
        ("the journal says 2", {"rows": 2}),
        ("names where it came from", {"source": " "}),
        ("before the first", {"first": LAST, "last": FIRST}),
        ("one name", {"columns": (COLUMNS[0], COLUMNS[0])}),
    ],
)
def test_a_batch_that_is_not_as_it_says_is_refused(book, fault, change):
    head, kept = book.head, book.batches()
    with pytest.raises(EntryRefused, match=fault):
        book.record(*batch(**change))
    assert (book.head, book.batches()) == (head, kept)


def test_rows_of_a_source_that_another_program_has_read_on_are_refused(book):
    book.record(*batch(place="line 3", since=""))
    with Book.open(book.path) as other:
        other.record(*batch(place="line 6", since="line 3"))
        assert other.job.read_up_to["job.csv"].place == "line 6"
    with pytest.raises(EntryRefused, match="are not kept twice"):
        book.record(*batch(place="line 7", since="line 3"))
    book.record(*batch(place="line 9", since="line 6"))
    assert book.job.read_up_to["job.csv"].place == "line 9"


def test_readings_are_not_corrected(book):
    count, _ = book.head
    with pytest.raises(EntryRefused, match="stand as they were read"):
        book.record(Correction(by=BY, at=at(), of=count, instead=None, reason="read wrongly"))
    assert book.head[0] == count


def test_too_long_a_batch_and_rows_without_a_line_are_refused(book):
    with pytest.raises(EntryRefused, match="1 to 1,000 rows"):
        book.record(*batch([ROWS[0]] * (MOST_ROWS + 1)))
    with pytest.raises(EntryRefused, match="Only readings"):
        book.record(note("calm"), "time (s)\n0\n")
    with pytest.raises(EntryRefused, match="SHA-256"):
        book.record(batch()[0])


def test_a_sound_book_says_that_its_readings_are(book):
    report = verify(book.path)
    assert report.ok, report.findings
    assert "All 2 batches of readings are as the journal says." in map(str, report.findings)


@pytest.mark.parametrize(
    ("statement", "fault"),
    [
        ("UPDATE batches SET payload = replace(payload, '812.5', '822.5')", "whose SHA-256"),
        ("DELETE FROM batches WHERE seq = (SELECT max(seq) FROM batches)", "are missing"),
        ("DROP TABLE batches", "are missing"),
        ("INSERT INTO batches SELECT book, 1, payload FROM batches LIMIT 1", "no line"),
    ],
)
def test_rows_that_were_changed_behind_the_book_are_found(book, statement, fault):
    found = altered(book, statement)
    assert found
    assert all(fault in each for each in found)


def test_a_copy_and_a_book_made_again_have_the_rows(book, tmp_path):
    kept, text = book.batches(), document_text(book.document())
    backup(book.path, tmp_path / "copy.book")
    (tmp_path / "job.json").write_text(text)
    assert rebuilt(tmp_path / "again.book", tmp_path / "job.json").ok
    for name in ("copy.book", "again.book"):
        with Book.open(tmp_path / name) as other:
            assert other.batches() == kept
            assert document_text(other.document()) == text


def test_a_file_of_json_whose_readings_were_changed_makes_no_book(book, tmp_path):
    text = document_text(book.document())
    (tmp_path / "job.json").write_text(text.replace("812.5", "822.5"))
    with pytest.raises(BookDamaged, match="SHA-256"):
        rebuilt(tmp_path / "again.book", tmp_path / "job.json")
    assert not (tmp_path / "again.book").exists()
    with pytest.raises(BookDamaged, match="'batches'"):
        read_document(text.replace('"rows": "time', '"row": "time').encode(), "job.json")


def test_another_connection_takes_in_a_batch(book):
    with Book.open(book.path) as other:
        book.record(*batch())
        assert other.poll()
        assert other.batches() == book.batches()
