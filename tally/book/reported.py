"""What a report said of its book, and whether the book still holds it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from tally.book.document import content_of, read_document
from tally.book.journal import Line, genesis, misfit
from tally.errors import InputError
from tally.units import shown

SHORTEST = 12
"""Digits of a hash that must be given: one book in 280 billion has the same by chance."""
LIMITS = (
    "What this cannot prove: anything of entries made after the report, who was at the keys, or "
    "that the report in hand is the one that was given away."
)
_CODE = re.compile(
    r"(?P<count>\d{1,9}|\d{1,3}(?:,\d{3}){1,2})\s*(?:entries|entry)?\s*,?\s*(?:chain ends)?\s+"
    r"(?P<head>[0-9a-f]+)",
    re.ASCII | re.IGNORECASE,
)
_FOOT = re.compile(
    r"^(?:-{20,}\r?\n(\d+) entries, chain ends |-+ (\d+) entries, the chain ends with -+\r?\n)"
    r"([0-9a-f]{64})\r?$",
    re.MULTILINE,
)
"""How a page of the tally ends, and how one of the running list does."""


@dataclass(frozen=True, slots=True)
class Reported:
    """How far a book had come when a report was made of it."""

    count: int
    head: str
    """The hash of its last entry then, or how it begins."""
    book: str = ""
    """The id of the book, where the report says it."""
    lines: tuple[Line, ...] = ()
    """Every entry, where the report holds them."""
    page: str = ""
    """The text of the report, where it is one of pages."""


def read_reported(given: str) -> Reported:
    """Return what a report says: a file of it, or the count and the hash typed from it.

    Raises
    ------
    ShoedownError
        If it is neither, the hash is too short, or the file is not whole.
    """
    path = Path(given)
    if _is_file(path):
        return _from_file(path)
    typed = _CODE.fullmatch(given.strip())
    if typed is None:
        raise InputError(
            f'"{shown(given, 60)}" is neither a file nor a code; name the JSON or the text page '
            'of a report, or type its count and hash, as in "44 0f3a9c51d2e7".'
        )
    head = typed["head"].lower()
    if not SHORTEST <= len(head) <= 64:
        raise InputError(
            f"The hash has {len(head)} digits; type at least the first {SHORTEST} of its 64."
        )
    return Reported(int(typed["count"].replace(",", "")), head)


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def _from_file(path: Path) -> Reported:
    content = content_of(path)
    if content.lstrip()[:1] == b"{":
        document = read_document(content, path.name)
        return Reported(len(document.lines), document.head, document.book, document.lines)
    return reported_on_pages(content.decode("utf-8", errors="replace"), path.name)


def reported_on_pages(text: str, name: str) -> Reported:
    """Return what the feet of printed pages say; they must all say the same."""
    feet = {(one or other, head) for one, other, head in _FOOT.findall(text)}
    if not feet:
        raise InputError(
            f"{name} is neither the JSON nor the text page of a report. From a PDF or a sheet type "
            'the count and the hash that it prints, as in "44 0f3a9c51d2e7".'
        )
    if len(feet) > 1:
        counts = ", ".join(sorted({count for count, _ in feet}, key=int))
        raise InputError(
            f"The pages of {name} do not belong together: their feet name different hashes, at "
            f"entries {counts}. Give the pages of one report."
        )
    ((count, head),) = feet
    return Reported(int(count), head, page=text)


def held_against(lines: Sequence[Line], book: str, reported: Reported) -> tuple[str, bool]:
    """Return in a sentence whether a book still holds what was reported, and whether it does."""
    fault = _fault(lines, book, reported)
    if fault:
        return fault, False
    after = len(lines) - reported.count
    came = {0: "none came", 1: "1 entry came"}.get(after, f"{after} entries came")
    upto = f"entries 1 to {reported.count}" if reported.count else "no entries"
    return f"The book holds {upto} exactly as reported; {came} after that.", True


def _fault(lines: Sequence[Line], book: str, reported: Reported) -> str:
    if reported.book and reported.book != book:
        return f"The report is of another book: its id is {shown(reported.book)}, not {book}."
    return (
        _other_line(lines, reported)
        or _broken(lines, book, reported.count)
        or _other_head(lines, book, reported)
    )


def _other_line(lines: Sequence[Line], reported: Reported) -> str:
    """Return which entry is not the one of the report, where the report holds them."""
    held = {line.seq: line for line in lines}
    differ = [line for line in reported.lines if held.get(line.seq) != line]
    if not differ:
        return ""
    first = differ[0]
    now = held.get(first.seq)
    more = f"; {len(differ)} entries differ in all" if len(differ) > 1 else ""
    if now is None:
        return (
            f"Entry {first.seq} was reported and is not in the book{more}. "
            f"Reported: {shown(first.text, 300)}"
        )
    was, has = _parting(first.text, now.text)
    return f"Entry {first.seq} is not as it was reported{more}. Reported: {was} The book has: {has}"


def _parting(was: str, has: str) -> tuple[str, str]:
    """Return what two texts say from a little before the place where they part."""
    if was == has:
        return "the same words with another hash.", "those words."
    pairs = enumerate(zip(was, has, strict=False))
    alike = next((place for place, (one, other) in pairs if one != other), 0)
    alike = alike or min(len(was), len(has))
    start = max(0, alike - 30)
    before = "..." if start else ""
    return f"{before}{shown(was[start:], 120)}", f"{before}{shown(has[start:], 120)}"


def _broken(lines: Sequence[Line], book: str, upto: int) -> str:
    """Return which entry broke the chain before the entry that was reported."""
    head = genesis(book)
    for count, line in enumerate(lines[:upto]):
        fault = misfit(line, count, head)
        if fault:
            return f"The book no longer holds what was reported at entry {upto}. {fault}"
        head = line.hash
    return ""


def _other_head(lines: Sequence[Line], book: str, reported: Reported) -> str:
    if reported.count > len(lines):
        return (
            f"The report was made at entry {reported.count}; the book ends at entry {len(lines)}: "
            "what came after it was cut off."
        )
    found = lines[reported.count - 1].hash if reported.count else genesis(book)
    if reported.head and found.startswith(reported.head.lower()):
        return ""
    return (
        f"Entry {reported.count} is not the one that was reported: its hash is {found}. It or "
        "entries before it were written anew; a code cannot tell which, the JSON of that report "
        "names the first."
    )
