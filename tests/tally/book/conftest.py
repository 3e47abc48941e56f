"""A book to start from."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tally.book.book import Book
from tests.tally.book.invented import new_book


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    """Yield a book of the invented job, open for entry."""
    with new_book(tmp_path / "job.book") as made:
        yield made
