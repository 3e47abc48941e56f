"""F2 then h: the handover, read by whoever takes over; a book handed over opens here."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from screens.dialogs.export import write_kinds
from screens.dialogs.handing_over import hand_over, take_over
from screens.ink import ATTENTION, BOLD, INK, QUIET, Line, line, rule, wrap
from screens.pages.help_text import HelpText
from screens.pages.reading import ReadingPage
from tally.job.entry import clock
from tally.reports.sheet import Part

LABEL = 26


class HandoverPage(ReadingPage):
    """How the job stands, what is next and open, and who hands over to whom."""

    HELP_TEXT = HelpText(
        do=(
            "h hands over to the next person by name; where that person stands by, both sign "
            "with one entry. Else the book opens on this page until somebody has taken over with "
            "t. e writes it to print and sign."
        ),
        mean=(
            "How the job stands, the next act, what to watch with its limits, fluids and levels, "
            "open exceptions, hold points passed and by whom."
        ),
        source=(
            "The same figures as on the other pages, worked out from the entries at this moment."
        ),
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("h", "hand_over", "Hand over to the next person", id="handover.hand_over"),
        Binding("t", "take_over", "Take over", id="handover.take_over"),
        Binding("e", "export", "Write the handover to a folder", id="handover.export"),
        Binding("escape", "back", "Back to the job", id="handover.back"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._parts: tuple[str, tuple[Part, ...]] = ("", ())

    @property
    def parts(self) -> tuple[Part, ...]:
        """The parts of the page, made once for each state of the book."""
        head = self.shoedown.book.head
        if self._parts[0] != head[1]:
            self._parts = (head[1], _parts(self))
        return self._parts[1]

    def headline(self) -> list[Content]:
        """Return who hands over to whom, and whether it is taken over."""
        if self.job.setup is None:
            return [self.first_line()]
        return [self.first_line(), self._state()]

    def _state(self) -> Content:
        told = Line(self.size.width)
        last = self.job.handovers[-1] if self.job.handovers else None
        if last is None:
            return told.put(0, "HANDOVER   nobody has handed over yet", BOLD).content()
        if last.taken_at:
            words = f"HANDOVER   {last.taken_by} took over from {last.by} at {clock(last.taken_at)}"
            return told.put(0, words, BOLD).content()
        words = f"NOT TAKEN OVER   {last.by} handed over to {last.to} at {clock(last.at)}"
        return told.put(0, words, ATTENTION).content()

    def lines(self) -> list[Content]:
        """Return the parts one under the other."""
        if self.job.setup is None:
            return wrap("The job is not set up; there is nothing to hand over.", 60)
        width = self.body_width
        return [each for part in self.parts for each in (*part_lines(part, width), line(""))]

    def next_lines(self) -> list[Content]:
        """Return whose turn it is."""
        if self.job.setup is None:
            return []
        waiting = self.job.waiting_handover
        if waiting is not None:
            return [line(f"NEXT  t  {waiting.to} takes over, with name and PIN", BOLD), line("")]
        return [line("NEXT  h  hand over to the next person, by name", BOLD), line("")]

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of the handover."""
        return [
            ("h", "hand over"),
            ("t", "take over"),
            ("e", "write it"),
            ("arrows", "move"),
            ("Esc", "back"),
            ("?", "help"),
        ]

    def action_hand_over(self) -> None:
        """Hand over."""
        self.act(hand_over(self))

    def action_take_over(self) -> None:
        """Take over."""
        self.act(take_over(self))

    def action_export(self) -> None:
        """Write the handover to a folder."""
        self.act(write_kinds(self, "Write the handover", "handover"))

    def action_back(self) -> None:
        """Turn back to the job."""
        self.shoedown.action_go("job")


def part_lines(part: Part, width: int) -> list[Content]:
    """Return a part of a smaller report in lines of a page."""
    lines = [rule(width, (len(part.title) + 3, part.title))]
    if part.empty:
        return [*lines, *wrap(part.none, width, QUIET)]
    for said in part.said:
        lines += wrap(said, width)
    for label, told in part.fields:
        first, *others = wrap(told, width - LABEL) or [line("")]
        style = ATTENTION if told.isupper() or told.startswith(("NOT ", "DOES NOT")) else INK
        head = Line(width).put(0, label[: LABEL - 1], QUIET).put(LABEL, first.plain, style)
        lines.append(head.content())
        lines += [Line(width).put(LABEL, each.plain, style).content() for each in others]
    return lines


def _parts(page: HandoverPage) -> tuple[Part, ...]:
    from tally.reports.final_tally import final_tally
    from tally.reports.smaller.handover import handover_sheet

    book = page.shoedown.book
    return handover_sheet(final_tally(book.job, book.entries, book.head)).parts
