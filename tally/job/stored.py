"""Dataclasses to and from the plain fields that a journal line holds.

A line holds text, integers, booleans and nothing, in lists and named groups; never a float.
A measure is stored as its canonical text ("10.2 lb/gal"), with its quantity in the field's
metadata, so that a stored line reads the same for ever.
"""

from __future__ import annotations

import types
from collections.abc import Callable, Hashable, Mapping
from dataclasses import MISSING, field, fields, is_dataclass
from functools import cache
from typing import Any, Union, cast, get_args, get_origin, get_type_hints

from tally.errors import BookTooNew, InputError
from tally.units import Measure, read

Fields = dict[str, Any]
Reader = Callable[[Any], Any]
_DEEPEST = 20
"""How far groups may lie inside one another; nothing that is entered comes near it."""


def measured(quantity: str, *, optional: bool = False) -> Any:
    """Declare a field that holds a measure of one quantity."""
    metadata = {"quantity": quantity}
    return field(default=None, metadata=metadata) if optional else field(metadata=metadata)


def to_fields(thing: Any) -> Fields:
    """Return the plain fields of a dataclass; fields left at their default are omitted."""
    plain: Fields = {}
    for one in _declared(thing.__class__):
        value = getattr(thing, one.name)
        if not _is_default(one, value):
            plain[one.name] = _plain(value)
    return plain


def from_fields(kind: type[Any], plain: Mapping[str, Any]) -> Any:
    """Rebuild a dataclass from its plain fields; a field not known here is a later release's."""
    readers = _readers(cast("Hashable", kind))
    unknown = [name for name in plain if name not in readers]
    if unknown:
        raise BookTooNew(
            f"The book holds a field '{unknown[0]}' that this release does not know; "
            "open it with the release that wrote it."
        )
    for name in _wanted(cast("Hashable", kind)):
        if name not in plain:
            raise InputError(f"The field '{name}' is missing.")
    return kind(**{name: _read(name, readers[name], value) for name, value in plain.items()})


def _read(name: str, reader: Reader, value: Any) -> Any:
    try:
        return reader(value)
    except _OtherKind as other:
        raise InputError(f"The field '{name}' holds no {other}.") from None


class _OtherKind(Exception):
    """A value of another kind than its field holds, which the message names."""


@cache
def _declared(kind: type[Any]) -> tuple[Any, ...]:
    return fields(kind)


def _is_default(one: Any, value: Any) -> bool:
    if one.default is not MISSING:
        return bool(value == one.default)
    if one.default_factory is not MISSING:
        return bool(value == one.default_factory())
    return False


@cache
def _wanted(kind: Hashable) -> tuple[str, ...]:
    """Return the fields that have no default."""
    return tuple(
        one.name
        for one in fields(cast("Any", kind))
        if one.init and one.default is MISSING and one.default_factory is MISSING
    )


def _plain(value: Any, depth: int = 0) -> Any:
    if value is None or isinstance(value, str | int):
        return value
    if isinstance(value, Measure):
        return value.text
    if depth > _DEEPEST:
        raise TypeError("it holds lists inside lists without end")
    if isinstance(value, tuple | list):
        return [_plain(each, depth + 1) for each in value]
    if isinstance(value, dict):
        return {str(key): _plain(each, depth + 1) for key, each in value.items()}
    if is_dataclass(value):
        return to_fields(value)
    raise TypeError(f"a journal line cannot hold {type(value).__name__}")


@cache
def _readers(kind: Hashable) -> dict[str, Reader]:
    made = cast("Any", kind)
    hints = get_type_hints(made)
    return {
        one.name: _reader(hints[one.name], one.metadata.get("quantity", ""))
        for one in fields(made)
        if one.init
    }


def _reader(hint: Any, quantity: str) -> Reader:
    origin = get_origin(hint)
    if origin in (Union, types.UnionType):
        inner = next(each for each in get_args(hint) if each is not type(None))
        return _optional(_reader(inner, quantity))
    if origin is tuple:
        each_reader = _reader(get_args(hint)[0], quantity)
        return lambda value: tuple(each_reader(each) for each in _kept(value, list, "list"))
    if origin is dict:
        value_reader = _reader(get_args(hint)[1], quantity)
        return lambda value: {
            _kept(name, str, "name"): value_reader(each)
            for name, each in _kept(value, dict, "named values").items()
        }
    if hint is Measure:
        return lambda value: read(_kept(value, str, f"{quantity} as text"), quantity)
    if is_dataclass(hint):
        kind = cast("type[Any]", hint)
        return lambda value: from_fields(kind, _kept(value, dict, "named values"))
    return _PLAIN.get(hint, lambda value: value)


def _kept(value: Any, kind: type[Any], words: str) -> Any:
    if not isinstance(value, kind):
        raise _OtherKind(words)
    return value


def _whole(value: Any) -> Any:
    if isinstance(value, bool) or not isinstance(value, int):
        raise _OtherKind("whole number")
    return value


_PLAIN: dict[Any, Reader] = {
    str: lambda value: _kept(value, str, "text"),
    bool: lambda value: _kept(value, bool, "true or false"),
    int: _whole,
}


def _optional(reader: Reader) -> Reader:
    return lambda value: None if value is None else reader(value)
