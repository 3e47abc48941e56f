"""Gathering, into SQLite and into PostgreSQL: nothing missing, nothing doubled, nothing unsound."""

import shutil
import sqlite3
from contextlib import closing

import pytest

from tally.book import schema
from tally.book.book import Book
from tally.book.schema import TABLES
from tally.errors import BookError
from tally.office.database import open_office
from tally.office.gathering import gather
from tests.tally.book.invented import note, run
from tests.tally.office.look import ask, do, everything

AT = "2026-03-20T08:00:00+01:00"


def bring(where, *paths, full=False):
    """Gather books; return what became of each."""
    office = open_office(where)
    try:
        return [gather(office, path, AT, full=full).outcome for path in paths]
    finally:
        office.close()


def of_books(*paths):
    """Return every row that the books hold themselves."""
    names = ("books", "journal", *(table.name for table in TABLES))
    found = {name: [] for name in names}
    for path in paths:
        for name, rows in everything(str(path)).items():
            found[name] += rows
    return {name: sorted(rows, key=lambda row: str(row)) for name, rows in found.items()}


def test_books_are_there_whole_and_once_however_often_they_are_gathered(office_at, book):
    paths = [book("north", 3), book("south", 5)]
    assert bring(office_at, *paths) == ["added", "added"]
    assert everything(office_at) == of_books(*paths)
    assert bring(office_at, *paths, *paths) == ["unchanged"] * 4
    assert everything(office_at) == of_books(*paths)


def test_a_book_that_has_grown_brings_what_is_new(office_at, book, tmp_path):
    path, other = book("north", 2), book("south", 5)
    bring(office_at, path, other)
    before = tmp_path / "before.book"
    shutil.copy(path, before)
    with Book.open(path) as again:
        again.record(run("2"))
        again.record(note("more"))
    assert bring(office_at, path) == ["grown"]
    assert everything(office_at) == of_books(path, other)
    assert bring(office_at, before) == ["older"], "a copy of last week takes nothing away"
    assert everything(office_at) == of_books(path, other)


def test_another_history_of_a_book_is_named_and_refused(office_at, book, tmp_path):
    path = book("north", 2)
    twin = tmp_path / "twin.book"
    shutil.copy(path, twin)
    for one, words in ((path, "as it was"), (twin, "as it was not")):
        with Book.open(one) as again:
            again.record(note(words))
    bring(office_at, path)
    with Book.open(path) as again:
        count = again.head[0]
    with pytest.raises(BookError, match=f"another history than the office from entry {count} on"):
        bring(office_at, twin)
    assert everything(office_at) == of_books(path)
    with Book.open(twin) as again:
        again.record(note("and longer"))
    with pytest.raises(BookError, match=rf"twin\.book .* from entry {count} on"):
        bring(office_at, twin)
    assert everything(office_at) == of_books(path)


@pytest.mark.parametrize(
    ("sql", "said"),
    [
        ("UPDATE journal SET line = replace(line, 'SHOE', 'SHOD') WHERE seq = 4", "Entry 4 was"),
        ("DELETE FROM journal WHERE seq = 3", "Entry 3 is missing"),
        ("UPDATE journal SET book = 'x' WHERE seq = 5", "under another book's id"),
        ("UPDATE books SET book = 'x'", "under another book's id"),
        ("PRAGMA application_id = 9", "belongs to another program"),
    ],
)
def test_a_book_that_is_not_sound_is_refused(tmp_path, book, sql, said):
    where, path = str(tmp_path / "office.db"), book("north")
    do(str(path), sql)
    with pytest.raises(BookError, match=said):
        bring(where, path)
    assert ask(where, "SELECT count(*) FROM journal") == [(0,)]
    assert bring(where, book("south")) == ["added"]


def test_a_chain_over_lines_that_are_none_is_refused(tmp_path, book):
    """Hashed anew from end to end, the chain holds; the lines still have to be lines."""
    from tally.book.journal import chained, genesis

    path = book("north")
    with closing(sqlite3.connect(path)) as other:
        ((name,),) = other.execute("SELECT book FROM books").fetchall()
        head = genesis(name)
        for seq, line in other.execute("SELECT seq, line FROM journal ORDER BY seq").fetchall():
            text = "no line" if seq == 4 else line
            values = (head, head := chained(head, text), text, seq)
            other.execute("UPDATE journal SET prev = ?, hash = ?, line = ? WHERE seq = ?", values)
        other.commit()
    with pytest.raises(BookError, match="the line of entry 4 cannot be read"):
        bring(str(tmp_path / "office.db"), path)


