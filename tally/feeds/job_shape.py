"""The shape of a job file: each table read by itself, so that one fault does not hide another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, TypeVar

from tally.errors import InputError
from tally.feeds.job_words import TOP, like, near, not_like, shape_faults
from tally.job.limits import LIMITS
from tally.units import QUANTITIES, read, shown, unit_set

if TYPE_CHECKING:
    from tally.feeds.job_tables import LimitTable, Table

SOME_TABLES = ("units", "limits")
One = TypeVar("One", bound="Table")


@dataclass(slots=True)
class Shape:
    """What could be read of a job file, and the faults found so far."""

    tables: dict[str, Table] = field(default_factory=dict)
    lists: dict[str, tuple[Table, ...]] = field(default_factory=dict)
    limits: dict[str, LimitTable] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)
    top: dict[str, Any] = field(default_factory=dict)
    faults: list[str] = field(default_factory=list)
    spoilt: set[str] = field(default_factory=set)
    """The tables and top keys that are there and could not be read in full."""

    def table(self, name: str, kind: type[One]) -> One | None:
        """Return a table that was read, or nothing."""
        found = self.tables.get(name)
        return found if isinstance(found, kind) else None

    def rows(self, name: str, kind: type[One]) -> tuple[One, ...]:
        """Return those tables of a list that could be read."""
        return tuple(each for each in self.lists.get(name, ()) if isinstance(each, kind))

    def text(self, key: str) -> str:
        """Return a text from the top of the file, "" where there is none."""
        found = self.top.get(key, "")
        return found if isinstance(found, str) else ""

    def fault(self, where: str, sentence: str) -> None:
        """Add a fault of a table and key."""
        self.faults.append(f"{where}: {sentence}")


def shape_of(document: Mapping[str, Any]) -> Shape:
    """Return every table of a job file as far as it can be read."""
    from tally.feeds import job_tables

    shape = Shape()
    known = (*TOP, *job_tables.TABLES, *job_tables.LISTS, *SOME_TABLES)
    for name in document:
        if name not in known:
            otherwise = f"the tables are {', '.join(known[len(TOP) :])}."
            shape.fault(shown(name), f"is not known in a job file; {near(name, known, otherwise)}")
    _top(shape, document)
    for name, kind in job_tables.TABLES.items():
        if name in document:
            _one_table(shape, name, kind, document[name])
    for name, kind in job_tables.LISTS.items():
        if name in document:
            _many_tables(shape, name, kind, document[name])
    for name in job_tables.NEEDED:
        if name not in document:
            title = f"[[{name}]]" if name in job_tables.LISTS else f"[{name}]"
            shape.fault(title, "the table is missing; a job cannot be set up without it.")
    _units(shape, document.get("units", {}))
    _limits(shape, document.get("limits", {}))
    return shape


def _top(shape: Shape, document: Mapping[str, Any]) -> None:
    for key, example in TOP.items():
        given = document.get(key)
        wanted = list if example.startswith("[") else str
        fits = isinstance(given, wanted) and (
            isinstance(given, str) or all(isinstance(each, str) for each in given or ())
        )
        if fits:
            shape.top[key] = given
        elif key in document:
            shape.fault(key, not_like("", key, given))
            shape.spoilt.add(key)
        elif key != "checklists":
            shape.fault(key, f"is missing; write it like {like('', key)}.")
            shape.spoilt.add(key)


def _one_table(shape: Shape, name: str, kind: type[Table], given: Any) -> None:
    if not isinstance(given, Mapping):
        shape.fault(f"[{name}]", f"must be one table, [{name}] with single brackets.")
        shape.spoilt.add(name)
        return
    read = _validated(shape, f"[{name}]", kind, given)
    if read is None:
        shape.spoilt.add(name)
    else:
        shape.tables[name] = read


def _many_tables(shape: Shape, name: str, kind: type[Table], given: Any) -> None:
    if not isinstance(given, list) or not all(isinstance(each, Mapping) for each in given):
        shape.fault(f"[[{name}]]", f"must be tables, each [[{name}]] with double brackets.")
        shape.spoilt.add(name)
        return
    read = [
        _validated(shape, f"[[{name}]] {place}", kind, each)
        for place, each in enumerate(given, start=1)
    ]
    shape.lists[name] = tuple(each for each in read if each is not None)
    if None in read:
        shape.spoilt.add(name)


def _validated(shape: Shape, title: str, kind: type[One], given: Mapping[str, Any]) -> One | None:
    from pydantic import ValidationError

    try:
        return kind.model_validate(given)
    except ValidationError as error:
        known = [info.alias or name for name, info in kind.model_fields.items()]
        shape.faults += shape_faults(title, error.errors(include_url=False), known)
        return None


def _units(shape: Shape, given: Any) -> None:
    """Read [units]: the set, and single quantities switched, their names with _ for a space."""
    if not isinstance(given, Mapping):
        shape.fault("[units]", "must be one table, [units] with single brackets.")
        return
    for key, unit in given.items():
        try:
            if not isinstance(unit, str):
                raise InputError(f"{shown(str(unit))} is not a text in quotes.")
            if key == "set":
                shape.units["set"] = unit_set(unit).name
            else:
                shape.units[key.replace("_", " ")] = _shown_unit(key.replace("_", " "), unit)
        except InputError as error:
            shape.fault(f"[units] {shown(key)}", str(error))


def _shown_unit(quantity: str, unit: str) -> str:
    if quantity not in QUANTITIES:
        names = "use one such as length, volume, density, pressure or flow_rate."
        raise InputError(f"is no quantity; {near(quantity, QUANTITIES, names)}")
    unit_set("field").with_units({quantity: unit})
    return unit


def _limits(shape: Shape, given: Any) -> None:
    from tally.feeds.job_tables import LimitTable

    if not isinstance(given, Mapping):
        shape.fault("[limits]", "must be one table, [limits] with single brackets.")
        return
    for key, limit in given.items():
        title = f"[limits] {shown(key)}"
        if key not in LIMITS:
            names = f"the limits are {', '.join(LIMITS)}."
            shape.fault(title, f"is not known; {near(key, LIMITS, names)}")
        elif not isinstance(limit, Mapping):
            shape.fault(
                title,
                f"{shown(str(limit))} has no owner; write it like "
                f'{key} = {{ value = "...", owner = "...", source = "..." }}.',
            )
        else:
            readable = _limit_reads(shape, key, limit.get("value"))
            found = _validated(shape, f"{title},", LimitTable, limit)
            if readable and found is not None:
                shape.limits[key] = found


def _limit_reads(shape: Shape, key: str, value: Any) -> bool:
    """Whether a limit is a number of its quantity; what is no text is told by the table."""
    if not isinstance(value, str):
        return False
    kind = LIMITS[key]
    try:
        read(value, kind.quantity)
    except InputError as fault:
        shape.fault(f"[limits] {key}, value", f"{fault} It is the limit for: {kind.meaning}.")
        return False
    return True
