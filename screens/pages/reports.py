"""F7, the reports: the tally as it will be signed, and what is still missing for it."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from screens.dialogs.exceptions import settle, show_exceptions
from screens.dialogs.export import write_reports
from screens.dialogs.signing import sign_report
from screens.ink import ATTENTION, BOLD, INK, QUIET, Line, cut, line, wrap
from screens.pages.help_text import HelpText
from screens.pages.reading import ReadingPage, one_blank
from tally.job import depths
from tally.job.counts import balance
from tally.job.figures import TALLY, show
from tally.job.fittings import missing_on
from tally.job.issue import Issue, issue
from tally.job.job import Job

SIDEWAYS = 20


class ReportsPage(ReadingPage):
    """The page of whoever signs."""

    HELP_TEXT = HelpText(
        do=(
            "Read the tally as it stands, the way it is written to the folder and signed. e "
            "writes the files, s signs by name, role and PIN, o shows the exceptions, k closes "
            "one."
        ),
        mean=(
            "The tally is final once the string is on depth and somebody has approved it. What "
            "is signed is fixed; what is corrected later is shown in the next issue, the first "
            "value beside the new one. An exception is a difference that somebody accepted; it "
            "stays open until a named person closes it, with the PIN where it is somebody "
            "else's, and two people where it concerns a gate passed, a gain, a loss or a suspect "
            "shoe. A figure that a second person is to work out unseen is hidden here until it "
            "is entered; the written files tell it."
        ),
        source=(
            "Every figure is worked out from the entries of the book; its last line names the "
            "chain that the signature covers."
        ),
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("e", "export", "Write the reports to a folder", id="reports.export"),
        Binding("s", "sign", "Sign a report", id="reports.sign"),
        Binding("o", "exceptions", "Exceptions, open and closed", id="reports.exceptions"),
        Binding("k", "settle", "Close an exception", id="reports.settle"),
        Binding("left", "sideways(-1)", "To the left", show=False, id="reports.left"),
        Binding("right", "sideways(1)", "To the right", show=False, id="reports.right"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._left = 0
        self._written: tuple[str, tuple[str, ...]] = ("", ())
        self._issue: tuple[str, Issue | None] = ("", None)

    # What the page shows

    @property
    def text(self) -> tuple[str, ...]:
        """The lines of the tally, written once for each state of the book."""
        head = self.shoedown.book.head
        if self._written[0] != head[1]:
            self._written = (head[1], _tally_lines(self))
        return self._written[1]

    @property
    def issue(self) -> Issue:
        """Which issue of the tally this is, and who signed it, found once for each state."""
        book = self.shoedown.book
        if self._issue[1] is None or self._issue[0] != book.head[1]:
            self._issue = (book.head[1], issue(book.job, book.entries, "tally"))
        found = self._issue[1]
        assert found is not None
        return found

    def headline(self) -> list[Content]:
        """Return whether the tally is final, and what stands open in it."""
        if self.job.setup is None:
            return [self.first_line()]
        return [self.first_line(), self._state(), self._open()]

    def _state(self) -> Content:
        job = self.job
        shoe = show(job, depths.shoe_depth(job), TALLY) if job.string else "-"
        final = job.landing is not None and bool(self.issue.approved)
        word = "FINAL TALLY" if final else "NOT SIGNED" if job.landing else "NOT FINAL"
        return (
            Line(self.size.width)
            .put(0, word, BOLD if final else ATTENTION)
            .put(14, f"shoe at {shoe}", BOLD)
            .put(40, f"{job.joints_run} joints run", BOLD)
            .put(57, f"left on rack {balance(job).left.count}", BOLD)
            .content()
        )

    def _open(self) -> Content:
        job = self.job
        still = len(job.open_exceptions())
        text = f"exceptions {len(job.exceptions)}, open {still}"
        drawn = Line(self.size.width).put(0, text, ATTENTION if still else INK)
        more = f"corrections {len(job.corrections)}   {self.issue.name}"
        drawn.put(len(text) + 3, more)
        return drawn.end(self.size.width, f"{self.shoedown.book.head[0]} entries").content()

    def lines(self) -> list[Content]:
        """Return the lines of the tally, as far as the page is wide."""
        if self.job.setup is None:
            return wrap("The job is not set up; there is no tally yet.", 60)
        width = self.body_width
        self._left = max(0, min(self._left, self._widest() - width))
        return [line(each[self._left : self._left + width].rstrip()) for each in self.text]

    def places(self, width: int) -> list[tuple[int, str]]:
        """Return which columns are in view, where not all of them are."""
        if self._widest() <= width:
            return []
        place = f"columns {self._left + 1}-{self._left + width} of {self._widest()}: left, right"
        return [(len(place) + 4, place)]

    def _widest(self) -> int:
        return max(map(len, self.text), default=0) if self.job.setup else 0

    def next_lines(self) -> list[Content]:
        """Return what is missing for a final tally, then what is open in it."""
        if self.job.setup is None:
            return []
        wants = _wanted(self.job)
        first, *others = wants or [self._to_sign()]
        more = f"      then: {'; '.join(others)}" if others else ""
        width = self.size.width
        return [line(cut(f"NEXT  {first}", width), BOLD), line(cut(more, width), QUIET)]

    def _to_sign(self) -> str:
        if self.issue.approved:
            return f"{self.issue.name}, approved: e write the files"
        return f"nothing is open, {self.issue.not_final}: s sign, then e write the files"

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of the reports."""
        return [
            ("e", "write the files"),
            ("s", "sign"),
            ("o", "exceptions"),
            ("k", "close one"),
            ("arrows", "move"),
            ("?", "help"),
        ]

    # What the keys do

    def action_sideways(self, by: int) -> None:
        """Move to the left or to the right."""
        self._left += by * SIDEWAYS
        self.draw()

    def action_export(self) -> None:
        """Write the reports to a folder."""
        self.act(write_reports(self))

    def action_sign(self) -> None:
        """Sign a report."""
        self.act(sign_report(self))

    def action_exceptions(self) -> None:
        """Show the exceptions."""
        self.act(show_exceptions(self))

    def action_settle(self) -> None:
        """Close an exception."""
        self.act(settle(self))


def _tally_lines(page: ReportsPage) -> tuple[str, ...]:
    """Return the lines of the tally."""
    from tally.job.blind import veiled
    from tally.reports.final_tally import final_tally
    from tally.reports.tally_text import tally_text

    book = page.shoedown.book
    tally = final_tally(book.job, book.entries, book.head)
    seen = {key: veiled(book.job, one) for key, one in tally.figures.items()}
    return one_blank(tally_text(replace(tally, figures=seen)))


def _wanted(job: Job) -> list[str]:
    """Return what is missing for a final tally and what is open in it, the first thing first."""
    wants = []
    if not job.string:
        wants.append("nothing is run yet: F4 run the string")
    elif job.landing is None:
        still = depths.to_go(job)
        far = f", {job.known.step.with_unit(still)} to go" if still > 0 else ""
        wants.append(f"the string is not on depth{far}: F4 run on, then d on depth")
    if not balance(job).agrees:
        wants.append("the balance does not agree: F3 the rack")
    lacks = missing_on(job) if job.landing is None else []  # then an exception tells of them
    if lacks:
        more = f" and {len(lacks) - 1} more" if len(lacks) > 1 else ""
        wants.append(f"{lacks[0][2].what} missing on {lacks[0][1]}{more}: F4, i install")
    still_open = len(job.open_exceptions())
    if still_open:
        wants.append(f"{still_open} open exception{'s' * (still_open > 1)}: o read, k close")
    return wants
