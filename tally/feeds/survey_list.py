"""A survey from a CSV file: measured depth, inclination and azimuth, station by station."""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from pathlib import Path

from tally.errors import InputError, JobFileError
from tally.feeds.opening import read_text, refused, unread
from tally.units import read, shown

MOST_MEGABYTES = 2
MOST_STATIONS = 5_000
MOST_FAULTS = 100
MARKS = (";", "\t", ",")

COLUMNS = {
    "measured_depth": ("md", "measured depth", "depth", "mdepth", "meas depth", "depth md"),
    "inclination": ("inc", "incl", "inclination", "inclin", "deviation", "angle"),
    "azimuth": ("azi", "azim", "az", "azimuth", "direction", "hole direction"),
}
"""What the columns may be called, capitals and marks left aside."""
QUANTITIES = {"measured_depth": "length", "inclination": "angle", "azimuth": "angle"}
DEGREES = {"deg", "degree", "degrees", "\u00b0", "degs"}
FEET, METRES = {"ft", "feet", "foot", "usft", "ftkb", "ftrkb"}, {"m", "metre", "meter", "metres",
                                                                 "meters", "mrkb"}  # fmt: skip

Columns = dict[str, tuple[int, str]]
"""Where each column is, and the unit that its title names."""


def read_survey(path: Path, unit: str) -> tuple[dict[str, str], ...]:
    """Return the stations of a file, each by key as it may be typed into the form.

    Parameters
    ----------
    path : Path
        A CSV file with commas, semicolons or tabs; one row names the columns, which may stand in
        any order and among others
    unit : str
        The unit of depths where neither the title of the column nor the number names one

    Raises
    ------
    JobFileError
        If the file cannot be read or any station is doubtful; `faults` names every such row, as a
        spreadsheet counts rows.
    """
    text = read_text(path, "survey", MOST_MEGABYTES)
    try:
        return parse_survey(text, unit)
    except JobFileError as error:
        name = shown(path.name, 60)
        faults = [f"{name}. {each}" for each in error.faults]
        raise refused(f"The survey '{name}' has", faults) from None


def parse_survey(text: str, unit: str) -> tuple[dict[str, str], ...]:
    """Return the stations of the text of a file.

    >>> parse_survey("MD (ft);Inc;Azi\\n3300;0,8;117", "m")
    ({'measured_depth': '3300 ft', 'inclination': '0.8 deg', 'azimuth': '117 deg'},)
    """
    rows = _rows(text)
    start, columns = _columns(rows)
    faults: list[str] = []
    stations = [
        _station(place, cells, columns, unit, faults) for place, cells in rows[start:] if cells
    ]
    if not stations:
        raise unread("The survey has no station in it, only the row that names the columns.")
    if faults:
        more = len(faults) - MOST_FAULTS
        rest = [f"There are {more:,} more faults in this file."] if more > 0 else []
        raise refused("The survey has", [*faults[:MOST_FAULTS], *rest])
    return tuple(stations)


def _rows(text: str) -> list[tuple[int, Sequence[str]]]:
    """Return the rows with something in them, each with its place in the file."""
    mark = _mark(text)
    rows: list[tuple[int, Sequence[str]]] = []
    try:
        for cells in (reader := csv.reader(text.splitlines(), delimiter=mark)):
            if any(cell.strip() for cell in cells):
                rows.append((reader.line_num, cells))
            if len(rows) > MOST_STATIONS + 50:
                raise unread(f"The survey has more than {MOST_STATIONS:,} rows and is not read.")
    except csv.Error as error:
        raise unread(f"The survey is no CSV ({shown(str(error), 80)}).") from None
    return rows


def _mark(text: str) -> str:
    """Return what parts the cells: what stands most often in the line that names the columns."""
    for line in text.splitlines()[:50]:
        for mark in MARKS:
            if len(_named(line.split(mark))) == len(COLUMNS):
                return mark
    return ","


def _columns(rows: Sequence[tuple[int, Sequence[str]]]) -> tuple[int, Columns]:
    """Return where the stations begin and which column is which."""
    best: Columns = {}
    for place, (_, cells) in enumerate(rows[:50]):
        found = _named(cells)
        if len(found) == len(COLUMNS):
            return place + 1, found
        best = max(best, found, key=len)
    missing = ", ".join(name.replace("_", " ") for name in COLUMNS if name not in best)
    raise unread(
        f"The survey has no column for: {missing}. One row must name the columns, like "
        '"MD (ft), inclination, azimuth".'
    )


def _named(cells: Sequence[str]) -> Columns:
    found: Columns = {}
    for place, cell in enumerate(cells):
        title, unit = _title(cell)
        for name, words in COLUMNS.items():
            if title in words and name not in found:
                found[name] = (place, unit)
    return found


def _title(cell: str) -> tuple[str, str]:
    """Return the words of a title and the unit that it names.

    >>> _title("MD [ft]"), _title("Measured_Depth"), _title("Inc. (deg)")
    (('md', 'ft'), ('measured depth', ''), ('inc', 'deg'))
    """
    plain = cell.strip().casefold()
    inside = re.search(r"[(\[]([^)\]]*)[)\]]", plain)
    unit = re.sub(r"[^a-z\u00b0]", "", inside[1]) if inside else ""
    title = re.sub(r"[(\[].*?[)\]]", " ", plain)
    words = re.sub(r"[^a-z]+", " ", title).split()
    known = FEET | METRES | DEGREES
    if not unit and len(words) > 1 and words[-1] in known:
        unit = words.pop()
    named = {**dict.fromkeys(FEET, "ft"), **dict.fromkeys(METRES, "m")}
    return " ".join(words), named.get(unit, "deg" if unit in DEGREES else unit)


def _station(
    place: int, cells: Sequence[str], columns: Columns, unit: str, faults: list[str]
) -> dict[str, str]:
    station = {}
    for name, (column, named) in columns.items():
        text = cells[column].strip() if column < len(cells) else ""
        quantity = QUANTITIES[name]
        assumed = named or (unit if quantity == "length" else "deg")
        try:
            station[name] = read(text, quantity, assumed).text
        except InputError as fault:
            faults.append(f"Row {place}: {name.replace('_', ' ')}: {fault}")
    return {name: station[name] for name in COLUMNS if name in station}
