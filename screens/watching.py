"""A station that only watches: the pages of a book that others write, and no act at all."""

from __future__ import annotations

from typing import Any

from textual.events import Event, Key, Paste
from textual.screen import Screen

from screens.app import ShoedownApp, wall_clock
from screens.pages.page import Page
from tally.book.book import Book
from tally.errors import BookError, BookMissing
from tally.job.entry import clock

_LOOKS = """
run.volumes run.weights run.tank_chart run.well run.far run.limits run.ready
plugs.chart plugs.well plugs.waiting plugs.zones waiting.zones waiting.back
steps.read steps.block steps.up steps.down steps.next steps.page_up steps.page_down
rack.totals rack.equipment rack.find rack.up rack.down rack.page_up rack.page_down
rack.first rack.last rack.next
reports.exceptions reports.left reports.right
job.handover handover.back ready.back far.near
app.theme app.leave app.quit app.help
"""
LOOKS = frozenset(_LOOKS.split())
"""The acts that only show something, by the id of their key."""
WHOLE = ("go.", "page.", "reading.", "calc.", "panel.", "form.", "entry.")
"""Pages and dialogs in which every key only shows something, or works a number by itself."""
NOTHING = "This station only watches: nothing can be entered here."


class WatchingApp(ShoedownApp):
    """The pages of a book that is open to look only; they follow what others enter."""

    WATCHES = True

    def __init__(self, book: Book, *, theme: str = "night", start: str = "run") -> None:
        super().__init__(book, now=wall_clock, theme=theme, start=start)
        self.who = ""
        self._lost = ""
        """Why the book cannot be followed; empty while it is."""

    def possible(self, act: str) -> bool:
        """Tell whether an act only shows something; what has no id is the toolkit's own."""
        return not act or act in LOOKS or act.startswith(WHOLE)

    def keys_of(self, page: Page) -> list[tuple[str, str]]:
        """Say at the foot of each page that nothing can be entered, and what can be pressed."""
        return [
            ("LOOK ONLY", "nothing can be entered"),
            ("F2-F8", "pages"),
            ("F9", "colours"),
            ("F10", "leave"),
            ("?", "keys"),
        ]

    async def _take(self, event: Key | Paste) -> None:
        """Let through what looks; say of every other key that nothing can be entered."""
        screen = self.screen
        if screen.focused is not None or self._looks(screen, event):
            await super()._take(event)
        elif isinstance(screen, Page):
            screen.refuse(NOTHING)

    def _looks(self, screen: Screen[Any], event: Event) -> bool:
        if not isinstance(event, Key):
            return False
        if isinstance(screen, Page) and event.character in dict(screen.letters()):
            return False
        to_a_number = self.current_mode == "rack" and (event.character or "").isdigit()
        bound = screen.active_bindings.get(event.key)
        return to_a_number if bound is None else self.possible(bound.binding.id or "")

    def _watch_over(self) -> None:
        """Leave copies and files to the stations that write."""

    def _look(self) -> None:
        """Follow the book; say why while that cannot be done, and when it can again."""
        try:
            if self.book.poll():
                self._redraw()
            told = ""
        except BookMissing:
            told = (
                f"{self.book.path.name} was moved, deleted or replaced. What is shown is the book "
                f"as it stood after entry {self.book.head[0]}; F10 leaves, then watch it again."
            )
        except BookError as fault:
            told = f"{fault} What is shown is the book as it stood before."
        if (told or self._lost) and isinstance(self.screen, Page):
            self._tell(self.screen, told)

    def _tell(self, page: Page, told: str) -> None:
        self._lost = told
        if told:
            page.refuse(told)
        else:
            page.saved(f"{self.book.path.name} is followed again, {clock(self.now())}")
