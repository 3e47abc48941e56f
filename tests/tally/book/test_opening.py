"""Making and opening a book: what is refused, and in which words."""

import os
import random
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from tally.book.book import Book
from tally.book.connection import connect
from tally.errors import (
    BookDamaged,
    BookError,
    BookMissing,
    BookTooNew,
    EntryRefused,
    NotSaved,
)
from tally.job.fold import fold
from tests.tally.book.invented import beginning, new_book, note, run

ROOT = Path(__file__).parents[3]


def alter(path, sql):
    """Change a book behind its back."""
    with closing(sqlite3.connect(path)) as other:
        other.execute(sql)
        other.commit()


def test_opening_gives_what_was_made(book):
    book.record(run("SHOE"))
    with Book.open(book.path) as again:
        assert again.job == book.job == fold(book.entries)
        assert again.entries == book.entries
        assert again.head == book.head
        assert again.head[0] == 4


def test_a_file_that_is_there_is_never_written_over(tmp_path):
    path = tmp_path / "notes.txt"
    path.write_text("keep me")
    with pytest.raises(BookError, match="already"):
        Book.create(path, beginning())
    assert path.read_text() == "keep me"


def test_entries_that_are_refused_leave_no_file(tmp_path):
    with pytest.raises(EntryRefused):
        Book.create(tmp_path / "job.book", [*beginning(), run("no such number")])
    assert list(tmp_path.iterdir()) == []


def test_a_fault_while_a_book_is_made_leaves_no_file(tmp_path, monkeypatch):
    def full(*_):
        fault = sqlite3.OperationalError("database or disk is full")
        fault.sqlite_errorcode = sqlite3.SQLITE_FULL
        raise fault

    monkeypatch.setattr("tally.book.book.write_lines", full)
    with pytest.raises(NotSaved, match=r"The disk is full\. No book was made"):
        Book.create(tmp_path / "job.book", beginning())
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_missing_is_told(tmp_path):
    with pytest.raises(BookError, match="No book can be made"):
        Book.create(tmp_path / "none" / "job.book", beginning())


@pytest.mark.parametrize("look_only", [False, True])
def test_opening_never_makes_a_book(tmp_path, look_only):
    with pytest.raises(BookMissing, match="no book at"):
        Book.open(tmp_path / "job.book", look_only)
    with pytest.raises(BookDamaged, match="is a folder"):
        Book.open(tmp_path, look_only)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "is empty"),
        (b"joint,length\n1,41.27\n" * 400, "no book"),
        (b"SQLite format 3\0" + b"\xff" * 4080, "no book"),
    ],
)
def test_a_file_that_is_no_book_is_refused(tmp_path, content, said):
    path = tmp_path / "list.csv"
    path.write_bytes(content)
    with pytest.raises(BookDamaged, match=said):
        Book.open(path)
    assert path.read_bytes() == content


def test_a_database_of_another_program_is_refused(tmp_path):
    path = tmp_path / "other.db"
    alter(path, "CREATE TABLE t (a)")
    with pytest.raises(BookDamaged, match="another program"):
        Book.open(path)


@pytest.mark.parametrize(
    ("sql", "error", "said"),
    [
        ("PRAGMA user_version = 99", BookTooNew, "later release"),
        ("PRAGMA user_version = 0", BookDamaged, "no known schema"),
        ("DELETE FROM books", BookDamaged, "holds 0 books"),
        ("DROP TABLE journal", BookDamaged, "cannot be read"),
        ("UPDATE journal SET line = '{}' WHERE seq = 2", BookDamaged, "Entry 2 was changed"),
        ("DELETE FROM journal WHERE seq = 2", BookDamaged, "Entry 2 is missing"),
        ("UPDATE journal SET book = 'x' WHERE seq = 3", BookDamaged, "another book's id"),
        ("UPDATE journal SET line = CAST(x'ff' AS TEXT) WHERE seq = 2", BookDamaged, "read"),
    ],
)
def test_a_book_that_was_changed_is_refused(book, sql, error, said):
    book.close()
    alter(book.path, sql)
    for look_only in (False, True):
        with pytest.raises(error, match=said):
            Book.open(book.path, look_only)


