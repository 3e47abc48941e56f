"""The book: entries go in, and the job comes back once they are on the disk."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterable
from pathlib import Path
from secrets import token_hex
from types import TracebackType
from typing import Self

from tally.book import schema
from tally.book.batches import batches_between, fitting, write_batches
from tally.book.connection import WAIT, connect, immediate, is_busy, patiently, sentence
from tally.book.document import Document
from tally.book.journal import Line, entry_of
from tally.book.making import make_tables, schema_of, stepped_up
from tally.book.opening import (
    UNREADABLE,
    FileId,
    Opened,
    created_at,
    data_version,
    file_id,
    lines_after,
    number,
    opened,
    unreadable,
)
from tally.book.standing import Standing, begun
from tally.book.writing import write_book, write_lines, write_rows
from tally.errors import BookDamaged, BookError, BookMissing, BookTooNew, NotSaved
from tally.job.entry import Entry
from tally.job.job import EMPTY, Job
from tally.release import release


class Book:
    """One book, open in one thread. Several programs on one machine may have it open."""

    _connection: sqlite3.Connection
    _file: FileId
    _version: int
    _standing: Standing
    _closed: bool

    def __init__(self, path: Path, how: Opened, *, look_only: bool, wait: float) -> None:
        self.path = path
        self._name = str(path)
        self.look_only = look_only
        self.wait = wait
        """How long to wait for another program, [s]."""
        self._take(how)

    @classmethod
    def create(
        cls,
        path: str | Path,
        entries: Iterable[Entry],
        now: str = "",
        *,
        book_id: str = "",
        wait: float = WAIT,
    ) -> Book:
        """Make a book with its first entries, all of it or nothing.

        The id is drawn by lot, unless a book is wanted that comes out the same every time.

        Raises
        ------
        EntryRefused
            If an entry is not allowed; no file is made.
        BookError
            If there is a file of that name, or none can be made there.
        """
        standing = begun(book_id or token_hex(8))
        lines = []
        for entry in entries:
            line, standing = standing.next(entry)
            lines.append(line)
        created = now or (standing.entries[0].at if lines else "")
        where = Path(path).absolute()
        _make(where, Document(standing.book, created, "", tuple(lines)), standing.job)
        return cls.open(where, wait=wait)

    @classmethod
    def rebuild(cls, path: str | Path, document: Document, *, wait: float = WAIT) -> Book:
        """Make a book of the lines of another one, each stored as it was; all of it or nothing.

        Raises
        ------
        BookDamaged, BookTooNew
            If a line does not fit or cannot be read; no file is made.
        BookError
            If there is a file of that name, or none can be made there.
        """
        standing = begun(document.book).carried_on(document.lines)
        where = Path(path).absolute()
        _make(where, document, standing.job)
        return cls.open(where, wait=wait)

    @classmethod
    def open(cls, path: str | Path, look_only: bool = False, *, wait: float = WAIT) -> Book:
        """Open a book that is there; `opened` says what may be raised."""
        where = Path(path).absolute()
        how = _opened(where, look_only, wait)
        if not look_only:
            try:
                _kept_before_step(how, where, wait)
                how = stepped_up(how, where.name, wait)
            except BaseException as fault:
                how.connection.close()
                if isinstance(fault, UNREADABLE):
                    raise unreadable(fault, where.name) from fault
                raise
        return cls(where, how, look_only=look_only, wait=wait)

    @property
    def job(self) -> Job:
        """What the entries add up to."""
        return self._standing.job

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Every entry, as it was made."""
        return self._standing.entries

    @property
    def head(self) -> tuple[int, str]:
        """How many entries there are, and the hash of the last one."""
        return self._standing.count, self._standing.head

    @property
    def id(self) -> str:
        """What tells this book from every other."""
        return self._standing.book

    def document(self) -> Document:
        """Return the book as it is stored, up to the last entry that is known here."""
        lines = patiently(lambda: lines_after(self._connection, self.id, 0), self.wait)
        created = patiently(lambda: created_at(self._connection), self.wait)
        known = tuple(lines[: self._standing.count])
        return Document(self.id, created, release(), known, self.batches())

    def batches(self, after: int = 0) -> dict[int, str]:
        """Return the rows of the readings that came after an entry, by number of entry."""
        upto = self._standing.count
        return patiently(lambda: batches_between(self._connection, self.id, after, upto), self.wait)

    def record(self, entry: Entry, payload: str = "") -> Job:
        """Add an entry to the book and return the job with it; it is on the disk then.

        The entry is checked against the book as it stands at that moment, with what other
        programs added. Readings come with their rows, as the text that their hash was made of.

        Raises
        ------
        EntryRefused
            If the job does not allow it, or asks first, or the rows are not those of the entry;
            nothing is changed.
        BookBusy
            If another program held the book for too long; nothing is changed.
        NotSaved
            If the disk did not confirm it. The book has been opened again and shows what the
            file holds; the entry is never tried a second time.
        """
        self._may_write()
        fitting(entry, payload)
        line = None
        try:
            with immediate(self._connection, self.wait):
                self._same_file()
                now = self._carried_on()
                self._standing.still_answered(entry, now)
                line, after = now.next(entry)
                write_lines(self._connection, self.id, [line])
                write_batches(self._connection, self.id, {line.seq: payload} if payload else {})
                write_rows(self._connection, self.id, now.job, after.job)
        except sqlite3.ProgrammingError:
            raise  # the connection was used from another thread: nothing was done
        except sqlite3.Error as fault:
            raise self._not_saved(fault, line) from fault
        self._same_file()
        self._standing = after
        return after.job

    def poll(self) -> bool:
        """Take in what other programs added; whether there was anything.

        Raises
        ------
        BookMissing
            If the file was moved, deleted or replaced.
        BookDamaged
            If a line does not fit.
        """
        self._same_file()
        try:
            version = data_version(self._connection)
            if version == self._version:
                return False
            now = self._carried_on()
        except UNREADABLE as fault:
            if isinstance(fault, sqlite3.Error) and is_busy(fault):
                return False
            raise unreadable(fault, self.path.name) from fault
        moved = now is not self._standing
        self._version, self._standing = version, now
        return moved

    def close(self) -> None:
        """Let go of the file."""
        self._connection.close()
        self._closed = True

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        value: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def _take(self, how: Opened) -> None:
        self._connection = how.connection
        self._file = how.file
        self._version = how.version
        self._standing = how.standing
        self._closed = False

    def _carried_on(self) -> Standing:
        self._same_schema()
        known = self._standing
        lines = lines_after(self._connection, self.id, max(known.count - 1, 0))
        if not known.count:
            return known.carried_on(lines)
        if not lines or lines[0].hash != known.head:
            raise BookDamaged(
                f"{self.path.name} no longer holds entry {known.count} as it was saved: it was "
                "changed or copied over from outside. Stop, keep the file and verify it."
            )
        return known.carried_on(lines[1:])

    def _may_write(self) -> None:
        if self._closed:
            raise BookError("The book is closed; open it again.")
        if self.look_only:
            raise BookError("The book is open to look only; nothing was saved.")

    def _same_file(self) -> None:
        """Refuse to go on once the name points to another file, or to none."""
        try:
            if file_id(self._name) == self._file:
                return
        except BookError:
            pass
        raise BookMissing(
            f"{self.path.name} was moved, deleted or replaced while it was open; nothing more is "
            "saved. Put the file back or open the book again."
        )

    def _same_schema(self) -> None:
        """Refuse to go on once a later release has made the rows of the book its own way."""
        found = number(self._connection, "user_version")
        if found > schema.SCHEMA:
            raise BookTooNew(
                f"{self.path.name} was stepped up by a later release (schema {found}; this one "
                f"knows {schema.SCHEMA}); nothing more is saved. Open it with that release."
            )

    def _not_saved(self, fault: sqlite3.Error, line: Line | None) -> NotSaved:
        """Open the book again after a fault, compare, and return what to tell."""
        known, book = self._standing, self.id
        self.close()
        try:
            self._take(opened(self.path, wait=self.wait))
        except BookError as other:
            return NotSaved(f"{sentence(fault)} The entry is not saved. Opened again: {other}")
        return NotSaved(f"{sentence(fault)} {_compared(known, self._standing, book, line)}")


