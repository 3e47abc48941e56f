"""The second place: a folder that takes copies by itself, and what it holds of a damaged book."""

from __future__ import annotations

import os
from glob import escape
from pathlib import Path

from tally.errors import BookError

SETTING = "SHOEDOWN_BACKUP_FOLDER"
"""The environment variable that names the folder; it belongs to the machine, not to the job."""
LOOKED_AT = 12
"""Copies that are tried, the newest first."""


def second_place() -> Path | None:
    """Return the folder that is set for copies."""
    told = os.environ.get(SETTING, "").strip()
    return Path(told).expanduser().absolute() if told else None


def copy_name(path: Path, book: str) -> str:
    """Return what a copy is called: two books of one name do not meet in one folder.

    >>> copy_name(Path("larkspur.book"), "5a3f0c9e1b7d2846")
    'larkspur-5a3f0c9e.book'
    """
    return f"{path.stem}-{book[:8]}{path.suffix}"


def copied(path: Path, book: str, folder: Path) -> None:
    """Copy a book to the second place; `backup` says what may be raised."""
    from tally.book.backup import backup

    if not folder.is_dir():
        raise BookError(f"There is no folder {folder}, which {SETTING} names for copies.")
    backup(path, folder / copy_name(path, book))


def last_good_copy(path: Path) -> str:
    """Return in a sentence which sound copy of a book goes furthest; nothing if none is known."""
    folder = second_place()
    found = [each for each in _candidates(path, folder) if each[0]] if folder else []
    if not found:
        return ""
    count, at, copy = max(found)
    return f"The last good copy is {copy}: {count} entries, the last of {at}."


def _candidates(path: Path, folder: Path) -> list[tuple[int, str, Path]]:
    """Return entries, time of the last one, and place of each copy that looks like this book's."""
    try:
        named = {*folder.glob(f"{escape(path.stem)}-????????{escape(path.suffix)}")}
        named |= {folder / path.name} if (folder / path.name).is_file() else set()
        newest = sorted(named, key=lambda each: each.stat().st_mtime, reverse=True)
    except OSError:
        return []
    return [_tried(each) for each in newest[:LOOKED_AT] if each.absolute() != path.absolute()]


def _tried(copy: Path) -> tuple[int, str, Path]:
    """Return how far a copy goes; 0 where it is not sound."""
    from tally.book.book import Book
    from tally.book.verify import verify

    if not verify(copy).ok:
        return 0, "", copy
    try:
        with Book.open(copy, look_only=True) as book:
            entries = book.entries
    except BookError:
        return 0, "", copy
    return len(entries), entries[-1].at if entries else "", copy
