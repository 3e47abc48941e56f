"""A book that is not made yet: nothing lies on the disk, nothing is recorded, then it is made."""

from __future__ import annotations

from pathlib import Path

import pytest

from tally.book.book import Book
from tally.book.new_book import NewBook
from tally.errors import BookError
from tally.job.entries.people import Note
from tests.screens.books import NOW, third


def test_nothing_is_there_until_it_is_made(tmp_path: Path) -> None:
    path = tmp_path / "new.book"
    with NewBook(path) as book:
        assert (book.job.setup, book.entries, book.head[0]) == (None, (), 0)
        assert not book.poll()
        with pytest.raises(BookError, match="not made yet; save its set-up first"):
            book.record(Note(by="Ama Osei", at=NOW, text="x"))
        assert not list(tmp_path.iterdir())
        with book.made(third()) as made:
            assert made.path == path
    with Book.open(path) as again:
        assert again.entries == made.entries


def test_a_file_of_that_name_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "new.book"
    path.write_text("mine", encoding="utf-8")
    with pytest.raises(BookError, match="There is a file at"):
        NewBook(path).made(third())
    assert path.read_text(encoding="utf-8") == "mine"
