"""Signed reports, read back: who signed, which issue, and both values of what was amended.

Number 1 is entry 4 of the invented book and was listed with 40.07 ft.
"""

import io
import re

import pytest
from python_calamine import CalamineWorkbook

from demo_db.play import entries as demo_entries
from tally.book.book import Book
from tally.job.entries.correction import Correction
from tally.job.entries.signing import ReportSigned
from tally.job.entry import to_fields
from tally.reports.export import chosen, export
from tally.reports.final_tally import FinalTally, final_tally
from tally.reports.pdf.files import pdf_files
from tally.reports.pdf.paper import A4
from tally.reports.pdf.report_pdf import report_pdf
from tally.reports.pdf.tally_pdf import tally_pdf
from tally.reports.tally_text import tally_text
from tally.reports.tally_xlsx import tally_xlsx
from tests.tally.job.invented import LEAD, REP, landed
from tests.tally.job.signing import Signed
from tests.tally.reports.pdf.reading import outside, overlapping, pages

ROLE = "company representative"


@pytest.fixture
def book():
    return Signed(landed())


def tally_of(book: Signed) -> FinalTally:
    now = book.standing
    return final_tally(now.job, now.entries, (now.count, now.head))


def read_pdf(content: bytes) -> str:
    """Return the text of a PDF as pypdf reads it, its breaks made blanks."""
    return " ".join(" ".join(" ".join(page) for page in pages(content)).split())


def amended(book: Signed) -> Signed:
    """Sign as prepared and approved, then put a length right."""
    book.signs("prepared", LEAD)
    book.signs("approved", REP)
    book.corrects("1", "40.10", "tape misread")
    return book


AMENDED = (
    f"Issue 2: entry {{seq}} amends entry 4 (1 run), {LEAD}, {{at}}: tape misread. "
    "Length: was 40.07 ft, as listed, now 40.10 ft."
)


def told_amended(book: Signed) -> str:
    last = book.standing.entries[-1]
    return AMENDED.format(seq=last.seq, at=last.at[:16].replace("T", " "))


def test_unsigned_every_way_of_writing_says_not_final(book):
    made = tally_of(book)
    assert all(
        page[2] == "Not final until it is signed on the last page."
        for page in (text.splitlines() for text in tally_text(made).split("FINAL CASING TALLY"))
        if len(page) > 2
    )
    for page in pages(tally_pdf(made, A4)):
        assert any(line.startswith("Not final until it is signed") for line in page)
    assert "AMENDMENTS" not in tally_text(made)
    assert cells(made)["issue"] == "Not final until it is signed on the last page."


def cells(made: FinalTally) -> dict[str, str]:
    """Return what the sheet Job tells, by its first column."""
    book = CalamineWorkbook.from_filelike(io.BytesIO(tally_xlsx(made)))
    return {str(row[0]): str(row[1]) for row in book.get_sheet_by_name("Job").to_python()}


def test_a_signature_prints_name_role_meaning_date_and_time(book):
    book.signs("prepared", LEAD)
    entry = book.signs("approved", REP)
    made = tally_of(book)
    at = f"{entry.at[:16].replace('T', ' ')} +02:00"
    line = f"{ROLE} {REP} approved, without a PIN {at} (entry {entry.seq})"
    assert line in read_pdf(tally_pdf(made, A4))
    assert f"{ROLE} {REP} signed: approved, without a PIN, {at} (" in " ".join(
        tally_text(made).split()
    )
    assert re.search(r"tally keeper +_+ signed _+ date _+", tally_text(made)), "nobody signed it"
    assert "casing crew lead Oda Linde" in read_pdf(tally_pdf(made, A4)), "signs besides the roles"
    assert f"Issue 1, approved by {REP}, {at[:16]}." in tally_text(made)
    assert cells(made)[f"signature, {ROLE}"] == (
        f"{REP}, approved, without a PIN, {at} (entry {entry.seq})"
    )


