"""The final tally as a PDF: the pages that are signed."""

from __future__ import annotations

from tally.reports.final_tally import FinalTally
from tally.reports.pdf.document import Document, Section, written
from tally.reports.pdf.paper import Paper
from tally.reports.pdf.parts import (
    amendments_section,
    corrections_section,
    counts_section,
    depths_section,
    exceptions_section,
    fittings_section,
    job_section,
    people_section,
    signatures_section,
    volumes_section,
    while_running_section,
)
from tally.reports.pdf.tally_table import not_run_section, tally_section
from tally.reports.pdf.weight_chart import weight_section
from tally.reports.pdf.well_picture import well_section
from tally.reports.pdf.zone_parts import waiting_sections, zones_sections
from tally.reports.signed import standing
from tally.reports.text_parts import stamp

_FIRST = (
    job_section,
    depths_section,
    counts_section,
    volumes_section,
    weight_section,
    tally_section,
    not_run_section,
    fittings_section,
    well_section,
)
_LAST = (exceptions_section, corrections_section, people_section)
_DO_NOT_SIGN = "NOT FINAL: do not sign as the final tally."


def tally_pdf(tally: FinalTally, paper: Paper) -> bytes:
    """Return the final tally as a file."""
    return written(tally_document(tally, paper), paper)


def tally_document(tally: FinalTally, paper: Paper) -> Document:
    """Return the final tally, section by section."""
    title = "Final casing tally" if tally.final else "Casing tally, not final"
    room = paper.width
    sections = [
        *(section(tally, room) for section in _FIRST),
        *waiting_sections(tally, room),
        *zones_sections(tally, room),
        while_running_section(tally, room),
        *(section(tally, room) for section in _LAST),
    ]
    amended = amendments_section(tally, room, "tally")
    lacks = "" if tally.final else _DO_NOT_SIGN
    signed = signatures_section(tally, room, tally.signatures, lacks, "tally")
    return titled(tally, title, standing(tally, "tally"), (*sections, amended, signed))


def titled(tally: FinalTally, title: str, standing: str, sections: tuple[Section, ...]) -> Document:
    """Return sections with what stands on every page of them."""
    well = tally.setup.well
    return Document(
        title=title,
        about=f"{well.name}, {well.string}",
        standing=standing,
        entries=tally.entries,
        head=tally.head,
        until=stamp(tally.job.last),
        sections=sections,
    )