def test_a_cut_file_is_refused(book):
    book.close()
    os.truncate(book.path, book.path.stat().st_size - 4096)
    with pytest.raises(BookDamaged):
        Book.open(book.path)


def test_a_book_with_a_damaged_page_of_rows_is_refused(book):
    """The journal is whole; the page that is torn holds only rows."""
    with closing(sqlite3.connect(book.path)) as other:
        query = "SELECT rootpage FROM sqlite_schema WHERE name = 'people'"
        (page,) = other.execute(query).fetchone()
    book.close()
    with book.path.open("r+b") as file:
        file.seek((page - 1) * 4096)
        file.write(bytes(4096))
    with pytest.raises(BookDamaged, match="is damaged"):
        Book.open(book.path)


def test_a_damaged_book_opens_as_it_was_or_is_refused_in_a_sentence(book):
    """Bytes at 200 places, one at a time."""
    book.close()
    content, chance = book.path.read_bytes(), random.Random(7)
    written = [place for place, byte in enumerate(content) if byte]
    refused = 0
    for place in [*range(16, 112, 4), *chance.sample(written, 176)]:
        flipped = bytearray(content)
        flipped[place] ^= chance.randrange(1, 256)
        book.path.write_bytes(flipped)
        try:
            with Book.open(book.path) as again:
                assert (again.job, again.head) == (book.job, book.head), place
        except BookError:
            refused += 1
    assert refused > 50, "hardly any flip was refused; the places are badly chosen"


def test_a_write_protected_book_opens_to_look_only(book, monkeypatch):
    book.close()
    monkeypatch.setattr("os.access", lambda *_: False)
    with pytest.raises(BookError, match="write-protected"):
        Book.open(book.path)
    with Book.open(book.path, look_only=True) as again:
        assert again.job == book.job


def test_looking_only_cannot_write(book):
    with Book.open(book.path, look_only=True) as looking:
        with pytest.raises(BookError, match="to look only"):
            looking.record(note("x"))
        with pytest.raises(sqlite3.OperationalError, match="readonly"):
            looking._connection.execute("UPDATE books SET title = ''")
        book.record(note("seen by all"))
        assert looking.poll()
        assert looking.job == book.job


@pytest.mark.parametrize(
    ("name", "wanted"),
    [
        ("journal_mode", "delete"),
        ("synchronous", 3),
        ("foreign_keys", 1),
        ("trusted_schema", 0),
        ("cell_size_check", 1),
        ("fullfsync", 1),
    ],
)
@pytest.mark.parametrize("look_only", [False, True])
def test_every_setting_is_taken(book, name, wanted, look_only):
    with closing(connect(book.path, look_only=look_only)) as connection:
        assert connection.execute(f"PRAGMA {name}").fetchone()[0] == wanted
        assert connection.execute("PRAGMA query_only").fetchone()[0] == look_only


def test_a_setting_that_is_not_taken_stops_the_work(book, monkeypatch):
    monkeypatch.setattr("tally.book.connection.PRAGMAS", (("synchronous", "NORMAL", 3),))
    with pytest.raises(BookError, match="synchronous: 3 was wanted, 1 was found"):
        Book.open(book.path)


def test_a_closed_book_takes_no_entry(book):
    book.close()
    with pytest.raises(BookError, match="closed"):
        book.record(note("x"))


def test_opening_and_entering_need_no_sqlite_utils(book):
    program = (
        "import sys; from tests.tally.book.invented import note; "
        "from tally.book.book import Book; "
        f"Book.open({str(book.path)!r}).record(note('x')); "
        "print([name for name in ('sqlite_utils', 'textual', 'pydantic') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True)
    assert done.stdout == "[]\n", done.stderr


def test_names_with_odd_characters_work(tmp_path):
    path = tmp_path / "well #7 50%?.book"
    new_book(path).close()
    with Book.open(path) as again:
        assert again.job.known.well.name == "Sandpiper 2"
    assert [each.name for each in tmp_path.iterdir()] == [path.name]
