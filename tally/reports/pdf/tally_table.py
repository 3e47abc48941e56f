"""The sections of a document that list pipe: the tally in tens of joints, and what is not run."""

from __future__ import annotations

from itertools import groupby

from tally.job.job import ON_RACK
from tally.reports.final_tally import FinalTally
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
from tally.reports.tally_lines import Block, NotRun, Row
from tally.reports.text_items import block_label, block_pieces, when_run
from tally.reports.text_job import pipe_key
from tally.reports.text_parts import stamp, who

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
        widest([_forward(block) for block in tally.blocks], bold=True)
        - (others + numbers[0][1] + GAP),
        widest([_subtotal(block) for block in tally.blocks], bold=True) - others,
    )
    return table(
        room,
        *(("order", orders, True), ("no.", numbered), ("item", kinds), ("pipe", _PIPE)),
        *numbers,
        *(("installed", 0.0), ("in", 22.0, True)),
    )


def _forward(block: Block) -> str:
    return f"{block_label(block)} brought forward"


def _subtotal(block: Block) -> str:
    return f"{block_label(block)} subtotal"


def _block(tally: FinalTally, columns: Table, block: Block) -> Pieces:
    show = tally.setup.step.show
    forward = show(block.brought_forward)
    opening = (_forward(block), forward, *("", "", when_run(block), ""))
    closing = (
        _subtotal(block),
        show(block.length),
        show(block.to_here),
        *("", "", block_pieces(block), ""),
    )
    return (
        *_first_made_one(columns, 5).row(opening, bold=True),
        *(piece for row in block.rows for piece in _row(tally, columns, row)),
        *_first_made_one(columns, 4).row(closing, bold=True),
        Space(4.0, ruled=columns.width),
    )


def _first_made_one(columns: Table, many: int) -> Table:
    """Return the columns with the first of them made one."""
    first, rest = columns.columns[:many], columns.columns[many:]
    return Table((Column("", Table(first).width), *rest))


def _row(tally: FinalTally, columns: Table, one: Row) -> Pieces:
    show = tally.setup.step.show
    line = columns.row(
        [
            str(one.order),
            one.number,
            one.kind,
            pipe_key(tally, one.pipe),
            *(show(steps) for steps in (one.length, one.cumulative, one.top, one.bottom)),
            ", ".join(map(str, one.fittings)),
            stamp(one.at)[-5:],
        ]
    )
    told = "; ".join(part for part in (one.description, one.remarks) if part)
    return (*line, *_under(told, columns.width)) if told else line


def _under(told: str, room: float) -> Pieces:
    beside = table(room, ("", _INDENT), ("", 0.0))
    return beside.row(["", told])


def not_run_section(tally: FinalTally, room: float) -> Section:
    """Return what is not in the string: each piece put aside with its reason, then the rack."""
    aside = [one for one in tally.not_run if one.state != ON_RACK]
    rack = [one for one in tally.not_run if one.state == ON_RACK]
    named = f"Not in the string, lengths in {tally.setup.step.unit}"
    return Section(named, (*_aside(tally, aside, room), *_rack(tally, rack, room)))


def _aside(tally: FinalTally, aside: list[NotRun], room: float) -> tuple[Pieces, ...]:
    if not aside:
        return (paragraph("Nothing was rejected, laid down or sent away.", room),)
    columns = table(
        room,
        *(("no.", 48.0), ("item", 48.0), ("length", 48.0, True), ("state", 48.0)),
        *(("reason", 0.0), ("when and by whom", 130.0)),
    )
    groups: list[Pieces] = []
    for state, members in groupby(sorted(aside, key=lambda one: one.state), lambda one: one.state):
        ones = list(members)
        total = tally.setup.step.show(sum(one.length for one in ones))
        lines = [piece for one in ones for piece in _aside_line(tally, columns, one)]
        closing = columns.row(["", f"{len(ones)} in all", total, state, "", ""], bold=True)
        groups.append((*(() if groups else columns.heading()), *lines, *closing, Space()))
    return tuple(groups)


def _aside_line(tally: FinalTally, columns: Table, one: NotRun) -> Pieces:
    told = "; ".join(part for part in (one.reason, one.description) if part)
    length = tally.setup.step.show(one.length)
    return columns.row([one.number, one.kind, length, one.state, told, who(one.by, one.at)])


def _rack(tally: FinalTally, rack: list[NotRun], room: float) -> tuple[Pieces, ...]:
    if not rack:
        return (paragraph("Nothing is left on the rack.", room),)
    step = tally.setup.step
    total = step.show(sum(one.length for one in rack))
    head = f"Left on rack, {len(rack)} in all, {total} {step.unit} (number, length):"
    columns = table(room, *(("", 0.0),) * _ON_RACK)
    pieces = [_piece(one, step.show(one.length)) for one in rack]
    pieces += [""] * (-len(rack) % _ON_RACK)
    rows = [columns.row(pieces[at : at + _ON_RACK]) for at in range(0, len(pieces), _ON_RACK)]
    return ((*paragraph(head, room, bold=True), *rows[0]), *rows[1:])


def _piece(one: NotRun, length: str) -> str:
    plainly = one.kind == "joint" or one.number == one.kind
    return f"{one.number}  {length}" if plainly else f"{one.kind} {one.number}  {length}"
