"""A smaller report as a PDF."""

from __future__ import annotations

from tally.reports.final_tally import FinalTally
from tally.reports.page import WIDTH
from tally.reports.pdf.document import Document, Section, written
from tally.reports.pdf.paper import Paper
from tally.reports.pdf.parts import pairs, signature
from tally.reports.pdf.pieces import GAP, Column, Pieces, Space, Table, paragraph
from tally.reports.pdf.pump_chart import pump_section
from tally.reports.pdf.tally_pdf import titled
from tally.reports.sheet import Block, Grid, Part, Sheet


def sheet_pdf(made: Sheet, paper: Paper) -> bytes:
    """Return a smaller report as a file."""
    return written(sheet_document(made, paper), paper)


def sheet_document(made: Sheet, paper: Paper) -> Document:
    """Return a smaller report, part by part."""
    room = paper.width
    sections = [_part(made.tally, part, room) for part in made.parts]
    if made.signing:
        sections.append(_signatures(made, room))
    return titled(made.tally, made.title, made.standing, tuple(sections))


def _part(tally: FinalTally, part: Part, room: float) -> Section:
    if part.picture:
        return pump_section(tally, room)
    if part.empty:
        return Section(part.title, (paragraph(part.none, room),))
    told: Pieces = tuple(piece for each in part.said for piece in paragraph(each, room, indent=8.0))
    if part.grid is None or not part.grid.blocks:
        groups = (*((told,) if told else ()), *pairs(room, part.fields))
        return Section(part.title, groups)
    columns = _columns(part.grid, room)
    opening = (*told, Space()) if told else ()
    blocks = tuple(_block(block, columns) for block in part.grid.blocks)
    return Section(part.title, blocks, (*opening, *columns.heading()))


def _columns(grid: Grid, room: float) -> Table:
    """Return the columns in the shares that they have of the text page."""
    many = len(grid.columns)
    taken = sum(each.wide for each in grid.columns)
    rest = (WIDTH - (many - 1) - taken) / max(1, sum(1 for each in grid.columns if not each.wide))
    letter = (room - GAP * (many - 1)) / (
        taken + rest * sum(1 for each in grid.columns if not each.wide)
    )
    return Table(
        tuple(Column(each.name, (each.wide or rest) * letter, each.number) for each in grid.columns)
    )


def _block(block: Block, columns: Table) -> Pieces:
    rows = tuple(piece for row in block.rows for piece in _apart(columns.row(row)))
    closing = columns.row(block.closing, bold=True) if block.closing else ()
    return (*rows, *closing, Space(4.0, ruled=columns.width))


def _apart(row: Pieces) -> Pieces:
    """Return a row; one of several lines keeps a little off the next."""
    return row if len(row) == 1 else (*row, Space(2.0))


def _signatures(made: Sheet, room: float) -> Section:
    lines = (piece for role, name in made.signing for piece in signature(role, name, room))
    refused = (*paragraph(made.unfinished, room, bold=True), Space()) if made.unfinished else ()
    return Section("Signatures", ((*refused, *lines),))
