"""The sections of a document that list pipe: the tally in tens of joints, and what is not run."""

from __future__ import annotations

from tally.reports.final_tally import FinalTally
from tally.reports.item_cells import (
    NOTHING_ASIDE,
    NOTHING_LEFT,
    aside_cells,
    closing_cells,
    forward_label,
    item_cells,
    item_remarks,
    left_on_rack,
    put_aside,
    rack_head,
    rack_notes,
    rack_rows,
    subtotal_label,
    when_run,
)
from tally.reports.pdf.document import Section
from tally.reports.pdf.pieces import (
    GAP,
    Column,
    Pieces,
    Space,
    Table,
    paragraph,
    table,
    widest,
)
from tally.reports.tally_lines import Block, Row

_INDENT = 26.0
_PIPE = 18.0
_ON_RACK = 6
"""Pieces to a line of what is left on the rack."""


def tally_section(tally: FinalTally, room: float) -> Section:
    """Return the items from the shoe up, in tens of joints, each with its total."""
    named = f"Tally from the shoe up, in {tally.setup.step.unit}"
    if not tally.rows:
        return Section(named, (paragraph("Nothing is run yet.", room),))
    columns = _columns(tally, room)
    blocks = tuple(_block(tally, columns, block) for block in tally.blocks)
    return Section(named, blocks, columns.heading())


def _columns(tally: FinalTally, room: float) -> Table:
    """Return columns as wide as their longest number; what is installed takes what they leave."""
    show = tally.setup.step.show
    lengths = [(one.length, one.cumulative, one.top, one.bottom) for one in tally.rows]
    lengths += [(block.length, block.to_here, 0, 0) for block in tally.blocks]
    numbers = [
        (name, max(34.0, widest([show(steps) for steps in four], bold=True)), True)
        for name, four in zip(
            ("length", "to here", "top", "bottom"), zip(*lengths, strict=True), strict=True
        )
    ]
    orders = widest(["order"], bold=True)
    kinds = max(widest(["item"], bold=True), widest([row.kind for row in tally.rows]))
    others = orders + kinds + _PIPE + 3 * GAP
    numbered = max(
        min(52.0, widest([row.number for row in tally.rows])),
        # what opens and closes a block stands across the first columns, in one line
        widest([forward_label(block) for block in tally.blocks], bold=True)
        - (others + numbers[0][1] + GAP),
        widest([subtotal_label(block) for block in tally.blocks], bold=True) - others,
    )
    return table(
        room,
        *(("order", orders, True), ("no.", numbered), ("item", kinds), ("pipe", _PIPE)),
        *numbers,
        *(("installed", 0.0), ("in", 22.0, True)),
    )


def _block(tally: FinalTally, columns: Table, block: Block) -> Pieces:
    forward = tally.setup.step.show(block.brought_forward)
    opening = (forward_label(block), forward, *("", "", when_run(block), ""))
    return (
        *_first_made_one(columns, 5).row(opening, bold=True),
        *(piece for row in block.rows for piece in _row(tally, columns, row)),
        *_first_made_one(columns, 4).row(closing_cells(tally, block), bold=True),
        Space(4.0, ruled=columns.width),
    )


def _first_made_one(columns: Table, many: int) -> Table:
    """Return the columns with the first of them made one."""
    first, rest = columns.columns[:many], columns.columns[many:]
    return Table((Column("", Table(first).width), *rest))


def _row(tally: FinalTally, columns: Table, one: Row) -> Pieces:
    line, told = columns.row(item_cells(tally, one)), item_remarks(one)
    return (*line, *_under(told, columns.width)) if told else line


def _under(told: str, room: float) -> Pieces:
    beside = table(room, ("", _INDENT), ("", 0.0))
    return beside.row(["", told])


def not_run_section(tally: FinalTally, room: float) -> Section:
    """Return what is not in the string: each piece put aside with its reason, then the rack."""
    named = f"Not in the string, lengths in {tally.setup.step.unit}"
    return Section(named, (*_aside(tally, room), *_rack(tally, room)))


def _aside(tally: FinalTally, room: float) -> tuple[Pieces, ...]:
    columns = table(
        room,
        *(("no.", 48.0), ("item", 48.0), ("length", 48.0, True), ("state", 48.0)),
        *(("reason", 0.0), ("when and by whom", 130.0)),
    )
    groups: list[Pieces] = []
    for ones, closing in put_aside(tally):
        lines = [piece for one in ones for piece in columns.row(aside_cells(tally, one))]
        head = () if groups else columns.heading()
        groups.append((*head, *lines, *columns.row(closing, bold=True), Space()))
    return tuple(groups) or (paragraph(NOTHING_ASIDE, room),)


def _rack(tally: FinalTally, room: float) -> tuple[Pieces, ...]:
    rack = left_on_rack(tally)
    if not rack:
        return (paragraph(NOTHING_LEFT, room),)
    columns = table(room, *(("", 0.0),) * _ON_RACK)
    rows = [columns.row(pieces) for pieces in rack_rows(tally, rack, _ON_RACK, "  ")]
    notes = tuple(paragraph(note, room) for note in rack_notes(rack))
    return ((*paragraph(rack_head(tally, rack), room, bold=True), *rows[0]), *rows[1:], *notes)
