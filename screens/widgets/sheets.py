"""The tables of a set-up as a list, and beside it what is typed in one of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from textual.content import Content

from screens.ink import ATTENTION, CURSOR, INK, QUIET, STOP, Line, wrap
from screens.set_up_work import FAULTS, WANTED, SetUpWork, State
from tally.feeds.job_draft import Texts
from tally.feeds.job_sheets import Cell, Sheet, Where

LIST = 36
"""Columns of the list."""
LABEL = 21
"""Columns of a label beside the list."""
ROLES = {WANTED: ATTENTION, FAULTS: STOP, "empty": QUIET}
ANOTHER = "+ another"


@dataclass(frozen=True, slots=True)
class Part:
    """One piece of what stands beside the list: a row with its faults, or a line."""

    lines: tuple[Content, ...]
    row: int = -1
    """Which row it is, if the cursor can stand on it."""


def list_line(sheet_title: str, state: State | str, here: bool, width: int = LIST) -> Content:
    """Return a table of the list with how far it is."""
    word = str(state)
    role = ROLES.get(state.word, INK) if isinstance(state, State) else INK
    title = CURSOR if here else INK
    mark = ">" if here else " "
    drawn = Line(width).put(0, mark, title).put(2, sheet_title, title)
    return drawn.end(width - 2, word, role).content()


def parts(work: SetUpWork, sheet: Sheet, row: int | None, width: int) -> list[Part]:
    """Return what is typed in a table, each fault under its field."""
    if not (sheet.many or sheet.rows):
        return [Part(tuple(_fields(work, sheet, 0, width)))]
    count = len(sheet.rows) or len(work.draft.of(sheet.name))
    made = [Part(tuple(_row(work, sheet, place, row, width)), place) for place in range(count)]
    if sheet.many:
        style = CURSOR if row == count else QUIET
        made.append(Part((Line(width).put(0, ANOTHER, style).content(),), count))
    return made


def _fields(work: SetUpWork, sheet: Sheet, place: int, width: int) -> Iterator[Content]:
    texts = work.draft.row(sheet.name, place)
    for cell in sheet.cells_of(place):
        text = texts.get(cell.key, "")
        shown = text or _empty(cell)
        style = INK if text else QUIET
        gap = max(LABEL, len(cell.label) + 1)
        first, *more = wrap(visible(shown), width - gap, style) or [Content("")]
        yield Content.assemble((f"{cell.label:<{gap}}", QUIET), first)
        yield from (Content.assemble((" " * gap, QUIET), each) for each in more)
        yield from _said(work, Where(sheet.name, place, cell.key), width)
    if texts:
        yield from _said(work, Where(sheet.name, place), width)


def _empty(cell: Cell) -> str:
    return "wanted" if cell.wanted else cell.hint


def _row(
    work: SetUpWork, sheet: Sheet, place: int, at: int | None, width: int
) -> Iterator[Content]:
    texts = work.draft.row(sheet.name, place)
    here = place == at
    name = sheet.called(place).replace("_", " ") if sheet.rows else f"{place + 1}"
    room = max(3, len(str(len(work.draft.of(sheet.name))))) if not sheet.rows else LABEL
    values = visible(_listed(sheet.cells_of(place), texts)) or ("-" if sheet.rows else "")
    style = CURSOR if here else INK if texts else QUIET
    gap = room + 1
    first, *more = _broken(values, width - gap) if here else [values[: width - gap]]
    yield Line(width).put(0, name[:room], style).put(gap, first, style).content()
    yield from (Line(width).put(gap, each, style).content() for each in more)
    if here and sheet.rows and (hint := sheet.cells_of(place)[0].hint):
        yield from (Content("    ") + each for each in wrap(hint, width - 4, QUIET))
    for cell in sheet.cells_of(place):
        where = Where(sheet.name, place, cell.key)
        yield from _said(work, where, width, f"{cell.label}: ")
    yield from _said(work, Where(sheet.name, place), width)


def _broken(text: str, width: int) -> list[str]:
    return [each.plain for each in wrap(text, width)] or [""]


def _listed(cells: Sequence[Cell], texts: Texts) -> str:
    return ", ".join(texts[cell.key] for cell in cells if texts.get(cell.key))


def _said(work: SetUpWork, where: Where, width: int, label: str = "") -> Iterator[Content]:
    for sentence in work.told.get(where, ()):
        text = f"{label}{sentence}" if label else capital(sentence)
        yield from (Content("  ") + each for each in wrap(text, width - 2, STOP))
    for sentence in work.doubts.get(where, ()):
        yield from (Content("  ") + each for each in wrap(sentence, width - 2, ATTENTION))


def capital(sentence: str) -> str:
    """Return a sentence that begins with a capital, as it does beside its field."""
    return f"{sentence[:1].upper()}{sentence[1:]}"


def visible(text: str) -> str:
    """Return typed text with what cannot be shown made visible."""
    from tally.reports.guard import visible as shown

    return shown(text)


def window(made: Sequence[Part], row: int | None, top: int, seen: int) -> tuple[list[Content], int]:
    """Return the lines in view so that a row is among them, and the first of them."""
    lines = [line for part in made for line in part.lines]
    if row is not None:
        before = sum(len(part.lines) for part in made if 0 <= part.row < row)
        here = next((len(part.lines) for part in made if part.row == row), 1)
        top = max(min(top, before), before + here - seen)
    top = max(0, min(top, len(lines) - seen))
    return lines[top : top + seen], top


def beside(left: Sequence[Content], right: Sequence[Content], height: int) -> list[Content]:
    """Return the list and what stands beside it, line by line."""
    lines = []
    for place in range(height):
        one = left[place] if place < len(left) else Content("")
        other = right[place] if place < len(right) else Content("")
        lines.append(one.pad_right(LIST - one.cell_length) + other)
    return lines
