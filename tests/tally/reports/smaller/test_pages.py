"""The pages of the smaller reports: nothing harmful, nothing clipped, headings on every page."""

import csv
import io
import re
from pathlib import Path

import pytest

from tally.book.book import Book
from tally.reports.export import chosen, export
from tally.reports.guard import plain, unguarded, visible
from tally.reports.page import LINES, WIDTH
from tally.reports.pdf.letters import drawable
from tally.reports.pdf.paper import A4, LETTER, Paper
from tally.reports.pdf.sheet_pdf import sheet_pdf
from tally.reports.sheet_csv import sheet_csv
from tally.reports.sheet_text import sheet_text
from tally.reports.smaller.every import SMALLER
from tests.tally.reports.jobs import HOSTILE, entries
from tests.tally.reports.pdf.jobs import demonstration, long_string
from tests.tally.reports.pdf.reading import lines, outside, overlapping, pages
from tests.tally.reports.smaller.jobs import job, sheets

KEYS = tuple(one.key for one in SMALLER)
SOME = (HOSTILE[2], HOSTILE[11], HOSTILE[14], HOSTILE[18], HOSTILE[20], *HOSTILE[22:24])
"""One text of each sort that does harm in its own way; the others are marked long."""
OTHERS = tuple(pytest.param(text, marks=pytest.mark.long) for text in HOSTILE if text not in SOME)
KEPT = {
    "notices": ("district office", "cementing", "telephone", "1 March at noon", "Nils", "no. 7"),
    "calibrations": ("pump gauge", "G7", "shop", "sticker"),
    "times": ("pump", "liner"),
    "pressure-tests": ("casing", "chart", "a union leaks"),
    "handover": ("Nils", "the trip tank"),
    "exceptions": ("no other", "found"),
}


NUMBER = re.compile(r"-?\d+(\.\d+)?")
FORMULA = ("=", "+", "-", "@", "\uff1d")
BEFORE = " \t\r\n"
"""What a formula begins with, and what may stand before it, by the page of OWASP on CSV injection.

Read with another mark than the file's, the end of one line and the next can fall into one cell,
which then begins with the end of the line; what counts is what comes after it.
"""


def together(text: str) -> str:
    """Return text without what a page puts between its letters."""
    return "".join(text.split())


@pytest.mark.parametrize("text", ["", *SOME, *OTHERS])
def test_text_pages_are_ascii_and_of_one_size(text: str) -> None:
    for key, made in sheets(job(text)).items():
        written = sheet_text(made)
        assert written.isascii()
        every = written.splitlines()
        assert len(every) % LINES == 0
        assert all(line.isprintable() and len(line) <= WIDTH for line in every), key
        for number, start in enumerate(range(0, len(every), LINES), start=1):
            page = every[start : start + LINES]
            assert page[0].startswith(made.title.upper())
            assert page[0].endswith(f"page {number} of {len(every) // LINES}")
            assert made.tally.head in page[-1]


@pytest.mark.parametrize("text", [*SOME, *OTHERS])
def test_tables_hold_typed_text_as_text(text: str) -> None:
    for key, made in sheets(job(text)).items():
        every = "".join(sheet_csv(made).values())
        assert not re.search(
            "[\x00-\x09\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]", every
        )
        for written in sheet_csv(made).values():
            rows = list(csv.reader(io.StringIO(written, newline="")))
            assert len({len(row) for row in rows}) == 1
            for mark in ",;":
                for line in csv.reader(io.StringIO(written, newline=""), delimiter=mark):
                    assert all(not formula(cell) or NUMBER.fullmatch(cell) for cell in line)
        if key in ("notices", "calibrations"):
            cells = [unguarded(cell) for cell in rows[1]]
            for one in KEPT[key][:4]:
                assert any(visible(text) + one in cell for cell in cells), one


def formula(cell: str) -> bool:
    """Return whether a spreadsheet takes a cell as a formula."""
    return cell.lstrip(BEFORE).startswith(FORMULA)


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["A4", "letter"])
@pytest.mark.parametrize("text", ["", *SOME[1:3], *SOME[5:], *OTHERS])
def test_drawn_pages_hold_every_text_inside_their_margins(text: str, paper: Paper) -> None:
    for key, made in sheets(job(text)).items():
        written = sheet_pdf(made, paper)
        assert outside(written, paper) == [], key
        read = pages(written)
        for number, page in enumerate(read, start=1):
            assert any(f"page {number} of {len(read)}" in line for line in page)
            assert any(made.tally.head in line for line in page)
        told = together("".join("".join(page) for page in read))
        assert together(drawable(text))[:60] in told, key
        for one in () if text else KEPT.get(key, ()):
            assert all(word in told for word in one.split()), (key, one)


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("units", ["field", "metric"])
def test_nothing_stands_on_anything_else(key: str, units: str) -> None:
    of = (demonstration("end", units), ())
    made = sheet_pdf(sheets(of)[key], LETTER)
    assert overlapping(made) == []
    assert outside(made, LETTER) == []


@pytest.mark.parametrize(
    ("key", "heading"),
    [("trip-sheet", "remarks"), ("inventory", "serial"), ("running-list", "to install")],
)
def test_a_long_table_has_its_heading_on_every_page_over_ten_rows_or_more(
    key: str, heading: str
) -> None:
    made = sheets((long_string(400), ()))[key]
    read = lines(sheet_pdf(made, A4))
    assert len(read) > 6
    mark = "2026-05-02 06:00" if key == "trip-sheet" else "joint"
    with_rows = [page for page in read if sum(mark in each for each in page) > 9]
    assert len(with_rows) > 5
    assert all(any(heading in line for line in page) for page in with_rows)
    blocks = [block for part in made.parts if part.grid for block in part.grid.blocks]
    assert {len(block.rows) for block in blocks[:-1] if len(block.rows) > 1} == {10}
    assert sum(len(block.rows) for block in blocks) >= 400


@pytest.mark.parametrize("landed", [True, False])
def test_they_say_that_they_are_not_final(tmp_path: Path, *, landed: bool) -> None:
    """A job without checklists wants only the depth; a handover wants somebody to take over."""
    with Book.create(tmp_path / "job.db", entries(landed=landed)) as book:
        written = {path.name: path for path in export(book, tmp_path, chosen(["smaller"]))}
    for key in KEYS:
        final = landed and key != "handover"
        state = "" if final or key == "running-list" else "-not-final"
        assert f"job-{key}{state}.pdf" in written
        read = "".join(
            "".join(page) for page in pages(written[f"job-{key}{state}.pdf"].read_bytes())
        )
        assert ("NOT FINAL" in read) != final, key
        assert ("Not final until it is signed" in read) == final, key
        if key != "running-list":
            text = written[f"job-{key}{state}.txt"].read_text("ascii")
            assert ("NOT FINAL" in text) != final, key


def test_a_handover_is_not_final_until_somebody_took_over() -> None:
    made = sheets(job())["handover"]
    assert "NOT FINAL: Nils has not taken over yet." in made.standing
    assert plain(made.standing) in sheet_text(made)
