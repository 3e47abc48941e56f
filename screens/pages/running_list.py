"""The running list, reached from F3: built by rules, changed by hand, set with a reason."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import Key

from screens.dialogs import running_list as ask
from screens.dialogs.panel import Panel
from screens.dialogs.space_out import space_out
from screens.ink import ATTENTION, BOLD, INK, Line, line, rule, wrap
from screens.pages.help_text import HelpText
from screens.pages.list_text import ListTextPage
from screens.pages.page import SIDE
from screens.pages.rows import RowsPage
from screens.widgets.list_draft import (
    Drawn,
    drawn_from,
    first_doubt,
    of_item,
    reach,
    to_look_at,
)
from screens.widgets.list_rows import OrderRow, order_line, order_title
from tally.errors import InputError
from tally.job.entry import clock
from tally.job.job import Job
from tally.job.list_building import build
from tally.job.list_editing import lock_turned, moved, put_in, taken_out
from tally.job.list_warnings import ListWarning
from tally.job.order_rules import OrderRules
from tally.job.running_list import RunningList, current, drafted

Edit = Callable[[Job, RunningList], RunningList]


class ListPage(RowsPage):
    """The running list as a draft; nothing is in the book before it is set."""

    HELP_TEXT = HelpText(
        do=(
            "Put the string to be in order: move, take out, put in, lock, build by rules. What "
            "is changed here is a draft until Enter sets it. s spaces out: it looks for the "
            "joints and pups that put pocket, stick-up and couplings where the set-up wants "
            "them."
        ),
        mean=(
            "From the shoe up: length, length to here, and the depth of each bottom when the "
            "shoe is at the casing point. Marks before a row: ! something to look at, * another "
            "item than a joint, = its place is locked. A spare is not needed to reach the casing "
            "point; what is set aside has no turn."
        ),
        source=(
            "Lengths come from the rack, the order from the set-up or the list set last, what "
            "goes on from the programme of centralizers and scratchers."
        ),
    )
    HAS_MARGIN = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "set", "Set the list", id="list.set"),
        Binding("b", "build", "Build it by rules", id="list.build"),
        Binding("e", "shift(-1)", "Move the item earlier", id="list.earlier"),
        Binding("l", "shift(1)", "Move the item later", id="list.later"),
        Binding("t", "take_out", "Take the item out, set it aside", id="list.take_out"),
        Binding(
            "p", "put_in", "Put an item in under the cursor, or move it there", id="list.put_in"
        ),
        Binding("s", "space_out", "Space out: the best last joints and pups", id="list.space_out"),
        Binding("k", "lock", "Lock or unlock the item's place", id="list.lock"),
        Binding("u", "undo", "Undo the last change", id="list.undo"),
        Binding("g", "doubts", "What there is to look at", id="list.doubts"),
        Binding("v", "view", "View it as it is printed", id="list.view"),
        Binding("escape", "back", "Back to the rack", id="list.back"),
        Binding("slash", "find", "Go to a number", id="list.find"),
        Binding("up", "move(-1)", "Item before", show=False, id="list.up"),
        Binding("down", "move(1)", "Item after", show=False, id="list.down"),
        Binding("pageup", "turn(-1)", "Page before", show=False, id="list.page_up"),
        Binding("pagedown", "turn(1)", "Page after", show=False, id="list.page_down"),
        Binding("home", "go_first", "First item", show=False, id="list.first"),
        Binding("end", "go_last", "Last item", show=False, id="list.last"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._draft: RunningList | None = None
        self._before: list[RunningList] = []
        self._rules: OrderRules | None = None
        self._leaving = False
        self._drawn: Drawn | None = None

    def on_key(self, event: Key) -> None:
        """Any key but Esc stays on the page."""
        self._leaving = self._leaving and event.key == "escape"

    # The draft, and the job as it would stand with it

    @property
    def draft(self) -> RunningList:
        """The list as it is on the page, with what came or went since."""
        if self._draft is None:
            return current(self.job)
        return current(drafted(self.job, self._draft))

    @property
    def changed(self) -> bool:
        """Whether the page holds another list than the book."""
        return self._draft is not None and self.draft != current(self.job)

    @property
    def drawn(self) -> Drawn:
        """The job as it would stand with the draft set, worked out once for each state of both."""
        draft, last = self.draft, self._drawn
        if last is None or last.of is not self.job or last.draft != draft:
            self._drawn = last = drawn_from(self.job, draft)
        return last

    @property
    def rows(self) -> tuple[OrderRow, ...]:
        """Every row of the list."""
        return self.drawn.rows

    @property
    def warnings(self) -> tuple[ListWarning, ...]:
        """What there is to look at in the draft."""
        return self.drawn.warnings

    def next_number(self) -> str:
        """Return the number of the first item that is not run, or nothing."""
        return next((one for one in self.draft.order if self.job.made(one) is None), "")

    # What the page shows

    def headline(self) -> list[Content]:
        """Return whose list it is, and how far it reaches."""
        if self.job.setup is None:
            return [self.first_line()]
        return [self.first_line(), self._standing(), reach(self.drawn)]

    def _standing(self) -> Content:
        drawn = Line(self.size.width).put(0, "RUNNING LIST", BOLD)
        if self.changed:
            return drawn.put(15, "a draft, changed and not set", ATTENTION).content()
        seq = self.job.list_set
        entry = next((each for each in self.shoedown.book.entries if each.seq == seq), None)
        said = f"set by {entry.by}, {clock(entry.at)}" if entry else "as it came with the set-up"
        return drawn.put(15, said).content()

    def body(self) -> list[Content]:
        """Return the rows in view, and what is known of the one at the cursor."""
        if self.job.setup is None:
            return wrap("The job is not set up; there is no running list yet.", 60)
        width, rows, cursor = self.body_width, self.rows, self.cursor
        lines = self.in_view(
            cursor,
            order_title(self.job, width),
            lambda place: order_line(rows[place], width, cursor=place == cursor),
        )
        count = f"{cursor + 1} of {len(rows)}"
        return [*lines, rule(width, (width, count)), of_item(self.drawn, self.here, width)]

    def side(self) -> list[Content]:
        """Return what there is to look at, where there is room."""
        if self.job.setup is None:
            return []
        return to_look_at(self.warnings, SIDE - 2)

    def next_lines(self) -> list[Content]:
        """Return what to do with the list, and the first thing to look at in it."""
        if self.job.setup is None:
            return []
        said = (
            "Enter sets this list; Esc leaves it as it was" if self.changed else "b build by rules"
        )
        if self.job.landing is not None:
            said = "the string is on depth; its list is closed"
        return [line(f"NEXT  {said}", BOLD), first_doubt(self.warnings, self.size.width)]

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of the list."""
        return [
            ("e l", "move"),
            ("t", "take out"),
            ("p", "put in"),
            ("k", "lock"),
            ("b", "build"),
            ("s", "space out"),
            ("Enter", "set"),
            ("?", "help"),
        ]

    # What the keys do

    def meaning(self, text: str) -> str:
        """Return the item that a typed number means."""
        if text not in [row.number for row in self.rows]:
            raise InputError(f"There is no {text} in the list.")
        item = self.job.items.get(text)
        return f"{item.kind} {text}" if item else f"{text}, never received"

    def action_shift(self, by: int) -> None:
        """Move the item at the cursor by one place."""
        number = self.here
        self._change(lambda job, draft: moved(job, draft, number, by), number)

    def action_take_out(self) -> None:
        """Take the item at the cursor out; the cursor goes to the one that follows."""
        number, order = self.here, self.draft.order
        after = order.index(number) + 1 if number in order else 0
        follows = order[after] if 0 < after < len(order) else ""
        self._change(lambda job, draft: taken_out(job, draft, number), follows)

    def action_lock(self) -> None:
        """Lock or unlock the place of the item at the cursor."""
        number = self.here
        self._change(lambda job, draft: lock_turned(job, draft, number), number)

    def action_put_in(self) -> None:
        """Ask for a number and put it in under the cursor."""
        self.act(self._put_in(self.here if self.here in self.draft.order else ""))

    async def _put_in(self, before: str) -> None:
        number = await ask.ask_number(self, before)
        if number:
            self._change(lambda job, draft: _put(job, draft, number, before), number)

    def _change(self, edit: Edit, at: str) -> None:
        """Change the draft, or say why it cannot be changed so."""
        draft = self.draft
        try:
            new = edit(self.job, draft)
        except InputError as fault:
            self.refuse(str(fault))
            return
        self._before.append(draft)
        self._draft, self._at = new, at
        self.draw()

    def action_undo(self) -> None:
        """Take the last change back."""
        if not self._before:
            self.refuse("Nothing was changed here; there is nothing to undo.")
            return
        self._draft = self._before.pop()
        self.draw()

    def action_build(self) -> None:
        """Build the list by rules."""
        if self.job.setup is not None:
            self.act(self._build())

    async def _build(self) -> None:
        last = self._rules or self.job.list_rules or OrderRules()
        rules = await ask.ask_rules(self, replace(last, left_out=self.draft.aside))
        if rules is None:
            return
        self._change(lambda job, _: build(job, rules), "")
        self._rules = rules

    def action_set(self) -> None:
        """Set the list."""
        if not self.changed:
            self.refuse("The list is as the book has it; there is nothing to set.")
            return
        self.act(self._set())

    async def _set(self) -> None:
        if await ask.set_list(self, self.draft, self._rules):
            self._draft, self._before = None, []

    def action_space_out(self) -> None:
        """Show the choices of a space-out; one that is taken is the running list."""
        if self.job.setup is not None:
            self.act(self._space_out())

    async def _space_out(self) -> None:
        if await space_out(self, self.drawn.job):
            self._draft, self._before = None, []

    def action_doubts(self) -> None:
        """Show all there is to look at."""
        self.act(self._doubts())

    async def _doubts(self) -> None:
        lines = [each for one in self.warnings for each in wrap(f"! {one.text}", 70, INK)]
        await self.app.push_screen_wait(Panel("To look at in the list", lines or [line("nothing")]))

    def action_view(self) -> None:
        """Show the list as it is printed."""
        if self.job.setup is not None:
            shown = self.drawn.job if self.changed else self.job
            self.app.push_screen(ListTextPage(shown, changed=self.changed))

    def action_back(self) -> None:
        """Go back to the rack; a draft that is not set wants a second Esc."""
        if self.changed and not self._leaving:
            self._leaving = True
            self.refuse("The list is changed and not set: Enter sets it, Esc again drops it.")
            return
        self.app.pop_screen()


def _put(job: Job, draft: RunningList, number: str, before: str) -> RunningList:
    """Put an item in; one that is in the list already is moved there."""
    if number in draft.order and number != before:
        draft = taken_out(job, draft, number)
    return put_in(job, draft, number, before)
