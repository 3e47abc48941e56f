"""A live figure: what it is, what it was worked out from, and where each input came from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from tally.errors import Missing as Missing
from tally.errors import ShoedownError
from tally.job.job import Job
from tally.units import Measure

TALLY = "tally"
"""The quantity of a length that is counted in whole steps of the book's tally."""

TYPED = "typed"
READ = "read"
CALCULATED = "calculated"


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a figure and its origin: typed, read, or calculated."""

    name: str
    value: float | int | str | None
    quantity: str
    origin: str
    where: str


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure of the job; without a value it says what is missing."""

    value: float | int | None
    quantity: str
    formula: str
    inputs: tuple[Input, ...] = ()
    missing: str = ""
    key: str = ""
    label: str = ""


Live = Callable[[Job], Figure]
CATALOGUE: dict[str, Live] = {}
HOMES: dict[str, str] = {}
"""The room that each figure belongs to."""


class Kept:
    """The figures of the job that was looked at last: a page asks for many of them twice."""

    def __init__(self) -> None:
        self._job: Job | None = None
        self._figures: dict[str, Figure] = {}

    def of(self, job: Job) -> dict[str, Figure]:
        """Return what is kept for a job; a job never changes, so what was worked out stands."""
        if job is not self._job:
            self._job, self._figures = job, {}
        return self._figures


KEPT = Kept()


def live(key: str, label: str) -> Callable[[Live], Live]:
    """Enter a figure in the catalogue under its key and label."""

    def enter(function: Live) -> Live:
        def worked_out(job: Job) -> Figure:
            try:
                if job.setup is None:
                    raise Missing("The job is not set up yet.")
                made = function(job)
            except ShoedownError as lack:
                made = Figure(None, "text", "", missing=str(lack))
            return replace(made, key=key, label=label)

        def figure(job: Job) -> Figure:
            kept = KEPT.of(job)
            if key not in kept:
                kept[key] = worked_out(job)
            return kept[key]

        CATALOGUE[key] = figure
        HOMES[key] = function.__module__
        return figure

    return enter


def show(job: Job, value: Any, quantity: str) -> str:
    """Return a value with its unit, as this job shows that quantity."""
    if value is None:
        return "-"
    if quantity == TALLY:
        return job.known.step.with_unit(int(value))
    if quantity in ("count", "text"):
        return str(value)
    return job.known.shown.show(float(value), quantity)


def typed(name: str, measure: Measure | None, where: str = "job set-up") -> Input:
    """Return an input that a person typed; a missing one stops the figure."""
    if measure is None:
        raise Missing(f"{name[0].upper()}{name[1:]} is not in the {where}.")
    return Input(name, measure.value, measure.quantity, TYPED, where)


def read_off(name: str, measure: Measure | None, where: str) -> Input:
    """Return an input that a person read off a gauge or a count."""
    if measure is None:
        raise Missing(f"{name[0].upper()}{name[1:]} was not read yet.")
    return Input(name, measure.value, measure.quantity, READ, where)


def counted(name: str, value: int, where: str) -> Input:
    """Return an input that was counted."""
    return Input(name, value, "count", READ, where)


def calculated(name: str, value: float | int, quantity: str, where: str) -> Input:
    """Return an input that was worked out from other figures."""
    return Input(name, value, quantity, CALCULATED, where)


def on(figure: Figure) -> Input:
    """Return another figure as an input; if that one has no value, neither has this one."""
    if figure.value is None:
        raise Missing(figure.missing)
    return Input(figure.label, figure.value, figure.quantity, CALCULATED, f"figure {figure.key}")
