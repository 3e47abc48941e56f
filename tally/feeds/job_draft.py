"""A set-up that is being typed: every text as it stands in its field, whole or half."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from tally.feeds.job_faults import LIMITS_TABLE
from tally.feeds.job_sheets import (
    NAMES,
    NO,
    QUANTITY_SHEET,
    WHOLE,
    YES,
    YES_OR_NO,
    Cell,
    Sheet,
    sheets,
)

Texts = Mapping[str, str]
"""What is typed in the fields of one row, by key; an empty field is left out."""
NONE: Texts = {}


@dataclass(frozen=True, slots=True)
class Draft:
    """The texts of every row of every sheet; a sheet of one table has one row."""

    rows: Mapping[str, tuple[Texts, ...]] = field(default_factory=dict)

    def of(self, sheet: str) -> tuple[Texts, ...]:
        """Return the rows of a sheet."""
        return self.rows.get(sheet, ())

    def row(self, sheet: str, place: int) -> Texts:
        """Return one row, from 0; nothing where none is typed yet."""
        rows = self.of(sheet)
        return rows[place] if 0 <= place < len(rows) else NONE

    def with_row(self, sheet: str, place: int, texts: Texts) -> Draft:
        """Return the draft with one row typed anew; a row beyond the last one is added."""
        rows = [*self.of(sheet)]
        rows += [NONE] * (place + 1 - len(rows))
        rows[place] = {key: text for key, text in texts.items() if text}
        return self.with_rows(sheet, rows)

    def without_row(self, sheet: str, place: int) -> Draft:
        """Return the draft with one row taken out."""
        rows = self.of(sheet)
        return self.with_rows(sheet, [*rows[:place], *rows[place + 1 :]])

    def with_rows(self, sheet: str, rows: Sequence[Texts]) -> Draft:
        """Return the draft with all rows of a sheet; empty ones at the end fall off."""
        kept = list(rows)
        while kept and not kept[-1]:
            kept.pop()
        return Draft({**self.rows, sheet: tuple(kept)})

    @property
    def empty(self) -> bool:
        """Whether nothing is typed anywhere."""
        return not any(any(rows) for rows in self.rows.values())


def chosen(cell: Cell, text: str) -> str:
    """Return what a text means where there are choices: the number or the word of one.

    >>> role = Cell("role", "Role", "driller", choices=("cementer", "driller"))
    >>> chosen(role, "2"), chosen(role, " Cementer"), chosen(role, "cook")
    ('driller', 'cementer', 'cook')
    """
    typed = text.strip()
    if not cell.choices or not typed:
        return text
    if typed.isascii() and typed.isdigit() and 1 <= int(typed) <= len(cell.choices):
        return cell.choices[int(typed) - 1]
    same = [each for each in cell.choices if each.casefold() == typed.casefold()]
    return same[0] if same else text


def document_of(draft: Draft, asked: str = "") -> dict[str, Any]:
    """Return the draft as a job file would hold it.

    A table in which nothing is typed is left out, except the one that is asked about: then
    everything that it must have is missing in it.
    """
    document: dict[str, Any] = {}
    for sheet in sheets().values():
        rows = draft.of(sheet.name)
        if sheet.rows:
            _put_named(document, sheet, rows)
        elif sheet.many:
            made = [_values(sheet.cells, row) for row in rows]
            document |= {sheet.table: made} if made else {}
        else:
            values = _values(sheet.cells, rows[0] if rows else NONE)
            if not sheet.table:
                document |= values
            elif values or sheet.name == asked:
                document.setdefault(sheet.table, {}).update(values)
    return document


def _put_named(document: dict[str, Any], sheet: Sheet, rows: tuple[Texts, ...]) -> None:
    for place, row in enumerate(rows):
        values = _values(sheet.cells_of(place), row)
        name = sheet.called(place)
        if values and sheet.name == QUANTITY_SHEET:
            document.setdefault(sheet.table, {})[name.replace(" ", "_")] = values["unit"]
        elif values:
            document.setdefault(sheet.table, {})[name] = values


def _values(cells: tuple[Cell, ...], row: Texts) -> dict[str, Any]:
    typed = {cell.key: (cell, row.get(cell.key, "")) for cell in cells}
    return {key: _value(cell, text) for key, (cell, text) in typed.items() if text.strip()}


def _value(cell: Cell, text: str) -> Any:
    """Return a text as TOML would hold it; what is no such value stays the text it is."""
    plain = chosen(cell, text)
    if cell.kind == YES_OR_NO:
        return {YES: True, NO: False}.get(plain, text)
    if cell.kind == WHOLE:
        digits = plain.strip()
        canonical = digits.isascii() and digits.isdigit() and digits == digits.lstrip("0")
        return int(digits) if len(digits) < 10 and (canonical or digits == "0") else text
    if cell.kind == NAMES:
        return [each.strip() for each in plain.split(",") if each.strip()]
    return plain


def draft_of(document: Mapping[str, Any]) -> Draft:
    """Return the tables of a job file as they would be typed; what no form has is left out."""
    draft = Draft()
    for sheet in sheets().values():
        rows = [{key: text for key, text in row.items() if text} for row in _rows(sheet, document)]
        draft = draft.with_rows(sheet.name, rows) if any(rows) else draft
    return draft


def _rows(sheet: Sheet, document: Mapping[str, Any]) -> list[dict[str, str]]:
    if not sheet.table:
        return [_texts(sheet.cells, document)]
    given = document.get(sheet.table)
    if sheet.many:
        listed = given if isinstance(given, list) else []
        return [_texts(sheet.cells, each) for each in listed if isinstance(each, Mapping)]
    table = given if isinstance(given, Mapping) else {}
    if sheet.name == QUANTITY_SHEET:
        return [{"unit": _text(table.get(name.replace(" ", "_")))} for name in sheet.rows]
    if sheet.name == LIMITS_TABLE:
        return [_limit(cells, table.get(name)) for name, cells in sheet.rows.items()]
    return [_texts(sheet.cells, table)]


def _limit(cells: tuple[Cell, ...], given: Any) -> dict[str, str]:
    return _texts(cells, given if isinstance(given, Mapping) else {})


def _texts(cells: tuple[Cell, ...], table: Mapping[str, Any]) -> dict[str, str]:
    return {cell.key: _text(table.get(cell.key)) for cell in cells}


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return YES if value else NO
    return ", ".join(str(each) for each in value) if isinstance(value, list) else str(value)
