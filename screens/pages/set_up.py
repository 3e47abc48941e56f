"""F2, e: the job is set up, or its set-up changed: tables as a list, and what is typed in them."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import Key

from screens.dialogs import set_up as acts
from screens.ink import BOLD, QUIET, Line, line, rule, wrap
from screens.pages.help_text import HelpText
from screens.pages.page import Page
from screens.set_up_work import COMPLETE, EMPTY, FAULTS, WANTED, SetUpWork
from screens.widgets.bars import title_line
from screens.widgets.sheets import LIST, Part, beside, list_line, parts, window
from tally.feeds.job_sheets import Sheet
from tally.job.entry import clock

CHANGES = "what would change"


class SetUpPage(Page):
    """The set-up, table by table; saved as a whole, or kept as a draft."""

    HAS_MARGIN = False
    HELP_TEXT = HelpText(
        do=(
            "Enter opens a table; in a list of lines it opens the line. What is typed is kept as "
            "a draft, here and in a file beside the book, until s saves the whole set-up."
        ),
        mean=(
            "The list says how far each table is; beside it stands what is typed, with what is "
            "wrong under it. A limit here is what the job is held against, with its owner. Of a "
            "slurry what is typed of density, yield and mix water governs, as the laboratory's "
            "sheet: the yield makes the sacks, two give the third, and the recipe is the check. "
            "What it does not make stands as a doubt beside its field and stops nobody from "
            "saving."
        ),
        source=(
            "All of it is typed here or read from a job file: everything here can be written in "
            "a job file as well, and the other way round. Nothing is built in but what an empty "
            "field says."
        ),
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "open", "Open the table, or the line", id="set_up.open"),
        Binding("s", "save", "Save the set-up", id="set_up.save"),
        Binding("x,delete", "take_out", "Take the line out", id="set_up.take_out"),
        Binding("f", "read_file", "Read a survey from a file", id="set_up.read_file"),
        Binding("b", "begin_again", "Begin again from what stands", id="set_up.begin_again"),
        Binding("escape", "back", "Back to the list; leave", id="set_up.back"),
        Binding("up", "move(-1)", "Table or line before", show=False, id="set_up.up"),
        Binding("down", "move(1)", "Table or line after", show=False, id="set_up.down"),
        Binding("pageup", "turn(-1)", "Page before", show=False, id="set_up.page_up"),
        Binding("pagedown", "turn(1)", "Page after", show=False, id="set_up.page_down"),
        Binding("home", "go(0)", "First", show=False, id="set_up.first"),
        Binding("end", "go(100000)", "Last", show=False, id="set_up.last"),
    ]

    def __init__(self, work: SetUpWork) -> None:
        super().__init__()
        self.work = work
        self._table = 0
        self._top = 0
        self._first = 0
        self.row: int | None = None
        """The line at hand in a list of lines; nothing while the tables are at hand."""
        self.told = ""
        """What was saved, for the page to say that this one is left for."""

    # Where the cursor stands

    @property
    def sheet(self) -> Sheet | None:
        """The table at the cursor; nothing on what would change."""
        sheets = self.work.sheets
        return sheets[self._table] if self._table < len(sheets) else None

    @property
    def _count(self) -> int:
        return len(self.work.sheets) + self.work.editing

    @property
    def _rows(self) -> int:
        """How many lines the cursor can stand on in the table at hand."""
        sheet = self.sheet
        if sheet is None:
            return 0
        return len(sheet.rows) or len(self.work.draft.of(sheet.name)) + sheet.many

    def go_to(self, name: str, row: int | None = None) -> None:
        """Put the cursor on a table, and on a line of it if it has lines."""
        names = [each.name for each in self.work.sheets]
        self._table, self._top = names.index(name), 0
        sheet = self.work.sheets[self._table]
        self.row = row if sheet.many or sheet.rows else None

    def go_on(self) -> None:
        """Put the cursor on the next table."""
        self._table, self._top = min(self._table + 1, self._count - 1), 0

    def leave(self, told: str) -> None:
        """Leave once everything is in the book; no draft is left behind."""
        self.work.file.remove()
        self.told = told
        self.dismiss(None)

    # What the page shows

    def headline(self) -> list[Content]:
        """Return whose set-up it is and how far it is."""
        states = [self.work.state(sheet).word for sheet in self.work.sheets]
        counted = [(states.count(word), word) for word in (COMPLETE, WANTED, FAULTS, EMPTY)]
        said = ", ".join(f"{count} {_tables(word)}" for count, word in counted if count)
        what = "CHANGE OF THE SET-UP" if self.work.editing else "SET-UP OF A NEW JOB"
        told = f"{what}   {said}"
        return [self._whose(), Line(self.size.width).put(0, told, BOLD).content()]

    def _whose(self) -> Content:
        well = self.work.draft.row("well", 0)
        names = "   ".join(part for part in (well.get("name"), well.get("string")) if part)
        right = f"{self.shoedown.who}   {clock(self.shoedown.now())}"
        return title_line(self.size.width, names or self.work.book.path.name, right)

    def body(self) -> list[Content]:
        """Return the list of tables, and beside it what is typed in the one at the cursor."""
        seen = max(1, self.body_height - 1)
        right, self._top = window(self._parts(), self.row, self._top, seen)
        title = self.sheet.title if self.sheet else CHANGES
        width = self.body_width
        ruled = rule(width, (LIST + len(title) + 3, title))
        return [ruled, *beside(self._list(seen), right, seen)]

    def _list(self, seen: int) -> list[Content]:
        lines = [
            list_line(sheet.title, self.work.state(sheet), place == self._table and not self._in)
            for place, sheet in enumerate(self.work.sheets)
        ]
        if self.work.editing:
            count = len(self.work.changes())
            word = f"{count} changes" if count != 1 else "1 change"
            lines.append(list_line(CHANGES, word, self._table == len(lines)))
        self._first = max(min(self._first, self._table), self._table - seen + 1)
        self._first = max(0, min(self._first, len(lines) - seen))
        return lines[self._first : self._first + seen]

    @property
    def _in(self) -> bool:
        return self.row is not None

    def _parts(self) -> list[Part]:
        width = self.body_width - LIST
        if self.sheet is not None:
            return parts(self.work, self.sheet, self.row, width)
        told = self.work.changes() or ("nothing, or something is wrong yet",)
        return [Part(tuple(wrap(each, width))) for each in told]

    def next_lines(self) -> list[Content]:
        """Return what Enter does here, and where the draft is."""
        return [line(f"NEXT  {self._next()}", BOLD), line(f"      {self._kept_where()}", QUIET)]

    def _next(self) -> str:
        ready = not self.work.looked.faults and self.work.draft != self.work.standing
        save = "nothing is wrong: s saves the set-up" if ready else ""
        if self.sheet is None:
            return save or "a table of the list, to change something in it"
        if not self._in:
            return f"Enter: {self.sheet.title}      {save}".rstrip()
        another = self.row == self._rows - 1 and self.sheet.many
        what = f"another line of {self.sheet.title}" if another else "change this line"
        return f"Enter: {what}      Esc: back to the tables"

    def _kept_where(self) -> str:
        if self.work.says:
            return self.work.says
        if self.work.draft == self.work.standing:
            return "nothing is changed yet" if self.work.editing else "nothing is typed yet"
        return f"not saved; kept as a draft in {self.work.file.path.name}"

    def keys(self) -> list[tuple[str, str]]:
        """Return the keys that do something here."""
        survey = self.sheet is not None and self.sheet.name == "survey"
        return [
            ("Enter", "open"),
            *([("x", "take out")] if self._in else [("s", "save all")]),
            *([("f", "read a file")] if survey else []),
            *([] if self._in else [("b", "begin again")]),
            ("Esc", "tables" if self._in else "leave"),
            ("arrows", "move"),
            ("?", "help"),
        ]

    # What the keys do

    def on_key(self, _event: Key) -> None:
        """Let go of what was said of the draft once somebody goes on."""
        self.work.says = ""

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Leave out what does not belong to what is at hand."""
        if action == "take_out":
            return self._in
        if action in ("save", "begin_again"):
            return not self._in
        if action == "read_file":
            return self.sheet is not None and self.sheet.name == "survey"
        return super().check_action(action, parameters)

    def action_move(self, by: int) -> None:
        """Move by tables, or by lines."""
        self._go((self._table if self.row is None else self.row) + by)

    def action_turn(self, pages: int) -> None:
        """Move what stands beside the list by a page, or the cursor by as many lines."""
        by = pages * max(1, self.body_height - 3)
        if self.row is None:
            self._top += by
            self.draw()
        else:
            self._go(self.row + by)

    def action_go(self, place: int) -> None:
        """Go to the first or the last table or line."""
        self._go(place)

    def _go(self, place: int) -> None:
        if self.row is None:
            self._table, self._top = max(0, min(place, self._count - 1)), 0
        else:
            self.row = max(0, min(place, self._rows - 1))
        self.draw()

    def action_open(self) -> None:
        """Open the table at the cursor, or the line of it."""
        sheet = self.sheet
        if sheet is None:
            return
        if (sheet.many or sheet.rows) and self.row is None:
            self.row = 0 if sheet.rows else len(self.work.draft.of(sheet.name))
            self.draw()
        else:
            self.act(acts.fill_in(self, sheet))

    def action_back(self) -> None:
        """Go back to the tables; from there, leave with the draft kept."""
        if self.row is not None:
            self.row, self._top = None, 0
            self.draw()
            return
        fault = self.work.keep()
        if self.work.draft != self.work.standing:
            self.told = fault or "not saved; what is typed is kept as a draft, e goes on with it"
        self.dismiss(None)

    def action_save(self) -> None:
        """Save the whole set-up."""
        self.act(acts.save(self))

    def action_take_out(self) -> None:
        """Take the line at the cursor out."""
        sheet = self.sheet
        if sheet is not None and self.row is not None:
            acts.take_out(self, sheet, self.row)
            self.row = min(self.row, self._rows - 1)
            self.draw()

    def action_read_file(self) -> None:
        """Read the survey from a file."""
        self.act(acts.read_survey_file(self))

    def action_begin_again(self) -> None:
        """Throw away what is typed."""
        self.act(acts.begin_again(self))


def _tables(word: str) -> str:
    return f"with {word}" if word == FAULTS else word
