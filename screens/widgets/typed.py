"""A field to type in that says when it does not take what was typed or pasted."""

from __future__ import annotations

from dataclasses import dataclass

from textual.events import Paste
from textual.message import Message
from textual.widgets import Input


class Typed(Input):
    """An input of one line; what does not fit is told in a sentence, without a bell."""

    @dataclass
    class NotTaken(Message):
        """Something typed or pasted was left out."""

        field: Typed
        """Where it was typed."""
        sentence: str
        """What was left out, and why."""

        @property
        def control(self) -> Typed:
            """The field, for handlers that choose by it."""
            return self.field

    def restricted(self) -> None:
        """Say that no more fits."""
        self.post_message(
            self.NotTaken(self, f"No more than {self.max_length} characters fit here.")
        )

    def _on_paste(self, event: Paste) -> None:
        """Take the first line of what is pasted, and say so where there are more."""
        super()._on_paste(event)
        event.prevent_default()
        if len(event.text.splitlines()) > 1:
            self.post_message(self.NotTaken(self, "Only the first line was taken."))
