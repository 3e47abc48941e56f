"""Space-out: the choices with what each gives, one of them taken as the running list."""

from __future__ import annotations

from asyncio import to_thread
from collections.abc import Sequence

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.screen import ModalScreen
from textual.widgets import Static

from screens.acts import say
from screens.dialogs.running import stamp
from screens.dialogs.running_list import GO_ON
from screens.ink import BOLD, CURSOR, INK, QUIET, line, page, wrap
from screens.pages.page import Page
from tally.errors import Missing
from tally.job.entries.rack import OrderSet
from tally.job.entry import several
from tally.job.job import Job
from tally.job.naming import in_short
from tally.job.space_out import (
    SpaceOutOfJob,
    asked,
    proposals,
    why_nothing_fits,
    wish_line,
)
from tally.string.space_out_question import Choice
from tally.units import TallyStep

WIDTH = 70


class SpaceOutPanel(ModalScreen[Choice | None]):
    """The choices, the best one first; dismiss with the one taken, or None when cancelled."""

    BINDINGS = [
        Binding("escape", "cancel", "Cancel", id="space_out.cancel"),
        Binding("enter", "take", "Take it as the running list", id="space_out.take"),
        Binding("up", "move(-1)", "Choice before", show=False, id="space_out.up"),
        Binding("down", "move(1)", "Choice after", show=False, id="space_out.down"),
    ]
    AUTO_FOCUS = ""

    def __init__(
        self, spaced: SpaceOutOfJob, choices: Sequence[Choice], wish: str, step: TallyStep
    ) -> None:
        super().__init__()
        self.spaced = spaced
        self.choices = tuple(choices)
        self.wish = wish
        self.step = step
        self.at = 0

    def compose(self) -> ComposeResult:
        """Lay out what is wanted, the choices and the keys."""
        with Vertical(id="panel"):
            yield Static(line("Space-out", BOLD), id="panel-title")
            with VerticalScroll(id="panel-body", can_focus=False):
                yield Static(page(wrap(self.wish, WIDTH, QUIET)), classes="form-says")
                for place, choice in enumerate(self.choices):
                    yield Static(self._shown(place, choice), id=f"choice-{place}")
            keys = f"1-{len(self.choices)} or up, down    Enter take it    Esc cancel"
            yield Static(line(keys, QUIET), id="panel-keys")

    def _shown(self, place: int, choice: Choice) -> Content:
        first, *more = choice_lines(choice, self.step, self.spaced.hang_off(choice))
        mark, style = (">", CURSOR) if place == self.at else (" ", BOLD)
        under = [each for text in more for each in wrap(text, WIDTH - 4, INK)]
        indented = [Content("    ") + each for each in under]
        return page([line(f"{mark} {place + 1} {first}", style), *indented])

    def on_key(self, event: Key) -> None:
        """Go to the choice of a digit."""
        if event.character and event.character in "123456789"[: len(self.choices)]:
            event.stop()
            self._go(int(event.character) - 1)

    def action_move(self, by: int) -> None:
        """Go to the choice before or after."""
        self._go(max(0, min(self.at + by, len(self.choices) - 1)))

    def _go(self, place: int) -> None:
        before, self.at = self.at, place
        for each in (before, place):
            self.query_one(f"#choice-{each}", Static).update(self._shown(each, self.choices[each]))
        self.query_one(f"#choice-{place}").scroll_visible(animate=False)

    def action_take(self) -> None:
        """Take the choice at hand."""
        self.dismiss(self.choices[self.at])

    def action_cancel(self) -> None:
        """Take none."""
        self.dismiss(None)


def choice_lines(choice: Choice, step: TallyStep, hang_off: int | None = None) -> list[str]:
    """Return a choice in words: what it gives, then what is left out and put in."""
    gives = [f"pocket {step.show(choice.pocket)}", f"stick-up {step.show(choice.stick_up)}"]
    gives.append(f"shoe {step.show(choice.shoe)}")
    if choice.marker is not None:
        gives.append(f"marker {step.show(choice.marker)}")
    if hang_off is not None:
        gives.append(f"hang-off {step.show(hang_off)}")
    near = [f"{step.show(gap)} clear of {name}" for name, gap in choice.clear]
    return ["   ".join(gives), _changes(choice), *([", ".join(near)] if near else [])]


def _changes(choice: Choice) -> str:
    """Return what a choice changes, and how far up it goes."""
    over = f"leave out {in_short(choice.left_out)}" if choice.left_out else "leave none out"
    pups = f"put in {' '.join(choice.pups)}" if choice.pups else "no pup"
    last = f"last {choice.used[-1]}" if choice.used else "no joint more"
    return f"{over}; {pups}; {last}; {several(choice.changes, 'change')}"


async def space_out(on: Page, job: Job) -> bool:
    """Show the choices for a job as its list stands; record the one taken as the running list."""
    try:
        spaced = asked(job)
    except Missing as fault:
        on.refuse(str(fault))
        return False
    choices = await to_thread(proposals, spaced)
    if not choices:
        on.refuse(await to_thread(why_nothing_fits, job, spaced.question))
        return False
    panel = SpaceOutPanel(spaced, choices, wish_line(job, spaced.question), job.known.step)
    choice = await on.app.push_screen_wait(panel)
    if choice is None:
        return False
    made = spaced.listed(job, choice)
    reason = f"space-out, pocket {job.known.step.with_unit(choice.pocket)}"
    entry = OrderSet(
        **stamp(on),
        order=made.order,
        locked=made.locked,
        aside=made.aside,
        length=made.length,
        reason=reason,
    )
    return await say(on, entry, reasons=GO_ON)
