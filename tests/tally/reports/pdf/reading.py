"""Reading PDF files back with other libraries: their text, and where it stands on the page."""

from __future__ import annotations

from io import BytesIO
from itertools import takewhile

import pypdfium2
from pypdf import PdfReader

from tally.reports.pdf.paper import MARGIN, Paper


def pages(made: bytes) -> list[list[str]]:
    """Return the texts of each page, a cell each, as pypdf finds them."""
    return [page.extract_text().splitlines() for page in PdfReader(BytesIO(made)).pages]


def lines(made: bytes) -> list[list[str]]:
    """Return the lines of each page as they are read across, by the quicker library."""
    document = pypdfium2.PdfDocument(made)
    return [page.get_textpage().get_text_range().splitlines() for page in document]


def outside(made: bytes, paper: Paper) -> list[tuple[int, tuple[float, ...]]]:
    """Return the texts that reach over a margin, with their pages."""
    found = []
    for number, page in enumerate(pypdfium2.PdfDocument(made), start=1):
        text = page.get_textpage()
        for place in range(text.count_rects()):
            left, bottom, right, top = text.get_rect(place)
            inside = left >= MARGIN - 1 and right <= paper.across - MARGIN + 1
            if not (inside and bottom >= MARGIN - 3 and top <= paper.down - MARGIN + 3):
                found.append((number, (left, bottom, right, top)))
    return found


def overlapping(made: bytes) -> list[tuple[int, str, str]]:
    """Return texts of a page that stand on one another."""
    found = []
    for number, page in enumerate(pypdfium2.PdfDocument(made), start=1):
        text = page.get_textpage()
        rects = sorted(text.get_rect(place) for place in range(text.count_rects()))
        for place, one in enumerate(rects):
            near = takewhile(lambda each, end=one[2] - 0.5: each[0] < end, rects[place + 1 :])
            for other in near:
                if min(one[3], other[3]) - max(one[1], other[1]) > 2:
                    said = (text.get_text_bounded(*each) for each in (one, other))
                    found.append((number, *said))
    return found
