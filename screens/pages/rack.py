"""F3, the rack: every item that came on location, what became of it, and the balance."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content

from screens.dialogs import rack as ask
from screens.dialogs.checks import check
from screens.dialogs.equipment import show_equipment
from screens.dialogs.panel import Panel
from screens.dialogs.receiving import count_bundle
from screens.ink import ATTENTION, BOLD, INK, QUIET, STOP, Line, line, rule, wrap
from screens.pages.help_text import HelpText
from screens.pages.page import SIDE, Page
from screens.pages.rows import RowsPage
from screens.pages.running_list import ListPage
from screens.widgets.balance import balance_lines
from screens.widgets.rack_list import RackRow, rack_line, rack_rows, rack_title
from screens.widgets.rack_totals import totals_lines
from tally.errors import InputError
from tally.job import depths
from tally.job.checks import CHECKS, check_question, marks
from tally.job.counts import balance, missing_from_order, next_item, on_top
from tally.job.entry import several
from tally.job.job import ON_RACK, RUN, Item, Job


class RackPage(RowsPage):
    """The page of whoever keeps the rack."""

    HELP_TEXT = HelpText(
        do=(
            "Receive, count, check and reject pipe here. A digit opens the line for a number to "
            "go to; / opens it empty for a number that begins with a letter. The acts are for "
            "the item at the cursor. A number is kept for ever: a joint that is rejected, laid "
            "down or sent away keeps its own."
        ),
        mean=(
            "The list is every item in the running order, then what the order leaves out. The "
            "balance counts joints only, and must agree by count and by length. Under DVTI stand "
            "the checks: drift, visual, thread, inspection; + is passed, F failed, . not made. "
            "What the running list sets aside is on the rack and has no turn."
        ),
        source=(
            "Lengths as typed or read from the pipe list, rounded once to whole steps of the "
            "tally; checks as persons entered them; the balance is counted by three separate "
            "routes."
        ),
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("a", "receive", "Receive one item later", id="rack.receive"),
        Binding("m", "import_list", "Import a pipe list", id="rack.import"),
        Binding("s", "send_away", "Send the item at the cursor away", id="rack.send_away"),
        Binding("x", "reject", "Reject the item at the cursor", id="rack.reject"),
        Binding("d", "check", "Drift, visual, thread, inspection", id="rack.check"),
        Binding("b", "bundle", "Count a bundle or a truck", id="rack.bundle"),
        Binding("o", "running_list", "Running list: build it, change it", id="rack.list"),
        Binding("q", "equipment", "Equipment list", id="rack.equipment"),
        Binding("t", "totals", "Totals: to the casing point, checks, bundles", id="rack.totals"),
        Binding("slash", "find", "Go to a number", id="rack.find"),
        Binding("up", "move(-1)", "Item before", show=False, id="rack.up"),
        Binding("down", "move(1)", "Item after", show=False, id="rack.down"),
        Binding("pageup", "turn(-1)", "Page before", show=False, id="rack.page_up"),
        Binding("pagedown", "turn(1)", "Page after", show=False, id="rack.page_down"),
        Binding("home", "go_first", "First item", show=False, id="rack.first"),
        Binding("end", "go_last", "Last item", show=False, id="rack.last"),
        Binding("full_stop", "go_next", "Back to the next item", id="rack.next"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._drawn: tuple[Job, tuple[RackRow, ...]] | None = None

    # Which rows there are

    @property
    def rows(self) -> tuple[RackRow, ...]:
        """Every item, worked out once for each state of the job."""
        if self._drawn is None or self._drawn[0] is not self.job:
            self._drawn = (self.job, rack_rows(self.job))
        return self._drawn[1]

    def next_number(self) -> str:
        """Return the number of the next item, or nothing."""
        due = next_item(self.job)
        return due.number if due else ""

    # What the page shows

    def headline(self) -> list[Content]:
        """Return the balance by count and by length."""
        if self.job.setup is None:
            return [self.first_line()]
        return [self.first_line(), *balance_lines(self.job, self.size.width)]

    def body(self) -> list[Content]:
        """Return the rows in view, and all that is known of the one at the cursor."""
        if self.job.setup is None:
            return wrap("The job is not set up; make the book with `shoedown new`.", 60)
        width, rows, cursor = self.body_width, self.rows, self.cursor
        lines = self.in_view(
            cursor,
            rack_title(self.job, width),
            lambda place: rack_line(rows[place], width, cursor=place == cursor),
        )
        below = f", {self.below} below" if self.below else ""
        count = f"{cursor + 1} of {len(rows)}{below}"
        return [*lines, rule(width, (width, count)), self._all_of_it(width)]

    def _all_of_it(self, width: int) -> Content:
        item = self.job.items.get(self.here)
        if item is None:
            return line(f"{self.here} is in the running order and was never received"[:width], INK)
        told = ""
        for part in _told(self.job, item):
            told = f"{told}  {part}" if told else part
            if len(told) > width:
                return line(told[: -len(part)].rstrip() or told[:width], INK)
        return line(told, INK)

    def side(self) -> list[Content]:
        """Return what is out of the count of joints to run, with its reason."""
        if self.job.setup is None:
            return []
        aside = [item for item in self.job.items.values() if item.state not in (ON_RACK, RUN)]
        width = SIDE - 2
        lines = [*totals_lines(self.job, width), line(""), rule(width, (16, "not to be run"))]
        for item in reversed(aside):
            first, *more = wrap(f"{item.state}: {item.reason}", width - 8)
            lines.append(Line(width).end(6, item.number).put(8, first.plain).content())
            lines += [Line(width).put(8, each.plain).content() for each in more]
        return lines if aside else [*lines, line("        none")]

    def next_lines(self) -> list[Content]:
        """Return what is due, and what the rack lacks."""
        if self.job.setup is None:
            return []
        return [self._due(), self._lack()]

    def _due(self) -> Content:
        job = self.job
        due = next_item(job)
        if not balance(job).agrees:
            return line("NEXT  the balance does not agree: count the rack, find the joint", STOP)
        if job.landing is not None:
            return line("NEXT  on depth; what is on the rack is left over: s send away", BOLD)
        top = on_top(job)
        if due is None and top is not None:
            return line(f"NEXT  the {top.kind} is on top: F4 and d on depth, or p pull it", BOLD)
        if due is None:
            return line("NEXT  the rack is empty: a receive, or F4 and d on depth", BOLD)
        doubt = check_question(job, due)
        if doubt:
            return line(f"NEXT  {doubt.rstrip('.')}: d check it", BOLD)
        name = f"{due.kind} {due.number}"
        return line(f"NEXT  {name} is due, {job.known.step.with_unit(due.length)}: F4 run", BOLD)

    def _lack(self) -> Content:
        job = self.job
        missing = missing_from_order(job)
        need, spare = depths.joints_to_go(job)
        if job.landing is not None:
            return line("")
        if missing:
            named = ", ".join(missing[:5]) + (f" and {len(missing) - 5} more" * (len(missing) > 5))
            return line(f"      in the running order, never received: {named}", ATTENTION)
        if spare < 0:
            short = several(-spare, "joint")
            return line(f"      {short} short of the casing point: receive more", ATTENTION)
        aside = f", {len(job.aside)} set aside" if job.aside else ""
        return line(f"      about {need} joints to go, {spare} spare{aside}   t totals", QUIET)

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of the rack."""
        return [
            ("0-9 /", "go to"),
            ("d", "check"),
            ("x", "reject"),
            ("b", "bundle"),
            ("m", "pipe list"),
            ("o", "running list"),
            ("q", "equipment"),
            ("?", "help"),
        ]

    # What the keys do

    def meaning(self, text: str) -> str:
        """Return the item that a typed number means."""
        item = self.job.items.get(text)
        if item is None:
            if text in missing_from_order(self.job):
                return f"{text} is in the running order and was never received"
            raise InputError(f"There is no item {text} in the book.")
        reason = f" ({item.reason})" if item.reason else ""
        length = self.job.known.step.with_unit(item.length)
        return f"{item.kind} {item.number}, {length}, {item.state}{reason}"

    def action_go_next(self) -> None:
        """Put the cursor back on the item that is due, and keep it there."""
        self._at = ""
        self.draw()

    def action_receive(self) -> None:
        """Count in an item that came later."""
        self.act(ask.receive(self))

    def action_import_list(self) -> None:
        """Count in a pipe list from a file."""
        from screens.dialogs.pipe_list import import_list

        self.act(import_list(self))

    def action_send_away(self) -> None:
        """Send the item at the cursor away."""
        self.act(ask.send_away(self, self.here))

    def action_reject(self) -> None:
        """Reject the item at the cursor."""
        self.act(ask.reject(self, self.here))

    def action_check(self) -> None:
        """Note a check of the item at the cursor, or of a range."""
        self.act(check(self, self.here))

    def action_bundle(self) -> None:
        """Count a bundle or a truck."""
        self.act(count_bundle(self))

    def action_equipment(self) -> None:
        """Show the equipment list."""
        self.act(show_equipment(self))

    def action_totals(self) -> None:
        """Show the totals."""
        self.act(show_totals(self))

    def action_running_list(self) -> None:
        """Turn to the running list."""
        if self.job.setup is None:
            self.refuse("The job is not set up yet; there is no running list.")
        else:
            self.app.push_screen(ListPage())


