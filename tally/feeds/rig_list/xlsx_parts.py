"""The parts of an XLSX file, unpacked no further than is allowed, looked through, and repacked.

A spreadsheet file is a zip of XML. What it says of its own size is not believed: its parts are
unpacked here up to a limit, and what its cells would take is counted before a reader sees them,
because a reader lays out every cell from the first to the last one, however far apart they are.
"""

from __future__ import annotations

import io
import zipfile
import zlib
from typing import Any

from tally.errors import JobFileError
from tally.feeds.opening import unread
from tally.feeds.rig_list.limits import (
    MEGABYTE,
    MOST_CELLS,
    MOST_COLUMNS,
    MOST_ELEMENTS,
    MOST_PARTS,
    MOST_ROWS,
    MOST_UNPACKED_MEGABYTES,
)

_CHUNK = 64 * 1024
_VALUES = frozenset({"v", "is", "t", "f"})
_LEFT_OUT = ("xl/media/", "xl/drawings/", "xl/charts/", "docProps/", "customXml/")


def repacked(content: bytes, name: str) -> bytes:
    """Return a spreadsheet with only the parts that hold its cells, each within the limits.

    Raises
    ------
    JobFileError
        If the file is no spreadsheet, is broken, or unpacks to more than is read.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            return _repacked(packed, name)
    except JobFileError:
        raise
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, KeyError) as error:
        raise _broken(name, str(error)) from None
    except (NotImplementedError, RuntimeError):
        raise unread(
            f"The list '{name}' is locked with a password or packed in a way that is not read; "
            "save it as a plain XLSX or CSV file."
        ) from None


def _broken(name: str, why: str = "") -> JobFileError:
    from tally.units import shown

    said = f" ({shown(why, 60)})" if why else ""
    return unread(f"The spreadsheet '{name}' is broken{said}; save it again or save it as CSV.")


def _repacked(packed: zipfile.ZipFile, name: str) -> bytes:
    parts = packed.infolist()
    if len(parts) > MOST_PARTS:
        raise unread(f"The spreadsheet '{name}' has {len(parts):,} parts and is not read.")
    if "xl/workbook.xml" not in packed.namelist():
        raise unread(f"The file '{name}' is no XLSX spreadsheet; save it as XLSX or CSV.")
    wanted = [part for part in parts if _wanted(part.filename)]
    room = MOST_UNPACKED_MEGABYTES * MEGABYTE
    if sum(part.file_size for part in wanted) > room:
        raise _too_large(name)
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_STORED) as again:
        for part in wanted:
            unpacked = _unpacked(packed, part, room, name)
            room -= len(unpacked)
            _look_through(unpacked, name)
            again.writestr(part.filename, unpacked)
    return made.getvalue()


def _wanted(part: str) -> bool:
    return part.endswith((".xml", ".rels")) and not part.startswith(_LEFT_OUT)


def _too_large(name: str) -> JobFileError:
    return unread(
        f"The spreadsheet '{name}' unpacks to more than {MOST_UNPACKED_MEGABYTES} MB and is not "
        "read; save the one sheet with the list as CSV."
    )


def _unpacked(packed: zipfile.ZipFile, part: zipfile.ZipInfo, room: int, name: str) -> bytes:
    pieces, size = [], 0
    with packed.open(part) as stream:
        while piece := stream.read(_CHUNK):
            size += len(piece)
            if size > room:
                raise _too_large(name)
            pieces.append(piece)
    return b"".join(pieces)


def _look_through(unpacked: bytes, name: str) -> None:
    """Refuse a part that would take more room as cells than is allowed."""
    from xml.parsers import expat

    reading = _Bounds(name)
    parser = expat.ParserCreate()
    parser.StartElementHandler = reading.start
    parser.StartDoctypeDeclHandler = reading.doctype
    try:
        parser.Parse(unpacked, True)
    except expat.ExpatError as error:
        raise _broken(name, str(error)) from None


class _Bounds:
    """How far the cells of a part reach, counted as a reader counts them."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.elements = self.row = self.column = self.width = self.rows = 0
        self.counted = -1

    def doctype(self, *_given: Any) -> None:
        raise unread(f"The spreadsheet '{self.name}' has declarations of its own; save it anew.")

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        self.elements += 1
        if self.elements > MOST_ELEMENTS:
            raise _too_large(self.name)
        tag = tag.rpartition(":")[2]
        if tag == "row":
            self.row = _number(attributes.get("r", ""), self.row + 1)
            self.column = 0
        elif tag == "c":
            letters = attributes.get("r", "").rstrip("0123456789")
            self.row = _number(attributes.get("r", "")[len(letters) :], self.row)
            self.column = _column(letters) or self.column + 1
        elif tag in _VALUES:
            self._reaches()

    def _reaches(self) -> None:
        self.width = max(self.width, self.column)
        if self.row != self.counted:
            self.counted = self.row
            self.rows += 1
        if self.rows > MOST_ROWS:
            raise unread(
                f"The list '{self.name}' has more than {MOST_ROWS:,} rows and is not read."
            )
        if self.width > MOST_COLUMNS or self.row * self.width > MOST_CELLS:
            raise unread(
                f"A sheet of '{self.name}' reaches to row {self.row:,}, column {self.width:,}; "
                "take out what stands far off the list, or save the list as CSV."
            )


def _number(text: str, otherwise: int) -> int:
    return int(text) if text.isascii() and text.isdigit() and len(text) < 10 else otherwise


def _column(letters: str) -> int:
    """Return the number of a column by its letters, from 1; 0 if there are none."""
    if not (letters.isascii() and letters.isalpha() and len(letters) < 5):
        return 0
    place = 0
    for letter in letters.upper():
        place = place * 26 + ord(letter) - 64
    return place
