"""A printed tally held word for word against the book that it was printed from."""

from __future__ import annotations

from itertools import zip_longest

from tally.book.book import Book
from tally.job.fold import fold
from tally.reports.final_tally import final_tally
from tally.reports.tally_text import tally_text
from tally.units import shown

TITLES = ("FINAL CASING TALLY", "CASING TALLY, NOT FINAL")


def page_differs(book: Book, page: str, upto: int) -> str | None:
    """Return where a text page reads otherwise than the book's first entries give it.

    Nothing ("") where it reads the same word for word; None where the text is no tally.
    """
    if not page.startswith(TITLES):
        return None
    entries = book.entries[:upto]
    head = book.document().lines[upto - 1].hash if upto else ""
    written = tally_text(final_tally(fold(entries), entries, (upto, head)))
    lines = zip_longest(page.splitlines(), written.splitlines(), fillvalue="")
    for number, (has, wanted) in enumerate(lines, start=1):
        if has.rstrip() != wanted.rstrip():
            return (
                f'Line {number} of the page reads "{shown(has.strip(), 110)}"; from the same '
                f'entries this release writes "{shown(wanted.strip(), 110)}". The page was '
                "changed, or another release wrote it."
            )
    return ""
