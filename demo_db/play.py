"""Play the demonstration: an invented job, entry by entry as its crew would have made it.

The well, its pipe and what happened when are plain files in the folder larkspur:

job.toml        the set-up, read like any job file
pipe_list.csv   the joints on location, as listed (one length was misread)
running.csv     the string run, the trip tank, the fills, notes, on depth, hung off
steps.csv       the checklists, step by step
mixing.csv      the mixing log: densities, samples, totals, what was seen at surface
pumping.csv     the counts read while the top plug was pumped down

The pressures of pumping.csv are those of a plain time march of the job as pumped (the one that the
tests hold placements against), with noise of 12 psi on them, rounded to 5; the last one is on the
bump, 615 psi over the one before it. The returns are those that the march had.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from demo_db.happenings import Row, entry_of
from tally.errors import InputError
from tally.feeds.job_file import job_entries
from tally.job.entries.correction import Correction
from tally.job.entry import Entry
from tally.job.fold import fold, fold_on
from tally.job.job import EMPTY, Job

FOLDER = Path(__file__).parent / "larkspur"
HAPPENED = ("running.csv", "steps.csv", "mixing.csv", "pumping.csv")
SET_UP_BY = "Ama Osei"
SET_UP_AT = "2026-03-11T20:40:00-06:00"
MOMENTS = {"third": "2026-03-12T03:12:00-06:00", "end": ""}
"""How far to play: to the moment with 86 joints in the string, or to the end."""


def play(path: str | Path, until: str = "end") -> Path:
    """Make a book at a free path with the job played to "third" or "end"; return the path."""
    from tally.book.book import Book

    Book.create(path, entries(until)).close()
    return Path(path)


def entries(until: str = "end") -> tuple[Entry, ...]:
    """Return the entries of the job in order, each checked against the job as it stood then.

    Raises
    ------
    EntryRefused
        If the files tell of something that the job does not allow.
    """
    made: list[Entry] = []
    job = EMPTY
    for entry in job_entries(FOLDER / "job.toml", SET_UP_BY, SET_UP_AT):
        job = _added(made, job, entry)
    for row in _rows(until):
        job = _added(made, job, entry_of(row, job, made))
    return tuple(made)


def acts_after(until: str) -> list[Row]:
    """Return what the crew still does after a moment, in order of time."""
    done = MOMENTS[until]
    return [row for row in _rows("end") if row["at"] > done]


def _added(made: list[Entry], job: Job, entry: Entry) -> Job:
    made.append(replace(entry, seq=len(made) + 1))
    after = fold_on(job, made[-1])
    return fold(made) if isinstance(entry, Correction) else after


def _rows(until: str) -> Iterator[Row]:
    """Yield what happened, in order of time, up to a moment."""
    if until not in MOMENTS:
        raise InputError(f'"{until}" is no moment of the demonstration: use third or end.')
    rows = [row for name in HAPPENED for row in _file(FOLDER / name)]
    last = MOMENTS[until]
    for row in sorted(rows, key=lambda row: row["at"]):
        if last and row["at"] > last:
            return
        yield row


def _file(path: Path) -> Iterator[Row]:
    with path.open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)
