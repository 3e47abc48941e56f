"""A book that is not made yet: there is a name for it, and a set-up is being typed."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from tally.book.book import Book
from tally.book.connection import WAIT
from tally.book.standing import begun
from tally.errors import BookError
from tally.job.entry import Entry
from tally.job.job import Job


class NewBook(Book):
    """Stands in the place of a book until its first entries make it; no file is touched before."""

    def __init__(self, path: str | Path) -> None:
        self.path = Path(path).absolute()
        self.look_only = False
        self.wait = WAIT
        self._standing = begun("")

    def made(self, entries: Iterable[Entry]) -> Book:
        """Make the book with its first entries, all of it or nothing; `Book.create` says what."""
        return Book.create(self.path, entries, wait=self.wait)

    def record(self, entry: Entry, payload: str = "") -> Job:
        """Refuse: nothing can be kept before there is a book."""
        raise BookError("The book is not made yet; save its set-up first.")

    def batches(self, after: int = 0) -> dict[int, str]:
        """Return that there are no readings."""
        return {}

    def poll(self) -> bool:
        """Return that nobody else has added anything."""
        return False

    def close(self) -> None:
        """Let go of nothing."""
