"""What happened on the way: flow checks, trouble, changes of crew, each with the shoe then."""

from __future__ import annotations

from dataclasses import dataclass

from tally.units import Measure


@dataclass(frozen=True, slots=True)
class FlowCheck:
    """The well watched with the pumps off: what was seen, how long, and the shoe then, in steps."""

    seq: int
    state: str
    time: Measure
    shoe: int
    note: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class Happening:
    """Something that went wrong, or a change of crew: its kind, its words, the shoe in steps."""

    seq: int
    kind: str
    words: str
    shoe: int
    by: str
    at: str
