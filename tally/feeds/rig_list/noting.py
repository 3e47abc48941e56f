"""What was understood of a list, and what of it was not used."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tally.feeds.rig_list.cells import ListFile, legible
from tally.feeds.rig_list.columns import INCHES, LENGTH, NUMBER, Columns
from tally.feeds.rig_list.layout import Layout
from tally.feeds.rig_list.readers import Chosen
from tally.feeds.rig_list.sums import Sums

_TOLD = 100
"""Notes of a list that are told."""


def notes(file: ListFile, layout: Layout, chosen: Sequence[Chosen], sums: Sums) -> Iterator[str]:
    """Yield how the columns were taken, and the rows that are no items."""
    for columns, each in zip(layout.columns, chosen, strict=True):
        yield _columns_note(columns, each)
        if each.note:
            yield each.note
    unused = dict.fromkeys(title for columns in layout.columns for title in columns.unused)
    if unused:
        yield f"not used: {', '.join(_quoted(title) for title in unused)}"
    yield from file.notes
    for place in layout.repeated:
        yield f"row {place} names the columns once more"
    for place, said in sums.agreed:
        yield f"row {place} {said}"
    for place, text in layout.notes[:_TOLD]:
        yield f"row {place} is a note: {legible(text, 60)}"
    if len(layout.notes) > _TOLD:
        yield f"and {len(layout.notes) - _TOLD:,} more notes"


def _columns_note(columns: Columns, chosen: Chosen) -> str:
    unit = chosen.reader.unit if INCHES not in columns.at else "ft and in"
    by = {"answer": "as answered", "heading": "by its heading", "tally": "the tally's unit"}
    if not columns.titles:
        where = ", ".join(f"column {columns.at[part] + 1}: {part}" for part in (NUMBER, LENGTH))
        return f"no headings; {where} in {unit}, {by[chosen.named]}"
    named = [f"{part} {_quoted(title)}" for part, title in columns.titles.items()]
    return f"{', '.join(named)}; lengths in {unit}, {by[chosen.named]}"


def _quoted(title: str) -> str:
    return f"'{legible(title, 30)}'"
