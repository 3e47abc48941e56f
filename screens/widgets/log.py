"""The last entries of a book, newest first; a corrected one with what was said before."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from textual.content import Content

from screens.ink import INK, QUIET, Line, wrap
from tally.job.amending import told
from tally.job.entries.correction import Correction
from tally.job.entries.people import SetUp
from tally.job.entry import Entry, moment
from tally.job.job import Job
from tally.reports.said import Corrected, Said

LAST = 10
NAME = 16


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where the time ends and the words begin."""

    width: int
    time: int

    @property
    def words(self) -> int:
        return self.time + NAME + 4

    @property
    def room(self) -> int:
        return self.width - self.words


@dataclass(frozen=True, slots=True)
class PutRight:
    """What was put right: corrections by the entry they correct, set-ups by their own number."""

    corrected: Mapping[int, Corrected] = field(default_factory=dict)
    """The last one of each corrected entry."""
    set_ups: Mapping[int, str] = field(default_factory=dict)
    """What each set-up changed in the one before it."""


def put_right(entries: Sequence[Entry], job: Job) -> PutRight:
    """Return what was put right among these entries."""
    said = Said(entries, job)
    found = said.put_right.items()
    set_ups = {n: told(one) for n, one in found if one.of != n and isinstance(one.now, SetUp)}
    return PutRight({each.of: each for each in said.corrections()}, set_ups)


def log_lines(
    entries: Sequence[Entry],
    put: PutRight,
    job: Job,
    now: str,
    width: int,
    last: int = LAST,
) -> list[Content]:
    """Return the last entries with number, time, name and words."""
    shown = [(entry, when(entry.at, now)) for entry in reversed(entries[-last:])]
    columns = _Columns(width, 7 + max((len(time) for _, time in shown), default=0))
    return [each for entry, time in shown for each in _entry(entry, time, put, job, columns)]


def _entry(entry: Entry, time: str, put: PutRight, job: Job, columns: _Columns) -> list[Content]:
    said, before = _words(entry, put, job)
    first, *more = _broken(said, columns)
    head = (
        Line(columns.width)
        .end(5, str(entry.seq), QUIET)
        .end(columns.time, time, QUIET)
        .put(columns.time + 2, entry.by[:NAME], QUIET)
        .put(columns.words, first, INK)
        .content()
    )
    below = [_below(each, columns, INK) for each in more]
    for words in before:
        below += [_below(each, columns, QUIET) for each in _broken(words, columns)]
    return [head, *below]


def _words(entry: Entry, put: PutRight, job: Job) -> tuple[str, list[str]]:
    """Return what stands, and beneath it what was said first where that differs."""
    corrected = put.corrected
    if isinstance(entry, SetUp) and entry.seq in put.set_ups and entry.seq not in corrected:
        return entry.worded(job), [put.set_ups[entry.seq]]
    if isinstance(entry, Correction):
        change = corrected.get(entry.of)
        if change is None or change.seq != entry.seq:
            return entry.said(), []
        texts = [f"first said: {change.was}", f"stands now: {change.now}"]
        same = change.was == change.now
        return entry.said(), [*([] if same else texts), *_values(change)]
    if entry.seq not in corrected:
        return entry.worded(job), []
    change = corrected[entry.seq]
    stands = f"{change.now}, by entry {change.seq}"
    if change.was == change.now:
        return stands, _values(change)
    return stands, [f"first said: {change.was}"]


def _values(change: Corrected) -> list[str]:
    """Return both of each value, where the words of the entry do not tell them."""
    return [change.unsaid] if change.unsaid else []


def _broken(text: str, columns: _Columns) -> list[str]:
    return [each.plain for each in wrap(text, columns.room)] or [""]


def _below(text: str, columns: _Columns, style: str) -> Content:
    return Line(columns.width).put(columns.words, text, style).content()


def when(at: str, now: str) -> str:
    """Return the hour and minute of a time, and its date where that is not today's.

    >>> when("2026-03-14T03:10:00+01:00", "2026-03-14T03:12:00+01:00")
    '03:10'
    >>> when("2026-03-13T23:55:00+01:00", "2026-03-14T03:12:00+01:00")
    '03-13 23:55'
    """
    same = moment(at).date() == moment(now).date()
    return moment(at).strftime("%H:%M" if same else "%m-%d %H:%M")
