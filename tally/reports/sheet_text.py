"""A smaller report as pages of plain text: ASCII, at most 100 columns, 60 lines to a page."""

from __future__ import annotations

from tally.reports.guard import plain
from tally.reports.page import WIDTH, Column, Lines, Section, headings, paged, rule, wrapped
from tally.reports.sheet import Block, Grid, Part, Sheet
from tally.reports.text_parts import cells, pair, stacked
from tally.reports.text_people import signature_line


def sheet_text(made: Sheet) -> str:
    """Return all pages of a smaller report, one under the other."""
    sections = [_part(part) for part in made.parts if not part.picture]
    if made.signing:
        sections.append(_signatures(made))
    return paged(sections, lambda page, count: _head(made, page, count), lambda *_: _foot(made))


def _head(made: Sheet, page: int, count: int) -> Lines:
    title, number = made.title.upper(), f"page {page} of {count}"
    well = made.tally.setup.well
    about = plain(f"{well.name}, {well.string}")
    standing = plain(made.standing)
    return (
        title + number.rjust(WIDTH - len(title)),
        _short(about),
        _short(f"*** {standing} ***") if standing else "",
    )


def _foot(made: Sheet) -> Lines:
    return rule(), f"{made.tally.entries} entries, chain ends {made.tally.head}"


def _short(text: str) -> str:
    return text if len(text) <= WIDTH else text[: WIDTH - 3] + "..."


def _part(part: Part) -> Section:
    title = (rule(plain(part.title).upper()[: WIDTH - 6]),)
    if part.empty:
        return Section(title, ((*wrapped(part.none), ""),))
    told = tuple(line for each in part.said for line in wrapped(plain(each), hang=2))
    if part.grid is None or not part.grid.blocks:
        fields = tuple(pair(plain(label), value) for label, value in part.fields)
        return Section(title, (*((told,) if told else ()), *fields, ("",)))
    columns = _columns(part.grid)
    return Section((*title, *told, *headings(columns)), _rows(part.grid, columns))


def _columns(grid: Grid) -> tuple[Column, ...]:
    """Return the columns of a table; those without a width share what the others leave."""
    taken = sum(each.wide for each in grid.columns) + len(grid.columns) - 1
    open_ones = sum(1 for each in grid.columns if not each.wide)
    rest = (WIDTH - taken) // max(1, open_ones)
    return tuple(Column(each.name, each.wide or rest, each.number) for each in grid.columns)


def _rows(grid: Grid, columns: tuple[Column, ...]) -> tuple[Lines, ...]:
    blocks = tuple(_block(block, columns) for block in grid.blocks)
    last = blocks[-1] if not blocks[-1][-1] else (*blocks[-1], "")
    return (*blocks[:-1], last)


def _block(block: Block, columns: tuple[Column, ...]) -> Lines:
    closing = cells(columns, *block.closing) if block.closing else ()
    return stacked(*(cells(columns, *row) for row in block.rows), closing, ("",))


def _signatures(made: Sheet) -> Section:
    lines = [signature_line(role, name) for role, name in made.signing]
    refused = (*wrapped(plain(made.unfinished)), "") if made.unfinished else ()
    return Section((rule("SIGNATURES"),), (stacked(refused, *lines),))