def _opened(path: Path, look_only: bool, wait: float) -> Opened:
    """Open a book; one that is damaged or gone is told with where its last good copy lies."""
    try:
        return opened(path, look_only=look_only, wait=wait)
    except (BookDamaged, BookMissing) as fault:
        from tally.book.second_place import last_good_copy

        copy = last_good_copy(path)
        raise type(fault)(f"{fault} {copy}" if copy else str(fault)) from fault


def _kept_before_step(how: Opened, path: Path, wait: float) -> None:
    """Copy a book beside itself before its rows are made anew for this release."""
    found = schema_of(how.connection, wait)
    if found != schema.SCHEMA:
        from tally.book.backup import backup

        backup(path, path.with_name(f"{path.stem}-schema-{found}{path.suffix}"), wait=wait)


def _compared(known: Standing, found: Standing, book: str, line: Line | None) -> str:
    """Return how a book that was opened again stands to what was known of it."""
    if found.book != book or found.entries[: known.count] != known.entries:
        return "Opened again, the book lacks entries that were saved. Stop, and verify the book."
    if line is not None and entry_of(line, book) in found.entries[known.count :]:
        return (
            f"Opened again, the book shows entry {line.seq}, but the disk did not confirm it; "
            "look for it before you enter it again."
        )
    return f"The entry is not saved; the book stands at entry {found.count}. Enter it again."


def _claim(path: Path) -> None:
    """Make an empty file of a name that is free."""
    try:
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o666))
    except FileExistsError as fault:
        raise BookError(
            f"There is a file at {path} already; nothing was changed. Choose another name."
        ) from fault
    except OSError as fault:
        raise BookError(f"No book can be made at {path}: {fault.strerror}.") from fault


def _make(path: Path, document: Document, job: Job) -> None:
    """Make the file of a new book; whatever comes between, no half of one is left."""
    _claim(path)
    try:
        _write_first(path, document, job)
    except BaseException as fault:
        path.unlink(missing_ok=True)
        if isinstance(fault, sqlite3.Error):
            raise NotSaved(f"{sentence(fault)} No book was made.") from fault
        raise


def _write_first(path: Path, document: Document, job: Job) -> None:
    """Write tables, lines and rows of a new book in one transaction."""
    connection = connect(path)
    try:
        with immediate(connection):
            make_tables(connection)
            write_book(connection, document.book, document.created)
            write_lines(connection, document.book, document.lines)
            write_batches(connection, document.book, document.batches)
            write_rows(connection, document.book, EMPTY, job)
    finally:
        connection.close()
