"""What must hold for every live figure of every job."""

from __future__ import annotations

from math import isfinite

from tally.job.figures import TALLY, all_figures, catalogue, show
from tally.job.figures.model import CALCULATED, READ, TYPED, Figure, Input
from tally.job.job import Job
from tally.units import known_units

ORIGINS = (TYPED, READ, CALCULATED)


def assert_whole(job: Job) -> tuple[Figure, ...]:
    """Work every figure out; each has a unit and inputs with their origin, or says what lacks."""
    made = all_figures(job)
    assert {each.key for each in made} == set(catalogue())
    for each in made:
        assert each.label, each
        if each.value is None:
            _assert_sentence(each)
        else:
            _assert_worked_out(job, each)
    return made


def _assert_sentence(figure: Figure) -> None:
    said = figure.missing
    assert said, f"{figure.key} says nothing"
    assert said[-1] == ".", said
    assert said[0].isupper() or not said[0].isalpha(), said
    assert said.isprintable(), said


def _assert_worked_out(job: Job, figure: Figure) -> None:
    assert figure.missing == "", figure
    assert figure.formula, f"{figure.key} names no formula"
    assert isfinite(figure.value), figure
    _assert_unit(job, figure.key, figure.value, figure.quantity)
    assert figure.inputs, f"{figure.key} has no input"
    for one in figure.inputs:
        _assert_input(job, figure.key, one)


def _assert_input(job: Job, key: str, one: Input) -> None:
    assert one.name, key
    assert one.where, f"{key}: {one.name} comes from nowhere"
    assert one.origin in ORIGINS, f"{key}: {one.name} is {one.origin}"
    assert one.value is not None, f"{key}: {one.name}"
    _assert_unit(job, key, one.value, one.quantity)


def _assert_unit(job: Job, key: str, value: object, quantity: str) -> None:
    shown = show(job, value, quantity)
    assert shown, key
    if quantity == TALLY:
        assert shown.endswith(f" {job.known.step.unit}"), f"{key}: {shown}"
    elif quantity not in ("text", "count"):
        assert known_units(quantity), f"{key}: {quantity}"
        assert shown.endswith(job.known.shown.unit(quantity)), f"{key}: {shown}"
