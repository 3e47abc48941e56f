"""What comes of opening a book that may be damaged."""

from __future__ import annotations

from pathlib import Path

from tally.book.book import Book
from tally.book.document import Document
from tally.errors import BookError


def opened_or_refused(path: Path, *, look_only: bool = False) -> tuple[Document | None, str]:
    """Return what a book holds, or why it is refused; anything else that is raised is a defect."""
    try:
        with Book.open(path, look_only=look_only) as book:
            return book.document(), ""
    except BookError as fault:
        return None, str(fault)
