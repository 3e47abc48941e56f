"""The plain pipe list: a CSV file with the number and the length of every joint."""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from fractions import Fraction
from pathlib import Path

from tally.errors import InputError, JobFileError
from tally.feeds.item_numbers import as_painted, item_number
from tally.feeds.opening import read_text, refused, unread
from tally.job.entries.pipe import Arrival
from tally.job.setup import ITEM_KINDS, Pipe
from tally.units import TallyStep, clean, shown

COLUMNS = ("number", "length", "kind", "pipe", "description")
NEEDED = ("number", "length")
MOST_MEGABYTES = 5
MOST_ROWS = 20_000
MOST_FAULTS = 200


@dataclass(frozen=True, slots=True)
class ListRules:
    """What a list is read with: the tally, the make-up loss, the pipe of the job."""

    step: TallyStep
    make_up_loss: Fraction | None = None
    pipes: tuple[Pipe, ...] | None = None
    """Nothing where the pipe is not known: then it is not held against the list."""

    def pipe(self, name: str) -> Pipe | None:
        """Return the pipe of a name, the first where none is named, or nothing."""
        pipes = self.pipes or ()
        return next((pipe for pipe in pipes if name in ("", pipe.name)), None)


@dataclass(slots=True)
class _Reading:
    rules: ListRules
    numbers: dict[str, int] = field(default_factory=dict)
    """The row of each number read so far, by what it looks like on the pipe."""
    faults: list[str] = field(default_factory=list)

    def fault(self, row: int, sentence: str) -> None:
        self.faults.append(f"Row {row}: {sentence}")


def read_pipe_list(path: Path, rules: ListRules) -> tuple[Arrival, ...]:
    """Return the items of a pipe list, in the order of the file.

    Parameters
    ----------
    path : Path
        A CSV file, UTF-8, with commas or semicolons; its first row names the columns: number
        and length, and if wanted kind, pipe and description
    rules : ListRules
        The tally, the make-up loss that is taken off each length, and the pipe of the job

    Raises
    ------
    JobFileError
        If the file cannot be read or any row is doubtful; `faults` names every such row, as a
        spreadsheet counts rows, the header being row 1.
    """
    text = read_text(path, "pipe list", MOST_MEGABYTES)
    name = shown(path.name, 60)
    try:
        return parse_pipe_list(text, rules)
    except JobFileError as error:
        raise refused(
            f"The pipe list '{name}' has", tuple(f"{name}. {each}" for each in error.faults)
        ) from None


def parse_pipe_list(text: str, rules: ListRules) -> tuple[Arrival, ...]:
    """Return the items of the text of a pipe list.

    >>> from tally.units import tally_step
    >>> rules = ListRules(tally_step("ft"))
    >>> [one.length for one in parse_pipe_list("number,length\\n1,41.35\\n2,40.07", rules)]
    [4135, 4007]
    """
    rows = _rows(text)
    columns = _columns(rows[0][1])
    reading = _Reading(rules)
    found = [
        _arrival(reading, row, _cells(reading, row, columns, cells)) for row, cells in rows[1:]
    ]
    if not found and not reading.faults:
        raise unread("The list has no joint in it, only the row that names the columns.")
    if reading.faults:
        raise refused("The pipe list has", _not_endless(reading.faults))
    return tuple(each for each in found if each is not None)


def _not_endless(faults: Sequence[str]) -> tuple[str, ...]:
    more = len(faults) - MOST_FAULTS
    rest = (f"There are {more:,} more faults in this list.",) if more > 0 else ()
    return (*faults[:MOST_FAULTS], *rest)


def _rows(text: str) -> list[tuple[int, Sequence[str]]]:
    """Return the rows with something in them, each with its place in the file."""
    first = text.lstrip("\r\n ").partition("\n")[0]
    mark = ";" if first.count(";") > first.count(",") else ","
    reader = csv.reader(text.splitlines(keepends=True), delimiter=mark, strict=True)
    rows: list[tuple[int, Sequence[str]]] = []
    before = 0
    try:
        for cells in reader:
            place, before = before + 1, reader.line_num
            if any(cell.strip() for cell in cells):
                rows.append((place, cells))
            if len(rows) > MOST_ROWS + 1:
                raise unread(f"The list has more than {MOST_ROWS:,} rows and is not read.")
    except csv.Error as error:
        raise unread(f"Row {before + 1}: the row is no CSV ({shown(str(error), 80)}).") from None
    if not rows:
        raise unread('The list is empty; its first row must name the columns: "number,length".')
    return rows


