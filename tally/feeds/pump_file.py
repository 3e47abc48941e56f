"""A pump file that another program recorded: whole, or followed while it grows.

made = read_pump_file(Path("job.csv"))          # rows, or the questions that are open
made = read_pump_file(text, asked={"unit of pressure": "psi"})

follower = PumpFollower(Path("job.csv"))        # each time: the rows that are new and whole
news = follower.look()
follower.place                                  # up to where; PumpPlace.fits says it later
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

from tally.feeds.opening import MEGABYTE, read_text, unread
from tally.feeds.pump_columns import ALL, Columns, columns_of, told_by, unit_for
from tally.feeds.pump_rows import PumpRow, RowReader
from tally.units import shown

MOST_MEGABYTES = 64
MOST_FAULTS = 100
_MARKS = (";", "\t", ",", "|")
_MOST_BEFORE_TITLES = 50
_LONGEST_LINE = 5_000
_FINGERPRINT = 256


@dataclass(frozen=True, slots=True)
class PumpFile:
    """What a file holds; while there are doubts there are no rows."""

    rows: tuple[PumpRow, ...]
    doubts: Mapping[str, str]
    """By what `asked` may answer, the question in a sentence."""
    faults: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class News:
    """What one look at a growing file brought."""

    rows: tuple[PumpRow, ...]
    doubts: Mapping[str, str]
    faults: tuple[str, ...]
    anew: bool = False
    """The file was replaced or became shorter, and is read from its start."""
    more: bool = False
    """Whole lines were left for the next look."""


def read_pump_file(source: str | Path, asked: Mapping[str, str] | None = None) -> PumpFile:
    """Return the rows of the text of a file, or of the file at a path.

    >>> text = "Time (s),Volume (bbl),Pressure (psi)\\n0,10.0,800\\n5,10.4,806\\n"
    >>> [round(row.pressure / 6894.757) for row in read_pump_file(text).rows]
    [800, 806]
    >>> read_pump_file("Time (s),Volume,Pressure (psi)\\n0,10.0,800\\n").doubts
    {'unit of volume': 'In which unit is the column "Volume": bbl or gal or ft3 or m3?'}

    Raises
    ------
    JobFileError
        If there is no such file, or it is too large, or no UTF-8 text.
    """
    text = read_text(source, "pump file", MOST_MEGABYTES) if isinstance(source, Path) else source
    lines = _Lines(asked or {})
    whole, _, torn = text.replace("\r\n", "\n").replace("\r", "\n").rpartition("\n")
    rows = [row for line in whole.split("\n") if (row := lines.take(line)) is not None]
    if torn.strip():
        lines.tell(f"Line {lines.number + 1} has no end and is left out: the file was cut there.")
    if lines.columns is None:
        lines.tell("No line names the columns, like: Time (s), Volume (bbl), Pressure (psi).")
    return PumpFile(tuple(rows), lines.doubts(), lines.told())


@dataclass(frozen=True, slots=True)
class PumpPlace:
    """A place in a file, with marks of how the file begins and of what stands before the place."""

    read: int
    first: str
    last: str

    def fits(self, path: Path) -> bool:
        """Whether the file still holds what was read up to here."""
        return _marks(path, self.read) == (self.first, self.last)

    def begins(self, path: Path) -> bool:
        """Whether the file at least begins as the one that was read did."""
        return bool(self.read) and _marks(path, min(self.read, _FINGERPRINT))[0] == self.first


def _marks(path: Path, read: int) -> tuple[str, str]:
    """Return the marks of a file as far as it was read; of a shorter one they are others."""
    try:
        with path.open("rb") as opened:
            if opened.seek(0, 2) < read:
                return "", ""
            opened.seek(0)
            first = opened.read(min(read, _FINGERPRINT))
            opened.seek(max(0, read - _FINGERPRINT))
            return _mark(first), _mark(opened.read(min(read, _FINGERPRINT)))
    except OSError:
        return "", ""


def _mark(text: bytes) -> str:
    return sha256(text).hexdigest()[:16]


class PumpFollower:
    """Reads what a growing file has new, as far as its lines are whole; holds no rows."""

    def __init__(self, path: Path, asked: Mapping[str, str] | None = None) -> None:
        self._path = path
        self._asked = dict(asked or {})
        self._begin()

    def _begin(self) -> None:
        self._read = 0
        self._first = b""
        self._last = b""
        self._lines = _Lines(self._asked)

    @property
    def place(self) -> PumpPlace:
        """Up to where the file is read, by whole lines."""
        return PumpPlace(self._read, _mark(self._first), _mark(self._last))

    def look(self, most_lines: int | None = None) -> News:
        """Return the rows that are new since the last look, at most of a megabyte.

        Parameters
        ----------
        most_lines : int, optional
            How many lines are read at most; the rest is left for the next look

        Raises
        ------
        JobFileError
            If the file cannot be opened.
        """
        try:
            with self._path.open("rb") as opened:
                anew = self._another(opened.read(len(self._first)), opened.seek(0, 2))
                if not anew and self._read >= len(self._last):
                    opened.seek(self._read - len(self._last))
                    anew = opened.read(len(self._last)) != self._last
                if anew:
                    self._begin()
                opened.seek(self._read)
                chunk = opened.read(MEGABYTE)
        except OSError as error:
            why = shown(error.strerror or str(error), 120)
            name = shown(self._path.name, 60)
            raise unread(f"The pump file '{name}' could not be opened: {why}.") from None
        return self._news(chunk, anew, most_lines)

    def _another(self, start: bytes, size: int) -> bool:
        return size < self._read or start != self._first

    def _news(self, chunk: bytes, anew: bool, most_lines: int | None) -> News:
        whole = chunk[: chunk.rfind(b"\n") + 1]
        if not whole and len(chunk) == MEGABYTE:
            whole = chunk  # a line without an end is passed over as too long
        ready = len(whole)
        if most_lines is not None:
            whole = b"".join(whole.splitlines(keepends=True)[:most_lines])
        if anew:
            self._lines.tell("The file was replaced or became shorter; it is read from its start.")
        if len(self._first) < _FINGERPRINT and self._read < _FINGERPRINT:
            self._first = (self._first + whole)[:_FINGERPRINT]
        self._read += len(whole)
        self._last = (self._last + whole)[-_FINGERPRINT:]
        text = whole.decode("utf-8", "replace").removeprefix("\ufeff").replace("\r\n", "\n")
        rows = [row for line in text.split("\n")[:-1] if (row := self._lines.take(line))]
        more = len(whole) < ready or len(chunk) == MEGABYTE
        return News(tuple(rows), self._lines.doubts(), self._lines.told(), anew, more)


@dataclass
class _Lines:
    """Line after line: finds the titles, then makes rows; holds the last row only."""

    asked: Mapping[str, str]
    number: int = 0
    columns: Columns | None = None
    mark: str = ","
    reader: RowReader | None = None
    faults: list[str] = field(default_factory=list)
    more: int = 0

    def tell(self, fault: str) -> None:
        """Keep a fault, as long as there are not too many."""
        if len(self.faults) < MOST_FAULTS:
            self.faults.append(fault)
        else:
            self.more += 1

    def told(self) -> tuple[str, ...]:
        """Return the faults since the last time."""
        rest = [f"There are {self.more:,} more faults in this file."] if self.more else []
        told, self.faults, self.more = (*self.faults, *rest), [], 0
        return told

    def doubts(self) -> dict[str, str]:
        """Return the questions that are open."""
        asked = dict(self.columns.doubts) if self.columns else {}
        return asked | (self.reader.doubts if self.reader else {})

    def take(self, line: str) -> PumpRow | None:
        """Take one whole line; return its row, if it has one that can be read."""
        self.number += 1
        if len(line) > _LONGEST_LINE:
            self.tell(f"Line {self.number} is longer than {_LONGEST_LINE:,} letters; left out.")
            return None
        if not line.strip():
            return None
        named = self._titled(line) if self._may_be_titles(line) else False
        if named or self.reader is None:
            return None
        cells = _cells(line, self.mark)
        if self.reader.untouched and self._units_below(cells):
            return None
        if self.doubts():
            self.reader.first(cells)
            return None
        row, faults = self.reader.row(self.number, cells)
        for fault in faults:
            self.tell(fault)
        return None if self.doubts() else row

    def _may_be_titles(self, line: str) -> bool:
        return self.reader is None or _titles(line, self.mark) >= 2

    def _titled(self, line: str) -> bool:
        """Take a line of titles; later in the file it may change the columns."""
        mark = max(_MARKS, key=lambda each: _titles(line, each))
        if _titles(line, mark) < 2:
            if self.number == _MOST_BEFORE_TITLES:
                self.tell(f"No line names the columns up to line {self.number}.")
            return False
        found = columns_of(_cells(line, mark), self.asked)
        if self.columns is not None:
            self._changed(found)
        self.mark, self.columns = mark, found
        last = self.reader.last if self.reader else None
        self.reader = RowReader(found.known, self.asked, last)
        return True

    def _changed(self, found: Columns) -> None:
        """Say what is new in a second line of titles."""
        old = self.columns.known if self.columns else {}
        for meaning in ALL:
            was, now = old.get(meaning), found.known.get(meaning)
            if was and now and was.unit != now.unit:
                self.tell(
                    f'Line {self.number}, column "{shown(now.title, 40)}": the unit changes from '
                    f"{was.unit or 'none'} to {now.unit or 'none'}; it is read so from here on."
                )
            elif (was is None) != (now is None):
                gone = "is there no more" if now is None else "is new"
                self.tell(f"Line {self.number}: the column of {meaning} {gone} from here on.")

    def _units_below(self, cells: list[str]) -> bool:
        """Take a line of units below the titles."""
        assert self.columns is not None
        named = {
            f"unit of {meaning}": cells[column.place].strip(" ()[]")
            for meaning, column in self.columns.known.items()
            if column.place < len(cells) and unit_for(meaning, cells[column.place].strip(" ()[]"))
        }
        if not named or any(cell.strip()[:1].isdigit() for cell in cells):
            return False
        titles = [""] * (1 + max(column.place for column in self.columns.known.values()))
        for column in self.columns.known.values():
            titles[column.place] = column.title
        answers = {**named, **self.asked}
        self.columns = columns_of(titles, answers)
        self.reader = RowReader(self.columns.known, answers, None)
        return True


def _cells(line: str, mark: str) -> list[str]:
    try:
        return next(csv.reader([line], delimiter=mark), [])
    except csv.Error:
        return line.split(mark)


def _titles(line: str, mark: str) -> int:
    """Return how many meanings the cells of a line name, if it may be a line of titles."""
    if line[:1].isdigit():
        return 0
    return len({told_by(cell)[0] for cell in _cells(line, mark)} - {""})
