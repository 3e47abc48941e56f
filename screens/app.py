"""The app: one book, who is at the keys, and the pages on their function keys."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterable
from datetime import datetime
from functools import partial
from importlib import import_module
from math import inf
from time import monotonic
from typing import TYPE_CHECKING, Any, ClassVar

from textual.app import SystemCommand
from textual.binding import Binding, BindingType
from textual.events import Key, Paste
from textual.screen import Screen

from screens.glyphs import ascii_only, plain_scroll_bars
from screens.half_typed import HalfTyped
from screens.held_file import HeldFile, held
from screens.keys_in_turn import KeysInTurn
from screens.pages.page import Page
from screens.pin_tries import PinTries
from screens.themes import THEMES
from tally.book.book import Book
from tally.errors import BookError, ShoedownError
from tally.job.between import Seen
from tally.job.counts import next_item
from tally.job.entry import Entry
from tally.job.job import Job

if TYPE_CHECKING:
    from screens.followed_file import FileWatch
    from screens.rig import Rig

PAGES = {
    "job": "job.JobPage",
    "rack": "rack.RackPage",
    "run": "run.RunPage",
    "far": "far.FarPage",
    "handover": "handover.HandoverPage",
    "ready": "ready.ReadyPage",
    "mud": "mud.MudPage",
    "plugs": "plugs.PlugsPage",
    "waiting": "waiting.WaitingPage",
    "reports": "reports.ReportsPage",
    "calculations": "calculations.CalculationsPage",
}
"""Where each page stands in screens/pages; a page is read in when somebody first turns to it."""

POLL_SECONDS = 0.25
MINUTE = 20.0
SETTLED_SECONDS = 1.0
"""After this the start is over, and what can wait is begun."""


def wall_clock() -> str:
    """Return the time now, with its offset, to the second."""
    return datetime.now().astimezone().isoformat(timespec="seconds")


def page_kind(name: str) -> type[Page]:
    """Return the class of a page, read in now if it was not before."""
    module, _, kind = PAGES[name].partition(".")
    found: type[Page] = getattr(import_module(f"screens.pages.{module}"), kind)
    return found


def _page(name: str) -> Page:
    return page_kind(name)()


class ShoedownApp(KeysInTurn):
    """The book on the screen."""

    CSS_PATH = "styles/app.tcss"
    TITLE = "Shoedown"
    ENABLE_COMMAND_PALETTE = True
    MODES: ClassVar[dict[str, Callable[[], Screen[Any]]]] = {  # type: ignore[assignment]
        name: partial(_page, name) for name in PAGES
    }
    VERTICAL_BREAKPOINTS = [(0, "-low"), (24, "-high")]
    """Forms and panels under 24 rows are cut so that their keys stay in sight."""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f2", "go('job')", "Job", id="go.job", priority=True),
        Binding("f3", "go('rack')", "Rack", id="go.rack", priority=True),
        Binding("f4", "go('run')", "Run", id="go.run", priority=True),
        Binding("f5", "go('mud')", "Mud", id="go.mud", priority=True),
        Binding("f6", "go('plugs')", "Plugs", id="go.plugs", priority=True),
        Binding("f7", "go('reports')", "Reports", id="go.reports", priority=True),
        Binding("f8", "go('calculations')", "Calculations", id="go.calculations", priority=True),
        Binding("f9", "next_theme", "Night, day, plain", id="app.theme", priority=True),
        Binding("f10", "leave", "Leave the book", id="app.leave", priority=True),
        Binding("ctrl+q", "leave", "Leave the book", show=False, id="app.quit", priority=True),
        Binding("question_mark", "keys_help", "Help", id="app.help"),
        Binding("w", "who", "Who is at the keys", id="app.who"),
    ]

    def __init__(
        self,
        book: Book,
        *,
        now: Callable[[], str] = wall_clock,
        theme: str = "night",
        start: str = "run",
        who: str = "",
    ) -> None:
        start = "handover" if book.job.waiting_handover else start
        self.DEFAULT_MODE = start  # type: ignore[misc]  # the first page; no empty one before it
        super().__init__()
        self.book = book
        self.now = now
        self.who = self._first_person() or who
        self.pin_tries = PinTries()
        self.half_typed = HalfTyped(book, self.set_timer)
        self.seen = Seen(book.job, book.head[0])
        """The job as it stood at the first key of what is done now."""
        self.next_changed = -inf
        """When another station's entry last changed what is next, by a steady clock."""
        self._held: dict[str, HeldFile | None] = {}
        self._file_watch: FileWatch | None = None
        self.rig: Rig | None = None
        """The stream of the rig, where one is followed."""
        self.at_start: Callable[[], None] | None = None
        """What is done once the first page stands."""
        self.asked_for_pin: set[str] = set()
        """Who was asked already whether to set a PIN, and signs with the name alone."""
        self._begin_in(theme)

    def _begin_in(self, theme: str) -> None:
        """Take our themes over and choose one before the styles are read for the first time."""
        for one in THEMES.values():
            self.register_theme(one)
        self.theme = theme
        self.stylesheet.set_variables(self.get_css_variables())

    @property
    def job(self) -> Job:
        """The job as it stands."""
        return self.book.job

    @property
    def file_watch(self) -> FileWatch:
        """What follows a pump file; it is read in when it is first asked for."""
        if self._file_watch is None:
            from screens.followed_file import FileWatch

            self._file_watch = FileWatch(self)
        return self._file_watch

    def follow_rig(self, address: str, units: str, items: str = "", *, send: bool = False) -> None:
        """Follow the rig's stream at an address; one station of a book does."""
        from screens.rig import READ_ELSEWHERE, Rig

        self.hold("rig-held", READ_ELSEWHERE)
        self.rig = Rig(self, address, units, items, send=send)
        self.rig.begin()
        self._redraw()

    def leave_rig(self) -> None:
        """Leave the rig's stream, if one is followed; what came is kept."""
        rig, self.rig = self.rig, None
        if rig is not None:
            rig.end()
            self.let_go("rig-held")
            self._redraw()

    def hold(self, what: str, refusal: str) -> None:
        """Have the one place that a book has for something; a station that looks needs none.

        Raises
        ------
        ShoedownError
            If another station has it.
        """
        if not self.book.look_only:
            self._held[what] = held(self.book.path, what, self.who, self.now(), refusal)

    def let_go(self, what: str) -> None:
        """Leave the one place to other stations."""
        place = self._held.pop(what, None)
        if place is not None:
            place.let_go()

    def on_unmount(self) -> None:
        """Let go of the rig's stream and of what other stations wait for; what came is kept."""
        if self.rig is not None:
            self.rig.end()
        for what in tuple(self._held):
            self.let_go(what)
        self.half_typed.end()

    def _first_person(self) -> str:
        """Return who was at the keys last; after a handover, who took over."""
        entries = self.book.entries
        if not entries:
            return ""
        handed = self.book.job.handovers[-1:]
        if handed and handed[0].taken_by and handed[0].taken_seq == entries[-1].seq:
            return handed[0].taken_by
        return entries[-1].by

    def on_mount(self) -> None:
        """Start to look for others' entries."""
        if ascii_only():
            plain_scroll_bars()
        self.call_after_refresh(self._started)
        if self.half_typed.left.where:
            self.call_after_refresh(self._bring_back)
        self.set_interval(POLL_SECONDS, self._look)
        self.set_interval(MINUTE, self._redraw)
        self.set_timer(SETTLED_SECONDS, self._watch_over)

    @staticmethod
    def _started() -> None:
        """Leave what the start has made out of what is looked through for waste from now on."""
        gc.freeze()
        gc.enable()

    def _bring_back(self) -> None:
        """Go on where somebody was typing when the program ended."""
        if isinstance(self.screen, Page) and self.screen.is_mounted and self.screen.size.width:
            self.screen.bring_back(self.half_typed.left)
        else:
            self.set_timer(POLL_SECONDS, self._bring_back)

    def _watch_over(self) -> None:
        """See to where the book lies, to its second copy, and to the file that was followed."""
        from screens.second_copy import watch_over

        watch_over(self)
        if self.job.followed is not None:
            self.file_watch.begin()
        try:
            if self.at_start is not None:
                self.at_start()
        except ShoedownError as fault:
            if isinstance(self.screen, Page):
                self.screen.refuse(str(fault))

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """Give the roles a colour before the theme is known."""
        return {"quiet": "#a9b4b8", "attention": "#ffc857", "stop": "#ff9d8a"}

    def possible(self, act: str) -> bool:
        """Tell whether an act, by the id of its key, can be done at this station: here each."""
        return True

    def keys_of(self, page: Page) -> list[tuple[str, str]]:
        """Return the keys that the foot of a page names."""
        return page.keys()

    def record(self, entry: Entry) -> Job:
        """Record an entry durably; the pages are drawn from the job it returns."""
        job = self.book.record(entry)
        self.see()
        return job

    def see(self) -> None:
        """Note what somebody sees who begins an act now."""
        self.seen = Seen(self.book.job, self.book.head[0])

    async def _take(self, event: Key | Paste) -> None:
        """Note what is seen when a key begins something; what goes on was seen before."""
        if isinstance(self.screen, Page) and self.focused is None and not self.acting:
            self.see()
        await super()._take(event)

    def _look(self) -> None:
        try:
            due = next_item(self.job)
            if self.book.poll():
                if next_item(self.job) != due:
                    self.next_changed = monotonic()
                self._redraw()
        except BookError as fault:
            if isinstance(self.screen, Page):
                self.screen.refuse(str(fault))

    def _redraw(self) -> None:
        """Draw the page anew, also behind an open form: what stands there must not be old."""
        for screen in reversed(self.screen_stack):
            if isinstance(screen, Page):
                screen.draw()
                break

    def action_go(self, mode: str) -> None:
        """Turn to a page; a dialog is finished or left first."""
        if isinstance(self.screen, Page):
            self.switch_mode(mode)

    def action_next_theme(self) -> None:
        """Change from night to day to plain."""
        names = list(THEMES)
        self.theme = names[(names.index(self.theme) + 1) % len(names)]
        self._redraw()

    def action_leave(self) -> None:
        """Leave; everything that was entered is in the book."""
        self.exit()

    def action_keys_help(self) -> None:
        """Show the keys and the marks of the page."""
        from screens.dialogs.help import HelpPanel

        if isinstance(self.screen, Page):
            self.push_screen(HelpPanel(self.screen))

    def action_who(self) -> None:
        """Change who is at the keys."""
        from screens.dialogs.who import change_who

        if isinstance(self.screen, Page):
            self.screen.act(change_who(self.screen))

    def action_command_palette(self) -> None:
        """Show every act by name."""
        from textual.command import CommandPalette

        if isinstance(self.screen, Page):
            self.push_screen(CommandPalette(placeholder="act", id="--command-palette"))

    def get_system_commands(self, screen: Screen[Any]) -> Iterable[SystemCommand]:
        """Offer every act of the page and of the app in the palette."""
        from screens.dialogs.help import key_name

        for binding in screen.active_bindings.values():
            described = binding.binding
            if not self.possible(described.id or ""):
                continue
            if described.id and described.description and described.show:
                yield SystemCommand(
                    described.description,
                    described.tooltip or f"key {key_name(described.key)}",
                    lambda action=described.action, node=binding.node: self.call_later(
                        self.run_action, action, node
                    ),
                )
