"""The files of the smaller reports: each as text, as PDF, and its tables as CSV."""

from __future__ import annotations

from collections.abc import Sequence

from tally.job.entry import Entry
from tally.reports.final_tally import FinalTally
from tally.reports.pdf.paper import A4, Paper
from tally.reports.pdf.sheet_pdf import sheet_pdf
from tally.reports.sheet import Sheet
from tally.reports.sheet_csv import sheet_csv
from tally.reports.sheet_text import sheet_text
from tally.reports.smaller.every import RUNNING_LIST, SMALLER, Smaller
from tally.reports.unsigned import final


def smaller_files(
    tally: FinalTally, entries: Sequence[Entry], key: str, name: str, paper: Paper
) -> dict[str, bytes]:
    """Return the files of one smaller report by their names.

    What is not final says so in its name, so that a final one is left alone.
    """
    one = next(each for each in SMALLER if each.key == key)
    made = one.sheet(tally, entries)
    beginning, state = f"{name}-{key}", _state(tally, key)
    tables = {
        f"{beginning}{f'-{file}' if file else ''}{state}.csv": text.encode("utf-8")
        for file, text in sheet_csv(made).items()
    }
    return {
        f"{beginning}{state}.txt": sheet_text(made).encode("ascii"),
        f"{beginning}{state}{_ending(paper)}": sheet_pdf(made, paper),
        **tables,
    }


def smaller_pdf(
    tally: FinalTally, entries: Sequence[Entry], one: Smaller, name: str, paper: Paper
) -> tuple[str, bytes]:
    """Return one smaller report as a PDF for some paper, with the name of its file."""
    made: Sheet = one.sheet(tally, entries)
    return f"{name}-{one.key}{_state(tally, one.key)}{_ending(paper)}", sheet_pdf(made, paper)


def _state(tally: FinalTally, key: str) -> str:
    return "" if key == RUNNING_LIST or final(tally, key) else "-not-final"


def _ending(paper: Paper) -> str:
    return ".pdf" if paper is A4 else f"-{paper.name}.pdf"
