"""A copy of a book at another place: made by SQLite's own call, verified, then put in place."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from time import monotonic

from tally.book.beside import pushed, settled, unfinished
from tally.book.connection import WAIT, connect, sentence
from tally.book.opening import UNREADABLE, file_id, opened, unreadable
from tally.book.standing import Standing
from tally.book.verify import Report, verify
from tally.errors import BookBusy, BookDamaged, BookError, BookMissing


@dataclass(frozen=True, slots=True)
class Backup:
    """A copy that was made, verified and put in its place."""

    path: Path
    count: int
    """Entries in it."""
    head: str
    """The hash of the last one."""


def backup(book: str | Path, to: str | Path, *, wait: float = WAIT) -> Backup:
    """Copy a book to a file or into a folder, verify the copy, and put it in its place.

    The book is read in one go into memory, so that an entry waits no longer than that takes. An
    earlier copy of the same book is replaced as a whole, once the new one is on the disk.

    Raises
    ------
    BookMissing, BookDamaged, BookBusy
        If there is no book, it is not sound, or another program holds it for too long.
    BookError
        If the place holds anything but an earlier copy of this book, or cannot be written.
    """
    source = Path(book).absolute()
    place = _place(source, Path(to).absolute())
    part = unfinished(place)
    try:
        _copy(source, part, wait)
        made = _sound(verify(part), source.name)
        _replaceable(place, part)
        part.replace(place)
        settled(place.parent)
    except OSError as fault:
        why = (fault.strerror or "the system refuses").lower()
        raise BookError(f"No copy was made: {place} cannot be written: {why}.") from fault
    finally:
        _gone(part)
    return Backup(place, made.count, made.head)


def _place(source: Path, to: Path) -> Path:
    """Return where the copy goes; a folder takes it under the book's own name."""
    file_id(source)
    place = to / source.name if to.is_dir() else to
    if not place.parent.is_dir():
        raise BookError(f"There is no folder {place.parent}; make it, or name another place.")
    if place.exists() and place.samefile(source):
        raise BookError(f"{place} is the book itself; name another place for its copy.")
    return place


def _copy(source: Path, part: Path, wait: float) -> None:
    """Read the book into memory, then write it to a new file, both by SQLite's backup call."""
    with closing(sqlite3.connect(":memory:")) as memory:
        try:
            with closing(connect(source, look_only=True, wait=wait)) as connection:
                connection.backup(memory, progress=_patience(wait), sleep=0.005)
        except UNREADABLE as fault:
            raise unreadable(fault, source.name) from fault
        try:
            with closing(sqlite3.connect(part)) as written:
                memory.backup(written)
        except sqlite3.Error as fault:
            raise BookError(
                f"No copy was made: {part.parent} cannot be written. {sentence(fault)}"
            ) from fault
    pushed(part)


def _patience(wait: float) -> Callable[[int, int, int], None]:
    """Return what is asked after each try, and gives up when another program holds the book."""
    until = monotonic() + wait

    def ask(_status: int, remaining: int, _pages: int) -> None:
        if remaining and monotonic() > until:
            raise BookBusy(f"Another program held the book for {wait:g} s; no copy was made.")

    return ask


def _sound(report: Report, name: str) -> Report:
    """Return the report on a copy, unless what was copied is damaged."""
    if report.ok:
        return report
    fault = next(finding for finding in report.findings if not finding.good)
    raise BookDamaged(f"No copy was made, because {name} is not sound: {fault}")


def _replaceable(place: Path, part: Path) -> None:
    """Refuse to replace anything but an earlier copy of the same book.

    Raises
    ------
    BookError
        If the place holds a newer book, another book, another history of it, or no book.
    """
    if place.is_symlink() or not place.exists():
        return
    old = _standing(place)
    new = _standing(part)
    if old.book != new.book:
        raise BookError(f"{place} holds another book ({old.book}); name another place.")
    if old.count > new.count:
        raise BookError(
            f"{place} is newer: it holds {old.count} entries, the book {new.count}. Keep both and "
            "verify them, or name another place."
        )
    fault = next((n for n, e in enumerate(old.entries) if e != new.entries[n]), None)
    if fault is not None:
        raise BookError(
            f"{place} has another history from entry {fault + 1} on; keep both and verify them, or "
            "name another place."
        )
    if place.with_name(f"{place.name}-journal").exists():
        raise BookError(f"Another program is writing to {place}; close it, or name another place.")


def _standing(path: Path) -> Standing:
    try:
        how = opened(path, look_only=True)
    except BookMissing:
        raise
    except BookError as fault:
        raise BookError(
            f"{path} is there already and cannot be read as a book; name another place. ({fault})"
        ) from fault
    how.connection.close()
    return how.standing


def _gone(part: Path) -> None:
    for left in (part, part.with_name(f"{part.name}-journal")):
        try:
            left.unlink(missing_ok=True)
        except OSError:
            continue
