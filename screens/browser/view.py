"""One view of a book for a browser; the server starts it, and talks to it by pipes."""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path
from threading import Thread

from textual.app import App, ComposeResult
from textual.widgets import Static

from screens.watching import WatchingApp
from tally.book.book import Book
from tally.errors import ShoedownError


class ToldApp(App[None]):
    """Why there is nothing to see."""

    ENABLE_COMMAND_PALETTE = False

    def __init__(self, sentence: str) -> None:
        super().__init__()
        self._sentence = sentence

    def compose(self) -> ComposeResult:
        """Show the sentence."""
        yield Static(f"{self._sentence}\n\nLoad the page again once that is put right.",
                     markup=False)  # fmt: skip


def end_with(server: int) -> None:
    """End the view once its server is gone, however it went; a view has nothing to finish."""
    while os.getppid() == server:
        time.sleep(1.0)
    os._exit(0)


def main() -> None:
    """Show the book that is named, or why it cannot be shown."""
    Thread(target=end_with, args=(os.getppid(),), daemon=True).start()
    try:
        with Book.open(Path(sys.argv[1]), look_only=True) as book:
            WatchingApp(book).run()
    except ShoedownError as refusal:
        ToldApp(str(refusal)).run()


if __name__ == "__main__":
    main()
