"""The running list as pages for the floor: ASCII, at most 79 columns, a box to tick for each item.

It is what the screen shows, so that nobody runs by another list than the one that was printed.
"""

from __future__ import annotations

from collections import defaultdict

from tally.job.naming import in_short
from tally.reports.guard import plain
from tally.reports.list_lines import BLOCK, ListBlock, Listing, ListRow
from tally.reports.page import Column, Lines, Section, headings, paged, row, wrapped
from tally.reports.text_parts import cells, stacked, stamp

WIDTH = 79
_MARKS = "* another item than a joint   = its place is locked   [ ] to run"
_SIGNED = (f"prepared by {'_' * 24}   checked by {'_' * 24}",)
_INDENT = " " * 8


def running_list_text(made: Listing) -> str:
    """Return all pages of the running list, one under the other."""
    sections = [_doubts(made), _list(made), _to_install(made), _not_in_it(made)]
    return paged(sections, lambda page, count: _head(made, page, count), lambda *_: _foot(made))


def rule(title: str = "") -> str:
    """Return a rule across the page, with a title in it."""
    return (f"-- {title} " if title else "").ljust(WIDTH, "-")


def _head(made: Listing, page: int, count: int) -> Lines:
    title, number = "RUNNING LIST", f"page {page} of {count}"
    well = made.job.known.well
    named = plain(f"{well.name}, {well.string}")
    cut = named if len(named) <= WIDTH else f"{named[: WIDTH - 3]}..."
    return title + number.rjust(WIDTH - len(title)), cut, _standing(made)


def _standing(made: Listing) -> str:
    if made.draft:
        return "*** A DRAFT: this list is not set; do not run by it. ***"
    if made.set_by is None:
        return "as it came with the set-up"
    by = plain(made.set_by.by)[:40]
    return f"set by {by}, {stamp(made.set_by.at)}, entry {made.set_by.seq}"


def _foot(made: Listing) -> Lines:
    return rule(f"{made.entries} entries, the chain ends with"), made.head


def _columns(made: Listing) -> tuple[Column, ...]:
    """Return columns as wide as their longest number; what is installed takes what is left."""
    show = made.job.known.step.show
    lengths = [(one.slot.length, one.slot.to_here, one.slot.bottom) for one in made.rows]
    lengths += [(block.length, 0, 0) for block in made.blocks] or [(0, 0, 0)]
    sizes = [max([7, *(len(show(steps)) for steps in each)]) for each in zip(*lengths, strict=True)]
    names = ("length", "to here", "bottom")
    numbers = [Column(name, size, right=True) for name, size in zip(names, sizes, strict=True)]
    item = max([5, *(len(one.slot.item.kind) for one in made.rows if one.special)])
    name = min(12, max([4, *(len(one.slot.item.number) for one in made.rows)]))
    joint = max([3, *(len(str(one.slot.joint)) for one in made.rows)])
    fixed = (
        Column("", 2),
        Column("", joint, right=True),
        Column("no.", name),
        Column("item", item),
    )
    used = sum(column.width + 1 for column in (*fixed, *numbers)) + 4
    return (*fixed, *numbers, Column("install", WIDTH - used), Column("", 3))


def _list(made: Listing) -> Section:
    unit = made.job.known.step.unit
    columns = _columns(made)
    shoe = made.job.known.step.show(made.shoe)
    title = rule(f"from the shoe up, in {unit}, bottom of each item with the shoe at {shoe}")
    if not made.blocks:
        return Section((title,), (("Nothing is in the list.", ""),))
    heading = (title, *headings(columns))
    blocks = [_block(made, columns, block) for block in made.blocks]
    return Section(heading, (*blocks, (_MARKS, "")))


def _block(made: Listing, columns: tuple[Column, ...], block: ListBlock) -> Lines:
    show = made.job.known.step.show
    first = BLOCK * (block.number - 1) + 1
    ahead = sum(column.width + 1 for column in columns[:4]) - 1
    summing = (Column("", ahead), *columns[4:])
    others = len(block.rows) - block.joints
    more = f", {others} other" if others else ""
    forward = (f"joints {first}-{first + BLOCK - 1}", "", show(block.brought_forward))
    total = ("subtotal", show(block.length), "")
    return stacked(
        row(summing, (*forward, "", "brought forward", "")),
        *(_row(made, columns, one) for one in block.rows),
        row(summing, (*total, "", f"{block.joints} joints{more}", "")),
        ("",),
    )


def _row(made: Listing, columns: tuple[Column, ...], one: ListRow) -> Lines:
    show = made.job.known.step.show
    slot, item = one.slot, one.slot.item
    line = cells(
        columns,
        ("*" if one.special else "") + ("=" if one.locked else ""),
        str(slot.joint or ""),
        "" if item.number.casefold() == item.kind else item.number,
        item.kind,
        show(slot.length),
        show(slot.to_here),
        show(slot.bottom),
        ", ".join(str(fitting) for fitting in one.fittings),
        "run" if slot.run else "[ ]",
    )
    told = (f"from here {one.new_pipe}" if one.new_pipe else "", item.description)
    said = plain("; ".join(part for part in told if part))
    return (*line, *(_INDENT + each for each in wrapped(said, WIDTH - len(_INDENT)) if said))


def _to_install(made: Listing) -> Section:
    """Return what goes on, kind by kind, with its joints."""
    joints: dict[str, list[int]] = defaultdict(list)
    pieces: dict[str, int] = defaultdict(int)
    for one in made.rows:
        for fitting in one.fittings:
            what = f"{fitting.what} {fitting.position}".strip()
            joints[what].append(one.slot.joint)
            pieces[what] += fitting.count
    heading = (rule("to install, by joint counted from the shoe"),)
    if not joints:
        return Section(heading, (("Nothing is in the programme.", ""),))
    lines = [
        wrapped(plain(f"{pieces[what]} {what}: {_joints(joints[what])}"), WIDTH, hang=4)
        for what in joints
    ]
    return Section(heading, (*lines, ("",)))


def _joints(joints: list[int]) -> str:
    return in_short(str(joint) for joint in sorted(set(joints)))


def _not_in_it(made: Listing) -> Section:
    spare = in_short(slot.item.number for slot in made.spare)
    parts = (
        ("Spare, above the casing point", spare),
        ("Set aside", in_short(item.number for item in made.aside)),
        ("Never received", in_short(made.never)),
    )
    lines = [wrapped(plain(f"{what}: {told or 'none'}."), WIDTH, hang=4) for what, told in parts]
    return Section((rule("not in the string"),), (*lines, ("", *_SIGNED, "")))


def _doubts(made: Listing) -> Section:
    heading = (rule(f"to look at: {len(made.warnings)}"),)
    if not made.warnings:
        return Section(heading, (("Nothing.", ""),))
    lines = [wrapped(plain(f"! {one.text}"), WIDTH, hang=2) for one in made.warnings]
    return Section(heading, (*lines, ("",)))
