"""The shape of a job file: each table read by itself, so that one fault does not hide another."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, TypeVar

from tally.errors import InputError
from tally.feeds.job_faults import LIMITS_TABLE, Fault, Spot
from tally.feeds.job_words import TOP, missing_key, near, not_like, shape_faults
from tally.job.limits import LIMITS
from tally.units import QUANTITIES, read, shown, unit_set

if TYPE_CHECKING:
    from tally.feeds.job_tables import LimitTable, Table

SOME_TABLES = ("units", LIMITS_TABLE)
One = TypeVar("One", bound="Table")


@dataclass(slots=True)
class Shape:
    """What could be read of a job file, and the faults found so far."""

    tables: dict[str, Table] = field(default_factory=dict)
    lists: dict[str, tuple[tuple[int, Table], ...]] = field(default_factory=dict)
    """Those tables of a list that could be read, each with its place among them, from 1."""
    limits: dict[str, LimitTable] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)
    top: dict[str, Any] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    spoilt: set[str] = field(default_factory=set)
    """The tables and top keys that are there and could not be read in full."""

    def table(self, name: str, kind: type[One]) -> One | None:
        """Return a table that was read, or nothing."""
        found = self.tables.get(name)
        return found if isinstance(found, kind) else None

    def rows(self, name: str, kind: type[One]) -> tuple[One, ...]:
        """Return those tables of a list that could be read."""
        return tuple(each for _, each in self.placed(name, kind))

    def placed(self, name: str, kind: type[One]) -> tuple[tuple[Spot, One], ...]:
        """Return those tables of a list that could be read, each with its spot."""
        return tuple(
            (Spot(name, place=place, many=True), each)
            for place, each in self.lists.get(name, ())
            if isinstance(each, kind)
        )

    def text(self, key: str) -> str:
        """Return a text from the top of the file, "" where there is none."""
        found = self.top.get(key, "")
        return found if isinstance(found, str) else ""

    def fault(self, where: Spot, sentence: str) -> None:
        """Add a fault of a table and key."""
        self.faults.append(Fault(where, sentence))


def shape_of(document: Mapping[str, Any]) -> Shape:
    """Return every table of a job file as far as it can be read."""
    from tally.feeds import job_catalogue

    shape = Shape()
    known = (*TOP, *job_catalogue.TABLES, *job_catalogue.LISTS, *SOME_TABLES)
    for name in document:
        if name not in known:
            otherwise = f"the tables are {', '.join(known[len(TOP) :])}."
            told = f"is not known in a job file; {near(name, known, otherwise)}"
            shape.fault(Spot(key=name), told)
    _top(shape, document)
    for name, kind in job_catalogue.TABLES.items():
        if name in document:
            _one_table(shape, name, kind, document[name])
    for name, kind in job_catalogue.LISTS.items():
        if name in document:
            _many_tables(shape, name, kind, document[name])
    for name in job_catalogue.NEEDED:
        if name not in document:
            spot = Spot(name, many=name in job_catalogue.LISTS)
            shape.fault(spot, "the table is missing; a job cannot be set up without it.")
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
            shape.faults.append(not_like(Spot(key=key), given))
            shape.spoilt.add(key)
    if "pipe_list" in document and "running_order" not in document:
        shape.faults.append(missing_key(Spot(key="running_order")))
        shape.spoilt.add("running_order")


def _one_table(shape: Shape, name: str, kind: type[Table], given: Any) -> None:
    if not isinstance(given, Mapping):
        shape.fault(Spot(name), f"must be one table, [{name}] with single brackets.")
        shape.spoilt.add(name)
        return
    read = _validated(shape, Spot(name), kind, given)
    if read is None:
        shape.spoilt.add(name)
    else:
        shape.tables[name] = read


def _many_tables(shape: Shape, name: str, kind: type[Table], given: Any) -> None:
    if not isinstance(given, list) or not all(isinstance(each, Mapping) for each in given):
        wanted = f"must be tables, each [[{name}]] with double brackets."
        shape.fault(Spot(name, many=True), wanted)
        shape.spoilt.add(name)
        return
    read = [
        (place, _validated(shape, Spot(name, place=place, many=True), kind, each))
        for place, each in enumerate(given, start=1)
    ]
    shape.lists[name] = tuple((place, each) for place, each in read if each is not None)
    if len(shape.lists[name]) < len(read):
        shape.spoilt.add(name)


def _validated(shape: Shape, spot: Spot, kind: type[One], given: Mapping[str, Any]) -> One | None:
    from pydantic import ValidationError

    try:
        return kind.model_validate(given)
    except ValidationError as error:
        known = [info.alias or name for name, info in kind.model_fields.items()]
        shape.faults += shape_faults(spot, error.errors(include_url=False), known)
        return None


def _units(shape: Shape, given: Any) -> None:
    """Read [units]: the set, and single quantities switched, their names with _ for a space."""
    if not isinstance(given, Mapping):
        shape.fault(Spot("units"), "must be one table, [units] with single brackets.")
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
            shape.fault(Spot("units", key), str(error))


def _shown_unit(quantity: str, unit: str) -> str:
    if quantity not in QUANTITIES:
        names = "use one such as length, volume, density, pressure or flow_rate."
        raise InputError(f"is no quantity; {near(quantity, QUANTITIES, names)}")
    unit_set("field").with_units({quantity: unit})
    return unit


def _limits(shape: Shape, given: Any) -> None:
    from tally.feeds.job_tables import LimitTable

    if not isinstance(given, Mapping):
        shape.fault(Spot(LIMITS_TABLE), "must be one table, [limits] with single brackets.")
        return
    for key, limit in given.items():
        spot = Spot(LIMITS_TABLE, called=key)
        if key not in LIMITS:
            names = f"the limits are {', '.join(LIMITS)}."
            shape.fault(spot, f"is not known; {near(key, LIMITS, names)}")
        elif not isinstance(limit, Mapping):
            shape.fault(
                spot,
                f"{shown(str(limit))} has no owner; write it like "
                f'{key} = {{ value = "...", owner = "...", source = "..." }}.',
            )
        else:
            readable = _limit_reads(shape, key, limit.get("value"))
            found = _validated(shape, spot, LimitTable, limit)
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
        spot = Spot(LIMITS_TABLE, "value", called=key)
        shape.fault(spot, f"{fault} It is the limit for: {kind.meaning}.")
        return False
    return True
