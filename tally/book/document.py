"""A whole book as one file of JSON: written, and read again with every line held to its hash.

The lines of the journal go out as they are stored, each as one text, so that whoever has the file
can hash them: SHA-256 over the hash before, a line break and the text.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tally.book.journal import Line, chained, genesis, parsed
from tally.errors import BookDamaged, BookError, BookMissing, BookTooNew, InputError
from tally.job.entry import moment
from tally.units import shown

FORMAT = "shoedown book"
VERSION = 1
LARGEST_FILE = 256 * 2**20
"""Bytes of a file that is looked at; a book of 5,000 entries has about three million."""
_HASH = re.compile(r"[0-9a-f]{64}", re.ASCII)
_ID = re.compile(r"[!-~]{1,64}", re.ASCII)


@dataclass(frozen=True, slots=True)
class Document:
    """Everything that a book is made of: its id, when it was made, and its lines as stored."""

    book: str
    created: str
    release: str
    """The release that wrote the file."""
    lines: tuple[Line, ...]
    batches: Mapping[int, str] = field(default_factory=dict)
    """The rows of readings, by the number of their line."""

    @property
    def head(self) -> str:
        """The hash of the last line."""
        return self.lines[-1].hash if self.lines else genesis(self.book)


def document_text(document: Document) -> str:
    """Return a book as JSON in ASCII: its head, then one line of text for each entry."""
    head = {
        "format": FORMAT,
        "version": VERSION,
        "release": document.release,
        "book": document.book,
        "created": document.created,
        "entries": len(document.lines),
        "head": document.head,
    }
    said = "".join(f"  {json.dumps(name)}: {json.dumps(value)},\n" for name, value in head.items())
    lines = ",\n".join(f"    {json.dumps(_fields(line))}" for line in document.lines)
    return f'{{\n{said}  "journal": [\n{lines}\n  ]{_batches_text(document)}\n}}\n'


def _batches_text(document: Document) -> str:
    """Return the rows of readings after the journal; a book without any has no word of them."""
    if not document.batches:
        return ""
    rows = ",\n".join(
        f"    {json.dumps({'seq': seq, 'rows': text})}" for seq, text in document.batches.items()
    )
    return f',\n  "batches": [\n{rows}\n  ]'


def _fields(line: Line) -> dict[str, str | int]:
    return {"seq": line.seq, "prev": line.prev, "hash": line.hash, "line": line.text}


def content_of(file: Path) -> bytes:
    """Return the content of a file, unless it is far too large to be a report of ours."""
    try:
        if file.stat().st_size > LARGEST_FILE:
            raise BookDamaged(f"{file.name} has more than {LARGEST_FILE // 2**20} MB.")
        return file.read_bytes()
    except FileNotFoundError as fault:
        raise BookMissing(f"There is no file {file}; check the name and the folder.") from fault
    except OSError as fault:
        raise BookError(f"{file} cannot be read: {fault.strerror}.") from fault


def read_document(content: bytes, name: str) -> Document:
    """Return the book that a file of JSON holds; `name` is what messages call the file.

    Raises
    ------
    BookDamaged
        If the file is no such document, or a line was changed, left out, added or moved; the
        sentence names the entry.
    BookTooNew
        If a later release wrote it.
    """
    told = _told(content, name)
    if told.get("format") != FORMAT:
        raise BookDamaged(f"{name} is JSON, but no book: its format is not '{FORMAT}'.")
    if told.get("version") != VERSION:
        raise BookTooNew(
            f"{name} has version {shown(str(told.get('version')))} of the format; this release "
            f"reads version {VERSION}. Use the release that wrote it."
        )
    document = Document(
        book=_text(told, "book", name, _ID),
        created=_created(told, name),
        release=_text(told, "release", name),
        lines=_lines(told, name),
        batches=_batches(told, name),
    )
    fault = _order(document) or _chain(document) or _counts(document, told)
    if fault:
        raise BookDamaged(f"{name}: {fault}")
    return document


def _told(content: bytes, name: str) -> dict[str, Any]:
    if len(content) > LARGEST_FILE:
        raise BookDamaged(f"{name} has more than {LARGEST_FILE // 2**20} MB; it is no book.")
    try:
        return parsed(content.decode("utf-8-sig"))
    except (ValueError, RecursionError, BookDamaged) as fault:
        why = shown(str(fault), 90)
        raise BookDamaged(f"{name} cannot be read as JSON: {why}.") from fault


def _text(told: Mapping[str, Any], key: str, name: str, like: re.Pattern[str] = _ID) -> str:
    value = told.get(key)
    if not isinstance(value, str) or not like.fullmatch(value):
        raise BookDamaged(f"{name}: its '{key}' is missing or is not what this program writes.")
    return value


def _created(told: Mapping[str, Any], name: str) -> str:
    value = told.get("created")
    try:
        if isinstance(value, str) and (not value or moment(value)):
            return value
    except InputError:
        pass
    raise BookDamaged(f"{name}: its 'created' is no time with an offset.")


def _lines(told: Mapping[str, Any], name: str) -> tuple[Line, ...]:
    journal = told.get("journal")
    if not isinstance(journal, list):
        raise BookDamaged(f"{name}: its 'journal' is missing or is no list.")
    return tuple(_line(each, place, name) for place, each in enumerate(journal, start=1))


def _batches(told: Mapping[str, Any], name: str) -> dict[int, str]:
    """Return the rows of readings; whether they are those of their lines is verified later."""
    listed = told.get("batches", [])
    found: dict[int, str] = {}
    for each in listed if isinstance(listed, list) else [None]:
        if not isinstance(each, dict) or each.keys() != {"seq", "rows"}:
            raise BookDamaged(f"{name}: its 'batches' are not as this program writes them.")
        seq, rows = each["seq"], each["rows"]
        if type(seq) is not int or not isinstance(rows, str):
            raise BookDamaged(f"{name}: its 'batches' hold another thing than rows of readings.")
        if seq in found:
            raise BookDamaged(f"{name}: the readings of entry {seq} stand there twice.")
        found[seq] = _storable(rows, seq, name)
    return found


def _line(fields: Any, place: int, name: str) -> Line:
    """Return one line of the journal; what is not as this program writes it is refused."""
    if isinstance(fields, dict) and fields.keys() == {"seq", "prev", "hash", "line"}:
        seq, prev, own, text = (fields[key] for key in ("seq", "prev", "hash", "line"))
        whole = type(seq) is int and isinstance(text, str)
        if whole and all(isinstance(each, str) and _HASH.fullmatch(each) for each in (prev, own)):
            return Line(seq, prev, own, _storable(text, seq, name))
    raise BookDamaged(
        f"{name}: line {place} of its journal does not have seq, prev, hash and line as written."
    )


def _storable(text: str, seq: int, name: str) -> str:
    try:
        text.encode()
    except UnicodeEncodeError as fault:
        raise BookDamaged(f"{name}: entry {seq} holds half of a character.") from fault
    return text


def _order(document: Document) -> str:
    """Return which entry is missing, doubled or out of its place."""
    seqs = [line.seq for line in document.lines]
    if seqs == list(range(1, len(seqs) + 1)):
        return ""
    twice = next((seq for seq, times in Counter(seqs).items() if times > 1), None)
    if twice is not None:
        return f"Entry {twice} stands there twice."
    wanted, found = next((place, seq) for place, seq in enumerate(seqs, start=1) if place != seq)
    if wanted in seqs:
        return f"Entry {wanted} is not in its place: entry {found} stands there."
    return f"Entry {wanted} is missing: after entry {wanted - 1} comes entry {found}."


def _chain(document: Document) -> str:
    """Return which entry does not follow on the one before, or was changed."""
    head = genesis(document.book)
    for line in document.lines:
        if line.hash != chained(line.prev, line.text):
            return f"Entry {line.seq} was changed after it was written: its line and hash differ."
        if line.prev != head:
            return (
                f"Entry {line.seq} does not follow on what stands before it: an entry was taken "
                "out, put in or written anew there."
            )
        head = line.hash
    return ""


def _counts(document: Document, told: Mapping[str, Any]) -> str:
    """Return how the journal differs from what the head of the file says of it."""
    count, wanted = len(document.lines), told.get("entries")
    if type(wanted) is not int:
        return "Its 'entries' is missing or is no whole number."
    if count < wanted:
        return f"Entry {count + 1} is missing: its head says {wanted} entries, it holds {count}."
    if count > wanted:
        return f"Entry {wanted + 1} was added: its head says {wanted} entries, it holds {count}."
    if told.get("head") != document.head:
        return f"Its head names another last hash than that of entry {count}."
    return ""
