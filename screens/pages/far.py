"""F4 then z: the figures of the floor so large that they are read from a distance."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from screens.pages.help_text import HelpText
from screens.pages.run import RunPage
from screens.widgets.far import far_lines


class FarPage(RunPage):
    """The shoe, what is to go, the next joint, gain or loss; the keys of the floor work here."""

    HAS_MARGIN = False
    HELP_TEXT = HelpText(
        do=(
            "Read it from across the floor. Every key of the running page works here too; z, Esc "
            "or F4 goes back to it."
        ),
        mean=(
            "Where the shoe is, what is to go to the casing point, the joint that is next, and "
            "what the trip tank gained (+) or lost (-) since its mark, with the age of the "
            "reading."
        ),
        source="From the items run and the readings entered on the running page.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("z,escape", "near", "Back to the running page", id="far.near"),
    ]

    def headline(self) -> list[Content]:
        """Return the first line alone: the figures are the page."""
        return [self.first_line()]

    def body(self) -> list[Content]:
        """Return the figures."""
        if self.job.setup is None:
            return super().body()
        return far_lines(self.job, self.shoedown.now(), self.size.width, self.body_height)

    def side(self) -> list[Content]:
        """Return nothing: the figures have the whole width."""
        return []

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of the floor, and the way back."""
        return [("z", "small again"), *super().keys()]

    def action_near(self) -> None:
        """Turn back to the running page."""
        self.shoedown.action_go("run")
