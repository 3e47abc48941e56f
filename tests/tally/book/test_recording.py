"""Recording: refusals, another program at the same time, faults of the disk, a lost file."""

import sqlite3
import threading
from contextlib import closing
from time import monotonic

import pytest

from tally.book.book import Book
from tally.book.verify import verify
from tally.errors import BookBusy, BookDamaged, BookError, BookMissing, EntryRefused, NotSaved
from tally.job.entries.watching import TankRead
from tally.units import Measure
from tests.tally.book.invented import BY, at, new_book, note, received, run


def bare(book):
    """Return a plain connection to the file of a book."""
    return closing(sqlite3.connect(book.path, isolation_level=None, timeout=0))


def test_the_job_comes_back_once_the_entry_is_on_the_disk(book):
    job = book.record(run("SHOE"))
    assert job is book.job
    assert [made.number for made in job.string] == ["SHOE"]
    with bare(book) as other:
        line = other.execute("SELECT line FROM journal WHERE seq = 4").fetchone()[0]
    assert '"number":"SHOE"' in line


@pytest.mark.parametrize(("number", "question"), [("31", False), ("2", True)])
def test_a_refused_entry_changes_nothing(book, number, question):
    before = (book.path.read_bytes(), book.job, book.head)
    with pytest.raises(EntryRefused) as refused:
        book.record(run(number))
    assert refused.value.question is question
    assert (book.path.read_bytes(), book.job, book.head) == before


def test_an_entry_that_would_not_read_back_is_refused(book):
    volume = Measure(3.4, "volume", "a good deal")
    with pytest.raises(EntryRefused, match="cannot be written"):
        book.record(TankRead(by=BY, at=at(), volume=volume))
    assert book.head[0] == 3


def test_a_question_is_answered_by_a_reason(book):
    job = book.record(run("2", despite="joint 1 is being cleaned"))
    assert job.joints_run == 1
    assert book.entries[-1].despite == "joint 1 is being cleaned"


def test_an_entry_is_checked_against_what_others_added(book):
    with Book.open(book.path) as other:
        other.record(run("SHOE"))
        with pytest.raises(EntryRefused, match="in the string already"):
            book.record(run("SHOE"))
        assert book.head[0] == 3
        assert book.poll()
        assert book.job == other.job
        assert not book.poll()
        job = book.record(run("1"))
        assert [made.number for made in job.string] == ["SHOE", "1"]
        assert not book.poll()
        assert other.poll()
        assert other.job == job


def test_a_reason_for_an_old_question_does_not_answer_a_new_one(book):
    book.record(run("SHOE"))
    entry = run("3", despite="joints 1 and 2 lie under it")
    with Book.open(book.path) as other:
        other.record(run("1"))
        with pytest.raises(EntryRefused, match="joint 2 is") as refused:
            book.record(entry)
    assert refused.value.question
    book.poll()
    assert book.record(entry).joints_run == 2


def test_a_correction_by_another_program_is_taken_in(book):
    from tally.job.entries.correction import Correction

    book.record(run("SHOE"))
    book.record(run("1"))
    with Book.open(book.path) as other:
        fields = Correction(
            by="Second Hand", at="2026-03-14T09:00:00+01:00", of=5, reason="not run"
        )
        other.record(fields)
        assert book.poll()
        assert book.job == other.job
        assert [made.number for made in book.job.string] == ["SHOE"]


def test_the_wait_for_another_program_ends(book):
    book.wait = 0.1
    before = book.job
    with bare(book) as other:
        other.execute("BEGIN IMMEDIATE")
        started = monotonic()
        with pytest.raises(BookBusy, match=r"held the book for 0\.[1-3] s; nothing was saved"):
            book.record(note("x"))
        assert 0.1 <= monotonic() - started < 1
        assert book.job is before
        other.execute("ROLLBACK")
    assert book.record(note("x")).notes == ((4, "x"),)


def test_a_reader_that_stays_stops_the_commit_and_nothing_is_kept(book):
    book.wait = 0.1
    with bare(book) as reader:
        reader.execute("BEGIN")
        reader.execute("SELECT count(*) FROM journal").fetchone()
        with pytest.raises(BookBusy):
            book.record(note("x"))
        assert reader.execute("SELECT count(*) FROM journal").fetchone() == (3,)
        reader.execute("ROLLBACK")
    assert book.record(note("y")).notes == ((4, "y"),)
    assert verify(book.path).ok


def test_a_reader_that_leaves_lets_the_commit_through(book):
    reader = sqlite3.connect(book.path, isolation_level=None, check_same_thread=False)
    reader.execute("BEGIN")
    reader.execute("SELECT count(*) FROM journal").fetchone()
    leaving = threading.Timer(0.15, lambda: reader.execute("ROLLBACK"))
    leaving.start()
    started = monotonic()
    job = book.record(note("x"))
    assert monotonic() - started >= 0.1
    leaving.join()
    reader.close()
    assert job.notes == ((4, "x"),)


def test_polling_a_book_that_is_held_waits_for_the_next_time(book):
    with Book.open(book.path, look_only=True) as looking, bare(book) as other:
        other.execute("BEGIN EXCLUSIVE")
        assert not looking.poll()
        other.execute("ROLLBACK")


