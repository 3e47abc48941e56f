"""The signatures of a book: whether it still holds what was signed, and what came after."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tally.book.journal import Line, genesis
from tally.job.amending import amending
from tally.job.entries.people import PinSet
from tally.job.entries.signing import ReportSigned
from tally.job.entry import Entry, several

Told = tuple[str, bool]
"""A sentence, and whether it is good."""


def signatures_told(lines: Sequence[Line], book: str, entries: Sequence[Entry]) -> Iterator[Told]:
    """Yield for each signature whether the book holds what was signed, and what came after."""
    heads = {0: genesis(book), **{line.seq: line.hash for line in lines}}
    for entry in entries:
        if isinstance(entry, ReportSigned):
            yield _told(entry, heads, entries)


def _told(entry: ReportSigned, heads: dict[int, str], entries: Sequence[Entry]) -> Told:
    pin = "with PIN" if entry.name in entry.signed else "without a PIN"
    named = f"Entry {entry.seq}, {entry.said()}, {pin}"
    fault = entry.out_of_place(entry.seq - 1, heads.get(entry.seq - 1, ""))
    if fault:
        return f"{named}: does not hold. {fault}", False
    return f"{named}: entries 1 to {entry.entries} are as signed; {_after(entry, entries)}.", True


def _after(entry: ReportSigned, entries: Sequence[Entry]) -> str:
    """Return how many entries came after a signature, and which amend what was signed."""
    later = [
        each
        for each in entries
        if each.seq > entry.seq and not isinstance(each, ReportSigned | PinSet)
    ]
    if not later:
        return "nothing but signatures and PINs came after it"
    amends = [str(each.seq) for each in later if amending(entries, each, entry.entries)]
    told = f"{several(len(later), 'entry')} came after it"
    return f"{told}, {', '.join(amends)} amending what was signed" if amends else told
