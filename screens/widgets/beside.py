"""Expected beside seen: one way to show it, wherever it stands."""

from __future__ import annotations

from dataclasses import dataclass

from textual.content import Content

from screens.ink import INK, QUIET, STATES, Line, rule

COLUMNS = (34, 44, 54)
TITLES = ("expected", "seen", "difference")


@dataclass(frozen=True, slots=True)
class Beside:
    """One line: what, expected, seen, difference, and the word for the state."""

    what: str
    expected: str
    seen: str
    difference: str = ""
    state: str = ""
    limit: str = ""
    more: str = ""
    """What the word for the state is about."""


def beside(width: int, rows: list[Beside], titles: tuple[str, str, str] = TITLES) -> list[Content]:
    """Return the rows under their titles."""
    placed = zip((35, 45, 56), titles, strict=True)
    return [rule(width, *placed)] + [_row(width, row) for row in rows]


def _row(width: int, row: Beside) -> Content:
    state = f"{row.state} ({row.limit})" if row.limit and row.state else row.state
    more = f"{state} {row.more}" if row.more else state
    return (
        Line(width)
        .put(1, row.what, QUIET)
        .end(COLUMNS[0], row.expected, INK)
        .end(COLUMNS[1], row.seen, INK)
        .end(COLUMNS[2] - 2, row.difference, INK)
        .put(COLUMNS[2], more, STATES.get(row.state, INK))
        .content()
    )


def tally_state(agrees: bool | None) -> str:
    """Return the word for a difference against its limit."""
    return "no limit set" if agrees is None else "agrees" if agrees else "outside"
