"""Copies to the second place while a book is on the screen, made when nobody is entering."""

from __future__ import annotations

import asyncio
from contextlib import suppress
from time import monotonic
from typing import TYPE_CHECKING

from textual.app import ScreenStackError

from screens.pages.page import Page
from tally.book.second_place import copied, second_place
from tally.errors import ShoedownError

if TYPE_CHECKING:
    from pathlib import Path

    from screens.app import ShoedownApp
    from tally.book.book import Book

LOOK_SECONDS = 2.0
QUIET_SECONDS = 5.0
"""How long nothing must have been entered."""
RETRY_SECONDS = 300.0
"""How long after a failure it is tried again."""
GROUP = "second copy"
NO_ENTRY = (0, "")


class SecondCopy:
    """Keeps the copy at the second place up to the book, and says so when it cannot."""

    def __init__(self, app: ShoedownApp, folder: Path) -> None:
        self._app = app
        self._folder = folder
        self._seen = NO_ENTRY
        self._seen_at = 0.0
        self._copied = NO_ENTRY
        self._not_before = 0.0
        self._untold = ""

    def begin(self) -> None:
        """Look every now and then whether there is something to copy."""
        self._app.set_interval(LOOK_SECONDS, self.look)

    def look(self) -> None:
        """Copy the book if it has something new and nobody is entering."""
        self._tell()
        book = self._app.book
        if book.head[0] and not book.look_only and self.due(book.head, monotonic()):
            self._app.run_worker(self._copy(book), group=GROUP, exclusive=True)

    def due(self, head: tuple[int, str], now: float) -> bool:
        """Return whether a book that stands at this entry is to be copied now, [s]."""
        if head != self._seen:
            self._seen, self._seen_at = head, now
        quiet = now - self._seen_at >= QUIET_SECONDS
        return head != self._copied and quiet and now >= self._not_before

    async def _copy(self, book: Book) -> None:
        """Copy in a thread of its own, with a connection of its own."""
        head = book.head
        self._not_before = monotonic() + RETRY_SECONDS
        self._untold = await asyncio.to_thread(_fault, book.path, book.id, self._folder)
        if not self._untold:
            self._copied, self._not_before = head, 0.0
        self._tell()

    def _tell(self) -> None:
        """Say on the page what went wrong; a dialog is left alone."""
        if not self._untold:
            return
        with suppress(ScreenStackError):  # the book is being left; the copy on leaving tells it
            screen = self._app.screen
            if isinstance(screen, Page):
                screen.refuse(self._untold)
                self._untold = ""


def watch_over(app: ShoedownApp) -> None:
    """Warn of a drive that is no place for a book, and begin to copy where a place is set."""
    from tally.book.medium import warning

    told = warning(app.book.path)
    if told and isinstance(app.screen, Page):
        app.screen.refuse(told)
    folder = second_place()
    if folder is not None:
        SecondCopy(app, folder).begin()


def copy_on_leaving(book: Book) -> str:
    """Copy a book that is left to the second place, where one is set; return what went wrong."""
    folder = second_place()
    if folder is None or book.look_only or not book.head[0]:
        return ""
    return _fault(book.path, book.id, folder)


def _fault(path: Path, book: str, folder: Path) -> str:
    try:
        copied(path, book, folder)
    except ShoedownError as fault:
        return f"No second copy: {fault}"
    return ""
