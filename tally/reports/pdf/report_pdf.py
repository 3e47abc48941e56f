"""The casing and cementing report as a PDF."""

from __future__ import annotations

from tally.reports.final_tally import FinalTally, only_name
from tally.reports.pdf.document import Document, written
from tally.reports.pdf.mixing_chart import mixing_chart_section
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
from tally.reports.pdf.pump_chart import pump_section
from tally.reports.pdf.report_parts import (
    after_section,
    design_section,
    done_section,
    fluids_section,
    intervals_section,
    mixing_section,
    notes_section,
    readings_section,
    running_section,
    steps_sections,
    weights_section,
)
from tally.reports.pdf.tally_pdf import titled
from tally.reports.pdf.tally_table import not_run_section
from tally.reports.pdf.weight_chart import weight_section
from tally.reports.pdf.well_picture import well_section
from tally.reports.pdf.zone_parts import waiting_sections, zones_sections
from tally.reports.signed import not_final, standing

_FIRST = (
    job_section,
    running_section,
    depths_section,
    counts_section,
    fittings_section,
    intervals_section,
    well_section,
    weight_section,
    weights_section,
    while_running_section,
    not_run_section,
    volumes_section,
    design_section,
    fluids_section,
    mixing_section,
    mixing_chart_section,
    done_section,
    pump_section,
    readings_section,
    after_section,
)
_LAST = (notes_section, exceptions_section, corrections_section, people_section)
_SIGNED_BY = ("cementer", "driller", "company representative")
"""Whoever pumped, the rig's side, and the operator's."""


def report_pdf(tally: FinalTally, paper: Paper) -> bytes:
    """Return the casing and cementing report as a file."""
    return written(report_document(tally, paper), paper)


def report_document(tally: FinalTally, paper: Paper) -> Document:
    """Return the casing and cementing report, section by section."""
    room, unfinished = paper.width, not_final(tally, "report")
    signing = [(role, only_name(tally.job, role)) for role in _SIGNED_BY]
    sections = (
        *(section(tally, room) for section in _FIRST),
        *waiting_sections(tally, room),
        *zones_sections(tally, room),
        *steps_sections(tally, room),
        *(section(tally, room) for section in _LAST),
        amendments_section(tally, room, "report"),
        signatures_section(tally, room, signing, unfinished, "report"),
    )
    title = "Casing and cementing report"
    title = f"{title}, not final" if unfinished else title
    return titled(tally, title, standing(tally, "report"), sections)
