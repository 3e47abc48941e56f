"""A program that records notes: `python -m tests.faults.writer BOOK COUNT [PROTECTION=OFF]`.

Each line printed is a note that the book confirmed. The last argument weakens a protection, so
that a test can be seen to fail without it.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from tally.book import connection
from tally.book.book import Book
from tally.errors import BookError
from tally.job.entries.people import Note
from tests.tally.book.invented import BY, at

LONG = 1900
"""Letters in every second note, so that pages part and new ones are added."""


def weakened(protection: str) -> None:
    """Set another value of a pragma than the book's own: "synchronous=OFF"."""
    weak, _, value = protection.partition("=")
    stored = 0 if weak == "synchronous" else value.lower()
    connection.PRAGMAS = tuple(
        (name, value, stored) if name == weak else (name, wanted, read_back)
        for name, wanted, read_back in connection.PRAGMAS
    )


def main(path: str, count: str, protection: str = "") -> None:
    """Record so many notes; a refusal is told and ends the program."""
    if protection:
        weakened(protection)
    try:
        with Book.open(Path(path)) as book:
            for which in range(1, int(count) + 1):
                padding = "." * (LONG if which % 2 == 0 else 0)
                book.record(Note(by=BY, at=at(), text=f"note {which} {padding}".strip()))
                os.write(1, f"note {which}\n".encode())
    except BookError as fault:
        sys.stderr.write(f"{fault}\n")
        raise SystemExit(1) from fault


if __name__ == "__main__":
    main(*sys.argv[1:])
