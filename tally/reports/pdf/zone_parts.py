"""The sections about the waiting on cement and the zones, of the tally and of the report."""

from __future__ import annotations

from tally.job.waiting import HABIT
from tally.job.zones import PROVES_NOTHING, ZoneRecord, how_far, zone_records
from tally.reports.final_tally import FinalTally
from tally.reports.pdf.document import Section
from tally.reports.pdf.parts import pairs
from tally.reports.pdf.pieces import Pieces, Space, paragraph, table
from tally.reports.text_zones import called, waiting_lines


def waiting_sections(tally: FinalTally, room: float) -> tuple[Section, ...]:
    """Return since when the cement is in place and what the rules ask; nothing before either."""
    lines = waiting_lines(tally.job)
    if not lines:
        return ()
    told = pairs(
        room, ((label, ", ".join(filter(None, parts))) for label, *parts in lines if label)
    )
    sentences = tuple(paragraph(" ".join(parts), room) for label, *parts in lines if not label)
    return (Section("Waiting on cement", (*told, *sentences, paragraph(HABIT, room))),)


def zones_sections(tally: FinalTally, room: float) -> tuple[Section, ...]:
    """Return what was done at each zone and what is in doubt; nothing without zones."""
    records = zone_records(tally.job)
    if not records:
        return ()
    told = " ".join((how_far(tally.job), PROVES_NOTHING))
    groups = ((*paragraph(told, room), Space()), *(_zone(each, room) for each in records))
    return (Section("Zones", groups),)


def _zone(record: ZoneRecord, room: float) -> Pieces:
    beside = table(room, ("", 8.0), ("", 0.0))
    return (
        *paragraph(called(record.zone), room, bold=True),
        *(piece for text in record.done for piece in beside.row(["", text])),
        *(piece for text in record.doubts for piece in beside.row(["", f"IN DOUBT: {text}"])),
        Space(),
    )
