"""A program of its own that gathers: `python -m tests.tally.office.gatherer WHERE DIE BOOK...`.

It prints a line for each book once that book is in. After DIE books it kills itself in the midst
of the next, its lines and rows written and not committed; with 0 it lives.
"""

from __future__ import annotations

import os
import signal
import sys
from pathlib import Path

from tally.office.database import open_office
from tally.office.gathering import gather

AT = "2026-03-20T08:00:00+01:00"


def die(*_: object) -> None:
    """Be killed."""
    os.kill(os.getpid(), signal.SIGKILL)


def main(where: str, dying: str, *books: str) -> None:
    """Gather every book, or as many as there is life for."""
    office = open_office(where)
    for which, book in enumerate(books):
        if int(dying) and which == int(dying):
            office.note_gathered = die  # type: ignore[method-assign]
        print(gather(office, Path(book), AT).outcome, flush=True)  # noqa: T201
    office.close()


if __name__ == "__main__":
    main(*sys.argv[1:])
