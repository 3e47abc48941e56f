"""What every page is made of: headline, margin, body, what was said, NEXT, and the keys."""

from __future__ import annotations

from collections.abc import Coroutine, Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.events import Key, Resize, ScreenResume
from textual.geometry import Size
from textual.screen import Screen

from screens.half_typed import Left
from screens.ink import ATTENTION, line, page, wrap
from screens.keys_in_turn import ACT
from screens.pages.help_text import HelpText
from screens.widgets.bars import Bar, Said, key_line, title_line
from screens.widgets.margin import WIDTH, Margin
from tally.job.entry import clock
from tally.job.job import Job

if TYPE_CHECKING:
    from screens.app import ShoedownApp

SIDE = 44
WIDE = 120
SHORT = 26
COLUMNS, ROWS = 80, 24
"""The least that a page is drawn for."""


class Page(Screen[None]):
    """One page of the book. It draws one immutable job and records entries."""

    AUTO_FOCUS = ""
    HELP_TEXT: ClassVar[HelpText] = HelpText()
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (WIDE, "-wide")]
    HAS_MARGIN: ClassVar[bool] = True

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "scroll_page(-1)", "Up", show=False, id="page.up"),
        Binding("down", "scroll_page(1)", "Down", show=False, id="page.down"),
        Binding("pageup", "scroll_page(-12)", "Page up", show=False, id="page.page_up"),
        Binding("pagedown", "scroll_page(12)", "Page down", show=False, id="page.page_down"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._aside: Sequence[Content] = ()
        """What stands beside the body now."""
        self._drawn_at = Size()
        # A new page is styled by the sheets as they stand; without this Textual reads all of
        # them again for it.
        self._css_update_count = self.app._css_update_count

    def compose(self) -> ComposeResult:
        """Lay out the bars and the middle."""
        yield Bar("headline")
        with Horizontal(id="middle"):
            if self.HAS_MARGIN:
                yield Margin("margin")
            with VerticalScroll(id="body-scroll", can_focus=False):
                yield Bar("body")
            yield Bar("side")
        yield Bar("rig")
        yield Said("said")
        yield from self.entry_line()
        yield Bar("next")
        yield Bar("keys")

    def entry_line(self) -> ComposeResult:
        """Lay out a line to type in, on the pages that have one."""
        yield from ()

    @property
    def shoedown(self) -> ShoedownApp:
        """The app, with its book."""
        from screens.app import ShoedownApp

        assert isinstance(self.app, ShoedownApp)
        return self.app

    @property
    def job(self) -> Job:
        """The job as it stands."""
        return self.shoedown.job

    @property
    def wide(self) -> bool:
        """Whether there is room for the side and for large figures."""
        return self.size.width >= WIDE

    @property
    def body_width(self) -> int:
        """Columns that the body has."""
        return self.size.width - (WIDTH if self.HAS_MARGIN else 0) - (SIDE if self._aside else 0)

    @property
    def body_height(self) -> int:
        """Rows that the body has."""
        rig = int(self.shoedown.rig is not None)
        said = max(self._rows_said(), 0 if self.short else 1)
        return max(1, self.size.height - len(self.headline()) - rig - said - 3)

    @property
    def short(self) -> bool:
        """Whether what was said has no row of its own, and the body makes room for it."""
        return self.size.height < SHORT

    def on_screen_resume(self, _event: ScreenResume) -> None:
        """Draw the job as it stands now."""
        self.draw()

    def on_resize(self, _event: Resize) -> None:
        """Draw again at the new size."""
        if self.size != self._drawn_at:
            self.call_after_refresh(self.draw)

    def draw(self) -> None:
        """Draw the whole page from the job."""
        if not self.is_mounted or self.size.width == 0:
            return
        self._drawn_at = self.size
        self._make_room()
        self._aside = self.side() if self.wide else ()
        self.draw_rig()
        headline = self.headline()
        self.query_one("#headline", Bar).draw(*headline)
        if self.HAS_MARGIN:
            self.query_one("#margin", Margin).show(self.job, self.body_height)
        self.query_one("#body", Bar).draw(*self._fitting())
        side = self.query_one("#side", Bar)
        side.draw(*self._aside)
        side.display = bool(self._aside)
        self.query_one("#next", Bar).draw(*self.next_lines())
        keys = self.shoedown.keys_of(self)
        self.query_one("#keys", Bar).draw(key_line(self.size.width, keys))

    def draw_rig(self) -> None:
        """Draw the line of the rig's stream; without one there is none."""
        bar, rig = self.query_one("#rig", Bar), self.shoedown.rig
        bar.display = rig is not None
        if rig is not None:
            from screens.widgets.rig import rig_line  # with the stream, where one is followed

            bar.draw(rig_line(rig, self.job, self.app.current_mode, self.size.width))

    def _fitting(self) -> Sequence[Content]:
        """Return the body; on a terminal too small for it, a sentence before it or instead."""
        columns, rows = self.size
        if columns >= COLUMNS and rows >= ROWS:
            return self.body()
        told = wrap(
            f"This terminal has {columns} columns and {rows} rows; a page is drawn for "
            f"{COLUMNS} by {ROWS}. Make it larger. The keys work, and what is entered is saved.",
            self.body_width,
            ATTENTION,
        )
        return told if columns < COLUMNS else [*told, *self.body()]

    def headline(self) -> Sequence[Content]:
        """Return the lines at the top; the first one is the same on every page."""
        return (self.first_line(),)

    def first_line(self) -> Content:
        """Return the job and the string, who is at the keys, and the time."""
        setup = self.job.setup
        left = f"{setup.well.name}   {setup.well.string}" if setup else "no set-up yet"
        person = self.job.people.get(self.shoedown.who)
        who = f"{self.shoedown.who}, {person.role}" if person else self.shoedown.who
        only = "LOOK ONLY  " if self.shoedown.book.look_only else ""
        return title_line(self.size.width, left, f"{only}{who}   {clock(self.shoedown.now())}")

    def body(self) -> Sequence[Content]:
        """Return the lines of the page itself."""
        raise NotImplementedError

    def side(self) -> Sequence[Content]:
        """Return what stands beside the body where there is room."""
        return ()

    def next_lines(self) -> Sequence[Content]:
        """Return what to do next, in at most two lines."""
        raise NotImplementedError

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys worth a place on the page."""
        raise NotImplementedError

    def letters(self) -> list[tuple[str, str]]:
        """Return the letters that what is worked here claims beside the keys, and what they do."""
        return []

    def act(self, coroutine: Coroutine[Any, Any, object]) -> None:
        """Do one act at a time; it may wait for a dialog, and until then no other begins."""
        if self.shoedown.acting:
            coroutine.close()
        else:
            self.shoedown.half_typed.begin()
            self.run_worker(coroutine, group=ACT)

    def saved(self, text: str) -> None:
        """Show what is in the book now."""
        self.query_one("#said", Said).saved(text)
        self.draw()

    def refuse(self, text: str) -> None:
        """Show why something is not in the book; it stays until the next key."""
        self.query_one("#said", Said).refused(text)
        self.draw()

    def bring_back(self, left: Left) -> None:
        """Say what was half typed when the program ended."""
        self.refuse(left.told)

    def on_key(self, _event: Key) -> None:
        """Clear what was said last: another act begins."""
        self.query_one("#said", Said).fall_silent()
        self._make_room()

    def _rows_said(self) -> int:
        said = self.query_one("#said", Said).said
        return min(3, len(wrap(said, self.size.width))) if said else 0

    def _make_room(self) -> None:
        self.query_one("#said").display = bool(self._rows_said()) or not self.short
        typing = any(each.display for each in self.query("#entry-line"))
        self.query_one("#keys").display = not typing

    def action_scroll_page(self, lines: int) -> None:
        """Scroll the body."""
        self.query_one("#body-scroll", VerticalScroll).scroll_relative(y=lines, animate=False)


def blank(count: int) -> list[Content]:
    """Return empty lines."""
    return [line("")] * max(0, count)


__all__ = ["Page", "blank", "page"]
