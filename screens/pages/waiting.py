"""F6 then g: waiting on cement, by the rules confirmed for the place."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from screens.dialogs.waiting import pick_rules
from screens.pages.checklist import ChecklistPage
from screens.pages.help_text import HelpText
from screens.widgets.waiting import waiting_headline, waiting_lines


class WaitingPage(ChecklistPage):
    """The clock since the cement is in place, the rules, and the hold point at the end."""

    LISTS = "waiting"
    HELP_TEXT = HelpText(
        do=(
            "r picks the rules of the place; a person confirms them by name. Enter does a "
            "routine step of the list, y a critical one; x shows the zones. Esc or F6 goes back "
            "to the plugs."
        ),
        mean=(
            "Waited is the time since the cement is in place: the bump, or the end of "
            "displacement without one. Each rule says a time, a strength or both; the one that "
            "asks for the longest governs, and left is what is still to wait by it. 12 to 24 h "
            "is common habit and clears nothing."
        ),
        source=(
            "Rules come from the book of rules with clause and edition, or from the job's own; "
            "strength is read between the laboratory's readings of the set-up, never past them."
        ),
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
