"""A question that a second Enter answers: what was typed is stored, marked as in doubt."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from screens.ink import ATTENTION, BOLD, INK, QUIET, line

STORED_IN_DOUBT = (
    "Stored in doubt it is kept beside the counts and changes none of them; the next reading "
    "that stands with it confirms it."
)


class StoreInDoubt(ModalScreen[bool]):
    """Ask once; Enter stores it in doubt, Escape goes back."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "answer(True)", "Store it in doubt", id="doubt.store"),
        Binding("escape", "answer(False)", "Go back", id="doubt.back"),
    ]
    AUTO_FOCUS = ""

    def __init__(self, question: str) -> None:
        super().__init__()
        self.question = question

    def compose(self) -> ComposeResult:
        """Lay out the question and its two keys."""
        with Vertical(id="form"):
            yield Static(line("Stop: this is hardly what was pumped", BOLD), id="form-title")
            with VerticalScroll(id="form-body", can_focus=False):
                yield Static(line(self.question, ATTENTION), classes="form-says")
                yield Static(line(STORED_IN_DOUBT, INK), classes="form-says")
            keys = "Enter store it in doubt    Esc go back, nothing stored"
            yield Static(line(keys, QUIET), id="form-keys")

    def action_answer(self, store: bool) -> None:
        """Leave with the answer."""
        self.dismiss(store)
