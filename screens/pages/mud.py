"""F5: the mud conditioned before cementing."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from screens.dialogs import conditioning
from screens.ink import BOLD, INK, QUIET, Line, line
from screens.pages.checklist import ChecklistPage
from screens.pages.help_text import HelpText
from screens.widgets.mud import pipe_lines
from screens.widgets.steps import worked
from tally.job.figures import figure, show


class MudPage(ChecklistPage):
    """F5: the mud conditioned before cementing."""

    LISTS = "mud"
    HELP_TEXT = HelpText(
        do=(
            "Condition the mud before cementing. Enter does a routine step, y a critical one, "
            "which wants a witness who is not the doer. r notes a rate with its pressure, t "
            "shows the condition of the mud in full, f enters a fill, m the stroke of the pipe. "
            "A difference outside its limit is passed only with a reason."
        ),
        mean=(
            "What was seen stands beside what is expected. At the top is the volume to "
            "circulate; t holds what is circulated against each target, and the pressure at each "
            "rate."
        ),
        source=(
            "Volumes are calculated from the string as run and the hole as set up; densities, "
            "rates and pressures are typed as read; a target names the person who set it."
        ),
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("r", "rate", "Note a rate and its pressure", id="mud.rate"),
        Binding("t", "condition", "Condition of the mud in full", id="mud.condition"),
        Binding("f", "fill", "Fill the pipe", id="mud.fill"),
        Binding("m", "moved", "Pipe moved up and down: the stroke", id="mud.moved"),
    ]

    def above(self) -> list[Content]:
        """Return how the pipe of the book differs from what was seen at its top."""
        return pipe_lines(self.job, self.body_width)

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of the mud page."""
        return [
            ("Enter", "routine step"),
            ("y", "critical"),
            ("k", "witness"),
            ("r", "rate"),
            ("t", "mud"),
            ("z", "pass over"),
            ("c", "correct"),
            ("?", "help"),
        ]

    def action_rate(self) -> None:
        """Note a rate with its pressure."""
        self.act(conditioning.read_rate(self))

    def action_condition(self) -> None:
        """Show the condition of the mud."""
        self.act(conditioning.show_mud(self))

    def action_fill(self) -> None:
        """Fill the pipe."""
        self.act(conditioning.fill_pipe(self))

    def headline(self) -> list[Content]:
        """Return what is to be circulated, and how far the list is."""
        if self.job.setup is None:
            return [self.first_line()]
        target = figure(self.job, "circulation_target")
        contents = figure(self.job, "casing_capacity")
        if target.value is None:
            text = f"CASING CONTENTS {show(self.job, contents.value, 'volume')}"
            why = target.missing
        else:
            share = self.job.known.limits["circulation_target"]
            text = f"CIRCULATE {show(self.job, target.value, 'volume')}"
            why = (
                f"{share.text} x casing {show(self.job, contents.value, 'volume')} ({share.owner})"
            )
        return [
            self.first_line(),
            Line(self.size.width).put(0, text, BOLD).put(31, why, QUIET).content(),
            line(worked(self.job, self.lists()), INK),
        ]
