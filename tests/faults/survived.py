"""Whether a book holds what was confirmed after a fault: the one question of every fault."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from tally.book.book import Book
from tally.book.verify import verify
from tally.errors import ShoedownError
from tally.job.entries.people import Note


def lost(path: Path, before: int, said: Sequence[str]) -> str:
    """Return what is wrong with a book that had so many entries before, or nothing.

    Every note that was said to be in it must be there, in order, and at most one more.
    """
    try:
        with Book.open(path) as book:
            entries = book.entries
    except ShoedownError as fault:
        return f"it does not open: {fault}"
    notes = [_first(entry.text) for entry in entries[before:] if isinstance(entry, Note)]
    if notes[: len(said)] != list(said):
        return f"{len(said)} notes were confirmed, and it holds {len(notes)}"
    if len(notes) > len(said) + 1 or len(entries) != before + len(notes):
        return f"{len(said)} notes were confirmed, and it holds {len(notes)}: more than one besides"
    report = verify(path)
    return "" if report.ok else " ".join(str(each) for each in report.findings if not each.good)


def _first(text: str) -> str:
    return " ".join(text.split()[:2])
