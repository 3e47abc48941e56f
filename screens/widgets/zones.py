"""Each zone with what was done at it and what is in doubt."""

from __future__ import annotations

from textual.content import Content

from screens.ink import ATTENTION, BOLD, INK, QUIET, line, wrap
from tally.job.job import Job
from tally.job.zones import PROVES_NOTHING, ZoneRecord, how_far, zone_records

WIDTH = 70


def zone_lines(job: Job) -> list[Content]:
    """Return every zone of the set-up."""
    records = zone_records(job)
    if not records:
        return wrap("No zone is in the job set-up: e on F2 adds them, with top and bottom.", WIDTH)
    lines = [*wrap(how_far(job), WIDTH), line("")]
    for record in records:
        lines += [*_zone(record), line("")]
    return [*lines, *wrap(PROVES_NOTHING, WIDTH, QUIET)]


def _zone(record: ZoneRecord) -> list[Content]:
    zone = record.zone
    holds = f", {zone.fluid}" if zone.fluid else ""
    lines = [line(f"{zone.name}  {zone.top.text} to {zone.bottom.text}{holds}"[:WIDTH], BOLD)]
    for text in record.done:
        lines += _said(text, "  ", INK)
    for text in record.doubts:
        lines += _said(text, "? in doubt: ", ATTENTION)
    return lines


def _said(text: str, before: str, style: str) -> list[Content]:
    first, *rest = wrap(f"{before}{text}".rstrip(), WIDTH - 2)
    return [
        line(f"{'  ' if before == '  ' else ''}{first.plain}", style),
        *(line(f"  {each.plain}", style) for each in rest),
    ]
