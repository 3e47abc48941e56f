"""A panel to read: lines under a heading, left with Escape or Enter."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from screens.ink import BOLD, QUIET, line, page
from screens.keys_in_turn import KeysInTurn


class Panel(ModalScreen[None]):
    """Lines to read."""

    BINDINGS = [
        Binding("escape,enter,question_mark", "close", "Close", id="panel.close"),
        Binding("up", "scroll_panel(-1)", "Up", show=False, id="panel.up"),
        Binding("down", "scroll_panel(1)", "Down", show=False, id="panel.down"),
        Binding("pageup", "scroll_panel(-12)", "Page up", show=False, id="panel.page_up"),
        Binding("pagedown", "scroll_panel(12)", "Page down", show=False, id="panel.page_down"),
    ]
    AUTO_FOCUS = ""
    ROOM = 18
    """Lines that are in view at once; what is longer is moved by the arrows."""

    def __init__(self, title: str, lines: Sequence[Content], foot: str = "") -> None:
        super().__init__()
        self.heading = title
        self.lines = list(lines)
        self.foot = foot

    def compose(self) -> ComposeResult:
        """Lay out the heading, the lines and the way out."""
        with Vertical(id="panel"):
            yield Static(line(self.heading, BOLD), id="panel-title")
            with VerticalScroll(id="panel-body", can_focus=False):
                yield Static(page(self.lines), id="panel-lines")
            yield Static(line("    ".join(self._foot()), QUIET), id="panel-keys")

    def _foot(self) -> list[str]:
        """Return what the foot says: its own words, that the lines move, and the way out."""
        own = "LOOK ONLY" if isinstance(self.app, KeysInTurn) and self.app.WATCHES else self.foot
        moves = "up, down" if len(self.lines) > self.ROOM and "up, down" not in own else ""
        return [part for part in (own, moves, "Esc close") if part]

    def action_scroll_panel(self, lines: int) -> None:
        """Scroll the lines."""
        self.query_one("#panel-body", VerticalScroll).scroll_relative(y=lines, animate=False)

    def action_close(self) -> None:
        """Close the panel."""
        self.dismiss(None)