async def show_totals(page: Page) -> None:
    """Show the totals of the rack."""
    if page.job.setup is None:
        page.refuse("The job is not set up yet; there is nothing to add up.")
        return
    await page.app.push_screen_wait(Panel("Totals of the rack", totals_lines(page.job, 68)))


def _told(job: Job, item: Item) -> list[str]:
    """Return what is known of an item beside its row."""
    setup = job.known
    length = setup.step.with_unit(item.length)
    taken_off = setup.make_up_loss is not None and not item.typed.endswith(" running")
    loss = f" less {setup.lengths.make_up_loss}" if taken_off else ""
    origin = f"received in entry {item.received}" if item.received else "set up with the job"
    parts = [
        f"{item.kind} {item.number}: {length}, typed {item.typed}{loss}",
        item.reason,
        *_checked(job, item.number),
        item.pipe or setup.pipes[0].name,
        f"serial {item.serial}" if item.serial else "",
        f"heat {item.heat}" if item.heat else "",
        item.description,
        origin,
    ]
    return [part for part in parts if part]


def _checked(job: Job, number: str) -> list[str]:
    """Return what each check of an item found, and with what."""
    told = []
    for what, mark in zip(CHECKS, marks(job, number), strict=True):
        if mark is not None:
            found = "passed" if mark.passed else "failed"
            mandrel = f" with {mark.mandrel.text}" if mark.mandrel else ""
            note = f" ({mark.note})" if mark.note else ""
            told.append(f"{found} {what}{mandrel}, {mark.who}{note}")
    return told
