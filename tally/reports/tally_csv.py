"""The tally as two CSV files: the items of the string, and the items that are not in it.

RFC 4180, UTF-8; the header names carry the units; numbers in plain digits, text guarded.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tally.reports.final_tally import FinalTally
from tally.reports.guard import Number, record
from tally.reports.tally_lines import NotRun, Row
from tally.units import Measure

Cell = str | int
Cells = tuple[Cell, ...]
"""Numbers are integers or a `Number`; all other text was typed or is our own."""


def string_csv(tally: FinalTally) -> str:
    """Return one line an item, from the shoe up."""
    return _file(string_header(tally), string_cells(tally))


def not_run_csv(tally: FinalTally) -> str:
    """Return one line for each item that is in the book and not in the string."""
    return _file(not_run_header(tally), not_run_cells(tally))


def string_cells(tally: FinalTally) -> Iterator[Cells]:
    """Yield the cells of each item of the string."""
    return (_string_row(tally, row) for row in tally.rows)


def not_run_cells(tally: FinalTally) -> Iterator[Cells]:
    """Yield the cells of each item that is not in the string."""
    return (_not_run_row(tally, one) for one in tally.not_run)


def string_header(tally: FinalTally) -> tuple[str, ...]:
    """Return the header of the items of the string."""
    unit = tally.setup.step.unit
    return (
        *("order", "number", "kind", "description"),
        *_pipe_header(tally),
        *(f"length_{unit}", f"cumulative_length_{unit}"),
        *(f"top_depth_{unit}", f"bottom_depth_{unit}"),
        *("fittings", "run_at", "by", "remarks"),
    )


def not_run_header(tally: FinalTally) -> tuple[str, ...]:
    """Return the header of the items that are not in the string."""
    return (
        *("number", "kind", "description"),
        *_pipe_header(tally),
        *(f"length_{tally.setup.step.unit}", "state", "reason", "at", "by"),
    )


def _string_row(tally: FinalTally, row: Row) -> Cells:
    show = tally.setup.step.show
    lengths = (row.length, row.cumulative, row.top, row.bottom)
    return (
        *(row.order, row.number, row.kind, row.description),
        *_pipe_cells(tally, row),
        *(Number(show(steps)) for steps in lengths),
        *("; ".join(str(each) for each in row.fittings), row.at, row.by, row.remarks),
    )


def _not_run_row(tally: FinalTally, one: NotRun) -> Cells:
    return (
        *(one.number, one.kind, one.description),
        *_pipe_cells(tally, one),
        *(Number(tally.setup.step.show(one.length)), one.state, _why(one), one.at, one.by),
    )


def _pipe_header(tally: FinalTally) -> tuple[str, ...]:
    shown = tally.setup.shown
    diameter, weight = shown.unit("diameter"), shown.unit("mass per length")
    return (
        "pipe",
        f"outer_diameter_{diameter}",
        f"weight_{weight.replace('/', '_per_')}",
        "grade",
        "connection",
    )


def _pipe_cells(tally: FinalTally, row: Row | NotRun) -> Cells:
    pipe = row.pipe
    od, weight = (_in_shown_unit(tally, one) for one in (pipe.outer_diameter, pipe.weight))
    return pipe.name, od, weight, pipe.grade, pipe.connection


def _in_shown_unit(tally: FinalTally, measure: Measure) -> Number:
    return Number(tally.setup.shown.number(measure.value, measure.quantity))


def _file(header: tuple[str, ...], rows: Iterable[Cells]) -> str:
    return record(header) + "".join(record(row) for row in rows)


def _why(one: NotRun) -> str:
    """Return why an item is not run, and how its length was corrected."""
    return "; ".join(part for part in (one.reason, one.remeasured) if part)
