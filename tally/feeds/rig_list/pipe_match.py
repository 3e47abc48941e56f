"""Which pipe of the job a row means: by its name, or by size, weight, grade and thread."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import lru_cache

from tally.errors import InputError
from tally.feeds.rig_list.words import GRADE, SIZE, THREAD, WEIGHT
from tally.job.setup import Pipe
from tally.units import read, shown

_SIZE = re.compile(r"\d{1,2}[ -]\d{1,2}/\d{1,2}|\d{1,3}(?:[.,]\d{1,3})?", re.ASCII)
_GRADE = re.compile(r"(?<![A-Z])[A-Z]{1,2}[- ]?\d{2,3}", re.ASCII)
_SIZE_WITHIN = 0.0006
"""How far a size may be off, [m]: some write whole millimetres, or two decimals of an inch."""
_WEIGHT_WITHIN = 0.01
_UNIT = {"in": ("in", "mm"), "lb/ft": ("lb/ft", "kg/m")}


def matched_pipe(named: str, parts: Mapping[str, str], pipes: tuple[Pipe, ...]) -> Pipe:
    """Return the one pipe that a row can mean.

    Parameters
    ----------
    named : str
        What stands in the column of the pipe, like "9-5/8 47 L-80"
    parts : mapping
        What stands in the columns of size, weight, grade and thread, where there are any
    pipes : tuple of Pipe
        The pipes of the job

    Raises
    ------
    InputError
        If no pipe, or more than one, fits what is said.
    """
    if named:
        for pipe in pipes:
            if _folded(named) == _folded(pipe.name):
                return pipe
    said = {part: text for part, text in parts.items() if text}
    fits = [pipe for pipe in pipes if all(_TESTS[part](text, pipe) for part, text in said.items())]
    if named:
        fits = [pipe for pipe in fits if _described(named, pipe)]
    if len(fits) == 1:
        return fits[0]
    what = " ".join(text for text in (named, *said.values()) if text)
    if fits:
        names = " or ".join(shown(pipe.name) for pipe in fits)
        raise InputError(f"'{shown(what, 40)}' may be {names}; write the name of the pipe.")
    names = ", ".join(shown(pipe.name) for pipe in pipes)
    raise InputError(f"there is no pipe '{shown(what, 40)}' in the job; it has {names}.")


def _folded(text: str) -> str:
    return "".join(char for char in text.casefold() if char.isalnum())


def _described(text: str, pipe: Pipe) -> bool:
    """Return whether the size, the weight and the grade in a text are those of a pipe."""
    rest = text.upper()
    grade = _GRADE.search(rest)
    if grade is not None:
        if not _grade(grade[0], pipe):
            return False
        rest = rest.replace(grade[0], " ")
    numbers = _SIZE.findall(rest)
    if not numbers or not _size(numbers[0], pipe):
        return False
    return len(numbers) < 2 or _weight(numbers[1], pipe)


def _size(text: str, pipe: Pipe) -> bool:
    values = _values(text, "diameter", "in")
    return any(abs(each - pipe.outer_diameter.value) <= _SIZE_WITHIN for each in values)


def _weight(text: str, pipe: Pipe) -> bool:
    known = pipe.weight.value
    values = _values(text.rstrip("# "), "mass per length", "lb/ft")
    return any(abs(each - known) <= _WEIGHT_WITHIN * known for each in values)


def _grade(text: str, pipe: Pipe) -> bool:
    return not pipe.grade or _folded(text) == _folded(pipe.grade)


def _thread(text: str, pipe: Pipe) -> bool:
    return not pipe.connection or _folded(text) == _folded(pipe.connection)


@lru_cache(maxsize=1024)
def _values(text: str, quantity: str, usual: str) -> tuple[float, ...]:
    """Return what a text may mean: in the unit that it names, or in either of the usual ones."""
    found = []
    for unit in _UNIT[usual]:
        try:
            found.append(read(text, quantity, unit).value)
        except InputError:
            continue
    return tuple(found)


_TESTS: Mapping[str, Callable[[str, Pipe], bool]] = {
    SIZE: _size,
    WEIGHT: _weight,
    GRADE: _grade,
    THREAD: _thread,
}