def test_prepared_alone_is_not_final(book):
    book.signs("prepared", LEAD)
    said = f"Issue 1, not final: prepared by {LEAD}; nobody has approved it."
    assert said in tally_text(tally_of(book))
    assert said in read_pdf(tally_pdf(tally_of(book), A4))


def test_the_next_issue_shows_the_amendment_with_both_values(book):
    made = tally_of(amended(book))
    head = "Issue 2, amended after signing, not final: nobody has signed it again."
    before = f"Approved before issue 2 by {REP}, {ROLE},"
    for text in (read_pdf(tally_pdf(made, A4)), " ".join(tally_text(made).split())):
        assert head in text
        assert told_amended(book) in text
        assert before in text
        assert "entries added since, which amend nothing that was signed: 0." in text.lower()
    told = cells(made)
    assert told["issue"] == head
    assert re.search(r"tally keeper +_+ signed _+ date _+", tally_text(made))
    assert "approved, without" not in tally_text(made).partition("CAUTION AND SIGNATURES")[2]


def test_signed_again_it_still_shows_what_was_amended(book):
    amended(book)
    told = told_amended(book)
    book.signs("approved", REP)
    text = read_pdf(tally_pdf(tally_of(book), A4))
    assert f"Issue 2, amended after signing, approved by {REP}" in text
    assert told in text


def test_nothing_lies_outside_or_over_one_another_with_all_of_it(book):
    amended(book)
    book.signs("witnessed", "Rui Bastos")
    job = tally_pdf(tally_of(book), A4)
    assert outside(job, A4) == []
    assert overlapping(job) == []


def test_the_cementing_report_and_the_fields_have_issues_of_their_own(tmp_path):
    made = demo_entries()
    with Book.create(tmp_path / "job.book", made) as book:
        count, head = book.head
        who = {"name": "N. Haddad", "role": ROLE, "meaning": "approved"}
        signed = {"reports": ("report", "fields"), "entries": count, "head": head}
        book.record(ReportSigned(by="N. Haddad", at=book.job.last, **who, **signed))
        bump = next(e for e in made if getattr(e, "step_id", "") == "bump-pressure")
        kept = {k: v for k, v in to_fields(bump).items() if k not in ("kind", "by", "at", "seq")}
        book.record(Correction(by="Ivo Marek", at=book.job.last, of=bump.seq, reason="gauge",
                               instead={**kept, "value": "1725 psi"}))  # fmt: skip
        tally = final_tally(book.job, book.entries, book.head)
        text = read_pdf(report_pdf(tally, A4))
        assert "Issue 2, amended after signing, not final" in text
        assert "Give the pressure at the bump: 1735 psi" in text
        assert "Value: was 1735 psi, now 1725 psi." in text
        names = set(pdf_files(tally, "x", A4))
        assert names == {"x-tally.pdf", "x-report-issue-2.pdf", "x-regulator-issue-2.pdf"}
        page = read_pdf(pdf_files(tally, "x", A4)["x-regulator-issue-2.pdf"])
        assert "Value: was 1735 psi, now 1725 psi." in page


def test_files_of_a_signed_issue_are_left_alone_by_the_next(tmp_path):
    told = landed()
    with Book.create(tmp_path / "job.book", told.entries) as book:
        count, head = book.head
        who = {"name": REP, "role": ROLE, "meaning": "approved", "reports": ("tally",)}
        book.record(ReportSigned(by=REP, at=book.job.last, entries=count, head=head, **who))
        (signed,) = export(book, tmp_path, chosen(["text"]))
        content = signed.read_bytes()
        instead = {"number": "1", "length": 4010, "typed": "40.10"}
        book.record(Correction(by=LEAD, at=book.job.last, of=4, reason="slip", instead=instead))
        (later,) = export(book, tmp_path, chosen(["text"]))
    assert (signed.name, later.name) == ("job-tally.txt", "job-tally-issue-2.txt")
    assert signed.read_bytes() == content
    assert "now 40.10" in later.read_text()
