"""The PDF files of a book."""

from __future__ import annotations

from tally.reports.final_tally import FinalTally
from tally.reports.pdf.paper import A4, Paper
from tally.reports.pdf.regulator_pdf import regulator_pdf
from tally.reports.pdf.report_pdf import report_pdf
from tally.reports.pdf.standing import unfinished_report
from tally.reports.pdf.tally_pdf import tally_pdf


def pdf_files(tally: FinalTally, name: str, paper: Paper) -> dict[str, bytes]:
    """Return the three documents by the names of their files.

    What is not final says so in its name, so that a final one is left alone; so does the paper,
    unless it is A4.
    """
    tallied = "" if tally.final else "-not-final"
    reported = "-not-final" if unfinished_report(tally) else ""
    end = ".pdf" if paper is A4 else f"-{paper.name}.pdf"
    return {
        f"{name}-tally{tallied}{end}": tally_pdf(tally, paper),
        f"{name}-report{reported}{end}": report_pdf(tally, paper),
        f"{name}-regulator{reported}{end}": regulator_pdf(tally, paper),
    }