def test_rows_that_were_changed_are_found_where_all_is_verified(tmp_path, book):
    where, path = str(tmp_path / "office.db"), book("north")
    do(str(path), "UPDATE items SET length_steps = 4235 WHERE number = '1'")
    with pytest.raises(BookError, match="length_steps is 4235"):
        bring(where, path, full=True)
    assert bring(where, path) == ["added"]
    assert ask(where, "SELECT file, rows_verified FROM gathered") == [("north.book", 0)]


def test_rows_once_taken_unverified_are_put_right_when_all_is_verified(office_at, book, tmp_path):
    path, changed = book("north"), tmp_path / "changed.book"
    shutil.copy(path, changed)
    do(str(changed), "UPDATE items SET length_steps = 4235 WHERE number = '1'")
    bring(office_at, changed)
    assert bring(office_at, path) == ["unchanged"]
    assert everything(office_at) != of_books(path)
    assert bring(office_at, path, full=True) == ["unchanged"]
    assert everything(office_at) == of_books(path)
    assert ask(office_at, "SELECT file, rows_verified FROM gathered") == [("north.book", 1)]


def test_what_was_gathered_is_written_down(office_at, book):
    path = book("north")
    bring(office_at, path, full=True)
    with Book.open(path) as again:
        count, head = again.head
    found = ask(office_at, "SELECT file, gathered_at, entries, head, rows_verified FROM gathered")
    assert found == [("north.book", AT, count, head, 1)]


def test_entries_that_are_gone_from_the_office_are_told(office_at, book):
    path = book("north")
    bring(office_at, path)
    do(office_at, "DELETE FROM journal WHERE seq = 3")
    with pytest.raises(BookError, match="some are gone"):
        bring(office_at, path)


def test_a_gathering_that_breaks_off_leaves_nothing_of_that_book(office_at, book, monkeypatch):
    paths = [book("north"), book("south")]
    bring(office_at, paths[0])
    office = open_office(office_at)

    def dies(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(office, "note_gathered", dies)
    with pytest.raises(KeyboardInterrupt):
        gather(office, paths[1], AT)
    office.close()
    assert everything(office_at) == of_books(paths[0])
    assert bring(office_at, *paths) == ["unchanged", "added"]
    assert everything(office_at) == of_books(*paths)


def test_a_book_of_an_earlier_schema_gets_its_rows_anew(tmp_path, book, monkeypatch):
    path = book("north")
    wanted = everything(str(path))
    do(str(path), "DELETE FROM items")
    monkeypatch.setattr(schema, "SCHEMA", schema.SCHEMA + 1)
    where = str(tmp_path / "office.db")
    assert bring(where, path) == ["added"]
    assert everything(where)["items"] == wanted["items"]


def test_what_is_no_office_is_refused(tmp_path, book, new_database):
    other = tmp_path / "other.db"
    do(str(other), "CREATE TABLE t (a)")
    path = book("north")
    (tmp_path / "words.txt").write_text("no database at all\n" * 300)
    for where, said in (
        (path, "is a book, no office's database"),
        (other, "belongs to another program"),
        (tmp_path, "is a folder"),
        (tmp_path / "none" / "office.db", "There is no folder"),
        (tmp_path / "words.txt", "words.txt cannot be read"),
    ):
        with pytest.raises(BookError, match=said):
            open_office(str(where))
    address = new_database()
    do(address, "CREATE TABLE books (a int)")
    with pytest.raises(BookError, match="this release did not make"):
        open_office(address)
    with pytest.raises(BookError, match="cannot be reached") as told:
        open_office("postgresql://office:secret@/none?host=/nowhere")
    assert "secret" not in str(told.value)


def test_an_office_of_another_release_is_refused(office_at, book, monkeypatch):
    bring(office_at, book("north"))
    monkeypatch.setattr(schema, "SCHEMA", schema.SCHEMA + 1)
    with pytest.raises(BookError, match="release"):
        open_office(office_at)
