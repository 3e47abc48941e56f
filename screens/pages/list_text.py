"""The running list as it is printed: the same text that goes to the floor."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from screens.ink import ATTENTION, BOLD, QUIET, line
from screens.pages.help_text import HelpText
from screens.pages.reading import ReadingPage, one_blank
from tally.job.job import Job


class ListTextPage(ReadingPage):
    """The pages of the list, blank lines at their ends left out."""

    HELP_TEXT = HelpText(
        do=(
            "Read the running list as `shoedown export` and e on F7 write it for the floor. Esc "
            "goes back to the list."
        ),
        mean=(
            "Lengths, length to here, and the depth of each item's bottom with the shoe at the "
            "casing point; [ ] is ticked on the floor, run is run already. * is another item "
            "than a joint, = a locked place."
        ),
        source="From the running list as it stands, the draft included.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "back", "Back to the list", id="list_text.back"),
    ]

    def __init__(self, draft: Job, *, changed: bool) -> None:
        super().__init__()
        self.draft = draft
        self.changed = changed
        self._text: tuple[str, ...] = ()

    def lines(self) -> list[Content]:
        """Return the lines of the list."""
        if not self._text:
            self._text = _printed(self)
        return [
            line(each, ATTENTION if each.startswith(("!", "***")) else "") for each in self._text
        ]

    def next_lines(self) -> list[Content]:
        """Return how to go back, and how the list gets to the floor."""
        said = "a draft: Esc, then Enter sets it" if self.changed else "F7 and e write it to a file"
        return [line(f"NEXT  {said}", BOLD), line("      Esc back to the list", QUIET)]

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of the text."""
        return [("arrows", "move"), ("Esc", "back"), ("?", "help")]

    def action_back(self) -> None:
        """Go back to the list."""
        self.app.pop_screen()


def _printed(page: ListTextPage) -> tuple[str, ...]:
    from tally.reports.list_lines import listing
    from tally.reports.running_list_text import running_list_text

    book = page.shoedown.book
    made = listing(page.draft, book.entries, book.head, draft=page.changed)
    return one_blank(running_list_text(made))
