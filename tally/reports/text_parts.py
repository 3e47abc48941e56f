"""Small pieces that the sections of the text page are made of."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tally.job.entry import moment
from tally.reports.guard import plain
from tally.reports.page import WIDTH, Column, Lines, row

_LABEL = 26
_PAIR = (Column("", _LABEL), Column("", WIDTH - _LABEL - 1))


def pair(label: str, *told: str) -> Lines:
    """Return a label and what stands for it; nothing at all where there is nothing to tell."""
    text = ", ".join(plain(one) for one in told if one)
    return row(_PAIR, (label, text)) if text else ()


def cells(columns: Sequence[Column], *texts: str) -> Lines:
    """Return one line of a table; typed text may stand in any cell."""
    return row(columns, [plain(text) for text in texts])


def stacked(*groups: Iterable[str]) -> Lines:
    """Return lines one under the other."""
    return tuple(line for group in groups for line in group)


def stamp(at: str) -> str:
    """Return an entry's time to the minute, as its own clock showed it.

    >>> stamp("2026-03-01T01:04:33+00:00")
    '2026-03-01 01:04'
    """
    try:
        return moment(at).strftime("%Y-%m-%d %H:%M")
    except ValueError:
        return plain(at)


def offset(at: str) -> str:
    """Return how far an entry's clock is from UTC.

    >>> offset("2026-03-01T01:04:33+01:00")
    '+01:00'
    """
    try:
        return moment(at).isoformat()[-6:]
    except ValueError:
        return ""


def who(by: str, at: str) -> str:
    """Return a name, as typed, and a time."""
    return ", ".join(part for part in (by, stamp(at) if at else "") if part)
