"""A page to read: lines longer than the screen, moved by the arrows, with where they stand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from screens.ink import rule
from screens.pages.page import Page


class ReadingPage(Page):
    """Lines that are moved through; only those in view are drawn."""

    HAS_MARGIN = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", "Line before", show=False, id="reading.up"),
        Binding("down", "move(1)", "Line after", show=False, id="reading.down"),
        Binding("pageup", "turn(-1)", "Page before", show=False, id="reading.page_up"),
        Binding("pagedown", "turn(1)", "Page after", show=False, id="reading.page_down"),
        Binding("home", "first", "First line", show=False, id="reading.first"),
        Binding("end", "last", "Last line", show=False, id="reading.last"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._top = 0

    def lines(self) -> Sequence[Content]:
        """Return everything there is to read."""
        raise NotImplementedError

    def places(self, width: int) -> list[tuple[int, str]]:
        """Return what else the ruled line over the text tells, each ending before a column."""
        return []

    def body(self) -> list[Content]:
        """Return the part in view under a ruled line that says which part it is."""
        lines, seen, width = self.lines(), self.seen, self.body_width
        self._top = max(0, min(self._top, len(lines) - seen))
        shown = lines[self._top : self._top + seen]
        titles = self.places(width)
        if len(lines) > seen:
            where = f"lines {self._top + 1}-{self._top + len(shown)} of {len(lines)}"
            titles.append((width, where))
        return [rule(width, *titles), *shown]

    @property
    def seen(self) -> int:
        """How many lines are in view."""
        return max(1, self.body_height - 1)

    def action_move(self, by: int) -> None:
        """Move by lines."""
        self._go(self._top + by)

    def action_turn(self, pages: int) -> None:
        """Move by what is in view, less a line to go on from."""
        self._go(self._top + pages * max(1, self.seen - 1))

    def action_first(self) -> None:
        """Go to the first line."""
        self._go(0)

    def action_last(self) -> None:
        """Go to the last line."""
        self._go(len(self.lines()))

    def _go(self, top: int) -> None:
        self._top = max(0, top)
        self.draw()


def one_blank(text: str) -> tuple[str, ...]:
    """Return the lines of a text; where its pages were filled up with blanks one is enough."""
    lines = text.splitlines()
    return tuple(
        each
        for place, each in enumerate(lines)
        if each.strip() or (place and lines[place - 1].strip())
    )
