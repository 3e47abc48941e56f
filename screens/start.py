"""How the program starts: a book that is there opens at once, all else is the command line's."""

from __future__ import annotations

import gc
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from screens.app import ShoedownApp
    from tally.book.book import Book
    from tally.errors import ShoedownError


def main() -> None:
    """Open the book that is named, or run the command line."""
    if not opened_at_once(sys.argv[1:]):
        from screens.cli import main as command_line

        command_line()


def opened_at_once(words: Sequence[str]) -> bool:
    """Open a book without reading the command line in; tell whether that was all to be done.

    Somebody waits on the floor.
    """
    if len(words) != 1 or not Path(words[0]).is_file():
        return False
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return False
    gc.disable()  # nothing is waste before the first page; the app switches this on again
    from tally.book.book import Book
    from tally.errors import ShoedownError

    try:
        with Book.open(words[0]) as book:
            return _shown(book)
    except ShoedownError as refusal:
        _refuse(refusal)
    finally:
        gc.enable()


def _shown(book: Book) -> bool:
    """Show the screens of a book that is set up."""
    if book.job.setup is None:
        return False
    from screens.app import ShoedownApp

    until_left(ShoedownApp(book))
    return True


def until_left(app: ShoedownApp) -> None:
    """Show the screens until somebody leaves, then copy the book to the second place."""
    app.run()
    second_copy(app.book)
    if app.return_code:
        sys.exit(app.return_code)


def second_copy(book: Book) -> None:
    """Copy a book that is left to the second place, and say so when that fails."""
    from screens.second_copy import copy_on_leaving
    from tally.reports.guard import visible

    told = copy_on_leaving(book)
    if told:
        sys.stderr.write(f"{visible(told)}\n")


def _refuse(refusal: ShoedownError) -> NoReturn:
    """Say why a book is not opened, as the command line does."""
    from screens.commands.refusing import REFUSED, refusal_lines

    for line in refusal_lines(refusal):
        sys.stderr.write(f"{line}\n")
    sys.exit(REFUSED)


if __name__ == "__main__":
    main()
