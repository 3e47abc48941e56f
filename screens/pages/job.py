"""F2, the job: what happened last, what stands open, and the set-up as it stands."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import ScreenResume

from screens.dialogs.correct import correct_an_entry
from screens.dialogs.exceptions import open_lines
from screens.dialogs.people import add_person
from screens.dialogs.pins import set_pin
from screens.dialogs.records import keep_record
from screens.dialogs.running import note
from screens.ink import ATTENTION, BOLD, INK, Line, cut, line, rule, wrap
from screens.pages.help_text import HelpText
from screens.pages.page import SIDE
from screens.pages.reading import ReadingPage
from screens.widgets.age import age
from screens.widgets.log import PutRight, log_lines, put_right, when
from screens.widgets.set_up import limit_lines, people_lines, setup_lines
from tally.errors import ShoedownError
from tally.job import depths
from tally.job.at_hand import at_hand
from tally.job.entry import seconds_between
from tally.job.figures import TALLY, show
from tally.job.job import Job

KEYS = {"run": "F4", "mud": "F5", "plugs": "F6", "waiting": "F6, g", "reports": "F7"}
LAST = "last entries, newest first"
OPEN = 3
"""Open exceptions shown here; the reports show them all."""

TYPED_ELSEWHERE = (
    "has the set-up open at another station; two drafts of one set-up would undo each other. Wait "
    "until it is saved or left there (Esc): what is typed goes on here then."
)


class JobPage(ReadingPage):
    """The page to sit down at: what happened, what is open, what was set up."""

    HELP_TEXT = HelpText(
        do=(
            "See how the job stands, correct an entry, change the set-up, hand over, keep "
            "notices and time lost for the reports, follow the rig's readings."
        ),
        mean=(
            "The last ten entries, newest first; an entry that was corrected shows what stands "
            "now and under it what was said first. Then the exceptions that are open, and the "
            "set-up with every value as it was typed. A limit names the person who set it."
        ),
        source=(
            "Everything here was entered: by the person whose name stands beside it, in the set- "
            "up, or read from a file that the entry names."
        ),
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("e", "set_up", "Set the job up, or change its set-up", id="job.set_up"),
        Binding("c", "correct", "Correct an entry", id="job.correct"),
        Binding("h", "handover", "The handover", id="job.handover"),
        Binding(
            "r", "keep_record", "Notice, time lost, pressure test, calibration", id="job.record"
        ),
        Binding("n", "note", "Write a note", id="job.note"),
        Binding("k", "set_pin", "Set a PIN for sign-offs", id="job.set_pin"),
        Binding("g", "rig", "Readings from the rig: connect, leave", id="job.rig"),
        Binding("a,plus", "add_person", "Add a person to the job", id="job.add_person"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._put_right = ("", PutRight())
        self._opened = False

    # What the page shows

    def headline(self) -> list[Content]:
        """Return how far the job is, and how old the last entry is."""
        if self.job.setup is None:
            return [self.first_line()]
        entries, now = self.shoedown.book.entries, self.shoedown.now()
        last = entries[-1]
        old = age(seconds_between(last.at, now))
        told = f"last entry {when(last.at, now)}, {old} ago, {last.by}"
        return [
            self.first_line(),
            Line(self.size.width).put(0, _how_far(self.job), BOLD).content(),
            Line(self.size.width).put(0, told).content(),
        ]

    def lines(self) -> list[Content]:
        """Return the open exceptions, the last entries, and the set-up."""
        if self.job.setup is None:
            return wrap("The job is not set up yet: e sets it up.", 60)
        width, book = self.body_width, self.shoedown.book
        lines = self._exceptions(width)
        if self._put_right[0] != book.head[1]:
            self._put_right = (book.head[1], put_right(book.entries, self.job))
        lines += log_lines(book.entries, self._put_right[1], self.job, self.shoedown.now(), width)
        lines += [*_titled(width, "set-up"), *setup_lines(self.job, width)]
        return lines if self.wide else [*lines, *self._limits(width), *self._people(width)]

    def _exceptions(self, width: int) -> list[Content]:
        """Return the first open exceptions, so that the last entries stay in view."""
        still = self.job.open_exceptions()
        if not still:
            return []
        lines = [each for one in still[:OPEN] for each in open_lines(one, width, ATTENTION)]
        more = len(still) - OPEN
        lines += [line(f"and {more} more: F7, o", ATTENTION)] if more > 0 else []
        return [*lines, *_titled(width, LAST)]

    def places(self, width: int) -> list[tuple[int, str]]:
        """Return the name of what stands first."""
        if self._top or self.job.setup is None:
            return []
        still = len(self.job.open_exceptions())
        first = f"open exceptions: {still}" if still else LAST
        return [(len(first) + 3, first)]

    def side(self) -> list[Content]:
        """Return the people and the limits."""
        if self.job.setup is None:
            return []
        width = SIDE - 2
        return [*self._people(width), *self._limits(width)]

    def _limits(self, width: int) -> list[Content]:
        return [*_titled(width, "limits"), *limit_lines(self.job.known, width)]

    def _people(self, width: int) -> list[Content]:
        return [*_titled(width, "people"), *people_lines(self.job, width)]

    def next_lines(self) -> list[Content]:
        """Return the work at hand, and what is open."""
        if self.job.setup is None:
            return [line("NEXT  e  set the job up", BOLD)]
        still = len(self.job.open_exceptions())
        open_ones = f"      {still} open exception{'s' * (still > 1)}: F7 and o, to read and close"
        return [
            line(cut(f"NEXT  {_at_hand(self.job)}", self.size.width), BOLD),
            line(open_ones if still else "", INK),
        ]

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of the job."""
        return [
            ("c", "correct"),
            ("e", "set-up"),
            ("n", "note"),
            ("r", "records"),
            ("h", "handover"),
            ("w", "who you are"),
            ("?", "help"),
        ]

    # What the keys do

    def on_screen_resume(self, _event: ScreenResume) -> None:
        """Open the set-up by itself, once, where there is none yet."""
        if self.job.setup is None and not (self._opened or self.shoedown.book.look_only):
            self._opened = True
            self.action_set_up()

    def action_rig(self) -> None:
        """Connect the stream of the rig, or leave it."""
        from screens.dialogs.rig import connect_rig

        self.act(connect_rig(self))

    def action_set_up(self) -> None:
        """Set the job up, or change its set-up."""
        from screens.pages.set_up import SetUpPage
        from screens.set_up_work import SetUpWork

        if self.shoedown.book.look_only:
            self.refuse("The book is open to look only; its set-up cannot be changed here.")
            return
        try:
            self.shoedown.hold("set-up-held", TYPED_ELSEWHERE)
        except ShoedownError as refusal:
            self.refuse(str(refusal))
            return
        page = SetUpPage(SetUpWork(self.shoedown.book))
        self.app.push_screen(page, lambda _left: self._set_up(page.told))

    def _set_up(self, told: str) -> None:
        """Let others at the set-up again, and say what was saved, if anything was."""
        self.shoedown.let_go("set-up-held")
        if told:
            self.saved(told)

    def action_correct(self) -> None:
        """Correct an entry."""
        self.act(correct_an_entry(self))

    def action_handover(self) -> None:
        """Turn to the handover."""
        self.shoedown.action_go("handover")

    def action_keep_record(self) -> None:
        """Keep a notice, time lost, a pressure test or a calibration."""
        self.act(keep_record(self))

    def action_note(self) -> None:
        """Write a note."""
        self.act(note(self))

    def action_set_pin(self) -> None:
        """Set a PIN."""
        self.act(set_pin(self))

    def action_add_person(self) -> None:
        """Add a person."""
        self.act(add_person(self))


def _titled(width: int, title: str) -> list[Content]:
    return [rule(width, (len(title) + 3, title))]


def _how_far(job: Job) -> str:
    """Return how far the job is, in words and figures."""
    if not job.string:
        return f"NOTHING RUN YET   {job.received} joints on location"
    shoe = f"shoe at {show(job, depths.shoe_depth(job), TALLY)}"
    if job.landing is None:
        return f"RUNNING   {job.joints_run} joints run, {shoe}"
    hung = f", hung off with {job.hung_off.load.text}" if job.hung_off else ", not hung off"
    return f"ON DEPTH   {shoe}, {job.joints_run} joints{hung}"


def _at_hand(job: Job) -> str:
    """Return the work at hand with the key of its page."""
    due = at_hand(job)
    return f"{KEYS.get(due.page, 'F6')} {due.words}"
