"""Books that the tests of pages open."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

import pytest

import tally.book.book
from tally.book.book import Book
from tally.job.entry import Entry
from tests.screens.books import book_of, landed, third


@pytest.fixture
def make_book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[..., Book]]:
    """Return a function that makes a book of entries; its name and so its chain never change."""
    monkeypatch.setattr(tally.book.book, "token_hex", lambda size: "0" * (2 * size))
    books: list[Book] = []

    def make(entries: Iterable[Entry]) -> Book:
        books.append(book_of(tmp_path, entries))
        return books[-1]

    yield make
    for book in books:
        book.close()


@pytest.fixture
def running(make_book: Callable[..., Book]) -> Book:
    """Return a book with the string about one third run."""
    return make_book(third())


@pytest.fixture
def on_depth(make_book: Callable[..., Book]) -> Book:
    """Return a book with a short string on depth and one exception open."""
    return make_book(landed())
