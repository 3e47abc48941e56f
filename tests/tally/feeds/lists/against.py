"""The jobs that the lists are held against."""

from __future__ import annotations

from tally.feeds.rig_list import Rules
from tally.job.setup import Pipe
from tally.units import read, read_exact, tally_step
from tests.tally.feeds.lists.invented import hundredths

BOOK = 205
"""Joints that a job has in its book, where it has any."""


def _pipe(name: str, inner: str, weight: str) -> Pipe:
    return Pipe(
        name=name,
        outer_diameter=read("9 5/8 in", "diameter"),
        inner_diameter=read(inner, "diameter"),
        weight=read(weight, "mass per length"),
        grade="L-80",
        connection="buttress",
        shortest=read("34 ft", "length"),
        longest=read("48 ft", "length"),
    )


LIGHT = _pipe("9-5/8 47", "8.681 in", "47 lb/ft")
HEAVY = _pipe("9-5/8 in 53.5 lb/ft", "8.535 in", "53.5 lb/ft")
_LOSS = "3.875 in"
_TAKEN = {str(number): f"joint {number}, on rack" for number in range(1, BOOK + 1)}
_BEFORE = {LIGHT.name: tuple(hundredths(number) for number in range(1, BOOK + 1))}


def _rules(
    unit: str = "ft", *, overall: bool = False, book: bool = False, two: bool = False
) -> Rules:
    return Rules(
        step=tally_step(unit),
        pipes=(LIGHT, HEAVY) if two else (LIGHT,),
        measured_as="overall" if overall else "running",
        make_up_loss=read_exact(_LOSS, "length") if overall else None,
        loss_text=_LOSS if overall else "",
        taken=_TAKEN if book else {},
        before=_BEFORE if book else {},
    )


JOBS = {
    "feet": _rules(),
    "metres": _rules("m"),
    "millimetres": _rules("mm"),
    "overall": _rules(overall=True),
    "two pipes": _rules(two=True),
    "205 joints in the book": _rules(book=True),
    "205 joints in the book, overall": _rules(book=True, overall=True),
}
