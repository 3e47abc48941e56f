"""F4, running: the block of ten, the counts that must agree, and what comes next."""

from __future__ import annotations

from time import monotonic
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import Key

from screens.dialogs import charts
from screens.dialogs import running as ask
from screens.dialogs.typed_item import (
    MORE,
    NONE,
    TypedItem,
    as_listed,
    meaning,
    nothing_to_run,
    typed_item,
)
from screens.half_typed import ENTRY_LINE, Left
from screens.ink import wrap
from screens.pages.help_text import HelpText
from screens.pages.page import Page
from screens.widgets.beside import beside
from screens.widgets.block import blocks
from screens.widgets.entry_line import FIELD, EntryLine
from screens.widgets.running import counts_line, next_lines, shouted, shouted_large
from screens.widgets.volumes import volume_lines
from screens.widgets.watched import watched
from tally.job.between import told_between
from tally.job.counts import next_item, on_top
from tally.job.entries.running import ItemRun

GLANCE_SECONDS = 1.0
"""For so long after another station changed what is next it may not have been read yet."""
REPEAT_SECONDS = 0.7
"""A key that comes again within this, with no other between, is the key held down."""


class RunPage(Page):
    """The page of the casing crew."""

    HELP_TEXT = HelpText(
        do=(
            "Enter runs the item in NEXT as listed, with what the programme installs on it. A "
            "digit opens the entry line: a number with a decimal mark is a measured length of "
            "the next item, a whole number is a joint; a + after it is one centralizer more than "
            "the programme wants on it, a - is nothing of the programme on it. What was not "
            "expected stops and asks for a reason."
        ),
        mean=(
            "To here is the length of the string with that item; shoe is the depth of the shoe "
            "then: the length of the string less the stick-up above the datum. Below the block "
            "what is expected stands beside what was seen, with the difference and its limit in "
            "brackets. The count at the top must agree."
        ),
        source=(
            "Lengths come from the pipe list, or as measured when run; expected volumes and "
            "weights are calculated from what was run and the set-up; seen is what a person "
            "read, or the rig's stream where one is followed. A limit was set by a named person "
            "(F2)."
        ),
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "as_listed", "Run the next item as listed", id="run.as_listed"),
        Binding("x", "reject", "Reject a joint before make-up", id="run.reject"),
        Binding("l", "lay_down", "Lay down a joint", id="run.lay_down"),
        Binding("p", "pull", "Pull the top item back out", id="run.pull"),
        Binding("i", "install", "What is installed on an item", id="run.install"),
        Binding("j", "as_read", "Run the next item with torque, position, time", id="run.as_read"),
        Binding("r", "tank", "Read the trip tank", id="run.tank"),
        Binding("e", "change_tank", "Empty or fill the trip tank", id="run.change_tank"),
        Binding("o", "check_flow", "Flow check", id="run.check_flow"),
        Binding("f", "fill", "Fill the pipe", id="run.fill"),
        Binding("v", "volumes", "Volumes: displaced, held, filled", id="run.volumes"),
        Binding("k", "weigh", "Read the weight on the indicator", id="run.weigh"),
        Binding("b", "weights", "Weights against depth: expected, seen", id="run.weights"),
        Binding("y", "tank_chart", "Gain and loss against the items run", id="run.tank_chart"),
        Binding("q", "well", "The well to scale, and its depths", id="run.well"),
        Binding("z", "far", "Large figures, to read from a distance", id="run.far"),
        Binding("m", "moved", "Pipe moved up and down, turned, stopped", id="run.moved"),
        Binding("s", "limits", "What holds the string: pull, speed, standoff", id="run.limits"),
        Binding("t", "trouble", "Trouble: tight, stuck, losses, shut in ...", id="run.trouble"),
        Binding("a", "convert", "Auto-fill float converted", id="run.converted"),
        Binding("c", "correct", "Correct an entry", id="run.correct"),
        Binding("n", "note", "Write a note", id="run.note"),
        Binding("d", "on_depth", "String on depth", id="run.on_depth"),
        Binding("h", "hung_off", "String hung off", id="run.hung_off"),
        Binding("g", "ready", "Crew and hole ready; shoe track", id="run.ready"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._last_key = ("", 0.0)

    def entry_line(self) -> ComposeResult:
        """Lay out the entry line."""
        yield EntryLine(self._meaning, kept=True)

    def on_key(self, event: Key) -> None:
        """Open the entry line on a digit; pass over a key that is held down."""
        before, self._last_key = self._last_key, (event.key, event.time)
        held = before[0] == event.key and event.time - before[1] < REPEAT_SECONDS
        if event.key == "enter" and held:
            event.stop()
            event.prevent_default()
            return
        opens = event.character and (event.character.isdigit() or event.character in (MORE, NONE))
        if opens and event.character and self.focused is None:
            event.stop()
            self.query_one(EntryLine).open(event.character)

    def bring_back(self, left: Left) -> None:
        """Open the entry line with what was half typed; tell of a form."""
        text = self.shoedown.half_typed.take(ENTRY_LINE).get(FIELD, "")
        if text:
            self.query_one(EntryLine).open(text)
        elif left.where != ENTRY_LINE:
            super().bring_back(left)

    # What the page shows

    def headline(self) -> list[Content]:
        """Return where the shoe is, what is to go, and the count that must agree."""
        if self.job.setup is None:
            return [self.first_line()]
        width, counts = self.size.width, counts_line(self.job, self.size.width)
        if self.wide and self.size.height >= 36:
            return [self.first_line(), *shouted_large(self.job, width), counts]
        return [self.first_line(), shouted(self.job, width), counts]

    def body(self) -> list[Content]:
        """Return the block of ten, and expected beside seen."""
        if self.job.setup is None:
            return wrap("The job is not set up; make the book with `shoedown new`.", 60)
        width = self.body_width
        seen = beside(width, watched(self.job, width))
        return [*blocks(self.job, width, self.body_height - len(seen)), *seen]

    def side(self) -> list[Content]:
        """Return the volumes, where there is room for them."""
        return volume_lines(self.job, 42) if self.job.setup else []

    def next_lines(self) -> list[Content]:
        """Return the item that is due, and the two after it."""
        return next_lines(self.job, self.size.width)

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of the floor; on depth, of what is still done there."""
        if self.job.landing is not None:
            return [
                ("h", "hung off"),
                ("k", "weight"),
                ("r", "tank"),
                ("v", "volumes"),
                ("m", "pipe moved"),
                ("c", "correct"),
                ("?", "help"),
            ]
        if on_top(self.job) is not None and next_item(self.job) is None:
            return [
                ("d", "on depth"),
                ("p", "pull"),
                ("k", "weight"),
                ("r", "tank"),
                ("t", "trouble"),
                ("c", "correct"),
                ("?", "help"),
            ]
        return [
            ("Enter", "as listed"),
            ("x", "reject"),
            ("l", "lay down"),
            ("i", "install"),
            ("r", "tank"),
            ("t", "trouble"),
            ("c", "correct"),
            ("?", "help"),
        ]

    # What the keys do

    def _meaning(self, text: str) -> str:
        """Return what a number typed into the entry line means."""
        return meaning(self.job, text)

    def on_entry_line_entered(self, event: EntryLine.Entered) -> None:
        """Run the joint or the length that was typed."""
        self._run(typed_item(self.job, event.text))

    def action_as_listed(self) -> None:
        """Run the next item as listed; not one that stands in NEXT since this very moment."""
        if monotonic() - self.shoedown.next_changed < GLANCE_SECONDS:
            entries = self.shoedown.book.entries
            last = next(one for one in reversed(entries) if one.KIND != "readings")
            self.refuse(f"{told_between(last, self.job)} Look at NEXT, then press Enter again.")
            return
        due = next_item(self.job)
        if due is None:
            self.refuse(nothing_to_run(self.job))
        else:
            self._run(as_listed(self.job, due))

    def _run(self, one: TypedItem) -> None:
        app = self.shoedown
        entry = ItemRun(
            by=app.who,
            at=app.now(),
            number=one.item.number,
            fittings=one.fittings,
            length=one.length,
            typed=one.typed,
            **self._seen_down(one.item.number),
        )
        self.act(ask.say_run(self, entry))

    def _seen_down(self, number: str) -> dict[str, Any]:
        """Return what the rig's stream told of an item going down, if it is that one."""
        rig = self.shoedown.rig
        down = rig.lowered() if rig else None
        return down.told if down is not None and down.item.number == number else {}

    def action_reject(self) -> None:
        """Reject a joint before make-up."""
        self.act(ask.reject(self))

    def action_lay_down(self) -> None:
        """Lay a joint down."""
        self.act(ask.lay_down(self))

    def action_pull(self) -> None:
        """Pull the top item back out."""
        self.act(ask.pull(self))

    def action_install(self) -> None:
        """Say what is installed on an item."""
        self.act(ask.install(self))

    def action_tank(self) -> None:
        """Read the trip tank."""
        self.act(ask.tank(self))

    def action_as_read(self) -> None:
        """Run the next item with what was read while it went down."""
        from screens.dialogs.making_up import run_as_read

        self.act(run_as_read(self))

    def action_change_tank(self) -> None:
        """Empty or fill the trip tank."""
        from screens.dialogs.flow import change_tank

        self.act(change_tank(self))

    def action_check_flow(self) -> None:
        """Say what a flow check showed."""
        from screens.dialogs.flow import check_flow

        self.act(check_flow(self))

    def action_limits(self) -> None:
        """Show what holds the string."""
        self.act(ask.show_limits(self))

    def action_moved(self) -> None:
        """Say how the pipe is moved."""
        from screens.dialogs.conditioning import pipe_moved

        self.act(pipe_moved(self))

    def action_trouble(self) -> None:
        """Say what went wrong."""
        from screens.dialogs.trouble import trouble

        self.act(trouble(self))

    def action_fill(self) -> None:
        """Fill the pipe."""
        self.act(ask.fill(self))

    def action_volumes(self) -> None:
        """Show the volumes."""
        self.act(ask.show_volumes(self))

    def action_weigh(self) -> None:
        """Read the weight on the indicator."""
        self.act(ask.weigh(self))

    def action_weights(self) -> None:
        """Show the weights against depth."""
        self.act(charts.show_weights(self))

    def action_tank_chart(self) -> None:
        """Show what the trip tank gained and lost."""
        self.act(charts.show_tank_chart(self))

    def action_well(self) -> None:
        """Show the well to scale."""
        self.act(charts.show_well(self))

    def action_far(self) -> None:
        """Turn to the figures that can be read from a distance."""
        self.shoedown.action_go("far")

    def action_convert(self) -> None:
        """Say that the auto-fill float is converted."""
        self.act(ask.convert(self))

    def action_correct(self) -> None:
        """Correct an entry."""
        self.act(ask.correct(self))

    def action_note(self) -> None:
        """Write a note."""
        self.act(ask.note(self))

    def action_ready(self) -> None:
        """Turn to the list of the crew, the hole and the shoe track."""
        self.shoedown.action_go("ready")

    def action_on_depth(self) -> None:
        """Say that the string is on depth."""
        self.act(ask.on_depth(self))

    def action_hung_off(self) -> None:
        """Say that the string is hung off."""
        self.act(ask.hung_off(self))
