"""The tally as pages of plain text that can be printed and signed: ASCII, at most 100 columns.

Every page has 60 lines and ends with the count of entries and the last hash of the book, so that
a signed page can be held against the book later.
"""

from __future__ import annotations

from tally.reports.final_tally import FinalTally
from tally.reports.guard import plain
from tally.reports.page import WIDTH, Lines, paged, rule
from tally.reports.signed import issue_told
from tally.reports.text_counts import counts_section
from tally.reports.text_depths import depths_section, volumes_section
from tally.reports.text_items import not_run_section, tally_section
from tally.reports.text_job import job_section
from tally.reports.text_mixing import mixing_section, trouble_section
from tally.reports.text_people import (
    amendments_section,
    corrections_section,
    exceptions_section,
    fittings_section,
    people_section,
    signatures_section,
)
from tally.reports.text_running import running_section
from tally.reports.text_zones import waiting_section, zones_section

_SECTIONS = (
    job_section,
    depths_section,
    counts_section,
    volumes_section,
    tally_section,
    not_run_section,
    fittings_section,
    mixing_section,
    trouble_section,
    waiting_section,
    zones_section,
    running_section,
    exceptions_section,
    corrections_section,
    amendments_section,
    people_section,
    signatures_section,
)


def tally_text(tally: FinalTally) -> str:
    """Return all pages of the tally, one under the other."""
    sections = [section(tally) for section in _SECTIONS]
    return paged(sections, lambda page, count: _head(tally, page, count), lambda *_: _foot(tally))


def _head(tally: FinalTally, page: int, count: int) -> Lines:
    title = "FINAL CASING TALLY" if tally.final else "CASING TALLY, NOT FINAL"
    number = f"page {page} of {count}"
    well = plain(f"{tally.setup.well.name}, {tally.setup.well.string}")
    return title + number.rjust(WIDTH - len(title)), _short(well), _banner(tally)


def _banner(tally: FinalTally) -> str:
    if not tally.final:
        return "*** NOT FINAL: the string is not on depth; depths rest on the usual stick-up. ***"
    still = len(tally.open_exceptions)
    more = f" Exceptions still open: {still}, see EXCEPTIONS." if still else ""
    return _short(plain(issue_told(tally.issues["tally"]) + more))


def _foot(tally: FinalTally) -> Lines:
    return rule(), f"{tally.entries} entries, chain ends {tally.head}"


def _short(text: str) -> str:
    return text if len(text) <= WIDTH else text[: WIDTH - 3] + "..."