def test_a_full_disk_is_told_and_the_book_works_on(book):
    before = book.job
    pages = book._connection.execute("PRAGMA page_count").fetchone()[0]
    book._connection.execute(f"PRAGMA max_page_count = {pages}")
    with pytest.raises(NotSaved, match=r"disk is full.*not saved.*stands at entry 3"):
        book.record(received(1001, 1400))
    assert book.job == before
    assert book.record(note("there is room again")).notes == ((4, "there is room again"),)
    assert verify(book.path).ok


class _FailingSync(sqlite3.Connection):
    """A connection whose commits fail as they do when the disk refuses to sync."""

    fail = ""

    def execute(self, sql, *given):
        if sql == "COMMIT" and _FailingSync.fail:
            if _FailingSync.fail == "after":
                super().execute(sql)
            _FailingSync.fail = ""
            fault = sqlite3.OperationalError("disk I/O error")
            fault.sqlite_errorcode = sqlite3.SQLITE_IOERR_FSYNC
            raise fault
        return super().execute(sql, *given)


@pytest.fixture
def failing(tmp_path, monkeypatch):
    """Yield a book whose next commit can be made to fail."""
    new_book(tmp_path / "job.book").close()
    connect = sqlite3.connect
    monkeypatch.setattr(
        "sqlite3.connect", lambda *given, **named: connect(*given, factory=_FailingSync, **named)
    )
    with Book.open(tmp_path / "job.book") as made:
        yield made


def test_a_failed_sync_is_never_tried_again(failing):
    before, old = failing.job, failing._connection
    _FailingSync.fail = "before"
    with pytest.raises(NotSaved, match="not saved; the book stands at entry 3"):
        failing.record(note("x"))
    assert failing._connection is not old
    assert failing.job == before
    with pytest.raises(sqlite3.ProgrammingError):
        old.execute("SELECT 1")
    assert failing.record(note("y")).notes == ((4, "y"),)


def test_an_entry_that_the_disk_did_not_confirm_but_shows_is_told(failing):
    _FailingSync.fail = "after"
    with pytest.raises(NotSaved, match="shows entry 4, but the disk did not confirm it"):
        failing.record(note("x"))
    assert failing.job.notes == ((4, "x"),)


def test_a_book_that_cannot_be_opened_again_says_so(failing, monkeypatch):
    def gone(*_, **__):
        raise BookMissing("There is no book there.")

    _FailingSync.fail = "before"
    monkeypatch.setattr("tally.book.book.opened", gone)
    with pytest.raises(NotSaved, match=r"not saved\. Opened again: There is no book there\."):
        failing.record(note("x"))
    with pytest.raises(BookError, match="closed"):
        failing.record(note("x"))


@pytest.mark.parametrize("how", ["deleted", "replaced", "renamed"])
def test_nothing_is_confirmed_into_a_lost_file(book, tmp_path, how):
    with new_book(tmp_path / "other.book") as other:
        pass
    if how == "deleted":
        book.path.unlink()
    elif how == "replaced":
        other.path.replace(book.path)
    else:
        book.path.rename(tmp_path / "elsewhere.book")
    before = book.job
    for act in (book.poll, lambda: book.record(note("x"))):
        with pytest.raises(BookMissing, match="moved, deleted or replaced"):
            act()
    assert book.job is before


def test_a_file_lost_while_an_entry_is_written_is_not_confirmed(book, monkeypatch):
    from tally.book import book as room

    def write_then_lose(*given):
        write(*given)
        book.path.rename(book.path.with_suffix(".moved"))

    write = room.write_rows
    monkeypatch.setattr(room, "write_rows", write_then_lose)
    before = book.job
    with pytest.raises(BookMissing):
        book.record(note("x"))
    assert book.job is before


def test_an_older_copy_laid_over_an_open_book_is_noticed(book):
    older = book.path.read_bytes()
    book.record(note("x"))
    with book.path.open("r+b") as file:
        file.write(older)
        file.truncate()
    for act in (book.poll, lambda: book.record(note("y"))):
        with pytest.raises(BookDamaged, match="no longer holds entry 4"):
            act()
    assert verify(book.path).count == 3


def test_a_line_changed_behind_an_open_book_is_noticed(book):
    with Book.open(book.path) as other:
        other.record(note("x"))
    with bare(book) as changing:
        changing.execute("UPDATE journal SET line = replace(line, 'x', 'y') WHERE seq = 4")
    for act in (book.poll, lambda: book.record(note("z"))):
        with pytest.raises(BookDamaged, match="Entry 4 was changed"):
            act()
    assert book.head[0] == 3


def test_a_book_belongs_to_its_thread(book):
    seen = []

    def elsewhere():
        try:
            book.record(note("x"))
        except sqlite3.ProgrammingError as fault:
            seen.append(str(fault))

    thread = threading.Thread(target=elsewhere)
    thread.start()
    thread.join()
    assert "thread" in seen[0]
    assert book.record(note("y")).notes == ((4, "y"),)
