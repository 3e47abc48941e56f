"""Spreadsheets, and files that are no list."""

from __future__ import annotations

import struct
from collections.abc import Sequence

from tests.tally.feeds.lists.invented import (
    a_list,
    hundredths,
    metres,
    numbers,
    sheet,
)
from tests.tally.feeds.lists.sheets import Date, Error, Value, numbered, sheet_xml, workbook

# Spreadsheets


@a_list("sheet.xlsx")
def _() -> bytes:
    rows: list[Sequence[Value]] = [(n, hundredths(n) / 100, f"77A{n % 3}") for n in numbers()]
    return sheet(("Joint", "Length (ft)", "Heat"), *rows)


@a_list("sheet-with-formulas.xlsx")
def _() -> bytes:
    rows: list[Sequence[Value]] = [
        (None, n, hundredths(n) / 100 - 1e-14, None, hundredths(n) / 100 * 0.3048)
        for n in numbers()
    ]
    rows[5] = (None, 6, Error("#REF!"))
    rows.append((None, "Total", sum(hundredths(n) for n in numbers() if n != 6) / 100))
    title: list[Sequence[Value]] = [(None, "Rig 7, pipe tally"), ()]
    return sheet(*title, (None, "Joint", "Length ft", None, "Length m"), *rows)


@a_list("sheet-of-texts.xlsx")
def _() -> bytes:
    rows: list[Sequence[Value]] = [(str(n), metres(n, ",")) for n in numbers()]
    return sheet(("Nr.", "L\u00e4nge (m)"), *rows)


@a_list("sheet-with-dates.xlsx")
def _() -> bytes:
    rows: list[Sequence[Value]] = [(n, hundredths(n) / 100) for n in numbers()]
    rows[2] = (3, Date(46065.0))
    rows[3] = (Date(46066.0), hundredths(4) / 100)
    return sheet(("Joint", "Length"), *rows)


@a_list("sheets-three.xlsx")
def _() -> bytes:
    rows: list[Sequence[Value]] = [(n, hundredths(n) / 100) for n in numbers()]
    old: list[Sequence[Value]] = [(n, hundredths(n + 1) / 100) for n in numbers()]
    head = ("Joint", "Length")
    sheets = {
        "Cover": sheet_xml(numbered([("Rig 7",), ("measured by the day crew",)])),
        "Tally": sheet_xml(numbered([head, *rows])),
        "Before": sheet_xml(numbered([head, *old])),
    }
    return workbook(sheets, hidden=("Before",))


@a_list("sheets-both-lists.xlsx")
def _() -> bytes:
    rows: list[Sequence[Value]] = [
        ("Joint", "Length"),
        *((n, hundredths(n) / 100) for n in numbers()),
    ]
    return workbook({"First": sheet_xml(numbered(rows)), "Second": sheet_xml(numbered(rows))})


@a_list("sheet-far-off.xlsx")
def _() -> bytes:
    rows = numbered([("Joint", "Length"), *((n, hundredths(n) / 100) for n in numbers())])
    xml = sheet_xml(rows).replace(
        "</sheetData>", '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>'
    )
    return workbook({"Tally": xml})


@a_list("sheet-broken.xlsx")
def _() -> bytes:
    return sheet(("Joint", "Length"), (1, 41.35))[:-200]


@a_list("sheet-cut-inside.xlsx")
def _() -> bytes:
    return workbook({"Tally": sheet_xml(numbered([("Joint", "Length"), (1, 41.35)]))[:-30]})


# What is no list


@a_list("empty.csv")
def _() -> str:
    return " \r\n\r\n"


@a_list("headings-only.csv")
def _() -> str:
    return "Joint,Length\r\n"


@a_list("a-letter.csv")
def _() -> str:
    return "To whom it may concern,\r\nthe pipe is on its way.\r\nRegards\r\n"


@a_list("old-sheet.xls")
def _() -> bytes:
    return b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(504)


@a_list("page.csv")
def _() -> str:
    return "<html><table><tr><td>1</td><td>41.35</td></tr></table></html>"


@a_list("numbers.bin.csv")
def _() -> bytes:
    return struct.pack("<40d", *(hundredths(n) / 100 for n in range(40)))
