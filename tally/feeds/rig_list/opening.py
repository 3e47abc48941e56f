"""Opening a list as a rig wrote it: what it is is told by what is in it, not by its name."""

from __future__ import annotations

import hashlib
from pathlib import Path

from tally.feeds.opening import unread
from tally.feeds.rig_list.cells import ListFile
from tally.feeds.rig_list.csv_rows import csv_rows
from tally.feeds.rig_list.encoding import decoded
from tally.feeds.rig_list.layout import is_list
from tally.feeds.rig_list.limits import MEGABYTE, MOST_MEGABYTES
from tally.units import shown

_OTHERS = (
    (b"\xd0\xcf\x11\xe0", "an older spreadsheet, or one locked with a password"),
    (b"%PDF", "a PDF page"),
    (b"{\\rtf", "a text document"),
    (b"\x1f\x8b", "a packed file"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"<", "a web page or an XML file"),
    (b"SQLite format 3", "a database"),
)


def open_list(path: Path) -> ListFile:
    """Return a list as rows of cells.

    Parameters
    ----------
    path : Path
        A CSV file (commas, semicolons, tabs or bars; UTF-8, UTF-16 or a code page), or XLSX

    Raises
    ------
    JobFileError
        If there is no such file, it is too large, is neither CSV nor XLSX, or is broken.
    """
    return opened(_read(path, shown(path.name, 60)), path.name)


def opened(content: bytes, file_name: str) -> ListFile:
    """Return the contents of a list as rows of cells."""
    name = shown(file_name, 60)
    sha256 = hashlib.sha256(content).hexdigest()
    if content.startswith(b"PK\x03\x04"):
        from tally.feeds.rig_list.xlsx_rows import xlsx_rows

        rows, sheet, notes = xlsx_rows(content, name, is_list)
        return ListFile(file_name, sha256, f"XLSX, sheet '{shown(sheet, 31)}'", rows, notes)
    for begins, what in _OTHERS:
        if content.lstrip(b" \r\n\t").startswith(begins):
            raise unread(f"The list '{name}' is {what}; save it as XLSX or CSV.")
    text, encoding = decoded(content, name)
    rows, parted = csv_rows(text, name)
    if not rows:
        raise unread(f"The list '{name}' is empty; look at the file.")
    return ListFile(file_name, sha256, f"CSV with {parted}, {encoding}", rows, parted=parted)


def _read(path: Path, name: str) -> bytes:
    try:
        if not path.is_file():
            raise unread(f"There is no list '{name}'; look at its name and its folder.")
        with path.open("rb") as file:
            content = file.read(MOST_MEGABYTES * MEGABYTE + 1)
    except (OSError, ValueError) as error:
        why = shown(getattr(error, "strerror", None) or str(error), 120)
        raise unread(f"The list '{name}' could not be opened: {why}.") from None
    if len(content) > MOST_MEGABYTES * MEGABYTE:
        raise unread(f"The list '{name}' is larger than {MOST_MEGABYTES} MB and is not read.")
    return content
