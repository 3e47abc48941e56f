"""The final tally read back by other libraries: its figures are the book's, nothing is clipped."""

import re
import subprocess
import sys
from decimal import Decimal
from functools import cache
from hashlib import sha256
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from tally.reports.final_tally import FinalTally
from tally.reports.pdf.paper import A4, LETTER, Paper
from tally.reports.pdf.tally_pdf import tally_pdf
from tests.tally.reports.jobs import HEAD, HOSTILE, tally
from tests.tally.reports.pdf.jobs import demonstration, long_string
from tests.tally.reports.pdf.reading import lines, outside, overlapping, pages

ROOT = Path(__file__).parents[4]
NUMBER = re.compile(r"-?[\d,]+(?:\.\d+)?")


def decimal(text: str) -> Decimal:
    """Return a number as it is printed."""
    return Decimal(text.replace(",", ""))


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
@pytest.mark.parametrize("units", ["field", "metric"])
def test_the_demonstration_reads_back(units: str, paper: Paper) -> None:
    made, job = demonstration("end", units), tally_pdf(demonstration("end", units), paper)
    read = pages(job)
    text = "\n".join("\n".join(page) for page in read)
    show = made.setup.step.show
    for label, steps in (("SHOE DEPTH", made.depths.shoe), ("string length", made.depths.string),
                         ("FLOAT COLLAR, TOP", made.shoe_track[-1].top)):  # fmt: skip
        assert f"{label}\n{show(steps)}\n" in text
    for key in ("displacement_to_collar", "weight_in_mud"):
        figure = made.figures[key]
        value = made.setup.shown.show(float(figure.value or 0), figure.quantity)
        assert f"{figure.label}\n{value}\n" in text
    for number, page in enumerate(read, start=1):
        assert "Final casing tally" in page
        assert f"page {number} of {len(read)}" in page
        assert any(HEAD in line and line.startswith(f"{made.entries} entries, ") for line in page)
        assert any(line.startswith("Not final until it is signed") for line in page)
    assert outside(job, paper) == []
    assert overlapping(job) == []


@cache
def long_pdf(joints: int, unit: str) -> bytes:
    """Return the tally of a long string on A4, drawn once."""
    return tally_pdf(long_string(joints, unit), A4)


def cells(made: FinalTally, job: bytes) -> list[list[str]]:
    """Return the lines of the tally with an order number, as cells."""
    first = re.compile(r"(\d+) (\S+) (joint|shoe|collar|marker) (\S) ([\d,.-]+) ([\d,.-]+) "
                       r"([\d,.-]+) ([\d,.-]+)")  # fmt: skip
    found = [first.match(line) for page in lines(job) for line in page]
    return [list(one.groups()) for one in found if one]


@pytest.mark.parametrize(("joints", "unit"), [(200, "demo"), (2000, "ft"), (403, "mm")])
def test_tens_of_joints_add_up_as_printed(joints: int, unit: str) -> None:
    made = demonstration() if unit == "demo" else long_string(joints, unit)
    job = tally_pdf(made, A4) if unit == "demo" else long_pdf(joints, unit)
    show = made.setup.step.show
    rows = cells(made, job)
    assert [row[1] for row in rows] == [row.number for row in made.rows]
    assert [row[4:] for row in rows] == [
        [show(each) for each in (row.length, row.cumulative, row.top, row.bottom)]
        for row in made.rows
    ]
    assert sum(decimal(row[4]) for row in rows) == decimal(show(made.job.length))
    text = "\n".join(line for page in lines(job) for line in page)
    subtotals = re.findall(r"joints (\d+)-\d+ subtotal ([\d,.]+) ([\d,.]+)", text)
    forward = re.findall(r"joints (\d+)-\d+ brought forward ([\d,.]+)", text)
    assert len(subtotals) == len(forward) == len(made.blocks) == -(-joints // 10)
    assert sum(decimal(length) for _, length, _ in subtotals) == decimal(show(made.job.length))
    for (_, length, to_here), (_, before) in zip(subtotals, forward, strict=True):
        assert decimal(before) + decimal(length) == decimal(to_here)
    assert outside(job, A4) == []
    assert overlapping(job) == []


def test_a_long_table_repeats_its_heading() -> None:
    read = lines(long_pdf(2000, "ft"))
    listing = [page for page in read if any(re.match(r"\d+ \d+ joint A", line) for line in page)]
    assert len(listing) > 35
    for page in listing:
        assert "order no. item pipe length to here top bottom installed in" in page
        assert sum(1 for line in page if line.startswith("Tally from the shoe up")) == 1
        starts = [line for line in page if " brought forward " in line]
        ends = [line for line in page if " subtotal " in line]
        assert len(starts) == len(ends), "a block is parted"


def test_not_final_until_on_depth() -> None:
    read = pages(tally_pdf(demonstration("third"), LETTER))
    for page in read:
        assert "Casing tally, not final" in page
        assert any(line.startswith("NOT FINAL: the string is not on depth") for line in page)
    assert "NOT FINAL: do not sign as the final tally." in read[-1]
    assert "company representative" in read[-1]


@pytest.mark.parametrize("text", HOSTILE, ids=ascii)
def test_hostile_text_comes_out_as_text(text: str) -> None:
    made = tally_pdf(tally(text), LETTER)
    document = PdfReader(BytesIO(made))
    assert not {"/OpenAction", "/AA", "/Names", "/AcroForm"} & set(document.root_object)
    assert not any({"/Annots", "/AA"} & set(page) for page in document.pages)
    read = "".join("".join(page) for page in lines(made))
    assert not [char for char in read if ord(char) < 32 or 0x7F <= ord(char) < 0xA0]
    assert not set("\u202e\u2066\u200b") & set(read)
    assert ("A character that cannot be printed" in read) == ("\\u" in read)
    assert outside(made, LETTER) == []


def test_a_letter_is_never_dropped_silently() -> None:
    text = "\n".join("\n".join(page) for page in lines(tally_pdf(tally("Åse 井戸 Ж "), A4)))
    assert "Åse \\u4e95\\u6238 Ж Well, Åse \\u4e95\\u6238 Ж string" in text
    assert "A character that cannot be printed is written as its number" in text


AGAIN = """
from hashlib import sha256
from tally.reports.pdf.paper import A4
from tally.reports.pdf.tally_pdf import tally_pdf
from tests.tally.reports.jobs import tally
print(sha256(tally_pdf(tally("\u00c5se "), A4)).hexdigest())
"""


def test_the_same_book_gives_the_same_bytes() -> None:
    here = tally_pdf(tally("\u00c5se "), A4)
    there = subprocess.run(
        [sys.executable, "-c", AGAIN], cwd=ROOT, check=True, capture_output=True, text=True
    )
    assert there.stdout.strip() == sha256(here).hexdigest()
    assert tally_pdf(tally("\u00c5se "), A4) == here
    about = PdfReader(BytesIO(here)).metadata
    assert about is not None
    assert about.title == "Final casing tally"
