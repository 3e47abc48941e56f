"""A program of its own that writes notes into a book: `python -m tests.tally.book.writer`.

notes PATH NAME COUNT    COUNT notes by NAME; each line printed is an entry that was confirmed
die PATH                 kill itself in mid-commit, with half of the pages written
"""

from __future__ import annotations

import os
import signal
import sys
from pathlib import Path

from tally.book.book import Book
from tally.book.connection import connect
from tally.job.entries.people import Note
from tests.tally.book.invented import at


def write_notes(path: Path, name: str, number: int) -> None:
    """Write notes one by one, saying each time what the book confirmed."""
    with Book.open(path, wait=30.0) as book:
        for which in range(1, number + 1):
            book.record(Note(by=name, at=at(), text=f"{name} {which}"))
            print(book.head[0], f"{name} {which}", flush=True)  # noqa: T201


def die_in_commit(path: Path) -> None:
    """Write more than the page cache takes, so that pages reach the file, and be killed."""
    connection = connect(path)
    connection.execute("PRAGMA cache_size = 1")
    connection.execute("PRAGMA cache_spill = 1")
    connection.execute("BEGIN IMMEDIATE")
    connection.execute("UPDATE items SET state = 'lost', typed = typed || hex(zeroblob(400))")
    connection.execute("UPDATE journal SET line = line || hex(zeroblob(4000))")
    os.kill(os.getpid(), signal.SIGKILL)


def main(what: str, path: str, *rest: str) -> None:
    """Do what the command line says."""
    if what == "notes":
        write_notes(Path(path), rest[0], int(rest[1]))
    else:
        die_in_commit(Path(path))


if __name__ == "__main__":
    main(*sys.argv[1:])
