"""What the pages of checklists share: steps worked one by one, expected beside seen."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import Key, ScreenResume, ScreenSuspend
from textual.screen import ModalScreen

from screens.dialogs import conditioning
from screens.dialogs import steps as ask
from screens.dialogs.correct import correct_an_entry
from screens.dialogs.reading_lists import lists_to_read, read_a_list
from screens.dialogs.running import note
from screens.ink import ATTENTION, BOLD, QUIET, STOP, cut, line, wrap
from screens.pages.page import Page
from screens.widgets.steps import StepLine, left_lines, step_lines
from tally.job.gates import applies
from tally.job.job import StepRecord
from tally.job.working import Left, left, working
from tally.steps.model import Checklist, Step


class ChecklistPage(Page):
    """The lists of one page, with a cursor on the step at hand."""

    LISTS: ClassVar[str] = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "routine", "Do the routine step at the cursor", id="steps.routine"),
        Binding("y", "critical", "Do the critical step at the cursor", id="steps.critical"),
        Binding("k", "witness", "Witness or tell what one key has stored", id="steps.witness"),
        Binding("z", "pass_over", "Pass the step over: not done, not applicable", id="steps.pass"),
        Binding("c", "correct", "Correct an entry", id="steps.correct"),
        Binding("n", "note", "Write a note", id="steps.note"),
        Binding("h", "read", "Read a list whole: purpose, cautions, every step", id="steps.read"),
        Binding("backspace", "block", "Back to the start of the block", id="steps.block"),
        Binding("up", "move(-1)", "Step before", show=False, id="steps.up"),
        Binding("down", "move(1)", "Step after", show=False, id="steps.down"),
        Binding("home", "go_next", "Back to the next step", show=False, id="steps.next"),
        Binding("pageup", "move(-6)", "Six steps before", show=False, id="steps.page_up"),
        Binding("pagedown", "move(6)", "Six steps after", show=False, id="steps.page_down"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._cursor: int | None = None
        self._turned_to = 0
        self._covered = False

    def on_screen_suspend(self, _event: ScreenSuspend) -> None:
        """Tell a dialog over this page from another page in its place."""
        self._covered = isinstance(self.app.screen, ModalScreen)

    def on_screen_resume(self, event: ScreenResume) -> None:
        """Know from which entry on the work here goes on, so that a list left before is told."""
        if not self._covered:
            self._turned_to = self.job.seq
        self._covered = False
        super().on_screen_resume(event)

    # Which steps there are

    def lists(self) -> tuple[Checklist, ...]:
        """Return the lists worked on this page."""
        return tuple(plan for plan in working(self.job) if plan.page == self.LISTS)

    def left_off(self) -> Left | None:
        """Return where the list at hand was left before this page was turned to, if it was."""
        here = self.here()
        found = left(self.job, here[0]) if here else None
        return found if found and found.record.seq <= self._turned_to else None

    def places(self) -> list[tuple[Checklist, Step]]:
        """Return the steps that apply, in order."""
        return [
            (plan, step) for plan in self.lists() for step in plan.steps if applies(self.job, step)
        ]

    def due(self) -> int:
        """Return the place of the first step that nothing is entered for."""
        places = self.places()
        records = self.job.steps
        waiting = [n for n, (plan, step) in enumerate(places) if (plan.id, step.id) not in records]
        return waiting[0] if waiting else max(0, len(places) - 1)

    @property
    def cursor(self) -> int:
        """The place of the step at hand: the next one unless the cursor was moved."""
        last = max(0, len(self.places()) - 1)
        return min(self.due() if self._cursor is None else self._cursor, last)

    def here(self) -> tuple[Checklist, Step] | None:
        """Return the step at the cursor."""
        places = self.places()
        return places[self.cursor] if places else None

    # What the page shows

    def body(self) -> list[Content]:
        """Return the part of the lists around the cursor."""
        if not self.places():
            return wrap("This book has no checklist for this page.", self.body_width)
        above = [*left_lines(self.left_off(), self.shoedown.now(), self.body_width), *self.above()]
        drawn = step_lines(self.job, self.lists(), self.here(), self.body_width)
        return [*above, *_window(drawn, self.body_height - len(above))]

    def above(self) -> list[Content]:
        """Return what stands above the steps."""
        return []

    def next_lines(self) -> list[Content]:
        """Return the next step with its key, and the next hold point."""
        places = self.places()
        done = not places or all((p.id, s.id) in self.job.steps for p, s in places)
        waiting = self._waiting()
        if waiting and (done or waiting[1].critical):
            return [self._to_witness(*waiting), self._elsewhere() if done else self._then()]
        if done:
            return [line("NEXT  every step of this page is entered", BOLD), self._elsewhere()]
        if self.cursor != self.due():
            here = self._named("HERE", places[self.cursor][1], BOLD)
            return [here, line("      home: back to the next step", QUIET)]
        due = places[self.due()]
        shut = [f"      shut: {why}" for why in ask.shut_reasons(self.job, due)]
        second = line(cut(shut[0], self.size.width), STOP) if shut else self._hold_point()
        if waiting and not shut:
            second = self._with(f"      k  tell: {waiting[1].text}", "", ATTENTION)
        return [self._named("NEXT", due[1], BOLD), second]

    def _named(self, word: str, step: Step, style: str) -> Content:
        """Return a step with its key, and who does it where there is room for that."""
        return self._with(f"{word}  {step_key(step)}  {step.text}", step.who, style)

    def _to_witness(self, plan: Checklist, step: Step) -> Content:
        if not self.job.steps[(plan.id, step.id)].answered:
            return self._with(f"NEXT  k  why was its shut gate passed: {step.text}", "", BOLD)
        if self.job.steps[(plan.id, step.id)].differs and step.blind:
            return self._with(f"NEXT  k  say why it differs: {step.text}", "", BOLD)
        word = "witness" if step.critical else "tell"
        return self._with(f"NEXT  k  {word}: {step.text}", step.witness, BOLD)

    def _then(self) -> Content:
        return self._named("      then", self.places()[self.due()][1], QUIET)

    def _with(self, text: str, who: str, style: str) -> Content:
        longer = f"{text}  ({who})"
        room = self.size.width
        return line(longer if who and len(longer) <= room else cut(text, room), style)

    def _elsewhere(self) -> Content:
        after = {"ready": "F4 run", "mud": "F6 the plugs", "plugs": "g  waiting on cement"}
        return line(f"      {after.get(self.LISTS, 'F7 the final tally')}", QUIET)

    def _hold_point(self) -> Content:
        for plan, step in self.places():
            if step.hold_point and (plan.id, step.id) not in self.job.steps:
                by = f"{step.who}, seen by {step.witness}" if step.witness else step.who
                if (plan, step) == self.here():
                    return line(f"HOLD POINT  this one: {by}", QUIET)
                what = step.text.removeprefix("Release the hold point: ")
                tails = (f"  ({by})", f"  ({step.who})", "")
                texts = [f"HOLD POINT  next: {what}{tail}" for tail in tails]
                fitting = [text for text in texts if len(text) <= self.size.width]
                return line(fitting[0] if fitting else texts[-1], QUIET)
        return line("")

    def _waiting(self) -> tuple[Checklist, Step] | None:
        """Return what still wants its witness, first, or else what was seen."""
        waiting = [
            (plan, step)
            for plan, step in self.places()
            if (record := self.job.steps.get((plan.id, step.id)))
            and record.outcome == "done"
            and _open(step, record)
        ]
        return min(waiting, key=lambda place: not place[1].critical) if waiting else None

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys of a checklist."""
        return [
            ("Enter", "routine step"),
            ("y", "critical"),
            ("k", "witness"),
            ("z", "pass over"),
            ("c", "correct"),
            ("?", "help"),
        ]

    def letters(self) -> list[tuple[str, str]]:
        """Return the letters that the steps themselves claim, with what they do."""
        return [(step.key, step.text) for _plan, step in self.places() if step.key]

    # What the keys do

    def on_key(self, event: Key) -> None:
        """Do the step that claims the letter."""
        for plan, step in self.places():
            if step.key and event.character == step.key:
                event.stop()
                self.act(ask.do_step(self, plan, step))
                return

    def action_move(self, by: int) -> None:
        """Move the cursor."""
        self._cursor = max(0, min(self.cursor + by, len(self.places()) - 1))
        self.draw()

    def action_block(self) -> None:
        """Put the cursor on the first step of the block at hand, to look at it again."""
        here = self.here()
        found = left(self.job, here[0]) if here else None
        if found is None:
            self.refuse("No list is half worked here; there is no block to go back to.")
            return
        self._cursor = self.places().index((found.plan, found.block))
        self.draw()

    def action_go_next(self) -> None:
        """Put the cursor back on the next step."""
        self._cursor = None
        self.draw()

    def action_routine(self) -> None:
        """Do the step at the cursor if it is a routine one."""
        here = self.here()
        if here is None:
            return
        if here[1].critical:
            self.refuse(f"This step is critical; its key is {step_key(here[1])}.")
        else:
            self.act(self._do(*here))

    def action_critical(self) -> None:
        """Do the critical step at the cursor."""
        here = self.here()
        if here is None:
            return
        if here[1].critical:
            self.act(self._do(*here))
        else:
            self.refuse("This step is a routine one; its key is Enter.")

    async def _do(self, plan: Checklist, step: Step) -> None:
        await ask.do_step(self, plan, step)
        self._cursor = None
        self.draw()

    def action_witness(self) -> None:
        """Witness a step that one key has stored."""
        waiting = self._waiting()
        if waiting is None:
            self.refuse("Nothing waits for a witness or a value.")
        else:
            self.act(ask.confirm_step(self, *waiting))

    def action_pass_over(self) -> None:
        """Pass the step at the cursor over."""
        here = self.here()
        if here is not None:
            self.act(ask.pass_over(self, *here))

    def action_correct(self) -> None:
        """Correct an entry."""
        self.act(correct_an_entry(self))

    def action_read(self) -> None:
        """Read a list whole."""
        self.act(read_a_list(self, lists_to_read(self.job, self.LISTS)))

    def action_note(self) -> None:
        """Write a note."""
        self.act(note(self))

    # What more than one of the pages binds to a key

    def action_moved(self) -> None:
        """Say over what stroke the pipe is moved."""
        self.act(conditioning.pipe_moved(self))

    def action_zones(self) -> None:
        """Show the zones."""
        self.act(conditioning.show_zones(self))


def _open(step: Step, record: StepRecord) -> bool:
    """Whether what one key has stored still wants a reason, its witness, or what was seen."""
    if not record.answered or (record.differs and step.blind):
        return True
    told = record.state or record.value or step.want == "none"
    return not record.witness if step.critical else step.at_once and not told


def step_key(step: Step) -> str:
    """Return the key that does a step."""
    return step.key or ("y" if step.critical else "Enter")


def _window(drawn: list[StepLine], rows: int) -> list[Content]:
    """Return as many lines as there is room for, those of the cursor among them."""
    at = [place for place, each in enumerate(drawn) if each.cursor]
    first, last = (at[0], at[-1]) if at else (0, 0)
    start = max(0, min(first - 3, len(drawn) - rows))
    if last >= start + rows:
        start = min(first, last - rows + 1)
    return [each.content for each in drawn[start : start + rows]]
