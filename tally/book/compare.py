"""The rows of one table against those that the journal gives, in sentences."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice
from math import isclose
from typing import Any

from tally.book.schema import Row, Rows, Table, Value

NAMED = 5
"""How many rows of one table are named; the others are counted."""


def compared(
    table: Table, book: str, found: Iterable[tuple[Any, ...]], rebuilt: Rows
) -> Iterator[str]:
    """Yield how the rows found differ from those rebuilt, naming the first few."""
    faults = _faults(table, book, found, rebuilt)
    yield from islice(faults, NAMED)
    more = sum(1 for _ in faults)
    if more:
        yield f"Table {table.name}: {more} more rows differ."


def _faults(
    table: Table, book: str, found: Iterable[tuple[Any, ...]], rebuilt: Rows
) -> Iterator[str]:
    missing = dict(rebuilt)
    for of_book, *rest in found:
        row = tuple(rest)
        key = row[: len(table.key)]
        wanted = missing.pop(key, None) if of_book == book else None
        if wanted is None:
            yield f"Table {table.name} has {_named(key)}, which the journal does not give."
        else:
            yield from _differences(table, row, wanted)
    for key in missing:
        yield f"Table {table.name} lacks {_named(key)}, which the journal gives."


def _differences(table: Table, row: Row, wanted: Row) -> Iterator[str]:
    for column, has, gives in zip(table.columns, row, wanted, strict=True):
        if not _same(has, gives):
            yield (
                f"Table {table.name}, {_named(row[: len(table.key)])}: {column} is {has!r}, "
                f"the journal gives {gives!r}."
            )
            return


def _same(has: Value, gives: Value) -> bool:
    """Whether two values agree; another machine may give a volume other last digits."""
    if isinstance(has, float) and isinstance(gives, float):
        return isclose(has, gives, rel_tol=1e-9, abs_tol=1e-9)
    return type(has) is type(gives) and has == gives


def _named(key: Row) -> str:
    return f"row {', '.join(str(part) for part in key)}" if key else "its one row"
