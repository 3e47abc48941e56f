"""What a new entry may hold: text that can be shown as it is, and whole numbers of a sane size.

People's text comes through `tally.units.clean` at the edge. Entries made by code do not, so every
new entry is looked through once more before the job takes it. Entries that a book holds already
are not: whatever they say must stay readable.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from tally.errors import InputError
from tally.job.entry import Entry, moment
from tally.units import Measure, clean, shown

LONGEST_TEXT = 2_000
LARGEST_NUMBER = 10**12
DEEPEST = 12


def unfit(entry: Entry) -> str:
    """Return why an entry cannot be kept as it is, in a sentence, or nothing."""
    if not (isinstance(entry.by, str) and entry.by.strip()):
        return "Say who makes the entry."
    try:
        moment(entry.at)
    except (InputError, TypeError) as error:
        return str(error)
    for one in fields(entry):
        value = getattr(entry, one.name)
        if value is None or (isinstance(value, str) and _plain(value)):
            continue
        for fault in _faults(value, DEEPEST):
            return f"{_named(one.name)}: {fault}"
    return ""


def _named(field: str) -> str:
    words = field.replace("_", " ")
    return f"{words[0].upper()}{words[1:]}"


def _faults(value: Any, depth: int) -> Iterator[str]:
    """Yield what is wrong with a value, however deep it lies."""
    if value is None or isinstance(value, bool):
        return
    if isinstance(value, str):
        yield from _text_faults(value)
    elif isinstance(value, int):
        yield from _number_faults(value)
    elif depth == 0:
        yield "lists lie too deep inside one another; they are not kept."
    else:
        parts = _parts(value)
        if parts is None:
            yield f"'{shown(str(value))}' is neither text nor a whole number; it is not kept."
        for part in parts or ():
            yield from _faults(part, depth - 1)


def _plain(text: str) -> bool:
    """Whether nothing can be wrong with a text: the quick answer for nearly all of them."""
    return len(text) <= LONGEST_TEXT and text.isascii() and text.isprintable()


def _text_faults(text: str) -> Iterator[str]:
    if _plain(text):
        return
    try:
        clean(text, LONGEST_TEXT)
    except InputError as fault:
        yield str(fault)


def _number_faults(number: int) -> Iterator[str]:
    if abs(number) > LARGEST_NUMBER:
        yield f"a number above {LARGEST_NUMBER:,} is not kept; look at it again."


def _parts(value: Any) -> Iterable[Any] | None:
    """Return what a value is made of; nothing for a value of a kind that is not kept."""
    if isinstance(value, Measure):
        return (value.text,)
    if isinstance(value, tuple | list):
        return value
    if isinstance(value, Mapping):
        return (*value, *value.values())
    if is_dataclass(value):
        return [getattr(value, one.name) for one in fields(value)]
    return None