def _columns(cells: Sequence[str]) -> tuple[str, ...]:
    """Return the names of the columns, or say which are missing or not known."""
    names = tuple(cell.strip().casefold() for cell in cells)
    while names and not names[-1]:
        names = names[:-1]
    faults = [_unknown(name) for name in names if name not in COLUMNS]
    faults += [
        f"Row 1: the column '{name}' is there twice; leave one out."
        for name in dict.fromkeys(names)
        if name in COLUMNS and names.count(name) > 1
    ]
    faults += [
        f"Row 1: there is no column '{name}'; the first row must name number and length."
        for name in NEEDED
        if name not in names
    ]
    if faults:
        raise refused("The pipe list has", faults)
    return names


def _unknown(name: str) -> str:
    near = get_close_matches(name, COLUMNS, 1)
    advice = f"did you mean {near[0]}?" if near else f"the columns are {', '.join(COLUMNS)}."
    return f"Row 1: the column '{shown(name)}' is not known; {advice}"


def _cells(
    reading: _Reading, row: int, columns: tuple[str, ...], cells: Sequence[str]
) -> Mapping[str, str]:
    """Return the texts of a row by column, each fit to be kept."""
    if any(cell.strip() for cell in cells[len(columns) :]):
        reading.fault(row, f"has {len(cells)} cells, more than the {len(columns)} columns named.")
    kept = dict.fromkeys(COLUMNS, "")
    for column, cell in zip(columns, cells, strict=False):
        try:
            kept[column] = clean(cell)
        except InputError as fault:
            reading.fault(row, str(fault))
    return kept


def _arrival(reading: _Reading, row: int, cells: Mapping[str, str]) -> Arrival | None:
    """Return the item of a row, or note everything that is wrong with it."""
    before = len(reading.faults)
    kind = cells["kind"] or "joint"
    if kind not in ITEM_KINDS:
        kinds = ", ".join(ITEM_KINDS)
        reading.fault(row, f"'{shown(kind)}' is no kind of item; use one of {kinds}.")
    pipe = reading.rules.pipe(cells["pipe"])
    if cells["pipe"] and pipe is None and reading.rules.pipes is not None:
        names = ", ".join(shown(each.name) for each in reading.rules.pipes)
        reading.fault(row, f"there is no pipe '{shown(cells['pipe'])}' in the job; it has {names}.")
    _number(reading, row, cells["number"])
    length = _length(reading, row, cells, pipe if kind == "joint" else None)
    if len(reading.faults) > before:
        return None
    return Arrival(
        number=cells["number"],
        length=length,
        typed=cells["length"],
        kind=kind,
        pipe=cells["pipe"],
        description=cells["description"],
    )


def _number(reading: _Reading, row: int, number: str) -> None:
    """Note a number that is missing, cannot be typed, or is on another row already."""
    if not number:
        reading.fault(row, "has no number; paint one on the joint and type it here.")
        return
    try:
        item_number(number)
    except InputError as fault:
        reading.fault(row, str(fault))
        return
    first = reading.numbers.setdefault(as_painted(number), row)
    if first != row:
        reading.fault(row, f"number {number} stands on row {first} already; give each its own.")


def _length(reading: _Reading, row: int, cells: Mapping[str, str], pipe: Pipe | None) -> int:
    """Return the length of a row in steps; 0 where it is missing, unread or out of range."""
    if not cells["length"]:
        reading.fault(row, f"number {shown(cells['number'])} has no length; measure the joint.")
        return 0
    rules = reading.rules
    try:
        length = rules.step.read(cells["length"], rules.make_up_loss)
    except InputError as fault:
        reading.fault(row, str(fault))
        return 0
    if length <= 0:
        reading.fault(row, f"number {shown(cells['number'])} has a length of nothing; measure it.")
    elif pipe and pipe.shortest and pipe.longest and not _in_range(rules.step, pipe, length):
        reading.fault(
            row,
            f"{rules.step.with_unit(length)} is outside {pipe.shortest.text} to "
            f"{pipe.longest.text}, the range of {shown(pipe.name)}; measure it again.",
        )
    return length


def _in_range(step: TallyStep, pipe: Pipe, length: int) -> bool:
    assert pipe.shortest is not None  # asked for by the caller
    assert pipe.longest is not None
    return step.steps(pipe.shortest.value) <= length <= step.steps(pipe.longest.value)
