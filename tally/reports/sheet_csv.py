"""The tables of a smaller report as CSV: one file for each, numbers as numbers."""

from __future__ import annotations

from tally.reports.guard import Number, record
from tally.reports.sheet import Cells, Grid, Sheet

NOTHING = ("", "-", "--")


def sheet_csv(made: Sheet) -> dict[str, str]:
    """Return the contents of each file by what its name ends in after that of the report.

    Tables that name the same file have the same columns and go on in it.
    """
    files: dict[str, str] = {}
    for grid in made.grids:
        files.setdefault(grid.file, _heading(grid))
        files[grid.file] += "".join(record(_typed(grid, row)) for row in grid.rows)
    return files


def _heading(grid: Grid) -> str:
    return record(
        column.name.replace(", ", "_").replace("/", "_per_").replace(" ", "_")
        for column in grid.columns
    )


def _typed(grid: Grid, row: Cells) -> list[str]:
    """Return the cells of a row; where a page has a dash there is nothing."""
    return [
        "" if cell in NOTHING else Number(cell) if column.number else cell
        for column, cell in zip(grid.columns, row, strict=True)
    ]
