"""What the tally says of each item, cell by cell, whatever page it is written on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from tally.job.job import ON_RACK
from tally.reports.final_tally import BLOCK, FinalTally
from tally.reports.tally_lines import Block, NotRun, Row
from tally.reports.text_job import pipe_key
from tally.reports.text_parts import stamp, who

NOTHING_ASIDE = "Nothing was rejected, laid down or sent away."
NOTHING_LEFT = "Nothing is left on the rack."


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


def forward_label(block: Block) -> str:
    """Return what opens a block."""
    return f"{block_label(block)} brought forward"


def subtotal_label(block: Block) -> str:
    """Return what closes a block."""
    return f"{block_label(block)} subtotal"


def closing_cells(tally: FinalTally, block: Block) -> tuple[str, ...]:
    """Return the sums of a block, in the columns from its label on."""
    show = tally.setup.step.show
    sums = (show(block.length), show(block.to_here))
    return subtotal_label(block), *sums, "", "", block_pieces(block), ""


def item_cells(tally: FinalTally, one: Row) -> tuple[str, ...]:
    """Return an item of the string: order, number, item, pipe, four lengths, installed, time."""
    show = tally.setup.step.show
    return (
        str(one.order),
        one.number,
        one.kind,
        pipe_key(tally, one.pipe),
        *(show(steps) for steps in (one.length, one.cumulative, one.top, one.bottom)),
        ", ".join(map(str, one.fittings)),
        stamp(one.at)[-5:],
    )


def item_remarks(one: Row) -> str:
    """Return what stands under an item of the string, or nothing."""
    return "; ".join(part for part in (one.description, one.remarks) if part)


def put_aside(tally: FinalTally) -> Iterator[tuple[list[NotRun], tuple[str, ...]]]:
    """Yield what became of each state, off the rack and not in the string, with its sum."""
    aside = [one for one in tally.not_run if one.state != ON_RACK]
    for state, members in groupby(sorted(aside, key=lambda one: one.state), lambda one: one.state):
        ones = list(members)
        total = tally.setup.step.show(sum(one.length for one in ones))
        yield ones, ("", f"{len(ones)} in all", total, state, "", "")


def aside_cells(tally: FinalTally, one: NotRun) -> tuple[str, ...]:
    """Return a piece that was put aside: number, item, length, state, reason, when and by whom."""
    told = "; ".join(part for part in (one.reason, one.remeasured, one.description) if part)
    length = tally.setup.step.show(one.length)
    return one.number, one.kind, length, one.state, told, who(one.by, one.at)


def left_on_rack(tally: FinalTally) -> list[NotRun]:
    """Return what is left on the rack."""
    return [one for one in tally.not_run if one.state == ON_RACK]


def rack_head(tally: FinalTally, rack: Sequence[NotRun]) -> str:
    """Return how much is left on the rack."""
    step = tally.setup.step
    total = step.show(sum(one.length for one in rack))
    return f"Left on rack, {len(rack)} in all, {total} {step.unit} (number, length):"


def rack_rows(
    tally: FinalTally, rack: Sequence[NotRun], many: int, between: str
) -> Iterator[tuple[str, ...]]:
    """Yield what is left on the rack, so many pieces to a row."""
    show = tally.setup.step.show
    pieces = [f"{_piece(one)}{between}{show(one.length)}" for one in rack]
    pieces += [""] * (-len(rack) % many)
    for start in range(0, len(pieces), many):
        yield tuple(pieces[start : start + many])


def _piece(one: NotRun) -> str:
    plainly = one.kind == "joint" or one.number == one.kind
    mark = "*" if one.remeasured else ""
    return f"{one.number if plainly else f'{one.kind} {one.number}'}{mark}"


def rack_notes(rack: Sequence[NotRun]) -> tuple[str, ...]:
    """Return what the marks beside pieces on the rack mean, a line each."""
    return tuple(f"* {one.number}: {one.remeasured}" for one in rack if one.remeasured)
