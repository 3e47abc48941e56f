"""F8, the calculations: every registered formula, worked with numbers that a person types."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content

from screens.dialogs.calculation import calculate, formula_lines
from screens.ink import BOLD, CURSOR, INK, QUIET, Line, line, rule
from screens.pages.help_text import HelpText
from screens.pages.page import SIDE, Page
from screens.widgets.entry_line import EntryLine
from tally.errors import InputError
from tally.formula import Formula

NAME = 29


class CalculationsPage(Page):
    """The calculator; it makes no entry in the book."""

    HAS_MARGIN = False
    HELP_TEXT = HelpText(
        do=(
            "Work one calculation: Enter opens its form, / shows those that hold some letters. A "
            "bare number is in the unit of the hint; any other unit may be typed after the "
            "number."
        ),
        mean=(
            "Each result stands with its unit, its formula and what it means; the limits of its "
            "range are said when a number lies outside them."
        ),
        source=(
            "Inputs are what is typed into the form, never what the job holds, and nothing of it "
            "is entered in the book. Each formula names its source."
        ),
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "calculate", "Work the calculation at the cursor", id="calc.calculate"),
        Binding("slash", "find", "Show those that hold some letters", id="calc.find"),
        Binding("escape", "show_all", "Show all of them again", id="calc.show_all"),
        Binding("up", "move(-1)", "Calculation before", show=False, id="calc.up"),
        Binding("down", "move(1)", "Calculation after", show=False, id="calc.down"),
        Binding("pageup", "move(-10)", "Ten before", show=False, id="calc.page_up"),
        Binding("pagedown", "move(10)", "Ten after", show=False, id="calc.page_down"),
        Binding("home", "move(-1000)", "First one", show=False, id="calc.first"),
        Binding("end", "move(1000)", "Last one", show=False, id="calc.last"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._cursor = 0
        self._top = 0
        self._letters = ""
        self._typed: dict[str, dict[str, str]] = {}

    def entry_line(self) -> ComposeResult:
        """Lay out the line for the letters to look for."""
        yield EntryLine(self._meaning, "letters to find")

    # Which calculations there are

    @property
    def formulas(self) -> list[Formula]:
        """The calculations that hold the letters looked for, or all."""
        return _holding(self._letters)

    @property
    def here(self) -> Formula:
        """The calculation at the cursor."""
        return self.formulas[self._cursor]

    # What the page shows

    def headline(self) -> list[Content]:
        """Return how many there are, and that nothing of it is entered."""
        count = len(self.formulas)
        what = f"holding '{self._letters}'" if self._letters else "in the register"
        return [
            self.first_line(),
            Line(self.size.width)
            .put(0, f"{count} CALCULATIONS", BOLD)
            .put(17, what)
            .end(self.size.width, "nothing here is entered in the book", QUIET)
            .content(),
        ]

    def body(self) -> list[Content]:
        """Return the list, and below it the one at the cursor where there is no side."""
        width, formulas = self.body_width, self.formulas
        below = [] if self.wide else formula_lines(self.here, width)
        room = max(3, self.body_height - 1 - (len(below) + 1 if below else 0))
        self._top = max(min(self._top, self._cursor), self._cursor - room + 1)
        self._top = max(0, min(self._top, len(formulas) - room))
        shown = formulas[self._top : self._top + room]
        where = f"{self._cursor + 1} of {len(formulas)}"
        lines = [rule(width, (15, "calculation"), (NAME + 14, "what it gives"), (width, where))]
        lines += [self._row(each, width) for each in shown]
        if not below:
            return lines
        lines += [line("")] * (room - len(shown))
        return [*lines, rule(width, (len(self.here.name) + 5, self.here.name)), *below]

    def _row(self, formula: Formula, width: int) -> Content:
        here = formula is self.here
        style = CURSOR if here else INK
        purpose = formula.purpose
        room = width - NAME - 1
        told = purpose if len(purpose) <= room else f"{purpose[: room - 2]}.."
        return (
            Line(width)
            .put(0, ">" if here else "", style)
            .put(2, formula.name, style)
            .put(NAME, told, style if here else QUIET)
            .put(width - 1, " ", style)
            .content(fill_style=style)
        )

    def side(self) -> list[Content]:
        """Return the calculation at the cursor."""
        width = SIDE - 2
        name = self.here.name
        return [rule(width, (len(name) + 5, name)), *formula_lines(self.here, width)]

    def next_lines(self) -> list[Content]:
        """Return what Enter does."""
        more = "      Esc show all of them" if self._letters else ""
        return [line(f"NEXT  Enter works {self.here.name}", BOLD), line(more, QUIET)]

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of the calculator."""
        return [("Enter", "calculate"), ("up, down", "choose"), ("/", "find"), ("?", "help")]

    # What the keys do

    def _meaning(self, text: str) -> str:
        """Return how many calculations hold the letters."""
        found = _holding(text)
        if not found:
            raise InputError(f"No calculation holds '{text[:20]}'; type fewer letters.")
        return f"{len(found)}: {', '.join(each.name for each in found)}"

    def on_entry_line_entered(self, event: EntryLine.Entered) -> None:
        """Show those that hold the letters."""
        self._letters, self._cursor = event.text.strip(), 0
        self.draw()

    def action_find(self) -> None:
        """Open the line for letters."""
        self.query_one(EntryLine).open("")

    def action_show_all(self) -> None:
        """Show all calculations, the cursor on the same one."""
        name = self.here.name
        self._letters = ""
        self._cursor = [each.name for each in self.formulas].index(name)
        self.draw()

    def action_move(self, by: int) -> None:
        """Move the cursor."""
        self._cursor = max(0, min(self._cursor + by, len(self.formulas) - 1))
        self.draw()

    def action_calculate(self) -> None:
        """Work the calculation at the cursor."""
        self.act(calculate(self, self.here, self._typed.setdefault(self.here.name, {})))


def _holding(letters: str) -> list[Formula]:
    """Return the calculations whose name or purpose holds every word."""
    from tally.formulas import all_formulas

    words = letters.casefold().split()
    return [
        each
        for each in all_formulas().values()
        if all(word in f"{each.name} {each.purpose}".casefold() for word in words)
    ]
