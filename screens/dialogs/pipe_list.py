"""Import a pipe list: the file, its preview with every doubt, read back on the rack, one entry."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

from textual.binding import Binding
from textual.content import Content

from screens.acts import ask_reason, say
from screens.dialogs.form import Field
from screens.dialogs.panel import Panel
from screens.dialogs.running import ask, stamp
from screens.dialogs.values import whole_number
from screens.ink import ATTENTION, BOLD, INK, QUIET, STOP, line, wrap
from screens.pages.page import Page
from tally.errors import InputError
from tally.feeds.rig_list import (
    Preview,
    Question,
    ReadBack,
    difference,
    left_out,
    open_list,
    preview_of,
    received,
    row_line,
    rules_of,
    told,
)
from tally.units import shown

WIDTH = 70
MOST_ROWS = 2_000
"""Rows of the list that are shown under the doubts."""
ROLES = {"heading": BOLD, "stops": STOP, "asks": ATTENTION, "quiet": QUIET, "says": INK}
LEFT_OUT = ("received one by one later", "not on the rack", "list to be put right later")
ALL_THE_SAME = ("measured again, it is right", "looked at on the pipe, it is right")
DIFFERENT = ("counted twice, the rack is right", "to be measured again before running")
UNITS = ("ft", "m", "mm")
MEASURED = ("running", "overall")


class PreviewPanel(Panel):
    """A list as it would enter the book; y takes it, c changes how it is read."""

    BINDINGS = [
        Binding("y", "take", "Take the list into the book", id="preview.take"),
        Binding("c", "change", "Change how it is read", id="preview.change"),
        Binding("home", "scroll_panel(-100000)", "First line", show=False, id="preview.first"),
        Binding("end", "scroll_panel(100000)", "Last line", show=False, id="preview.last"),
    ]

    def __init__(self, preview: Preview) -> None:
        foot = "y take it    c change how it is read    up, down"
        super().__init__("Pipe list, nothing is in the book yet", preview_lines(preview), foot)
        self.wants = ""

    def action_take(self) -> None:
        """Leave the panel to read the list back."""
        self.wants = "take"
        self.dismiss(None)

    def action_change(self) -> None:
        """Leave the panel for the questions."""
        self.wants = "change"
        self.dismiss(None)


def preview_lines(preview: Preview) -> list[Content]:
    """Return the preview and its rows, as wide as a panel."""
    lines = [each for one in told(preview) for each in _lines(one.text, ROLES[one.role])]
    rows = range(min(len(preview.items), MOST_ROWS))
    lines += [line(""), line("   row       number     length         in file", BOLD)]
    for place in rows:
        role = STOP if place in preview.left_out else INK
        lines.append(line(row_line(preview, place)[:WIDTH], role))
    more = len(preview.items) - len(rows)
    return [*lines, line(f"and {more} more rows", QUIET)] if more else lines


def _lines(text: str, role: str) -> Iterator[Content]:
    """Yield a line of the preview in as many as it takes, those behind the first set in."""
    first, *rest = wrap(text, WIDTH, role) or [line("")]
    yield first
    for each in wrap(" ".join(one.plain for one in rest), WIDTH - 4, role) if rest else []:
        yield line(f"    {each.plain}", role)


async def import_list(page: Page) -> None:
    """Ask for a file, show what is in it, and count it in once it is read back."""
    if page.job.setup is None:
        page.refuse("The job is not set up yet; set it up before pipe is counted in.")
        return
    answer = await ask(
        page,
        "Import a pipe list",
        Field("file", "File", _list_beside(page), hint="CSV or XLSX; a name alone: by the book"),
    )
    if not answer:
        return
    preview: Preview | None = answer["file"]
    while preview is not None:
        panel = PreviewPanel(preview)
        await page.app.push_screen_wait(panel)
        if panel.wants == "change":
            preview = await _answered(page, preview, preview.questions or _every(preview))
        elif panel.wants == "take" and preview.questions and not preview.blocked:
            preview = await _answered(page, preview, preview.questions)
        elif panel.wants == "take":
            await _take(page, preview)
            return
        else:
            page.refuse("Nothing was entered; the list was only looked at.")
            return


def _list_beside(page: Page) -> Callable[[str], Preview]:
    """Return a reader of a file's name, beside the book where it names no folder."""

    def read(text: str) -> Preview:
        try:
            path = page.shoedown.book.path.parent / Path(text).expanduser()
        except (OSError, RuntimeError):
            raise InputError(f"{shown(text, 60)} cannot be reached; type another file.") from None
        return preview_of(open_list(path), rules_of(page.job))

    return read


def _every(preview: Preview) -> tuple[Question, ...]:
    """Return all that can be said of a list, where nothing has to be."""
    names = tuple(pipe.name for pipe in preview.rules.pipes)
    unit = preview.answers.unit or preview.rules.step.unit
    every = [
        Question("lengths", "How the joints were measured", MEASURED, preview.measured),
        Question("unit", "Unit of lengths that name none", UNITS, unit),
    ]
    if len(names) > 1:
        said = preview.answers.pipe or names[0]
        every.append(Question("pipe", "Pipe of rows that name none", names, said))
    return tuple(every)


async def _answered(
    page: Page, preview: Preview, questions: tuple[Question, ...]
) -> Preview | None:
    """Ask what is to be said of the list; the same preview where nothing was said."""
    labels = {"lengths": "Lengths are", "unit": "Unit", "pipe": "Pipe"}
    answer = await ask(
        page,
        "How the list is read",
        *(
            Field(each.key, labels[each.key], choices=each.choices, value=each.likely)
            for each in questions
        ),
        says="\n".join(each.sentence for each in questions),
    )
    if not answer:
        return preview
    return preview_of(preview.file, rules_of(page.job), replace(preview.answers, **answer))


async def _take(page: Page, preview: Preview) -> None:
    """Read the list back, have every difference answered, and make the one entry."""
    if preview.blocked:
        page.refuse(preview.blocked)
        return
    read = await _read_back(page, preview)
    if read is None:
        page.refuse("Nothing was entered; the list was not read back.")
        return
    reasons = []
    for question, choices in _to_answer(preview, read):
        reason = await ask_reason(page, question, choices)
        if reason is None:
            page.refuse("Nothing was entered; nothing was changed.")
            return
        reasons.append(reason)
    who = stamp(page)
    entry = received(preview, who["by"], who["at"], read=read, reason="; ".join(reasons))
    await say(page, entry)


async def _read_back(page: Page, preview: Preview) -> ReadBack | None:
    step = preview.rules.step
    answer = await ask(
        page,
        "Read back against the rack",
        Field("count", "Items on the rack", whole_number, hint="as counted there, not from here"),
        Field(
            "total",
            f"Their total length, {preview.measured}",
            step.read,
            hint=f"{step.unit}, as measured and added up there",
        ),
        says=left_out(preview),
    )
    return ReadBack(answer["count"], answer["total"]) if answer else None


def _to_answer(preview: Preview, read: ReadBack) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield what a person must give a reason for before the list is taken."""
    differs = difference(preview, read)
    if differs:
        yield differs, DIFFERENT
    if preview.left_out:
        yield left_out(preview), LEFT_OUT
    doubts = sum(1 for doubt in preview.doubts if not doubt.stops)
    if doubts:
        rows = "1 doubt stands" if doubts == 1 else f"{doubts} doubts stand"
        yield f"{rows} in the list; it is taken as it is written.", ALL_THE_SAME
