"""The time breakdown: how long each part of the work took, how long it stood, and why."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import groupby, pairwise

from tally.job.entry import moment
from tally.job.happening import Happening
from tally.job.job import Job
from tally.job.kept_records import LostTime
from tally.reports.fields import step_record
from tally.reports.final_tally import FinalTally
from tally.reports.sheet import Block, Cells, Column, Grid, Part, Sheet, number, sheet, tens
from tally.reports.text_parts import stamp, who

_STEPS = (
    ("line-test", "rigged up: line test to the top plug"),
    ("top-plug-released", "displacing, to the bump"),
    ("bumped", "after the bump"),
    ("waiting-started", "waiting on cement"),
    ("waiting-over", "after the waiting"),
)
"""Steps of the shipped lists with which a part of the work begins, and what it is."""
_ENDS = {"stuck": "pipe free", "shut in": "well open"}
"""Trouble that has a beginning and an end, by the kinds of the two entries."""

Span = tuple[datetime, datetime]


@dataclass(frozen=True, slots=True)
class Phase:
    """One part of the work, from minute to minute, and how long it stood within it."""

    name: str
    start: datetime
    end: datetime
    stood: int
    """Minutes."""

    @property
    def minutes(self) -> int:
        """How long it took."""
        return _minutes(self.end - self.start)


def phases(job: Job, first: str) -> tuple[Phase, ...]:
    """Return the parts of the work from the first entry to the last, one after the other."""
    begun = [(first, "before the string")]
    if job.string:
        begun.append((job.string[0].at, "running the string"))
    if job.landing:
        begun.append((job.landing.at, "on depth: circulating, rigging up"))
    for step_id, name in _STEPS:
        record = step_record(job, step_id)
        if record is not None and record.outcome == "done":
            begun.append((record.at, name))
    starts = sorted(((_minute(at), name) for at, name in begun), key=lambda each: each[0])
    ends = [*(start for start, _ in starts[1:]), max(_minute(job.last), starts[-1][0])]
    stops = _together(_span(one) for one in job.lost)
    return tuple(
        Phase(name, start, end, sum(_shared(stop, (start, end)) for stop in stops))
        for (start, name), end in zip(starts, ends, strict=True)
        if end > start
    )


def _minute(at: str) -> datetime:
    return moment(at).replace(second=0, microsecond=0)


def _minutes(time: timedelta) -> int:
    return round(time.total_seconds() / 60)


def _span(one: LostTime) -> Span:
    start = _minute(one.began)
    return start, start + timedelta(minutes=round(one.time.value / 60))


def _together(spans: Iterable[Span]) -> list[Span]:
    """Return times as spans that do not overlap, so that no minute is counted twice."""
    joined: list[Span] = []
    for start, end in sorted(spans):
        if joined and start <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
        else:
            joined.append((start, end))
    return joined


def _shared(one: Span, other: Span) -> int:
    return max(0, _minutes(min(one[1], other[1]) - max(one[0], other[0])))


def times_sheet(tally: FinalTally) -> Sheet:
    """Return where the time went: the parts of the work, what it waited for, trouble."""
    parts = (
        Part("By parts of the work", grid=_phase_grid(tally), none="Nothing took a minute yet."),
        Part(
            "Time lost, by cause",
            grid=_lost_grid(tally.job),
            none="No time lost is entered (F2, r).",
        ),
        Part(
            "Trouble from its beginning to its end",
            grid=_trouble_grid(tally.job),
            none="The pipe was not stuck and the well was not shut in.",
        ),
    )
    return sheet("times", "Time breakdown", tally, parts, ("driller", "company representative"))


def _phase_grid(tally: FinalTally) -> Grid:
    columns = (
        Column("part of the work"),
        Column("from", 16),
        Column("to", 16),
        number("took, min", 9),
        number("worked, min", 11),
        number("lost, min", 9),
    )
    found = phases(tally.job, tally.began)
    rows = [(one.name, _told(one.start), _told(one.end), *_sums([one])) for one in found]
    if not rows:
        return Grid(columns, ())
    closing = ("in all", _told(found[0].start), _told(found[-1].end), *_sums(found))
    return Grid(columns, (Block(tuple(rows), closing),), "parts")


def _told(at: datetime) -> str:
    return at.strftime("%Y-%m-%d %H:%M")


def _sums(found: Iterable[Phase]) -> tuple[str, str, str]:
    some = tuple(found)
    took, stood = sum(one.minutes for one in some), sum(one.stood for one in some)
    return str(took), str(took - stood), str(stood)


def _lost_grid(job: Job) -> Grid:
    columns = (
        Column("cause", 26),
        Column("began", 16),
        number("lost, min", 9),
        Column("entered by", 24),
        Column("remarks"),
    )
    by_cause = sorted(job.lost, key=lambda one: (one.cause.casefold(), one.began))
    blocks = []
    for _, found in groupby(by_cause, lambda one: one.cause.casefold()):
        ones = list(found)
        rows = tuple(
            (one.cause, stamp(one.began), str(_lost(one)), who(one.by, one.at), one.note)
            for one in ones
        )
        total = str(sum(map(_lost, ones)))
        blocks.append(Block(rows, (f"{ones[0].cause}, in all", "", total, "", "")))
    return Grid(columns, tuple(blocks), "lost")


def _lost(one: LostTime) -> int:
    return round(one.time.value / 60)


def _trouble_grid(job: Job) -> Grid:
    columns = (
        Column("trouble", 30),
        Column("from", 16),
        Column("to", 16),
        number("took, min", 9),
        Column("how it ended"),
    )
    return Grid(columns, tens(_trouble(job)), "trouble")


def _trouble(job: Job) -> Iterator[Cells]:
    for kind, end in _ENDS.items():
        told = [one for one in job.happened if one.kind in (kind, end)]
        for one, other in pairwise([*told, None]):
            if one is not None and one.kind == kind:
                yield _trouble_row(one, other)


def _trouble_row(one: Happening, other: Happening | None) -> Cells:
    if other is None:
        return one.words, stamp(one.at), "still so", "-", "OPEN"
    took = str(_minutes(_minute(other.at) - _minute(one.at)))
    return one.words, stamp(one.at), stamp(other.at), took, other.words
