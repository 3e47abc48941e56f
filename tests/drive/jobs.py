"""Books of the demonstration at some moment, for the tests that drive the real program."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from pathlib import Path

from demo_db.play import entries
from tally.book.book import Book
from tally.job.entries.landing import OnDepth
from tally.job.entries.people import SetUp
from tally.job.entries.running import ItemRun
from tally.job.entry import Entry

SHOEDOWN = (sys.executable, "-m", "screens.start")
"""The program, started the way its installed script starts it."""


@cache
def played() -> tuple[Entry, ...]:
    """Return every entry of the demonstration."""
    return entries()


def before(number: str) -> tuple[Entry, ...]:
    """Return the entries before an item was run."""
    runs = (e.seq for e in played() if isinstance(e, ItemRun) and e.number == number)
    return played()[: next(runs) - 1]


def before_on_depth() -> tuple[Entry, ...]:
    """Return the entries before the string was on depth."""
    return played()[: next(e.seq for e in played() if isinstance(e, OnDepth)) - 1]


def on_depth() -> tuple[Entry, ...]:
    """Return the entries up to the string on depth."""
    return played()[: len(before_on_depth()) + 1]


def unhurried(said: Iterable[Entry]) -> tuple[Entry, ...]:
    """Return entries whose job has no least time between joints: a test types quickly."""
    return tuple(_unhurried(entry) for entry in said)


def _unhurried(entry: Entry) -> Entry:
    if not isinstance(entry, SetUp):
        return entry
    limits = {key: one for key, one in entry.setup.limits.items() if key != "least_joint_time"}
    return replace(entry, setup=replace(entry.setup, limits=limits))


def book_at(path: Path, said: Iterable[Entry]) -> Path:
    """Make a book of entries and return its path."""
    Book.create(path, said).close()
    return path
