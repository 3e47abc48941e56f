"""The preview in lines of words: doubts first, then what was understood, then what to read back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tally.feeds.rig_list.accepting import left_out
from tally.feeds.rig_list.asking import OVERALL
from tally.feeds.rig_list.cells import legible
from tally.feeds.rig_list.doubts import WHOLE_LIST, Doubt
from tally.feeds.rig_list.items import ListItem
from tally.feeds.rig_list.preview import Preview
from tally.job.entry import several

HEADING, STOPS, ASKS, SAYS, QUIET = "heading", "stops", "asks", "says", "quiet"
_ROWS_NAMED = 12
_TOLD = 500
"""Doubts that are told; whoever has more puts the list right first."""


@dataclass(frozen=True, slots=True)
class Told:
    """One line, and what kind of line it is."""

    text: str
    role: str = SAYS


def told(preview: Preview) -> Iterator[Told]:
    """Yield a preview as it is printed and shown, without its rows."""
    yield Told(f"{legible(preview.file.name, 60)}: {preview.file.read_as}", HEADING)
    yield Told(_counted(preview))
    yield from _doubts(preview)
    yield from _questions(preview)
    yield Told("")
    yield Told("What was understood", HEADING)
    yield from (Told(f"  {note}", QUIET) for note in preview.notes)
    yield Told(f"  SHA-256 {preview.file.sha256}", QUIET)
    yield Told("")
    yield from read_back_lines(preview)


def _counted(preview: Preview) -> str:
    rows = len(preview.items)
    return f"{several(rows, 'row')} read, {preview.count} can be taken"


def _questions(preview: Preview) -> Iterator[Told]:
    if preview.blocked:
        yield Told("")
        yield Told(preview.blocked, STOPS)
    if preview.questions:
        yield Told("")
        yield Told("To be answered before it can be taken", HEADING)
    for each in preview.questions:
        yield Told(
            f"  {each.sentence} ({', '.join(legible(one, 40) for one in each.choices)})", ASKS
        )


def _doubts(preview: Preview) -> Iterator[Told]:
    yield Told("")
    if not preview.doubts:
        yield Told("Doubts: none")
        return
    yield Told(f"Doubts: {len(preview.doubts)}", HEADING)
    if preview.left_out:
        yield Told(f"  {left_out(preview)}", STOPS)
    groups = grouped(preview.doubts)
    for places, doubt in groups[:_TOLD]:
        mark = "x" if doubt.stops else "?"
        yield Told(
            f"{mark} {_where(places):<10} {doubt.what}: {doubt.sentence}",
            STOPS if doubt.stops else ASKS,
        )
    if len(groups) > _TOLD:
        yield Told(f"  and {len(groups) - _TOLD:,} more", ASKS)


def grouped(doubts: tuple[Doubt, ...]) -> list[tuple[list[int], Doubt]]:
    """Return doubts with the rows they are about, those that say the same together."""
    same: dict[tuple[str, str, bool], tuple[list[int], Doubt]] = {}
    for doubt in doubts:
        key = (doubt.what, doubt.sentence, doubt.stops)
        same.setdefault(key, ([], doubt))[0].append(doubt.place)
    return list(same.values())


def _where(places: list[int]) -> str:
    if places == [WHOLE_LIST]:
        return "the list"
    if len(places) == 1:
        return f"row {places[0]}"
    named = ", ".join(str(place) for place in places[:_ROWS_NAMED])
    more = len(places) - _ROWS_NAMED
    return f"rows {named}" + (f" and {more} more" if more > 0 else "")


def read_back_lines(preview: Preview) -> Iterator[Told]:
    """Yield the count and the total that are to be read back against the rack."""
    step = preview.rules.step
    yield Told("To be read back against the rack", HEADING)
    kinds = ", ".join(several(count, kind) for kind, count in preview.by_kind.items())
    yield Told(f"  {several(preview.count, 'item')}" + (f": {kinds}" if kinds else ""))
    yield Told(f"  total as measured {step.with_unit(preview.total_measured)}, {preview.measured}")
    if preview.measured == OVERALL and preview.rules.make_up_loss is not None:
        less = f"less make-up loss {preview.rules.loss_text} each"
        yield Told(f"  {less}: running {step.with_unit(preview.total)}")
    elif preview.total != preview.total_measured:
        said = f"each rounded to {step.step_text}: {step.with_unit(preview.total)}"
        yield Told(f"  {said}")
    if preview.sample is not None:
        yield from _sample(preview)


def _sample(preview: Preview) -> Iterator[Told]:
    sample, step = preview.sample, preview.rules.step
    assert sample is not None  # the caller has looked
    mean, times = round(sample.mean), round(sample.mean * sample.joints)
    yield Told(
        f"  mean of {len(sample.numbers)} joints at random {step.with_unit(mean)}, times "
        f"{sample.joints} {step.with_unit(times)}; to measure again: {', '.join(sample.numbers)}",
        QUIET,
    )


def row_line(preview: Preview, place: int) -> str:
    """Return one row as it would enter the book."""
    item: ListItem = preview.items[place]
    step = preview.rules.step
    length = step.show(item.length) if item.length else "-"
    out = "left out" if place in preview.left_out else ""
    parts = [item.kind if item.kind != "joint" else "", item.pipe, item.serial, item.heat]
    rest = "  ".join(legible(part, 24) for part in (*parts, item.description) if part)
    line = f"{item.place:>6} {item.number or '-':>12} {length:>10} {legible(item.typed, 16):>16}"
    return f"{line}  {out}{'  ' if out and rest else ''}{rest}".rstrip()
