"""One connection to a book: its settings read back, waiting for others, one kind of transaction."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from random import uniform
from time import monotonic, sleep
from typing import TypeVar

from tally.errors import BookBusy, BookError

WAIT = 2.0
"""How long to wait for another program by default, [s]."""
PRAGMAS: tuple[tuple[str, str, str | int], ...] = (
    ("journal_mode", "DELETE", "delete"),
    ("synchronous", "EXTRA", 3),
    ("foreign_keys", "ON", 1),
    ("trusted_schema", "OFF", 0),
    ("cell_size_check", "ON", 1),
    ("fullfsync", "ON", 1),
)
"""Name, what is set, and what must be read back."""
LOOK_ONLY: tuple[tuple[str, str, str | int], ...] = (("query_only", "ON", 1),)
_SENTENCES = {
    sqlite3.SQLITE_FULL: "The disk is full.",
    sqlite3.SQLITE_READONLY: "The book is write-protected.",
    sqlite3.SQLITE_PERM: "The book may not be opened by this user.",
    sqlite3.SQLITE_CANTOPEN: "The book or its folder may not be opened or written.",
    sqlite3.SQLITE_IOERR: "The disk did not do what it was told.",
    sqlite3.SQLITE_CORRUPT: "The book is damaged.",
    sqlite3.SQLITE_NOTADB: "The file is no book.",
}
Result = TypeVar("Result")


def connect(path: Path, *, look_only: bool = False, wait: float = WAIT) -> sqlite3.Connection:
    """Return a connection to a file that is there; it never makes one.

    Looking only still opens the file for writing, because a book whose writer was killed can
    be recovered in no other way; the connection then refuses to write of itself.
    """
    uri = f"{path.absolute().as_uri()}?mode=rw"
    connection = sqlite3.connect(uri, uri=True, timeout=0, isolation_level=None)
    try:
        for name, wanted, read_back in (*LOOK_ONLY, *PRAGMAS) if look_only else PRAGMAS:
            if not (look_only and name == "journal_mode"):
                patiently(_pragma(connection, f"{name} = {wanted}"), wait)
            _read_back(connection, name, read_back, wait)
    except BaseException:
        connection.close()
        raise
    return connection


def _pragma(connection: sqlite3.Connection, text: str) -> Callable[[], list[tuple[str | int]]]:
    return lambda: connection.execute(f"PRAGMA {text}").fetchall()


def _read_back(connection: sqlite3.Connection, name: str, wanted: str | int, wait: float) -> None:
    found = patiently(_pragma(connection, name), wait)
    if found != [(wanted,)]:
        got = found[0][0] if found else "nothing"
        raise BookError(
            f"SQLite did not take the setting {name}: {wanted} was wanted, {got} was found. "
            "Nothing is written without it."
        )


def patiently(action: Callable[[], Result], wait: float = WAIT) -> Result:
    """Return what an action gives, trying again while another program holds the book.

    Raises
    ------
    BookBusy
        If the book was held for longer than `wait`, [s].
    """
    started = monotonic()
    while True:
        try:
            return action()
        except sqlite3.OperationalError as fault:
            if not is_busy(fault):
                raise
            gone = monotonic() - started
            if gone >= wait:
                raise BookBusy(
                    f"Another program held the book for {gone:.1f} s; nothing was saved. "
                    "Try again, or close the other program."
                ) from fault
        sleep(uniform(0.0005, 0.004))


@contextmanager
def immediate(connection: sqlite3.Connection, wait: float = WAIT) -> Iterator[None]:
    """Hold the book for one transaction: all of it is committed, or nothing is changed.

    The lock is taken before anything is read, so that two writers never decide on the same
    footing. A commit that finds a reader is tried again as a commit.
    """
    patiently(lambda: connection.execute("BEGIN IMMEDIATE"), wait)
    try:
        yield
        patiently(lambda: connection.execute("COMMIT"), wait)
    except BaseException:
        if connection.in_transaction:
            with suppress(sqlite3.Error):
                connection.execute("ROLLBACK")
        raise


def is_busy(fault: sqlite3.Error) -> bool:
    """Whether another program holds the book."""
    return primary_code(fault) == sqlite3.SQLITE_BUSY


def primary_code(fault: sqlite3.Error) -> int:
    """Return SQLite's result code without its extension; 0 if there is none."""
    code: int = getattr(fault, "sqlite_errorcode", 0)
    return code & 0xFF


def sentence(fault: sqlite3.Error) -> str:
    """Return what went wrong, in a sentence."""
    return _SENTENCES.get(primary_code(fault), f"SQLite refused: {fault}.")
