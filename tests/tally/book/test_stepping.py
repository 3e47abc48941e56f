"""A schema step: the rows are made anew from the journal, the journal is left alone."""

import sqlite3
from contextlib import closing

import pytest

from tally.book.book import Book
from tally.book.schema import SCHEMA
from tally.book.verify import verify
from tally.errors import BookBusy, BookTooNew
from tests.tally.book.invented import note, run


def asked(path, sql):
    """Return what SQL finds in a file."""
    with closing(sqlite3.connect(path)) as other:
        rows = other.execute(sql).fetchall()
        other.commit()
        return rows


@pytest.fixture
def earlier(book, monkeypatch):
    """Return a closed book whose rows a release before this one made, otherwise than this one."""
    book.record(run("SHOE"))
    book.close()
    asked(book.path, "DROP TABLE limits")
    asked(book.path, "DROP VIEW entries")
    asked(book.path, "ALTER TABLE items RENAME COLUMN typed TO said")
    monkeypatch.setattr("tally.book.schema.SCHEMA", SCHEMA + 1)
    return book


def test_rows_are_made_anew_when_the_book_is_opened_for_entry(earlier):
    journal = asked(earlier.path, "SELECT * FROM journal")
    before = verify(earlier.path)
    assert before.ok, before.findings
    earlier_rows = f"made by an earlier release (schema {SCHEMA})"
    assert any(earlier_rows in str(each) for each in before.findings)
    with Book.open(earlier.path) as again:
        assert again.job == earlier.job
        after = verify(earlier.path)
        assert after.ok, after.findings
        assert any("rows agree with a rebuild" in str(each) for each in after.findings)
        assert asked(earlier.path, "SELECT * FROM journal") == journal
        assert asked(earlier.path, "PRAGMA user_version") == [(SCHEMA + 1,)]
        assert asked(earlier.path, "SELECT schema FROM books") == [(SCHEMA + 1,)]
        again.record(note("work goes on"))
    assert verify(earlier.path).ok


def test_looking_only_leaves_the_rows_as_they_are(earlier):
    content = earlier.path.read_bytes()
    with Book.open(earlier.path, look_only=True) as looking:
        assert looking.job == earlier.job
    assert earlier.path.read_bytes() == content


def test_a_step_waits_for_another_program_and_changes_nothing_if_it_cannot(earlier):
    content = earlier.path.read_bytes()
    with closing(sqlite3.connect(earlier.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(BookBusy):
            Book.open(earlier.path, wait=0.05)
        other.execute("ROLLBACK")
    assert earlier.path.read_bytes() == content


def test_the_release_before_refuses_the_book_then(earlier, monkeypatch):
    Book.open(earlier.path).close()
    monkeypatch.setattr("tally.book.schema.SCHEMA", SCHEMA)
    with pytest.raises(BookTooNew):
        Book.open(earlier.path, look_only=True)
    assert not verify(earlier.path).ok
