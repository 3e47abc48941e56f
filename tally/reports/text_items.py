"""The sections of the text page that list pipe: the tally in tens, and what is not run."""

from __future__ import annotations

from tally.reports.final_tally import FinalTally
from tally.reports.guard import plain
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
    when_run,
)
from tally.reports.page import WIDTH, Column, Lines, Section, headings, row, rule, wrapped
from tally.reports.tally_lines import Block, Row
from tally.reports.text_parts import cells, stacked

_ASIDE = (
    Column("no.", 10),
    Column("item", 9),
    Column("length", 11, right=True),
    Column("state", 10),
    Column("reason", 28),
    Column("when and by whom", 27),
)
_RACK = (Column("", 15),) * 6


def tally_section(tally: FinalTally) -> Section:
    """Return the items from the shoe up, in tens of joints, each with its total."""
    columns = _columns(tally)
    unit = tally.setup.step.unit
    names = row(columns, [column.heading for column in columns])
    heading = (rule(f"TALLY from the shoe up, in {unit}"), *names)
    if not tally.rows:
        return Section(heading, (("Nothing is run yet.", ""),))
    blocks = tuple(_block(tally, columns, block) for block in tally.blocks)
    return Section(heading, (*blocks, ("",)))


def _columns(tally: FinalTally) -> tuple[Column, ...]:
    """Return columns as wide as their longest number; the last but one takes what is left."""
    show = tally.setup.step.show
    lengths = [(one.length, one.cumulative, one.top, one.bottom) for one in tally.rows]
    lengths += [(block.length, block.to_here, 0, 0) for block in tally.blocks] or [(0, 0, 0, 0)]
    sizes = [max([8, *(len(show(steps)) for steps in four)]) for four in zip(*lengths, strict=True)]
    names = ("length", "to here", "top", "bottom")
    fixed = (Column("order", 5, right=True), Column("no.", 9), Column("item", 9))
    numbers = [Column(name, size, right=True) for name, size in zip(names, sizes, strict=True)]
    head = (*fixed, Column("pipe", 4), *numbers)
    used = sum(column.width + 1 for column in head) + 6
    return (*head, Column("installed", WIDTH - used), Column("in", 5))


def _block(tally: FinalTally, columns: tuple[Column, ...], block: Block) -> Lines:
    forward = tally.setup.step.show(block.brought_forward)
    summing = (Column("", sum(column.width + 1 for column in columns[:4]) - 1), *columns[4:])
    opening = (forward_label(block), "", forward, "", "", when_run(block), "")
    return stacked(
        cells(summing, *opening),
        *(_row(tally, columns, row) for row in block.rows),
        cells(summing, *closing_cells(tally, block)),
    )


def _row(tally: FinalTally, columns: tuple[Column, ...], one: Row) -> Lines:
    told, indent = item_remarks(one), " " * 6
    more = wrapped(plain(told), WIDTH - len(indent)) if told else ()
    return (*cells(columns, *item_cells(tally, one)), *(indent + each for each in more))


def not_run_section(tally: FinalTally) -> Section:
    """Return what is not in the string: each piece put aside with its reason, then the rack."""
    heading = (rule(f"NOT IN THE STRING, lengths in {tally.setup.step.unit}"),)
    return Section(heading, (*_aside(tally), _rack(tally), ("",)))


def _aside(tally: FinalTally) -> tuple[Lines, ...]:
    groups = [
        stacked(
            *(cells(_ASIDE, *aside_cells(tally, one)) for one in ones),
            cells(_ASIDE, *closing),
            ("",),
        )
        for ones, closing in put_aside(tally)
    ]
    if not groups:
        return ((NOTHING_ASIDE, ""),)
    return (stacked(headings(_ASIDE), groups[0]), *groups[1:])


def _rack(tally: FinalTally) -> Lines:
    rack = left_on_rack(tally)
    if not rack:
        return (NOTHING_LEFT,)
    lines = [cells(_RACK, *pieces) for pieces in rack_rows(tally, rack, len(_RACK), " ")]
    notes = (wrapped(plain(note), hang=2) for note in rack_notes(rack))
    return stacked((rack_head(tally, rack),), *lines, *notes)
