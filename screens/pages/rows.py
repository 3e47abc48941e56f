"""A page of items in rows: a cursor on one of them, and a line for a number to go to."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Protocol

from textual.app import ComposeResult
from textual.content import Content
from textual.events import Key

from screens.ink import line
from screens.pages.page import Page
from screens.widgets.entry_line import EntryLine

AROUND = 2
"""Rows kept in view above the next item when the page is opened."""


class Numbered(Protocol):
    """A row that is told by the number of its item."""

    @property
    def number(self) -> str:
        """The number of the item."""


class RowsPage(Page):
    """A page with a cursor on one of its rows; until it is moved it stands on the next item."""

    def __init__(self) -> None:
        super().__init__()
        self._at = ""
        """The number that the cursor was moved to; nothing: the next item."""
        self._top = 0

    def entry_line(self) -> ComposeResult:
        """Lay out the line for a number to go to."""
        yield EntryLine(self.meaning, "go to number")

    def on_key(self, event: Key) -> None:
        """Open the line on a digit."""
        if event.character and event.character.isdigit() and self.focused is None:
            event.stop()
            self.query_one(EntryLine).open(event.character)

    # What each page has of its own

    @property
    def rows(self) -> Sequence[Numbered]:
        """Every row of the page."""
        raise NotImplementedError

    def next_number(self) -> str:
        """Return the number of the next item, or nothing."""
        raise NotImplementedError

    def meaning(self, text: str) -> str:
        """Return the item that a typed number means."""
        raise NotImplementedError

    # Where the cursor stands

    @property
    def cursor(self) -> int:
        """The place of the item at hand: the next one until the cursor is moved."""
        wanted = self._at or self.next_number()
        return next((n for n, row in enumerate(self.rows) if row.number == wanted), 0)

    @property
    def here(self) -> str:
        """The number of the item at the cursor."""
        return self.rows[self.cursor].number if self.rows else ""

    @property
    def seen(self) -> int:
        """How many rows there is room for."""
        return max(1, self.body_height - 3)

    def go(self, place: int) -> None:
        """Put the cursor on a row, the first or the last where there is none so far."""
        if self.rows:
            self._at = self.rows[max(0, min(place, len(self.rows) - 1))].number
            self.draw()

    def in_view(
        self, cursor: int, title: Content, drawn: Callable[[int], Content]
    ) -> list[Content]:
        """Return the title and the rows in view, each drawn by its place, then blank lines."""
        seen, many = self.seen, len(self.rows)
        top = self._keep_in_view(cursor, seen, many)
        shown = range(top, min(top + seen, many))
        return [title, *map(drawn, shown), *[line("")] * (seen - len(shown))]

    @property
    def below(self) -> int:
        """How many rows stand below those in view."""
        return max(0, len(self.rows) - self._top - self.seen)

    def _keep_in_view(self, cursor: int, seen: int, many: int) -> int:
        """Return the first row in view, so that the cursor is; what comes next has some before."""
        if not self._at:
            self._top = cursor - AROUND
        self._top = max(min(self._top, cursor), cursor - seen + 1)
        self._top = max(0, min(self._top, many - seen))
        return self._top

    # What the keys do

    def on_entry_line_entered(self, event: EntryLine.Entered) -> None:
        """Go to the number that was typed."""
        self._at = event.text
        self.draw()

    def action_find(self) -> None:
        """Open the line for a number that begins with a letter."""
        self.query_one(EntryLine).open("")

    def action_move(self, by: int) -> None:
        """Move the cursor."""
        self.go(self.cursor + by)

    def action_turn(self, pages: int) -> None:
        """Move the cursor by a page."""
        self.go(self.cursor + pages * self.seen)

    def action_go_first(self) -> None:
        """Go to the first item."""
        self.go(0)

    def action_go_last(self) -> None:
        """Go to the last item."""
        self.go(len(self.rows) - 1)
