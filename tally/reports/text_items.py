"""The sections of the text page that list pipe: the tally in tens, and what is not run."""

from __future__ import annotations

from itertools import groupby

from tally.job.job import ON_RACK
from tally.reports.final_tally import BLOCK, FinalTally
from tally.reports.guard import plain
from tally.reports.page import WIDTH, Column, Lines, Section, headings, row, rule, wrapped
from tally.reports.tally_lines import Block, NotRun, Row
from tally.reports.text_job import pipe_key
from tally.reports.text_parts import cells, stacked, stamp, who

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
    show = tally.setup.step.show
    label = block_label(block)
    summing = (Column("", sum(column.width + 1 for column in columns[:4]) - 1), *columns[4:])
    opening = ("", show(block.brought_forward), "", "", when_run(block), "")
    closing = (show(block.length), show(block.to_here), "", "", block_pieces(block), "")
    return stacked(
        cells(summing, f"{label} brought forward", *opening),
        *(_row(tally, columns, row) for row in block.rows),
        cells(summing, f"{label} subtotal", *closing),
    )


def block_label(block: Block) -> str:
    """Return which joints stand in a block."""
    first = BLOCK * (block.number - 1) + 1
    return f"joints {first}-{first + BLOCK - 1}"


def block_pieces(block: Block) -> str:
    """Return how many joints and other items a block has."""
    others = len(block.rows) - block.joints
    return f"{block.joints} joints" + (f", {others} other" if others else "")


def when_run(block: Block) -> str:
    """Return the days on which a block was run, and by whom."""
    days = dict.fromkeys(stamp(row.at)[:10] for row in (block.rows[0], block.rows[-1]))
    names = dict.fromkeys(row.by for row in block.rows)
    return f"{' to '.join(days)} {', '.join(names)}"


def _row(tally: FinalTally, columns: tuple[Column, ...], one: Row) -> Lines:
    show = tally.setup.step.show
    line = cells(
        columns,
        str(one.order),
        one.number,
        one.kind,
        pipe_key(tally, one.pipe),
        *(show(steps) for steps in (one.length, one.cumulative, one.top, one.bottom)),
        ", ".join(str(fitting) for fitting in one.fittings),
        stamp(one.at)[-5:],
    )
    told = "; ".join(part for part in (one.description, one.remarks) if part)
    indent = " " * 6
    more = wrapped(plain(told), WIDTH - len(indent)) if told else ()
    return (*line, *(indent + one for one in more))


def not_run_section(tally: FinalTally) -> Section:
    """Return what is not in the string: each piece put aside with its reason, then the rack."""
    unit = tally.setup.step.unit
    heading = (rule(f"NOT IN THE STRING, lengths in {unit}"),)
    aside = [one for one in tally.not_run if one.state != ON_RACK]
    rack = [one for one in tally.not_run if one.state == ON_RACK]
    return Section(heading, (*_aside(tally, aside), _rack(tally, rack), ("",)))


def _aside(tally: FinalTally, aside: list[NotRun]) -> tuple[Lines, ...]:
    if not aside:
        return (("Nothing was rejected, laid down or sent away.", ""),)
    groups = []
    for state, members in groupby(sorted(aside, key=lambda one: one.state), lambda one: one.state):
        ones = list(members)
        lines = [_aside_line(tally, one) for one in ones]
        total = tally.setup.step.show(sum(one.length for one in ones))
        closing = cells(_ASIDE, "", f"{len(ones)} in all", total, state, "", "")
        groups.append(stacked(*lines, closing, ("",)))
    return (stacked(headings(_ASIDE), groups[0]), *groups[1:])


def _aside_line(tally: FinalTally, one: NotRun) -> Lines:
    length = tally.setup.step.show(one.length)
    told = "; ".join(part for part in (one.reason, one.description) if part)
    return cells(_ASIDE, one.number, one.kind, length, one.state, told, who(one.by, one.at))


def _rack(tally: FinalTally, rack: list[NotRun]) -> Lines:
    if not rack:
        return ("Nothing is left on the rack.",)
    show = tally.setup.step.show
    pieces = [_piece(one, show(one.length)) for one in rack]
    total = show(sum(one.length for one in rack))
    head = f"Left on rack, {len(rack)} in all, {total} {tally.setup.step.unit} (number, length):"
    pieces += [""] * (-len(rack) % len(_RACK))
    lines = [
        cells(_RACK, *pieces[start : start + len(_RACK)])
        for start in range(0, len(pieces), len(_RACK))
    ]
    return stacked((head,), *lines)


def _piece(one: NotRun, length: str) -> str:
    plainly = one.kind == "joint" or one.number == one.kind
    return f"{one.number} {length}" if plainly else f"{one.kind} {one.number} {length}"
