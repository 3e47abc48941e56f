"""Readers of typed values for the fields of forms: thin, the rules live in the core."""

from __future__ import annotations

from collections.abc import Callable

from tally.errors import InputError
from tally.feeds.short_forms import read_order
from tally.job.job import Fitting, Job
from tally.units import Measure, clean, read

FITTINGS = ("bow centralizer", "rigid centralizer", "scratcher", "stop collar")


def measure(quantity: str, unit: str) -> Callable[[str], Measure]:
    """Return a reader of a measure; a bare number is in the unit shown."""
    return lambda text: read(text, quantity, unit)


def measure_text(quantity: str, unit: str) -> Callable[[str], str]:
    """Return a reader of a measure as it is stored."""
    return lambda text: read(text, quantity, unit).text


def steps_text(job: Job, *, loss: bool = True) -> Callable[[str], tuple[int, str]]:
    """Return a reader of a tally length: its whole steps, and what was typed.

    A joint measured overall loses its make-up loss; a stick-up does not (`loss` false).
    """
    setup = job.known
    return lambda text: (setup.step.read(text, setup.make_up_loss if loss else None), text)


def whole_number(text: str) -> int:
    """Return a whole number, or refuse.

    >>> whole_number("117")
    117
    """
    if not (text.isascii() and text.isdigit() and len(text) <= 6):
        raise InputError(f"'{text[:20]}' is not a whole number; type digits only.")
    return int(text)


def numbers_of(job: Job) -> Callable[[str], tuple[str, ...]]:
    """Return a reader of numbers of items, single ones and ranges, each once."""
    return lambda text: tuple(dict.fromkeys(read_order(clean(text), job.items)))


def fittings_of(text: str) -> tuple[Fitting, ...]:
    """Return the fittings that a line of words names; a dash means nothing.

    >>> fittings_of("bow centralizer mid-joint, 2 x scratcher")[1]
    Fitting(what='scratcher', position='', count=2)
    """
    if text.strip() == "-":
        return ()
    return tuple(_fitting(part.strip()) for part in text.split(",") if part.strip())


def _fitting(text: str) -> Fitting:
    count, rest = 1, text
    head, cross, tail = text.partition(" x ")
    if cross and head.strip().isdigit():
        count, rest = int(head), tail.strip()
    for kind in FITTINGS:
        if rest.casefold().startswith(kind):
            return Fitting(kind, rest[len(kind) :].strip(), count)
    raise InputError(f"'{rest}' is not known; begin with one of: {', '.join(FITTINGS)}.")
