"""The last entries of a book, newest first; a corrected one with what was said before."""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from screens.ink import INK, QUIET, Line, wrap
from tally.job.entries.correction import Correction
from tally.job.entry import Entry, moment
from tally.reports.said import Corrected, Said

LAST = 10
WORDS = 38
NAME = 16


def log_lines(entries: Sequence[Entry], now: str, width: int, last: int = LAST) -> list[Content]:
    """Return the last entries with number, time, name and words."""
    corrected = {each.of: each for each in Said(entries).corrections()}
    lines: list[Content] = []
    for entry in reversed(entries[-last:]):
        lines += _entry(entry, corrected, now, width)
    return lines


def _entry(entry: Entry, corrected: dict[int, Corrected], now: str, width: int) -> list[Content]:
    room = width - WORDS
    if isinstance(entry, Correction):
        change = corrected.get(entry.of)
        words = _words(entry.said(), room)
        more = _change(change, room) if change is not None and change.seq == entry.seq else []
    elif entry.seq in corrected:
        change = corrected[entry.seq]
        stands = f"{change.now}, by entry {change.seq}"
        words, more = _words(stands, room), _labelled("first said", change.was, room)
    else:
        words, more = _words(entry.said(), room), []
    first = (
        Line(width)
        .end(5, str(entry.seq), QUIET)
        .end(18, when(entry.at, now), QUIET)
        .put(20, entry.by[:NAME], QUIET)
        .put(WORDS, words[0], INK)
        .content()
    )
    return [
        first,
        *(_below(width, text, INK) for text in words[1:]),
        *(_below(width, text, QUIET) for text in more),
    ]


def _change(change: Corrected, room: int) -> list[str]:
    first = _labelled("first said", change.was, room)
    return [*first, *_labelled("stands now", change.now, room)]


def _labelled(label: str, text: str, room: int) -> list[str]:
    return _words(f"{label}: {text}", room)


def _words(text: str, room: int) -> list[str]:
    return [each.plain for each in wrap(text, room)] or [""]


def _below(width: int, text: str, style: str) -> Content:
    return Line(width).put(WORDS, text, style).content()


def when(at: str, now: str) -> str:
    """Return the hour and minute of a time, and its date where that is not today's.

    >>> when("2026-03-14T03:10:00+01:00", "2026-03-14T03:12:00+01:00")
    '03:10'
    >>> when("2026-03-13T23:55:00+01:00", "2026-03-14T03:12:00+01:00")
    '03-13 23:55'
    """
    same = moment(at).date() == moment(now).date()
    return moment(at).strftime("%H:%M" if same else "%m-%d %H:%M")
