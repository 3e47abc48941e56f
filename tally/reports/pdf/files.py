"""The PDF files of a book."""

from __future__ import annotations

from tally.reports.final_tally import FinalTally
from tally.reports.pdf.paper import A4, Paper
from tally.reports.pdf.regulator_pdf import regulator_pdf
from tally.reports.pdf.report_pdf import report_pdf
from tally.reports.pdf.tally_pdf import tally_pdf
from tally.reports.signed import file_mark


def pdf_files(tally: FinalTally, name: str, paper: Paper) -> dict[str, bytes]:
    """Return the three documents by the names of their files.

    What is not final says so in its name, and a later issue its number, so that what is final or
    signed is left alone; so does the paper, unless it is A4.
    """
    end = ".pdf" if paper is A4 else f"-{paper.name}.pdf"
    return {
        f"{name}-tally{file_mark(tally, 'tally')}{end}": tally_pdf(tally, paper),
        f"{name}-report{file_mark(tally, 'report')}{end}": report_pdf(tally, paper),
        f"{name}-regulator{file_mark(tally, 'fields')}{end}": regulator_pdf(tally, paper),
    }
