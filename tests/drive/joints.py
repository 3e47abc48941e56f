"""The joints of a book, and what the screen says when one is saved."""

from __future__ import annotations

import re
from pathlib import Path

from tally.book.book import Book
from tally.job.counts import coming
from tally.job.entries.running import ItemRun


def shown_as_saved(number: str) -> re.Pattern[str]:
    """Return what the screen says when a joint is in the book."""
    return re.compile(rf"^saved \d\d:\d\d  {number} run", re.M)


def run_so_far(book: Path) -> list[str]:
    """Return the numbers of the items run, in order, as the book has them."""
    with Book.open(book, look_only=True) as found:
        return [entry.number for entry in found.entries if isinstance(entry, ItemRun)]


def waiting(book: Path) -> list[str]:
    """Return the numbers of the joints still to run, in order."""
    with Book.open(book, look_only=True) as found:
        return [item.number for item in coming(found.job)]
