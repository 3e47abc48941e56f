"""A list that is far too large, or made to harm, is refused in a sentence, in little time and room.

Each is read in a process of its own that may use no more than so much memory and time.
"""

from __future__ import annotations

import subprocess
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.tally.feeds.lists.invented import feet, hundredths
from tests.tally.feeds.lists.sheets import numbered, sheet_xml, workbook, zipped

ROOT = Path(__file__).parents[4]
MEMORY = 900 * 1024 * 1024
"""Bytes of address space; the program itself takes about a third of them."""
SECONDS = 12
"""Of processor time."""
PROGRAM = """
import resource, sys
from pathlib import Path
resource.setrlimit(resource.RLIMIT_AS, (int(sys.argv[2]), int(sys.argv[2])))
resource.setrlimit(resource.RLIMIT_CPU, (int(sys.argv[3]), int(sys.argv[3])))
from tally.errors import JobFileError
from tally.feeds.rig_list import open_list, preview_of
from tests.tally.feeds.lists.against import JOBS
try:
    found = preview_of(open_list(Path(sys.argv[1])), JOBS["feet"])
    print(found.count, len(found.doubts))
except JobFileError as refusal:
    print(refusal)
"""


def read_within_limits(path: Path) -> str:
    """Return what becomes of a list in a process that may not use much."""
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM, str(path), str(MEMORY), str(SECONDS)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert done.returncode == 0, (done.returncode, done.stderr[-2000:])
    return done.stdout.strip()


def many_rows(count: int) -> bytes:
    """Return a CSV file of so many joints."""
    rows = (f"{number},{feet(number)},77A,\r\n" for number in range(1, count + 1))
    return ("Joint,Length,Heat,Remarks\r\n" + "".join(rows)).encode()


def many_sheet_rows(count: int) -> bytes:
    """Return a spreadsheet of so many joints."""
    rows = [("Joint", "Length"), *((n, hundredths(n) / 100) for n in range(1, count + 1))]
    return workbook({"Tally": sheet_xml(numbered(rows))}, packed=zipfile.ZIP_DEFLATED)


def bomb() -> bytes:
    """Return a spreadsheet of a few hundred kilobytes that unpacks to 100 MB."""
    sheet = sheet_xml({1: ("Joint", "Length")}).replace(
        "</sheetData>", f"</sheetData>{' ' * (100 * 1024 * 1024)}"
    )
    return workbook({"Tally": sheet}, packed=zipfile.ZIP_DEFLATED)


def lying_bomb() -> bytes:
    """Return the same with a directory that says it unpacks to 1,000 bytes."""
    content = bytearray(bomb())
    place = content.rindex(b"xl/worksheets/sheet1.xml") - 46
    assert content[place : place + 4] == b"PK\x01\x02"
    content[place + 24 : place + 28] = (1_000).to_bytes(4, "little")
    return bytes(content)


def with_sheet(xml: str) -> bytes:
    """Return a spreadsheet with a sheet of our own making."""
    return workbook({"Tally": xml}, packed=zipfile.ZIP_DEFLATED)


def far_cells() -> bytes:
    """Return a sheet that says it is the largest there can be, and has a cell at each end."""
    xml = sheet_xml({1: ("Joint", "Length")})
    xml = xml.replace("<sheetData>", '<dimension ref="A1:XFD1048576"/><sheetData>')
    return with_sheet(
        xml.replace(
            "</sheetData>", "<row r='1048576'><c r='XFD1048576'><v>1</v></c></row></sheetData>"
        )
    )


def low_cell() -> bytes:
    """Return a sheet with a cell in the last row that there can be."""
    xml = sheet_xml({1: ("Joint", "Length")})
    return with_sheet(
        xml.replace(
            "</sheetData>", "<row r='1048576'><c r='D1048576'><v>1</v></c></row></sheetData>"
        )
    )


def far_cell_without_a_row() -> bytes:
    """Return a sheet with its far cell in no row of its own, under a name of another space."""
    return with_sheet(
        '<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main">'
        "<x:sheetData><x:row><x:c r='A1'><x:v>1</x:v></x:c>"
        "<x:c r='XFD1048576'><x:v>1</x:v></x:c></x:row></x:sheetData></x:worksheet>"
    )


def entities() -> bytes:
    """Return a sheet whose text grows by entities."""
    lines = ['<!ENTITY a0 "41.35 41.35 41.35 41.35 41.35">']
    lines += [f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 10)]
    xml = sheet_xml({1: ("Joint", "Length", "text")}).replace("text", "&a9;")
    return with_sheet(f"<!DOCTYPE worksheet [{''.join(lines)}]>{xml}")


def many_elements() -> bytes:
    """Return a sheet of five million elements."""
    return with_sheet(
        sheet_xml({1: ("Joint", "Length")}).replace(
            "</sheetData>", f"{'<a/>' * 5_000_000}</sheetData>"
        )
    )


def many_parts() -> bytes:
    """Return a spreadsheet of two thousand parts."""
    return zipped({"xl/workbook.xml": b"<a/>", **{f"xl/a{n}.xml": b"<a/>" for n in range(2_000)}})


REFUSED: dict[str, tuple[Callable[[], bytes], str]] = {
    "200,000 rows": (lambda: many_rows(200_000), "has more than 20,000 rows"),
    "200,000 rows of a sheet": (lambda: many_sheet_rows(200_000), "has more than 20,000 rows"),
    "a bomb": (bomb, "unpacks to more than 40 MB"),
    "a bomb that lies": (lying_bomb, "is broken"),
    "far cells": (far_cells, "reaches to row 1,048,576, column 16,384"),
    "a low cell": (low_cell, "reaches to row 1,048,576, column 4"),
    "a far cell without a row": (far_cell_without_a_row, "reaches to row 1,048,576"),
    "entities": (entities, "has declarations of its own"),
    "many elements": (many_elements, "unpacks to more than 40 MB"),
    "many parts": (many_parts, "has 2,001 parts"),
    "a large file": (lambda: b"1,41.35\n" * 1_400_000, "is larger than 10 MB"),
    "one line": (lambda: b"41.35 " * 1_500_000, "is no CSV (field larger than field limit"),
    "one row": (lambda: b"Joint,Length\n" + b"1," * 4_000_000, "has 4,000,001 cells"),
    "quotes": (lambda: b'Joint,Length\n"' + b'""' * 4_000_000, "is no CSV"),
    "columns": (
        lambda: with_sheet(sheet_xml({1: ("Joint", "Length", *["x"] * 300)})),
        "reaches to row 1, column 257",
    ),
}


@pytest.mark.parametrize("name", list(REFUSED))
def test_it_is_refused_in_a_sentence(name: str, tmp_path: Path) -> None:
    make, sentence = REFUSED[name]
    path = tmp_path / "list.csv"
    path.write_bytes(make())
    told = read_within_limits(path)
    assert sentence in told
    assert "\n" not in told
    assert told.endswith(".")


def test_the_largest_list_is_read_in_time(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(many_rows(19_999))
    assert read_within_limits(path) == "19999 0"


def test_no_pipe_and_no_device_is_waited_for(tmp_path: Path) -> None:
    assert "There is no list" in read_within_limits(Path("/dev/zero"))
    assert "There is no list" in read_within_limits(tmp_path)
    assert "There is no list 'none.csv'" in read_within_limits(tmp_path / "none.csv")
