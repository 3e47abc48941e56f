"""The smaller reports of the floor: running list, trip sheet, inventory and return note."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import groupby

from tally.job.counts import Share
from tally.job.entry import several
from tally.job.job import LAID_DOWN, ON_RACK, REJECTED, RUN, SENT_AWAY, Item, Job, Made
from tally.job.tank import TankLook, looks, mark
from tally.job.volumes import into_tank
from tally.reports.fields import Field, reckoned
from tally.reports.final_tally import FinalTally
from tally.reports.list_lines import BLOCK, ListBlock, Listing
from tally.reports.mixing_fields import mixed_totals
from tally.reports.sheet import Block, Cells, Column, Grid, Part, Sheet, number, sheet, tens
from tally.reports.smaller.amounts import NOTHING, finer, headed, read_as
from tally.reports.text_counts import plus
from tally.reports.text_parts import stamp
from tally.reports.text_people import fitting_rows

_STATES = (RUN, ON_RACK, REJECTED, LAID_DOWN, SENT_AWAY)
_LEFT = "left on rack"


def running_list_sheet(tally: FinalTally, made: Listing) -> Sheet:
    """Return the order in which the string goes in, as it stands."""
    step = tally.setup.step
    columns = (
        number("place", 5),
        number("joint", 5),
        Column("no.", 10),
        Column("item", 10),
        number(f"length, {step.unit}", 10),
        number(f"to here, {step.unit}", 10),
        number(f"bottom, {step.unit}", 10),
        Column("run", 4),
        Column("to install, and remarks"),
    )
    blocks = tuple(_list_block(tally, block) for block in made.blocks)
    doubts = tuple(one.text for one in made.warnings)
    left_out = (
        ("spare, above the casing point", ", ".join(slot.item.number for slot in made.spare)),
        ("set aside", ", ".join(item.number for item in made.aside)),
        ("never received", ", ".join(made.never)),
    )
    parts = (
        Part("To look at", said=doubts, none="Nothing."),
        Part(
            f"From the shoe up, bottom of each item with the shoe at {step.with_unit(made.shoe)}",
            grid=Grid(columns, blocks),
            none="Nothing is in the list.",
        ),
        Part("Not in the string", fields=tuple((what, told or "none") for what, told in left_out)),
    )
    return sheet("running-list", "Running list", tally, parts, ("tally keeper", "checker"))


def _list_block(tally: FinalTally, block: ListBlock) -> Block:
    show = tally.setup.step.show
    rows = []
    for one in block.rows:
        slot, item = one.slot, one.slot.item
        pipe = f"from here {one.new_pipe}" if one.new_pipe else ""
        locked = "place locked" if one.locked else ""
        told = [*map(str, one.fittings), pipe, item.description, locked]
        rows.append(
            (
                str(slot.place),
                str(slot.joint or NOTHING),
                item.number,
                item.kind,
                *(show(each) for each in (slot.length, slot.to_here, slot.bottom)),
                "run" if slot.run else "",
                "; ".join(each for each in told if each),
            )
        )
    first = BLOCK * (block.number - 1) + 1
    named = f"{first}-{first + BLOCK - 1}"
    to_here = show(block.brought_forward + block.length)
    closing = ("", "", named, "subtotal", show(block.length), to_here, "", "", "")
    return Block(tuple(rows), closing)


def trip_sheet(tally: FinalTally) -> Sheet:
    """Return the trip tank against the pipe, item by item, with what adds up since the mark."""
    units = tally.setup.shown
    columns = (
        Column("no.", 7),
        Column("time", 16),
        *(headed(units, name, "volume") for name in ("pipe", "tank", "expected", "seen")),
        *(headed(units, name, "volume", 11) for name in ("difference", "cumulative")),
        Column("remarks"),
    )
    rows = tuple(_trip_rows(tally.job, tally))
    since = mark(tally.job) if tally.job.tank else "the first reading"
    how = (
        "Pipe: what the item pushes out by its size. Expected: what was pushed out since the "
        "reading before, less what was drawn from the tank into the pipe. Difference: seen less "
        f"expected, above nothing a gain. The cumulative difference counts from {since}."
    )
    parts = (
        Part("How it is counted", said=(how,)),
        Part("Item by item", grid=Grid(columns, tens(rows)), none="Nothing is run yet."),
        Part("In all", fields=_trip_totals(tally)),
    )
    return sheet("trip-sheet", "Trip sheet", tally, parts, ("tally keeper", "driller"))


def _trip_totals(tally: FinalTally) -> tuple[Field, ...]:
    return (
        ("pushed out by the pipe", tally.setup.shown.show(into_tank(tally.job), "volume")),
        *(
            (f"trip tank, {word}", reckoned(tally, f"tank_total_{word}"))
            for word in ("expected", "seen", "difference")
        ),
    )


def _trip_rows(job: Job, tally: FinalTally) -> Iterator[Cells]:
    """Yield a row for each item, the reading after it beside it, and one for each other reading."""
    told = before = 0
    for look in looks(job):
        here = look.level.items
        known = [made for made in job.string[told:here] if made.seq <= look.level.seq]
        gone, pulled = max(0, here - told - len(known)), max(0, before - here)
        yield from (_item_row(tally, made) for made in known[:-1])
        yield _look_row(tally, known[-1] if known else None, look, gone, pulled)
        told, before = min(here, told + len(known)), here
    yield from (_item_row(tally, made) for made in job.string[told:])


def _item_row(tally: FinalTally, made: Made) -> Cells:
    pipe = _pushed(tally.job, made)
    volume = finer(tally.setup.shown, pipe, "volume")
    return (made.number, stamp(made.at), volume, *(NOTHING,) * 5, "")


def _look_row(
    tally: FinalTally, made: Made | None, look: TankLook, gone: int, pulled: int
) -> Cells:
    units, level = tally.setup.shown, look.level
    apart = None if look.seen is None or look.expected is None else look.seen - look.expected
    volumes = (look.expected, look.seen, apart, look.out)
    remarks = (
        "" if made else "reading",
        "new mark" if level.mark else "",
        f"counts from {level.since}" if level.since else "",
        f"{several(gone, 'item')} pulled out again later" if gone else "",
        f"{several(pulled, 'item')} pulled out" if pulled else "",
    )
    return (
        made.number if made else "",
        stamp(level.at),
        finer(units, _pushed(tally.job, made), "volume") if made else NOTHING,
        read_as(units, level.volume),
        *(finer(units, each, "volume") for each in volumes),
        "; ".join(each for each in remarks if each),
    )


def _pushed(job: Job, made: Made) -> float:
    """Return what one item pushes into the tank, [m^3]."""
    return into_tank(replace(job, string=(made,)))


def inventory_sheet(tally: FinalTally) -> Sheet:
    """Return what came, what became of it, and each piece with its serial and heat numbers."""
    unit = tally.setup.step.unit
    pieces = (
        Column("no.", 10),
        Column("item", 9),
        Column("pipe", 14),
        number(f"length, {unit}", 10),
        Column("serial", 13),
        Column("heat", 11),
        Column("state", 12),
        Column("reason and description"),
    )
    parts = (
        Part("By pipe", grid=_by_pipe(tally), none="Nothing came on location yet."),
        *(
            Part(
                f"{state[0].upper()}{state[1:]}: {len(items)}",
                grid=Grid(pieces, _piece_blocks(tally, items), "pieces"),
            )
            for state, items in _by_state(tally)
        ),
        Part(
            "Centralizers and scratchers",
            fields=tuple(
                (what, f"installed {done}, wanted {wanted}, {word}; left over not recorded")
                for what, done, wanted, _, word, _ in fitting_rows(tally)
            ),
            none="None in the programme, none installed.",
        ),
        Part(
            "Cement and mix fluid used",
            fields=mixed_totals(tally),
            none="Nothing is mixed yet.",
        ),
    )
    signing = ("tally keeper", "company representative")
    return sheet("inventory", "Inventory and return note", tally, parts, signing)


def _by_pipe(tally: FinalTally) -> Grid:
    """Return the joints of each pipe by what became of them, by count and by length."""
    unit = tally.setup.step.unit
    columns = (
        Column("pipe", 16),
        Column("grade", 8),
        Column("connection"),
        *(
            number(name, wide)
            for name, wide in (
                ("received", 8),
                ("run", 5),
                (_LEFT, 7),
                ("rejected", 8),
                ("laid down", 6),
                ("sent back", 6),
            )
        ),
        number(f"received, {unit}", 11),
    )
    joints = [item for item in tally.job.items.values() if item.kind == "joint"]
    rows = []
    for pipe in tally.setup.pipes:
        of_it = [item for item in joints if tally.job.known.pipe(item.pipe) is pipe]
        if of_it:
            rows.append((pipe.name, pipe.grade, pipe.connection, *_counted(tally, of_it)))
    closing = ("all", "", "", *_counted(tally, joints))
    blocks = tuple(Block(block.rows) for block in tens(rows))
    if blocks:
        blocks = (*blocks[:-1], Block(blocks[-1].rows, closing))
    return Grid(columns, blocks, "by-pipe")


def _counted(tally: FinalTally, items: list[Item]) -> tuple[str, ...]:
    states = {
        state: Share(len(found), sum(found))
        for state in _STATES
        for found in [[item.length for item in items if item.state == state]]
    }
    every = plus(*states.values())
    counts = (every.count, *(states[state].count for state in _STATES))
    return (*map(str, counts), tally.setup.step.show(every.length))


def _by_state(tally: FinalTally) -> list[tuple[str, list[Item]]]:
    """Return the pieces by what became of them, those of the string from the shoe up."""
    place = {made.number: at for at, made in enumerate(tally.job.string)}
    items = sorted(
        tally.job.items.values(),
        key=lambda item: (_STATES.index(item.state), place.get(item.number, 0)),
    )
    named = {ON_RACK: _LEFT, SENT_AWAY: "sent back"}
    return [
        (named.get(state, state), list(found))
        for state, found in groupby(items, key=lambda item: item.state)
    ]


def _piece_blocks(tally: FinalTally, items: list[Item]) -> tuple[Block, ...]:
    show = tally.setup.step.show
    made = {one.number: one for one in tally.job.string}
    blocks = []
    for ten in range(0, len(items), 10):
        some = items[ten : ten + 10]
        lengths = [made[i.number].length if i.number in made else i.length for i in some]
        rows = tuple(
            (
                item.number,
                item.kind,
                tally.job.known.pipe(item.pipe).name,
                show(length),
                item.serial or NOTHING,
                item.heat or NOTHING,
                item.state,
                "; ".join(each for each in (item.reason, item.description) if each),
            )
            for item, length in zip(some, lengths, strict=True)
        )
        closing = (several(len(some), "piece"), "", "", show(sum(lengths)), "", "", "", "")
        blocks.append(Block(rows, closing))
    return tuple(blocks)
