"""The journal: lines of text that are only ever added, each chained to the one before.

A line is stored as it was hashed and never written anew. Its hash is the SHA-256 of the hash of
the line before it, a line break and the text of the line; the first line follows on a hash made
of the book's id.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from typing import Any, NoReturn

from tally.errors import BookDamaged, BookTooNew, EntryRefused
from tally.job.entry import Entry, from_fields, to_fields

LARGEST = 2**63 - 1


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the journal, as it is stored."""

    seq: int
    prev: str
    hash: str
    text: str


def genesis(book: str) -> str:
    """Return the hash on which the first line of a book follows."""
    return sha256(f"shoedown book {book}".encode()).hexdigest()


def chained(prev: str, text: str) -> str:
    """Return the hash of a line that follows on the hash `prev`."""
    return sha256(f"{prev}\n{text}".encode()).hexdigest()


def line_of(entry: Entry, book: str, seq: int, prev: str) -> Line:
    """Return the line that an entry makes as number `seq`; what a line cannot hold is refused."""
    try:
        fields = to_fields(entry)
    except TypeError as fault:
        raise EntryRefused(f"The entry cannot be written: {fault}.") from fault
    head = {"kind": entry.KIND, "book": book, "seq": seq, "by": entry.by, "at": entry.at}
    text = canonical({**head, **fields, "seq": seq})
    return Line(seq, prev, chained(prev, text), text)


def entry_of(line: Line, book: str) -> Entry:
    """Return the entry that a line holds."""
    try:
        fields = parsed(line.text)
        place = (fields.pop("book", None), fields.get("seq"))
        if place == (book, line.seq):
            return from_fields(fields)
    except BookTooNew:
        raise
    except Exception as fault:  # whatever a damaged line brings up, it is the line that is at fault
        raise BookDamaged(f"The line of entry {line.seq} cannot be read: {fault}") from fault
    raise BookDamaged(f"The line of entry {line.seq} was written for another place or book.")


def canonical(fields: Mapping[str, Any]) -> str:
    """Return the one text in which fields are stored.

    >>> canonical({"kind": "note", "seq": 1, "text": "mud 10.2 lb/gal"})
    '{"kind":"note","seq":1,"text":"mud 10.2 lb/gal"}'
    """
    for value in fields.values():
        if not isinstance(value, str):
            _refuse_unfit(value)
    text = _ENCODER.encode(fields)
    try:
        text.encode()
    except UnicodeEncodeError as fault:
        raise EntryRefused(
            "The entry holds half of a character, which cannot be stored; type that text again."
        ) from fault
    return text


def parsed(text: str) -> dict[str, Any]:
    """Return the fields of a stored line; numbers with decimals and doubled names are refused."""
    fields = _DECODER.decode(text)
    if not isinstance(fields, dict):
        raise BookDamaged("it holds no named fields")
    return fields


def misfit(line: Line, count: int, head: str) -> str:
    """Return why a line does not follow on entry `count` with its hash `head`, or nothing."""
    if line.seq != count + 1:
        return f"Entry {count + 1} is missing: after entry {count} comes entry {line.seq}."
    if line.prev != head:
        return f"Entry {line.seq} does not follow on the entry before it: the chain is broken."
    if line.hash != chained(line.prev, line.text):
        return f"Entry {line.seq} was changed after it was written: its line and hash differ."
    return ""


def _refuse_unfit(value: Any) -> None:
    """Refuse what is not text, a whole number, true, false or nothing, however deep it lies."""
    if value is None or isinstance(value, str | bool):
        return
    if isinstance(value, Mapping):
        for name, each in value.items():
            if not isinstance(name, str):
                raise EntryRefused(f"The entry names a field {name!r}; a name is text.")
            _refuse_unfit(each)
    elif isinstance(value, list | tuple):
        for each in value:
            _refuse_unfit(each)
    elif not isinstance(value, int) or abs(value) > LARGEST:
        raise EntryRefused(f"The entry holds {value!r}; a line takes text and whole numbers only.")


def _no_decimals(text: str) -> NoReturn:
    raise BookDamaged(f"it holds the number {text}, and a line takes whole numbers only")


def _named_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    fields = dict(pairs)
    if len(fields) != len(pairs):
        raise BookDamaged("it names a field twice")
    return fields


_ENCODER = json.JSONEncoder(ensure_ascii=False, allow_nan=False, separators=(",", ":"))
_DECODER = json.JSONDecoder(
    parse_float=_no_decimals, parse_constant=_no_decimals, object_pairs_hook=_named_once
)
