"""A long export under way: which file is written, the page of it, and a bar."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from screens.ink import BOLD, QUIET, line
from tally.reports.progress import Progress

OFTEN = 0.1


class WritingPanel(ModalScreen[None]):
    """How far the writing is; it goes when the files are there."""

    AUTO_FOCUS = ""

    def __init__(self) -> None:
        super().__init__()
        self.now: Progress | None = None
        """Set by whoever writes, from another thread."""

    def compose(self) -> ComposeResult:
        """Lay out the heading and the bar."""
        with Vertical(id="panel"):
            yield Static(line("Writing the reports", BOLD), id="panel-title")
            yield Static(line(""), id="writing-words")
            yield Static(line(""), id="writing-bar")
            yield Static(line("old files stay whole until all are written", QUIET), id="panel-keys")

    def on_mount(self) -> None:
        """Look every tenth of a second how far it is."""
        self.set_interval(OFTEN, self.look)

    def take(self, now: Progress) -> None:
        """Take what the writing thread tells."""
        self.now = now

    def look(self) -> None:
        """Show how far it is."""
        if self.now is not None:
            self.query_one("#writing-words", Static).update(line(self.now.words))
            self.query_one("#writing-bar", Static).update(line(self.now.bar))
