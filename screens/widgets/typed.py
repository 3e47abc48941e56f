"""A field to type in that says when it does not take what was typed or pasted."""

from __future__ import annotations

from dataclasses import dataclass

from textual.events import Paste
from textual.message import Message
from textual.widgets import Input

from tally.errors import InputError
from tally.units import clean

LONGEST = 200
"""Characters that a field takes where nothing else is said."""


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
        """Take the first line of what is pasted; refuse it whole where it cannot be shown."""
        event.prevent_default()
        event.stop()
        lines = event.text.splitlines() or [""]
        try:
            clean(lines[0], self.max_length or LONGEST)
        except InputError as fault:
            self.post_message(self.NotTaken(self, str(fault)))
            return
        super()._on_paste(event)
        if len(lines) > 1:
            self.post_message(self.NotTaken(self, "Only the first line was taken."))
