"""The centralizers of the job: what each is, how it gives way, where it sits on an item."""

from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import suppress
from typing import TypeVar

from tally.errors import DomainError, InputError, Missing
from tally.job.job import Fitting
from tally.job.setup import CentralizerKind, Pipe, Setup, same_name
from tally.string.centralizer import (
    Centralizer,
    Rigid,
    require_fit,
    straight_bow,
    tabled_bow,
)
from tally.units import read

WORDS = ("centralizer", "centraliser")
Held = TypeVar("Held")

MEASURED = re.compile(r"(?P<far>.+) (above|below|from) the (?P<end>pin|coupling)")
"""A position that is told by its distance from one end of a joint."""


def named_centralizer(what: str) -> bool:
    """Whether a name says by itself that the piece is a centralizer."""
    return any(word in what.casefold() for word in WORDS)


def is_centralizer(setup: Setup, what: str) -> bool:
    """Whether a piece is a centralizer: by its name, by the programme, or by its data."""
    if named_centralizer(what):
        return True
    lines = (rule.what for rule in setup.programme if rule.centralizer)
    return any(same_name(each, what) for each in (*lines, *(k.what for k in setup.centralizers)))


def kind_of(setup: Setup, what: str) -> CentralizerKind | None:
    """Return the centralizer of a name; nothing for a fitting that is none."""
    found = next((each for each in setup.centralizers if same_name(each.what, what)), None)
    if found is None and is_centralizer(setup, what):
        raise Missing(
            f'The centralizer data in the job set-up has no "{what}"; type its kind, its outside '
            "diameter and, for a bow, its restoring force."
        )
    return found


def centralizer_of(setup: Setup, kind: CentralizerKind, pipe: Pipe) -> Centralizer:
    """Return a centralizer as it holds a pipe: a bow by its table, else by its restoring force.

    Raises Missing where a bow has neither, DomainError with its name where its data do not hold.
    """
    try:
        require_fit(kind.outer_diameter.value, pipe.outer_diameter.value)
        return _as_it_holds(setup, kind, pipe)
    except DomainError as error:
        raise DomainError(f'"{kind.what}" in the centralizer data: {error}') from None


def _as_it_holds(setup: Setup, kind: CentralizerKind, pipe: Pipe) -> Centralizer:
    outer = kind.outer_diameter.value
    if kind.kind == "rigid":
        return Rigid(outer)
    lines = table_of(setup, kind)
    if lines:
        return tabled_bow(outer, lines)
    if kind.restoring_force is None:
        raise Missing(
            f'The bow "{kind.what}" has neither a table of load and deflection nor a restoring '
            "force in the job set-up; type one of them."
        )
    clearance = (setup.hole.diameter.value - pipe.outer_diameter.value) / 2
    return straight_bow(outer, kind.restoring_force.value, clearance)


def table_of(setup: Setup, kind: CentralizerKind) -> list[tuple[float, float]]:
    """Return the lines of deflection [m] and load [N] of a bow."""
    return [
        (line.deflection.value, line.load.value)
        for line in setup.centralizer_loads
        if same_name(line.what, kind.what)
    ]


def places(held: Sequence[tuple[Fitting, Held | None]], length: float) -> list[tuple[float, Held]]:
    """Return where the centralizers, or other pieces, of an item of a length [m] sit.

    They are shares of it from below. "10 ft above the pin" and "1 m below the coupling" are
    measured; over the coupling is the upper end. All others are spread evenly: one alone sits in
    the middle.
    """
    found: list[tuple[float, Held]] = []
    spread: list[Held] = []
    for fitting, centralizer in held:
        if centralizer is None:
            continue
        share = _share(fitting.position, length)
        if share is None:
            spread += [centralizer] * fitting.count
        else:
            found.append((share, centralizer))
    return found + [((place + 0.5) / len(spread), each) for place, each in enumerate(spread)]


def _share(position: str, length: float) -> float | None:
    """Return how far up an item a position is, where its words say so."""
    words = " ".join(position.casefold().split())
    measured = MEASURED.fullmatch(words)
    with suppress(InputError):
        if measured is not None:
            share = min(1.0, read(measured["far"], "length").value / length)
            return share if measured["end"] == "pin" else 1.0 - share
    return 1.0 if "coupling" in words else None
