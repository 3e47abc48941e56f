"""From an XLSX file to the rows of the one sheet that holds the list."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from typing import Any

from tally.feeds.opening import unread
from tally.feeds.rig_list.cells import EMPTY, Cell, Row, tidy
from tally.feeds.rig_list.xlsx_parts import repacked
from tally.units import shown

Sheets = list[tuple[str, tuple[Row, ...]]]


def xlsx_rows(
    content: bytes, name: str, is_list: Callable[[Sequence[Row]], bool]
) -> tuple[tuple[Row, ...], str, tuple[str, ...]]:
    """Return the rows of the sheet with the list, the sheet's name, and what is to be said.

    Hidden sheets are left alone. Where several sheets hold a list, none is chosen.
    """
    sheets, hidden = _sheets(repacked(content, name), name)
    filled = [each for each in sheets if each[1]]
    lists = [each for each in filled if is_list(each[1])] or filled
    if not lists:
        raise unread(f"The spreadsheet '{name}' has nothing in it; look at the file.")
    if len(lists) > 1:
        names = ", ".join(f"'{shown(sheet, 31)}'" for sheet, _ in lists)
        raise unread(
            f"The spreadsheet '{name}' has {len(lists)} sheets that may be the list ({names}); "
            "save the one that counts as CSV, or take the others out."
        )
    notes = [f"the sheet '{shown(sheet, 31)}' is hidden and was not read" for sheet in hidden]
    others = [sheet for sheet, _ in filled if sheet != lists[0][0]]
    notes += [f"the sheet '{shown(sheet, 31)}' holds no list" for sheet in others]
    return lists[0][1], lists[0][0], tuple(notes)


def _sheets(content: bytes, name: str) -> tuple[Sheets, list[str]]:
    from python_calamine import CalamineWorkbook, SheetTypeEnum, SheetVisibleEnum

    try:
        with CalamineWorkbook.from_filelike(io.BytesIO(content)) as book:
            known = [each for each in book.sheets_metadata if each.typ == SheetTypeEnum.WorkSheet]
            visible = [each.name for each in known if each.visible == SheetVisibleEnum.Visible]
            hidden = [each.name for each in known if each.name not in visible]
            return [(each, _rows(book.get_sheet_by_name(each))) for each in visible], hidden
    except (KeyboardInterrupt, SystemExit):
        raise
    except BaseException as error:  # the reader's own panics are no ordinary exceptions
        raise unread(
            f"The spreadsheet '{name}' is broken ({shown(str(error), 60)}); "
            "save it again or save it as CSV."
        ) from None


def _rows(sheet: Any) -> tuple[Row, ...]:
    rows = []
    for place, values in enumerate(sheet.to_python(skip_empty_area=False), start=1):
        cells = [_cell(value) for value in values]
        while cells and not cells[-1].text:
            cells.pop()
        if cells:
            rows.append(Row(place, tuple(cells)))
    return tuple(rows)


def _cell(value: object) -> Cell:
    """Return a value of a spreadsheet as the text that a person sees in it.

    >>> _cell(41.349999999999994), _cell(7.0).text, _cell(True).text
    (Cell(text='41.35', number=True), '7', 'true')
    """
    if value == "" or value is None:
        return EMPTY
    if isinstance(value, bool):
        return Cell(str(value).lower())
    if isinstance(value, int | float):
        return Cell(_digits(value), number=True)
    return Cell(tidy(str(value)))


def _digits(value: float) -> str:
    if value == int(value) and abs(value) < 1e15:
        return str(int(value))
    return f"{value:.9f}".rstrip("0").rstrip(".")
