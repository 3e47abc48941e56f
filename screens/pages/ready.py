"""F4 then g: crew and hole ready."""

from __future__ import annotations

from textual.content import Content

from screens.ink import BOLD, line
from screens.pages.checklist import ChecklistPage
from screens.widgets.steps import worked


class ReadyPage(ChecklistPage):
    """F4 then g: crew and hole made ready, and the shoe track proved."""

    LISTS = "ready"
    HELP_TEXT = (
        "What must be in place before pipe goes in the hole. Enter does a routine step, y a "
        "critical one, which wants a witness who is not the doer. F4 goes back to running."
    )

    def headline(self) -> list[Content]:
        """Return how far the list is."""
        return [self.first_line(), line(worked(self.job, self.lists()), BOLD)]
