"""Verifying a book: the file, the chain, what the lines say, and the rows against a rebuild."""

from __future__ import annotations

import gc
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

from tally.book import schema
from tally.book.batches import batches_told
from tally.book.compare import compared
from tally.book.connection import connect, patiently
from tally.book.contents import Contents, contents
from tally.book.journal import canonical, entry_of, genesis, misfit, parsed
from tally.book.opening import UNREADABLE, file_id, number, on_one_line, recognised, unreadable
from tally.book.reported import LIMITS, Reported, held_against
from tally.book.rows import rows_of, title
from tally.book.schema import TABLES, VIEWS, view_sql
from tally.book.signed import signatures_told
from tally.errors import BookError, ShoedownError
from tally.job.entry import Entry
from tally.job.fold import fold
from tally.job.job import Job

LIMITS_OF_PROOF = (
    "What this cannot prove: a tail cut off, or a chain written anew from end to end, shows only "
    "against the count and the hash on a printed report."
)


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that was found, in a sentence."""

    sentence: str
    good: bool = False

    def __str__(self) -> str:
        return self.sentence


@dataclass(frozen=True, slots=True)
class Report:
    """What verifying a book found."""

    findings: tuple[Finding, ...]
    count: int = 0
    """Entries in the journal."""
    head: str = ""
    """The hash of the last one."""

    @property
    def ok(self) -> bool:
        """Whether nothing is wrong."""
        return all(finding.good for finding in self.findings)


def verify(path: str | Path, reported: Reported | None = None) -> Report:
    """Return what is found in a book; damage is a finding, never an error.

    Parameters
    ----------
    path : str or Path
        The book
    reported : Reported, optional
        What a report said of the book; it must still hold exactly that
    """
    where = Path(path).absolute()
    try:
        file_id(where)
        with closing(connect(where, look_only=True)) as connection, _all_is_needed():
            return _report(connection, where, reported)
    except BookError as fault:
        return Report((Finding(str(fault)),))
    except UNREADABLE as fault:
        return Report((Finding(str(unreadable(fault, where.name))),))
    except Exception as fault:  # damage can bring up anything; it is told, never raised
        return Report((Finding(f"{where.name} could not be verified to the end: {fault!r}."),))


@contextmanager
def _all_is_needed() -> Iterator[None]:
    """Look for no waste meanwhile: what is made here is needed to the end, and there is much."""
    looks = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if looks:
            gc.enable()


def _report(connection: sqlite3.Connection, path: Path, reported: Reported | None) -> Report:
    whole = patiently(lambda: tuple(_pages(connection, path)))
    patiently(lambda: recognised(connection, path.name))
    book = patiently(lambda: contents(connection, path.name))
    earlier = book.version < schema.SCHEMA
    entries, unread = _entries(book)
    job, sums = _added_up(entries) if not unread else (None, ())
    findings = (
        *whole,
        *(Finding(fault) for fault in book.faults),
        *_chain(book),
        *unread,
        *sums,
        *(Finding(*told) for told in signatures_told(book.lines, book.id, entries)),
        *(Finding(*told) for told in batches_told(entries, book.batches)),
        *(_earlier(book) if earlier else _made_by_us(book)),
        *(_rows(book, job) if job is not None and not earlier else ()),
        *(_reported(book, reported) if reported else (Finding(LIMITS_OF_PROOF, good=True),)),
    )
    head = str(book.lines[-1].hash) if book.lines else genesis(book.id)
    return Report(findings, len(book.lines), head)


def _pages(connection: sqlite3.Connection, path: Path) -> Iterator[Finding]:
    """Find what SQLite itself says of the file, and whether its end is there."""
    size = number(connection, "page_count") * number(connection, "page_size")
    if path.stat().st_size < size:
        yield Finding(f"The file is cut: it should have {size:,} bytes.")
    faults = [row[0] for row in connection.execute("PRAGMA integrity_check(5)").fetchall()]
    if faults == ["ok"]:
        yield Finding("SQLite finds the file whole.", good=True)
        return
    for fault in faults:
        yield Finding(f"SQLite finds the file damaged: {on_one_line(fault)}.")


def _chain(book: Contents) -> Iterator[Finding]:
    """Find the first entry that does not follow on the one before."""
    head = genesis(book.id)
    for count, line in enumerate(book.lines):
        fault = misfit(line, count, head)
        if fault:
            yield Finding(fault)
            return
        head = line.hash
    yield Finding(
        f"The chain holds: {len(book.lines)} entries, the last hash is {head}.", good=True
    )


def _entries(book: Contents) -> tuple[list[Entry], tuple[Finding, ...]]:
    """Read every line; what cannot be read is a finding."""
    entries: list[Entry] = []
    findings: list[Finding] = []
    for line in book.lines:
        try:
            entries.append(entry_of(line, book.id))
            if canonical(parsed(line.text)) != line.text:
                findings.append(
                    Finding(f"The line of entry {line.seq} was not written by this program.")
                )
        except ShoedownError as fault:
            findings.append(Finding(str(fault)))
    return entries, tuple(findings)


def _added_up(entries: Iterable[Entry]) -> tuple[Job | None, tuple[Finding, ...]]:
    """Fold every entry into the job."""
    try:
        job = fold(entries)
    except Exception as fault:  # whatever a changed line brings up, it is the line that is at fault
        return None, (Finding(f"The entries do not add up: {fault!r}."),)
    return job, (Finding("Every entry reads, and together they give the job.", good=True),)


def _rows(book: Contents, job: Job) -> Iterator[Finding]:
    """Compare the rows with those that the journal gives."""
    rebuilt = rows_of(job)
    faults = [
        fault
        for table in TABLES
        if table.name in book.rows
        for fault in compared(table, book.id, book.rows[table.name], rebuilt[table.name])
    ]
    if book.title != title(job):
        faults.append(
            f'Table books: the title is "{book.title}", the journal gives "{title(job)}".'
        )
    yield from (Finding(fault) for fault in faults)
    if not faults:
        number = sum(len(rows) for rows in rebuilt.values())
        yield Finding(f"All {number} rows agree with a rebuild from the journal.", good=True)


def _earlier(book: Contents) -> Iterator[Finding]:
    """Tell of rows that an earlier release made: they are a cache and are not compared."""
    yield Finding(
        f"The rows were made by an earlier release (schema {book.version}) and are not compared; "
        "they are made anew from the journal when the book is next opened for entry.",
        good=True,
    )


def _made_by_us(book: Contents) -> Iterator[Finding]:
    """Find views that were changed, and triggers, which this program never makes."""
    for name, query in VIEWS.items():
        if book.views.get(name) != view_sql(name, query):
            yield Finding(f"The view {name} is not the one that this program made.")
    for name in book.triggers:
        yield Finding(f"The book holds a trigger {name}, which this program did not make.")
    if book.schema != schema.SCHEMA:
        yield Finding(f"Table books: the schema is {book.schema}, {schema.SCHEMA} was expected.")


def _reported(book: Contents, reported: Reported) -> Iterator[Finding]:
    """Hold the entries against what was reported of them."""
    sentence, good = held_against(book.lines, book.id, reported)
    yield Finding(sentence, good)
    yield Finding(LIMITS, good=True)
