"""The form of one table of the set-up: its fields, all faults at once, nothing typed is lost."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.widgets import Input, Static

from screens.dialogs.form import Field, Form, numbered
from screens.ink import ATTENTION, QUIET, line
from screens.set_up_work import SetUpWork
from screens.widgets.sheets import LABEL, capital
from screens.widgets.typed import Typed
from tally.feeds.job_sheets import TEXT, Cell, Sheet
from tally.reports.guard import visible

LONGEST_ORDER = 20_000
LONGEST_JOINTS = 2_000
LONG = {"running_order": LONGEST_ORDER, "joints": LONGEST_JOINTS}


class TableForm(Form):
    """Ask for one row of a table; what is typed is in the draft at every key.

    Dismissed with the texts when they are right, or with nothing when it is left.
    """

    KEPT = False

    ENTERS = "go on"
    ESCAPES = "leave, kept"

    def __init__(self, work: SetUpWork, sheet: Sheet, place: int, kept: Callable[[], None]) -> None:
        self._work = work
        self._sheet = sheet
        self._place = place
        self._kept = kept
        self._doubted: set[str] = set()
        self._faulty: set[str] = set()
        self._cells = {cell.key: cell for cell in sheet.cells_of(place)}
        texts = work.draft.row(sheet.name, place)
        fields = [_field(work, cell, texts.get(cell.key, "")) for cell in self._cells.values()]
        super().__init__(_heading(sheet, place), fields, says=_says(sheet, place))

    @staticmethod
    def _field(field: Field, room: int) -> ComposeResult:
        """Lay out a label with its field beside it, and under them what may be typed."""
        with Horizontal(classes="table-row"):
            yield Static(line(field.label), classes="table-label")
            yield Typed(
                value=field.value, id=f"field-{field.key}", compact=True, max_length=field.longest
            )
        under = numbered(field.choices, room - LABEL) if field.choices else ""
        said = "\n".join(part for part in (under, field.hint) if part)
        if said:
            yield Static(line(said, QUIET), classes="table-hint")
        fault = Static("", id=f"fault-{field.key}", classes="form-fault table-hint")
        fault.display = False
        yield fault

    def on_mount(self) -> None:
        """Show what was wrong already where something was typed before."""
        if self._work.draft.row(self._sheet.name, self._place):
            self._show(self._faults(), move=False)
            self._show_doubts()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Take over every key into the draft."""
        event.stop()
        self._work.typed(self._sheet.name, self._place, self._texts())

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Complete the field and keep the draft; then the form goes on to the next field."""
        key = (event.input.id or "").removeprefix("field-")
        self._complete(self._cells[key], event.input)
        self._work.typed(self._sheet.name, self._place, self._texts())
        self._kept()
        self._show_doubts()

    def _complete(self, cell: Cell, field: Input) -> None:
        """Put the word of a choice, or the unit of a bare number, into its field."""
        whole = self._work.completed(cell, field.value)
        if whole != field.value:
            field.value = whole

    def on_typed_not_taken(self, event: Typed.NotTaken) -> None:
        """Make room for what the field did not take."""
        key = (event.field.id or "").removeprefix("field-")
        self.query_one(f"#fault-{key}").display = True

    def _texts(self) -> dict[str, str]:
        fields = {key: self.query_one(f"#field-{key}", Input) for key in self._cells}
        return {key: field.value for key, field in fields.items()}

    def _enter(self) -> None:
        for key, cell in self._cells.items():
            self._complete(cell, self.query_one(f"#field-{key}", Input))
        texts = self._texts()
        self._work.typed(self._sheet.name, self._place, texts)
        if not any(texts.values()) and not self._sheet.needed:
            self.dismiss(texts)
            return
        faults = self._faults()
        self._show(faults)
        if not faults:
            self.dismiss(texts)

    def _faults(self) -> dict[str, str]:
        """Return what is wrong, by field; what belongs to no field stands at the first one."""
        told = self._work.faults_of(self._sheet.name, self._place)
        first = next(iter(self._cells))
        return {key if key in self._cells else first: capital(said) for key, said in told.items()}

    def _show(self, faults: dict[str, str], *, move: bool = True) -> None:
        focused = self.focused
        self._faulty = set(faults)
        super()._show(faults)
        for field in self.fields:
            self.query_one(f"#fault-{field.key}").display = field.key in faults
        if not move and focused is not None:
            focused.focus()

    def _show_doubts(self) -> None:
        """Say beside each field what is doubtful and is taken all the same."""
        told = self._work.doubts_of(self._sheet.name, self._place)
        for key in self._cells:
            under = self.query_one(f"#fault-{key}", Static)
            said = told.get(key, "")
            if key not in self._faulty and (said or key in self._doubted):
                under.update(line(said, ATTENTION))
                under.display = bool(said)
        self._doubted = set(told)

    def on_unmount(self) -> None:
        """Keep what is typed, however the form is left."""
        self._work.keep()

    def action_cancel(self) -> None:
        """Leave; what is typed stays in the draft."""
        self._kept()
        self.dismiss(None)


def _heading(sheet: Sheet, place: int) -> str:
    if sheet.rows:
        return f"{sheet.title}: {sheet.called(place).replace('_', ' ')}"
    return f"{sheet.title}, line {place + 1}" if sheet.many else sheet.title


def _says(sheet: Sheet, place: int) -> str:
    return f"It limits: {sheet.cells_of(place)[0].hint}" if sheet.name == "limits" else ""


def _field(work: SetUpWork, cell: Cell, text: str) -> Field:
    return Field(
        cell.key,
        cell.label,
        value=visible(text),
        choices=cell.choices,
        hint=_hint(work, cell),
        longest=LONG.get(cell.key, 200),
    )


def _hint(work: SetUpWork, cell: Cell) -> str:
    """Return the unit of a bare number, an example, and what an empty field means."""
    like = "" if cell.choices else f"like {cell.example}"
    hint = "" if cell.wanted else cell.hint
    unit = work.unit(cell) if cell.kind == TEXT else ""
    first = ", ".join(part for part in (unit, like) if part)
    return "; ".join(part for part in (first, hint) if part)
