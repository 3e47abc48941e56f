"""The rows of what is kept beside the work: notices, calibrations, time lost, tests, handovers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from tally.book.changed import changed_places
from tally.book.schema import (
    CALIBRATIONS,
    HANDOVERS,
    NOTICES,
    PRESSURE_TESTS,
    TIME_LOST,
    Row,
    Rows,
    Table,
)
from tally.job.job import Job
from tally.job.kept_records import Calibration, Handover, LostTime, Notice, PressureTest


@dataclass(frozen=True, slots=True)
class Kept:
    """One table, the field of the job that its rows are made of, and a row."""

    table: Table
    field: str
    row: Callable[[Any], Row]

    def rows(self, old: Job, new: Job) -> tuple[Rows, Rows]:
        """Return the rows in which two jobs may differ."""
        was, now = getattr(old, self.field), getattr(new, self.field)
        before: Rows = {}
        after: Rows = {}
        for place in changed_places(was, now):
            before |= self.table.keyed(self.row(each) for each in was[place : place + 1])
            after |= self.table.keyed(self.row(each) for each in now[place : place + 1])
        return before, after


def _notice(one: Notice) -> Row:
    told = (one.to, one.about, one.means, one.given, one.when, one.answer)
    return (one.seq, *told, one.at)


def _calibration(one: Calibration) -> Row:
    return one.seq, one.what, one.serial, one.day, one.due, one.done_by, one.note, one.at


def _lost(one: LostTime) -> Row:
    return one.seq, one.cause, one.time.value / 60, one.began, one.note, one.at


def _test(one: PressureTest) -> Row:
    ended = one.ended.text if one.ended else ""
    seen = (one.pressure.text, one.time.text, ended, int(one.held))
    return (one.seq, one.what, *seen, one.device, one.note, one.at)


def _handover(one: Handover) -> Row:
    return one.seq, one.by, one.to, one.watch, one.at, one.taken_by, one.taken_at


EVERY = (
    Kept(NOTICES, "notices", _notice),
    Kept(CALIBRATIONS, "calibrations", _calibration),
    Kept(TIME_LOST, "lost", _lost),
    Kept(PRESSURE_TESTS, "pressure_tests", _test),
    Kept(HANDOVERS, "handovers", _handover),
)
