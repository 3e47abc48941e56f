"""Opening a book: is it one, is it whole, and what do its lines add up to."""

from __future__ import annotations

import os
import sqlite3
from dataclasses import dataclass
from pathlib import Path
from stat import S_ISDIR

from tally.book import schema
from tally.book.connection import WAIT, connect, patiently, primary_code, sentence
from tally.book.journal import Line
from tally.book.schema import APPLICATION_ID
from tally.book.standing import Standing, begun
from tally.errors import BookDamaged, BookError, BookMissing, BookTooNew

FileId = tuple[int, int]
UNREADABLE = (sqlite3.Error, UnicodeDecodeError)
"""What reading a damaged file can raise; SQLite's own message may quote damaged text."""


@dataclass(frozen=True, slots=True)
class Opened:
    """A book as it was opened."""

    connection: sqlite3.Connection
    file: FileId
    """Which file it is, whatever its name points to later."""
    version: int
    """SQLite's count of what other connections changed."""
    standing: Standing


def opened(path: Path, *, look_only: bool = False, wait: float = WAIT) -> Opened:
    """Open a book and read all of it.

    Raises
    ------
    BookMissing, BookDamaged, BookTooNew, BookBusy, BookError
        If there is none, it is no whole book, a later release wrote it, another program holds
        it, or it cannot be opened as wanted.
    """
    file = file_id(path)
    if not look_only and not os.access(path, os.W_OK):
        raise BookError(f"{path.name} is write-protected; open it to look only.")
    try:
        connection = connect(path, look_only=look_only, wait=wait)
    except UNREADABLE as fault:
        raise unreadable(fault, path.name) from fault
    try:
        version, standing = patiently(lambda: _read(connection, path.name), wait)
        if file_id(path) != file:
            raise BookMissing(f"{path.name} was replaced while it was opened; open it again.")
    except BaseException as fault:
        connection.close()
        if isinstance(fault, UNREADABLE):
            raise unreadable(fault, path.name) from fault
        raise
    return Opened(connection, file, version, standing)


def _read(connection: sqlite3.Connection, name: str) -> tuple[int, Standing]:
    recognised(connection, name)
    whole(connection, name)
    version = data_version(connection)
    start = begun(book_in(connection, name))
    return version, start.carried_on(every_line(connection, start.book))


def file_id(path: str | Path) -> FileId:
    """Return which file lies at a path."""
    try:
        found = os.stat(path)  # noqa: PTH116 - asked twice an entry, so without a Path
    except (FileNotFoundError, NotADirectoryError) as fault:
        raise BookMissing(f"There is no book at {path}; check the name and the folder.") from fault
    except OSError as fault:
        raise BookError(f"{path} cannot be looked at: {fault.strerror}.") from fault
    if S_ISDIR(found.st_mode):
        raise BookDamaged(f"{path} is a folder, not a book.")
    return found.st_dev, found.st_ino


def recognised(connection: sqlite3.Connection, name: str) -> None:
    """Refuse a file that is no book, or of a schema that this release does not know."""
    if not number(connection, "page_count"):
        raise BookDamaged(
            f"{name} is empty: no book was finished in it. Delete it and make the book again."
        )
    if number(connection, "application_id") != APPLICATION_ID:
        raise BookDamaged(f"{name} belongs to another program; it is no book.")
    found = number(connection, "user_version")
    if found > schema.SCHEMA:
        raise BookTooNew(
            f"{name} was written by a later release (schema {found}; this one knows "
            f"{schema.SCHEMA}). Open it with that release."
        )
    if found < 1:
        raise BookDamaged(f"{name} has no known schema ({found}). Verify the book.")


def whole(connection: sqlite3.Connection, name: str) -> None:
    """Refuse a file whose pages do not hold together."""
    found = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
    if found != "ok":
        raise BookDamaged(f"{name} is damaged: {on_one_line(found)}. Verify the book.")


def on_one_line(found: str) -> str:
    """Return what SQLite says of damaged pages without its headings, on one line.

    >>> on_one_line("*** in database main ***\\nPage 3: never used\\nPage 4: never used")
    'Page 3: never used; Page 4: never used'
    """
    return "; ".join(line.strip() for line in found.splitlines() if not line.startswith("***"))


def book_in(connection: sqlite3.Connection, name: str) -> str:
    """Return the id of the one book in a file."""
    books = connection.execute("SELECT book FROM books").fetchall()
    if len(books) != 1:
        raise BookDamaged(f"{name} holds {len(books)} books; one was expected. Verify the book.")
    return str(books[0][0])


def created_at(connection: sqlite3.Connection) -> str:
    """Return when the book was made."""
    return str(connection.execute("SELECT created FROM books").fetchone()[0])


def lines_after(connection: sqlite3.Connection, book: str, seq: int) -> list[Line]:
    """Return the lines after an entry."""
    found = connection.execute(
        "SELECT seq, prev, hash, line FROM journal WHERE book = ? AND seq > ? ORDER BY seq",
        (book, seq),
    )
    return [Line(*row) for row in found.fetchall()]


def every_line(connection: sqlite3.Connection, book: str) -> list[Line]:
    """Return every line; one that lies under another book's id would go unseen, and is refused."""
    lines = lines_after(connection, book, 0)
    (count,) = connection.execute("SELECT count(*) FROM journal").fetchone()
    if count != len(lines):
        raise BookDamaged(
            f"{count - len(lines)} lines of the journal lie under another book's id. "
            "Verify the book."
        )
    return lines


def data_version(connection: sqlite3.Connection) -> int:
    """Return SQLite's count of what other connections changed."""
    return number(connection, "data_version")


def number(connection: sqlite3.Connection, name: str) -> int:
    """Return a number that SQLite keeps about the file."""
    found: int = connection.execute(f"PRAGMA {name}").fetchone()[0]
    return found


def unreadable(fault: Exception, name: str) -> BookError:
    """Return the error to raise for a file that SQLite could not read."""
    if not isinstance(fault, sqlite3.Error):
        return BookDamaged(f"{name} cannot be read: its text is damaged. Verify the book.")
    damaged = (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_ERROR, 0)
    kind = BookDamaged if primary_code(fault) in damaged else BookError
    return kind(f"{name} cannot be read: {sentence(fault)}")
