"""The demonstration's entries up to a moment, for tests of pages that need a long job."""

from __future__ import annotations

from functools import cache

from demo_db.play import entries
from screens.app import ShoedownApp
from tally.book.book import Book
from tally.job.entry import Entry, moment

ZONE = "-06:00"


@cache
def played() -> tuple[Entry, ...]:
    """Return every entry of the demonstration."""
    return entries()


def at(clock: str) -> str:
    """Return a moment of the second day, 12 March, as entries hold it: at("03:12:00")."""
    return f"2026-03-12T{clock}{ZONE}"


def up_to(now: str) -> tuple[Entry, ...]:
    """Return the entries made by a moment."""
    return tuple(entry for entry in played() if moment(entry.at) <= moment(now))


def set_up() -> tuple[Entry, ...]:
    """Return the entries before anything happened on the floor."""
    return tuple(entry for entry in played() if entry.at == played()[0].at)


def app_at(book: Book, start: str, now: str) -> ShoedownApp:
    """Return the app on a book, its clock standing still at a moment."""
    return ShoedownApp(book, now=lambda: now, start=start)
