"""The real program on a book, its clock read from a file, so that hours of pumping pass in seconds.

    python -m tests.drive.at_clock BOOK CLOCK

The file holds the time now as entries hold it; the program looks at a followed file more often
than it does on the floor.
"""

from __future__ import annotations

import sys
from pathlib import Path

from screens import followed_file
from screens.app import ShoedownApp
from tally.book.book import Book

LOOK_SECONDS = 0.1


def main() -> None:
    """Show the plugs page of a book."""
    book, clock = sys.argv[1], Path(sys.argv[2])
    followed_file.LOOK_SECONDS = LOOK_SECONDS
    followed_file.WORK_OUT_SECONDS = LOOK_SECONDS
    with Book.open(book) as opened:
        ShoedownApp(opened, now=lambda: clock.read_text("utf-8"), start="plugs").run()


if __name__ == "__main__":
    main()
