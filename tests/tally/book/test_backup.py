"""A copy at another place: sound, of one moment, and never over anything but its own past."""

import os
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from tally.book.backup import backup
from tally.book.book import Book
from tally.book.schema import SCHEMA
from tally.book.second_place import SETTING, copied, copy_name, last_good_copy
from tally.book.verify import verify
from tally.errors import BookBusy, BookDamaged, BookError, BookMissing, BookTooNew
from tests.tally.book.invented import new_book, note, run


def names(folder: Path) -> list[str]:
    """Return what lies in a folder."""
    return sorted(each.name for each in folder.iterdir())


def test_a_copy_is_the_book(book: Book, tmp_path: Path) -> None:
    book.record(run("SHOE"))
    made = backup(book.path, tmp_path / "copy.book")
    assert (made.count, made.head) == book.head
    assert verify(made.path).ok
    with Book.open(made.path) as copy:
        assert (copy.id, copy.entries, copy.document()) == (
            book.id,
            book.entries,
            book.document(),
        )
        copy.record(note("goes on"))


def test_a_folder_takes_it_under_its_own_name(book: Book, tmp_path: Path) -> None:
    (tmp_path / "stick").mkdir()
    assert backup(book.path, tmp_path / "stick").path == tmp_path / "stick" / "job.book"
    assert names(tmp_path / "stick") == ["job.book"]


def test_a_copy_replaces_an_earlier_one_of_the_same_book(book: Book, tmp_path: Path) -> None:
    place = tmp_path / "copy.book"
    backup(book.path, place)
    book.record(note("later"))
    assert backup(book.path, place).count == book.head[0]
    assert backup(book.path, place).count == book.head[0]


def newer(place: Path) -> None:
    """Add an entry to the copy."""
    with Book.open(place) as copy:
        copy.record(note("in the copy"))


def another(place: Path) -> None:
    """Put another book there."""
    place.unlink()
    new_book(place).close()


def parted(place: Path) -> None:
    """Give the copy another history; the book then gets an entry of its own."""
    newer(place)


def damaged(place: Path) -> None:
    """Cut the copy."""
    os.truncate(place, 5000)


def letter(place: Path) -> None:
    """Put something there that is no book."""
    place.write_text("a letter")


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (newer, "is newer: it holds 4 entries, the book 3"),
        (another, "holds another book"),
        (parted, "has another history from entry 4 on"),
        (damaged, "cannot be read as a book"),
        (letter, "cannot be read as a book"),
    ],
)
def test_nothing_else_is_replaced(
    book: Book, tmp_path: Path, change: Callable[[Path], None], said: str
) -> None:
    place = tmp_path / "copy.book"
    backup(book.path, place)
    change(place)
    if change is parted:
        book.record(note("in the book"))
    before = place.read_bytes()
    with pytest.raises(BookError, match=said):
        backup(book.path, place)
    assert place.read_bytes() == before
    assert not [name for name in names(tmp_path) if name.endswith(".part")]


def test_a_damaged_book_is_not_copied(book: Book, tmp_path: Path) -> None:
    place = tmp_path / "copy.book"
    backup(book.path, place)
    kept = place.read_bytes()
    with closing(sqlite3.connect(book.path)) as other:
        other.execute("UPDATE journal SET line = replace(line, '4105', '4150') WHERE seq = 3")
        other.commit()
    with pytest.raises(BookDamaged, match=r"job\.book is not sound: Entry 3 was changed"):
        backup(book.path, place)
    assert place.read_bytes() == kept


def test_places_that_cannot_be_are_told(book: Book, tmp_path: Path) -> None:
    with pytest.raises(BookError, match="is the book itself"):
        backup(book.path, tmp_path)
    (tmp_path / "link.book").symlink_to(book.path)
    with pytest.raises(BookError, match="is the book itself"):
        backup(book.path, tmp_path / "link.book")
    with pytest.raises(BookError, match="There is no folder"):
        backup(book.path, tmp_path / "none" / "copy.book")
    with pytest.raises(BookMissing, match="There is no book"):
        backup(tmp_path / "none.book", tmp_path / "copy.book")


def test_a_book_that_is_held_is_waited_for_and_then_told(book: Book, tmp_path: Path) -> None:
    with closing(sqlite3.connect(book.path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(BookBusy):
            backup(book.path, tmp_path / "copy.book", wait=0.05)
        other.execute("ROLLBACK")
        other.execute("BEGIN IMMEDIATE")
        assert backup(book.path, tmp_path / "copy.book", wait=0.05).count == 3
        other.execute("ROLLBACK")


def test_a_full_disk_leaves_the_earlier_copy(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "copy.book"
    backup(book.path, place)
    kept = place.read_bytes()
    book.record(note("later"))

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(BookError, match="cannot be written: no space left on device"):
        backup(book.path, place)
    assert place.read_bytes() == kept
    assert names(tmp_path) == ["copy.book", "job.book"]


# The second place


@pytest.fixture
def second(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder that is set for copies."""
    folder = tmp_path / "second"
    folder.mkdir()
    monkeypatch.setenv(SETTING, str(folder))
    return folder


def test_a_damaged_book_points_to_its_last_good_copy(book: Book, second: Path) -> None:
    copied(book.path, book.id, second)
    book.record(note("later"))
    copied(book.path, book.id, second)
    place = second / copy_name(book.path, book.id)
    worse = shutil.copy(place, second / "job-12345678.book")
    os.truncate(worse, 9000)
    book.close()
    os.truncate(book.path, 9000)
    with pytest.raises(BookDamaged) as refused:
        Book.open(book.path)
    assert f"The last good copy is {place}: 4 entries, the last of 20" in str(refused.value)
    book.path.unlink()
    with pytest.raises(BookMissing, match="The last good copy is"):
        Book.open(book.path)


def test_without_a_copy_nothing_is_promised(
    book: Book, second: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert last_good_copy(book.path) == ""
    copied(book.path, book.id, second)
    assert last_good_copy(book.path)
    monkeypatch.delenv(SETTING)
    assert last_good_copy(book.path) == ""


def test_two_books_of_one_name_do_not_meet(book: Book, second: Path, tmp_path: Path) -> None:
    (tmp_path / "other").mkdir()
    with new_book(tmp_path / "other" / "job.book") as other:
        copied(book.path, book.id, second)
        copied(other.path, other.id, second)
    assert len(names(second)) == 2


def test_a_second_place_that_is_gone_is_told(book: Book, second: Path) -> None:
    second.rmdir()
    with pytest.raises(BookError, match=f"There is no folder .*, which {SETTING} names"):
        copied(book.path, book.id, second)


# A schema step


def test_a_copy_is_kept_before_the_rows_are_made_anew(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = book.document()
    book.close()
    monkeypatch.setattr("tally.book.schema.SCHEMA", SCHEMA + 1)
    Book.open(book.path, look_only=True).close()
    assert names(book.path.parent) == ["job.book"]
    Book.open(book.path).close()
    kept = book.path.with_name(f"job-schema-{SCHEMA}.book")
    monkeypatch.setattr("tally.book.schema.SCHEMA", SCHEMA)
    with Book.open(kept) as old:
        assert old.document() == before
    with pytest.raises(BookTooNew):
        Book.open(book.path)
