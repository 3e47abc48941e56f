"""What one set-up changes in another, in words, before it is saved."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tally.feeds.job_document import document_of_setup
from tally.feeds.job_draft import Texts, draft_of
from tally.feeds.job_sheets import Cell, Sheet, sheets
from tally.job.setup import Setup


def changes(before: Setup, after: Setup) -> tuple[str, ...]:
    """Return a line for each thing that another set-up says otherwise."""
    old, new = (draft_of(document_of_setup(each)) for each in (before, after))
    return tuple(
        line
        for sheet in sheets().values()
        for line in _sheet(sheet, old.of(sheet.name), new.of(sheet.name))
    )


def _sheet(sheet: Sheet, old: Sequence[Texts], new: Sequence[Texts]) -> Iterator[str]:
    if sheet.rows:
        for place, name in enumerate(sheet.rows):
            where = f"{sheet.title}, {name.replace('_', ' ')}"
            was, now = _at(old, place), _at(new, place)
            if bool(was) == bool(now):
                yield from _row(where, sheet.cells_of(place), was, now)
            else:
                yield (
                    f"{where}: now {_told(now)}" if now else f"{where}: {_told(was)}, now left out"
                )
    elif sheet.many:
        yield from _many(sheet, old, new)
    else:
        yield from _row(sheet.title, sheet.cells, _at(old, 0), _at(new, 0))


def _at(rows: Sequence[Texts], place: int) -> Texts:
    return rows[place] if place < len(rows) else {}


def _row(where: str, cells: Sequence[Cell], old: Texts, new: Texts) -> Iterator[str]:
    for cell in cells:
        was, now = old.get(cell.key, ""), new.get(cell.key, "")
        said = f"{cell.label[0].lower()}{cell.label[1:]}"
        label = where if where == said else f"{where}, {said}"
        if was and now and was != now:
            yield f"{label}: {was}, now {now}"
        elif was and not now:
            yield f"{label}: {was}, now left out"
        elif now and not was:
            yield f"{label}: now {now}"


def _many(sheet: Sheet, old: Sequence[Texts], new: Sequence[Texts]) -> Iterator[str]:
    key = sheet.cells[0].key
    was, now = _by_name(old, key), _by_name(new, key)
    for name, row in was.items():
        if name not in now:
            yield f"{sheet.title}: {_told(row)}, now taken out"
    for name, row in now.items():
        if name in was:
            yield from _row(f"{sheet.title}, {name}", sheet.cells, was[name], row)
        else:
            yield f"{sheet.title}: now with {_told(row)}"
    both = [[name for name in rows if name in was and name in now] for rows in (was, now)]
    if both[0] != both[1]:
        yield f"{sheet.title}: now in the order {', '.join(now)}"


def _by_name(rows: Sequence[Texts], key: str) -> dict[str, Texts]:
    """Return rows by what they begin with; those that begin alike are counted."""
    named: dict[str, Texts] = {}
    for row in rows:
        name, again = row.get(key, ""), 1
        while (which := f"{name} ({again})" if again > 1 else name) in named:
            again += 1
        named[which] = row
    return named


def _told(row: Texts) -> str:
    return ", ".join(text for text in row.values() if text)
