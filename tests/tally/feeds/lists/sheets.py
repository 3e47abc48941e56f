"""Small XLSX files, written by hand so that they are the same bytes every time."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping, Sequence
from xml.sax.saxutils import escape

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"
DATE_STYLE = 1
"""The style of a cell that shows its number as a date."""

Value = str | int | float | None


class Date(float):
    """A number that the sheet shows as a date."""


class Error(str):
    """A cell whose formula failed."""

    __slots__ = ()


def column_name(column: int) -> str:
    """Return the letters of a column, counted from 0."""
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def cell_xml(value: Value, place: str) -> str:
    """Return one cell; nothing for an empty one."""
    if value is None:
        return ""
    if isinstance(value, Error):
        return f'<c r="{place}" t="e"><v>{value}</v></c>'
    if isinstance(value, str):
        text = escape(value)
        return f'<c r="{place}" t="inlineStr"><is><t xml:space="preserve">{text}</t></is></c>'
    style = f' s="{DATE_STYLE}"' if isinstance(value, Date) else ""
    return f'<c r="{place}"{style}><v>{float(value)!r}</v></c>'


def sheet_xml(rows: Mapping[int, Sequence[Value]]) -> str:
    """Return a sheet of rows by their place, from 1."""
    lines = []
    for place, values in sorted(rows.items()):
        cells = (cell_xml(value, f"{column_name(n)}{place}") for n, value in enumerate(values))
        lines.append(f'<row r="{place}">{"".join(cells)}</row>')
    return f'<worksheet xmlns="{MAIN}"><sheetData>{"".join(lines)}</sheetData></worksheet>'


def numbered(rows: Sequence[Sequence[Value]], first: int = 1) -> dict[int, Sequence[Value]]:
    """Return rows by their place."""
    return dict(enumerate(rows, start=first))


def workbook(
    sheets: Mapping[str, str], *, hidden: Sequence[str] = (), packed: int = zipfile.ZIP_STORED
) -> bytes:
    """Return an XLSX file of sheets that are XML already."""
    parts = {
        "[Content_Types].xml": _content_types(len(sheets)),
        "_rels/.rels": _relations([("officeDocument", "xl/workbook.xml")]),
        "xl/workbook.xml": _book(sheets, hidden),
        "xl/_rels/workbook.xml.rels": _relations(
            [
                *(("worksheet", f"worksheets/sheet{n}.xml") for n in range(1, len(sheets) + 1)),
                ("styles", "styles.xml"),
            ]
        ),
        "xl/styles.xml": _STYLES,
    }
    parts |= {f"xl/worksheets/sheet{n}.xml": xml for n, xml in enumerate(sheets.values(), start=1)}
    return zipped({name: text.encode() for name, text in parts.items()}, packed)


def zipped(parts: Mapping[str, bytes], packed: int = zipfile.ZIP_STORED) -> bytes:
    """Return a zip file of parts, its times the same always."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as file:
        for name, content in parts.items():
            info = zipfile.ZipInfo(name, (2026, 3, 14, 3, 12, 0))
            info.compress_type = packed
            info.create_system = 3
            file.writestr(info, content)
    return made.getvalue()


def _book(sheets: Mapping[str, str], hidden: Sequence[str]) -> str:
    state = dict.fromkeys(hidden, ' state="hidden"')
    listed = "".join(
        f'<sheet name="{escape(name)}" sheetId="{n}" r:id="rId{n}"{state.get(name, "")}/>'
        for n, name in enumerate(sheets, start=1)
    )
    return f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheets>{listed}</sheets></workbook>'


def _relations(targets: Sequence[tuple[str, str]]) -> str:
    lines = "".join(
        f'<Relationship Id="rId{n}" Type="{OFFICE}/{kind}" Target="{target}"/>'
        for n, (kind, target) in enumerate(targets, start=1)
    )
    return f'<Relationships xmlns="{PACKAGE}/relationships">{lines}</Relationships>'


def _content_types(sheets: int) -> str:
    kind = "application/vnd.openxmlformats-officedocument.spreadsheetml"
    parts = [("workbook", "sheet.main"), ("styles", "styles")]
    parts += [(f"worksheets/sheet{n}", "worksheet") for n in range(1, sheets + 1)]
    over = "".join(
        f'<Override PartName="/xl/{part}.xml" ContentType="{kind}.{what}+xml"/>'
        for part, what in parts
    )
    return (
        f'<Types xmlns="{PACKAGE}/content-types"><Default Extension="rels" '
        'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Default Extension="xml" ContentType="application/xml"/>{over}</Types>'
    )


_STYLES = (
    f'<styleSheet xmlns="{MAIN}"><cellXfs count="2"><xf numFmtId="0"/>'
    '<xf numFmtId="14" applyNumberFormat="1"/></cellXfs></styleSheet>'
)
