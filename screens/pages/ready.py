"""F4 then g: crew and hole ready."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from screens.ink import BOLD, line
from screens.pages.checklist import ChecklistPage
from screens.pages.help_text import HelpText
from screens.widgets.steps import worked


class ReadyPage(ChecklistPage):
    """F4 then g: crew and hole made ready, and the shoe track proved."""

    LISTS = "ready"
    HELP_TEXT = HelpText(
        do=(
            "Enter what must be in place before pipe goes in the hole, step by step. Enter does "
            "a routine step, y a critical one, which wants a witness who is not the doer. Esc or "
            "F4 goes back to running."
        ),
        mean=(
            "Beside a step stands when it was entered, what was seen, and whether that agrees "
            "with what is wanted. The hold point at the end is released by the person that the "
            "list names."
        ),
        source=(
            "The steps come from the checklist kept in the book; what is expected comes from the "
            "set-up, the limits and the steps before; what was seen is typed."
        ),
    )

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "back", "Back to running", id="ready.back"),
    ]

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of the list, and the way back."""
        return [("Esc", "running"), *super().keys()]

    def action_back(self) -> None:
        """Turn back to running."""
        self.shoedown.action_go("run")

    def headline(self) -> list[Content]:
        """Return how far the list is."""
        return [self.first_line(), line(worked(self.job, self.lists()), BOLD)]
