"""The entry line: a digit opens it, and it says what it understands before Enter."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal
from textual.message import Message
from textual.widgets import Input, Static

from screens.half_typed import ENTRY_LINE, KeepsTyping
from screens.ink import ATTENTION, QUIET, line
from screens.widgets.typed import Typed
from tally.errors import ShoedownError

FIELD = "text"
"""The key under which what is half typed is kept."""


class EntryLine(Horizontal):
    """One line to type in, hidden until a digit opens it."""

    BINDINGS = [Binding("escape", "close", "Cancel", id="entry.close")]

    @dataclass
    class Entered(Message):
        """The line was entered."""

        text: str
        """What was typed."""

    def __init__(
        self,
        explain: Callable[[str], str],
        prompt: str = "number or length",
        *,
        kept: bool = False,
    ) -> None:
        super().__init__(id="entry-line")
        self._kept = kept
        self._told = ""
        self._explain = explain
        self._prompt = prompt
        self._long = False
        self.display = False

    def compose(self) -> ComposeResult:
        """Lay out the prompt, the field and what is understood."""
        yield Static(self._prompt, id="entry-prompt", markup=False)
        yield Typed(compact=True, id="entry-field", max_length=40, select_on_focus=False)
        yield Static("", id="entry-meaning", markup=False)

    def open(self, text: str) -> None:
        """Show the line with what was typed first."""
        self.display = True
        self.screen.query_one("#keys").display = False
        field = self.query_one("#entry-field", Input)
        field.value = text
        field.cursor_position = len(text)
        field.focus()

    def action_close(self) -> None:
        """Hide the line; nothing was entered."""
        self.query_one("#entry-field", Input).value = ""
        self.display = False
        self._keep("")
        self.screen.query_one("#keys").display = True
        self.screen.set_focus(None)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Say what the text means."""
        event.stop()
        self._keep(event.value)
        try:
            self._told = self._explain(event.value) if event.value else ""
            self._say(self._told, QUIET)
        except ShoedownError as fault:
            self._say(str(fault), ATTENTION)

    def _say(self, text: str, style: str) -> None:
        """Say what is understood; the page is laid out anew only for more rows than one."""
        meaning = self.query_one("#entry-meaning", Static)
        long = len(text) >= meaning.size.width
        meaning.update(line(text, style), layout=long or self._long)
        self._long = long

    def _keep(self, text: str) -> None:
        """Keep what is half typed, so that it is there when the program ends."""
        app = self.app
        if not (self._kept and isinstance(app, KeepsTyping)):
            return
        if text:
            app.half_typed.keep(ENTRY_LINE, {FIELD: text})
        else:
            app.half_typed.drop()

    def on_typed_not_taken(self, event: Typed.NotTaken) -> None:
        """Say what the line did not take."""
        event.stop()
        self._say(event.sentence, ATTENTION)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Hand the text on; what cannot be read stays in the field, with the reason.

        So does what came to mean something else while it was typed: another station entered.
        """
        event.stop()
        try:
            means = self._explain(event.value)
        except ShoedownError as fault:
            self._say(str(fault), ATTENTION)
            return
        if event.value and means != self._told:
            self._told = means
            self._say(f"{means}: changed by another station; Enter enters it", ATTENTION)
            return
        self.action_close()
        self.post_message(self.Entered(event.value))
