"""F6 then g: waiting on cement, by the rules confirmed for the place."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from screens.dialogs.waiting import pick_rules
from screens.pages.checklist import ChecklistPage
from screens.widgets.waiting import waiting_headline, waiting_lines


class WaitingPage(ChecklistPage):
    """The clock since the cement is in place, the rules, and the hold point at the end."""

    LISTS = "waiting"
    HELP_TEXT = (
        "The clock starts when the cement is in place: at the bump, or at the end of displacement "
        "without one. r picks the rules of the place; a person confirms them by name. Each says "
        "a time, a strength or both; strength is read between the laboratory's readings of the "
        "set-up and never carried on past them. The rule that asks for the longest governs. "
        "12 to 24 h is common habit and clears nothing. Esc or F6 goes back to the plugs."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("r", "rules", "Pick and confirm the waiting rules", id="waiting.rules"),
        Binding("escape", "back", "Back to the plugs", id="waiting.back"),
        Binding("x", "zones", "Zones: what was done, what is in doubt", id="waiting.zones"),
    ]

    def headline(self) -> list[Content]:
        """Return how long is waited, and how long is left."""
        if self.job.setup is None:
            return [self.first_line()]
        return [
            self.first_line(),
            *waiting_headline(self.job, self.shoedown.now(), self.size.width),
        ]

    def above(self) -> list[Content]:
        """Return the rules with what is left of each."""
        return waiting_lines(self.job, self.shoedown.now(), self.body_width)

    def body(self) -> list[Content]:
        """Return the rules, and the list under them; an old book has no such list."""
        if self.places():
            return super().body()
        return [*self.above(), *super().body()]

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of waiting."""
        return [
            ("Esc", "plugs"),
            ("r", "rules"),
            ("Enter", "routine step"),
            ("y", "critical"),
            ("x", "zones"),
            ("z", "pass over"),
            ("c", "correct"),
            ("?", "help"),
        ]

    def action_back(self) -> None:
        """Turn back to the plugs."""
        self.shoedown.action_go("plugs")

    def action_rules(self) -> None:
        """Pick and confirm the rules."""
        self.act(pick_rules(self))
