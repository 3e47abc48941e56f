"""The command that prints every live figure with its unit, its inputs and their origin."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from screens.commands.books import BOOK
from screens.commands.telling import say, say_json
from tally.reports.guard import plain

if TYPE_CHECKING:
    from tally.job.figures import Figure
    from tally.job.job import Job


@click.command()
@click.argument("book", type=BOOK)
@click.option("--json", "as_json", is_flag=True, help="Print JSON for another program.")
def figures(book: Path, as_json: bool) -> None:
    """Print every live figure of BOOK: unit, inputs, and where each came from."""
    from tally.book.book import Book

    with Book.open(book, look_only=True) as opened:
        job, head = opened.job, opened.head
    if as_json:
        say_json({"entries": head[0], "head": head[1], **as_fields(job)})
    else:
        say_figures(job)


def say_figures(job: Job) -> None:
    """Print the figures: a table on a terminal, lines of text elsewhere."""
    from tally.job.figures import all_figures

    well = job.known.well
    say(f"{well.name}, {well.string}, as of entry {job.seq}")
    live = all_figures(job)
    if sys.stdout.isatty():
        _say_table(job, live)
    else:
        for figure in live:
            _say_lines(job, figure)


def as_fields(job: Job) -> dict[str, Any]:
    """Return the figures as plain fields; a value is a number in the unit beside it."""
    from tally.job.figures import all_figures

    well = job.known.well
    return {
        "well": well.name,
        "string": well.string,
        "on_depth": job.landing is not None,
        "figures": [_fields(job, figure) for figure in all_figures(job)],
    }


def _fields(job: Job, figure: Figure) -> dict[str, Any]:
    return {
        "key": figure.key,
        "label": figure.label,
        **_number(job, figure.value, figure.quantity),
        "formula": figure.formula,
        "inputs": [
            {
                "name": one.name,
                **_number(job, one.value, one.quantity),
                "origin": one.origin,
                "where": one.where,
            }
            for one in figure.inputs
        ],
        "missing": figure.missing,
    }


def _number(job: Job, value: float | int | str | None, quantity: str) -> dict[str, Any]:
    """Return a value as number, unit and text: a length of the tally to its whole step."""
    from tally.job.figures import TALLY, show
    from tally.units import to_unit

    text = show(job, value, quantity)
    if value is None or isinstance(value, str):
        return {"value": value, "unit": "", "text": text}
    if quantity == TALLY:
        step = job.known.step
        shown = float(step.show(int(value)).replace(",", ""))
        return {"value": shown, "unit": step.unit, "text": text}
    if quantity == "count":
        return {"value": value, "unit": "", "text": text}
    unit = job.known.shown.unit(quantity)
    return {"value": to_unit(float(value), unit), "unit": unit, "text": text}


def _say_lines(job: Job, figure: Figure) -> None:
    from tally.job.figures import show

    value = show(job, figure.value, figure.quantity)
    say(f"{figure.label:<42} {value:>16}   {figure.missing or figure.formula}  [{figure.key}]")
    for one in figure.inputs:
        shown = show(job, one.value, one.quantity) if one.value is not None else ""
        say(f"    {one.name:<38} {shown:>16}   {one.origin}, {one.where}")


def _say_table(job: Job, live: Sequence[Figure]) -> None:
    from rich.box import ASCII
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    from tally.job.figures import show

    table = Table(box=ASCII, show_lines=True, pad_edge=False)
    for heading, side in (("figure", "left"), ("value", "right"), ("from", "left")):
        table.add_column(heading, justify=side)  # type: ignore[arg-type]  # plain names of sides
    for figure in live:
        value = show(job, figure.value, figure.quantity)
        inputs = "\n".join(_input(job, one) for one in figure.inputs)
        told = "\n".join(part for part in (figure.missing or figure.formula, inputs) if part)
        cells = (f"{figure.label}\n{figure.key}", value, told)
        table.add_row(*(Text("\n".join(map(plain, cell.split("\n")))) for cell in cells))
    Console(markup=False, highlight=False, emoji=False).print(table)


def _input(job: Job, one: Any) -> str:
    from tally.job.figures import show

    value = f"{show(job, one.value, one.quantity)}, " if one.value is not None else ""
    return f"  {one.name}: {value}{one.origin}, {one.where}"
