"""The rows that a job makes, and which of them change from one job to the next.

Each part takes two jobs and returns the rows of one table in which they may differ, before and
after. The rows of a whole job are what differs from the empty one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from tally.book import item_rows, kept_rows
from tally.book.changed import changed_places
from tally.book.schema import (
    EXCEPTIONS,
    FITTINGS,
    ITEMS,
    LIMITS,
    PEOPLE,
    READINGS,
    SETTINGS,
    SIGNATURES,
    STEPS,
    Row,
    Rows,
    Table,
)
from tally.job.depths import stick_up
from tally.job.job import EMPTY, Job, PumpReading
from tally.job.running_records import Fill, RatePressure, TankLevel
from tally.units import Measure


@dataclass(frozen=True, slots=True)
class Difference:
    """What changes in one table: the keys that go, and the rows that come or change."""

    table: Table
    gone: tuple[Row, ...]
    put: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Part:
    """One table, the fields of the job that its rows are made of, and how they are made."""

    table: Table
    made_of: tuple[str, ...]
    rows_in: Callable[[Job, Job], tuple[Rows, Rows]]

    def touched(self, old: Job, new: Job) -> bool:
        """Whether a row can differ between two jobs."""
        for name in self.made_of:  # noqa: SIM110 - asked for every table at every entry
            if getattr(old, name) is not getattr(new, name):
                return True
        return False


def rows_of(job: Job) -> dict[str, Rows]:
    """Return every row of a job, by table and key."""
    return {part.table.name: part.rows_in(EMPTY, job)[1] for part in PARTS}


def differences(old: Job, new: Job) -> Iterator[Difference]:
    """Yield what changes in each table from one job to the next."""
    for part in PARTS:
        if part.touched(old, new):
            before, after = part.rows_in(old, new)
            gone = tuple(key for key in before if key not in after)
            put = tuple(row for key, row in after.items() if before.get(key) != row)
            yield Difference(part.table, gone, put)


def title(job: Job) -> str:
    """Return what the book is called: its well and its string."""
    return f"{job.setup.well.name}, {job.setup.well.string}" if job.setup else ""


def _readings(old: Job, new: Job) -> tuple[Rows, Rows]:
    before: Rows = {}
    after: Rows = {}
    for name, row in _READING_ROWS.items():
        was, now = getattr(old, name), getattr(new, name)
        for place in changed_places(was, now):
            before |= READINGS.keyed(row(each) for each in was[place : place + 1])
            after |= READINGS.keyed(row(each) for each in now[place : place + 1])
    return before, after


def _tank_row(one: TankLevel) -> Row:
    read = (one.volume.text, one.volume.value)
    return one.seq, "trip tank", one.at, *read, None, "", "", "", int(one.mark)


def _fill_row(one: Fill) -> Row:
    return one.seq, "fill", one.at, "", one.volume, None, "", "", one.source, 0


def _pump_row(one: PumpReading) -> Row:
    read = (_text(one.tank), one.tank.value if one.tank else None, one.strokes)
    return one.seq, "pumped", one.at, *read, _text(one.pressure), _text(one.rate), one.source, 0


def _rate_row(one: RatePressure) -> Row:
    seen = (one.pressure.text, one.rate.text)
    return one.seq, "circulated", one.at, "", None, None, *seen, "", 0


def _text(measure: Measure | None) -> str:
    return measure.text if measure else ""


_READING_ROWS: dict[str, Callable[[Any], Row]] = {
    "tank": _tank_row,
    "fills": _fill_row,
    "pumped": _pump_row,
    "rates": _rate_row,
}


def _steps(old: Job, new: Job) -> tuple[Rows, Rows]:
    return STEPS.keyed(_step_rows(old)), STEPS.keyed(_step_rows(new))


def _step_rows(job: Job) -> Iterator[Row]:
    for (list_id, step_id), one in job.steps.items():
        seen = (one.outcome, one.state, one.value, one.note)
        yield list_id, step_id, *seen, one.by, one.at, one.witness, one.passed, one.seq


def _people(old: Job, new: Job) -> tuple[Rows, Rows]:
    return PEOPLE.keyed(_person_rows(old)), PEOPLE.keyed(_person_rows(new))


def _person_rows(job: Job) -> Iterator[Row]:
    for one in job.people.values():
        yield one.name, one.role


def _exceptions(old: Job, new: Job) -> tuple[Rows, Rows]:
    changed = changed_places(old.exceptions, new.exceptions)
    return (
        EXCEPTIONS.keyed(_exception_rows(old, changed)),
        EXCEPTIONS.keyed(_exception_rows(new, changed)),
    )


def _exception_rows(job: Job, places: list[int]) -> Iterator[Row]:
    for at in places:
        for one in job.exceptions[at : at + 1]:
            yield at + 1, one.seq, one.what, one.by, one.at, one.closed_by, one.closing


def _settings(old: Job, new: Job) -> tuple[Rows, Rows]:
    return SETTINGS.keyed(_setting_rows(old)), SETTINGS.keyed(_setting_rows(new))


def _setting_rows(job: Job) -> Iterator[Row]:
    if job.setup:
        step = job.setup.step
        per_unit = round(1 / float(step.step_text.split()[0]))
        yield step.unit, step.step_text, per_unit, stick_up(job)


def _limits(old: Job, new: Job) -> tuple[Rows, Rows]:
    return LIMITS.keyed(_limit_rows(old)), LIMITS.keyed(_limit_rows(new))


def _limit_rows(job: Job) -> Iterator[Row]:
    for name, limit in (job.setup.limits if job.setup else {}).items():
        yield name, limit.text, limit.owner, limit.source


def _signatures(old: Job, new: Job) -> tuple[Rows, Rows]:
    return SIGNATURES.keyed(_signature_rows(old)), SIGNATURES.keyed(_signature_rows(new))


def _signature_rows(job: Job) -> Iterator[Row]:
    for one in job.signatures:
        who = (one.name, one.role, one.meaning, one.at, int(one.pin))
        yield one.seq, *who, ", ".join(one.reports), one.entries, one.head


PARTS = (
    Part(ITEMS, ("items", "string"), item_rows.items),
    Part(FITTINGS, ("string",), item_rows.fittings),
    Part(STEPS, ("steps",), _steps),
    Part(READINGS, ("tank", "fills", "pumped", "rates"), _readings),
    Part(PEOPLE, ("people",), _people),
    Part(EXCEPTIONS, ("exceptions",), _exceptions),
    Part(SETTINGS, ("setup", "landing"), _settings),
    Part(LIMITS, ("setup",), _limits),
    Part(SIGNATURES, ("signatures",), _signatures),
    *(Part(one.table, (one.field,), one.rows) for one in kept_rows.EVERY),
)
