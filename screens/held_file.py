"""A file beside the book that one program holds while it lives; the system lets go when it dies."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from pathlib import Path
from typing import Self

from tally.errors import ShoedownError
from tally.job.entry import clock
from tally.units import clean

FAR = 1 << 30
"""Where a byte is locked that no text reaches, on systems that lock bytes."""
LONGEST = 200


class HeldFile:
    """An open file that no other program can hold."""

    def __init__(self, path: Path, number: int) -> None:
        self.path = path
        self._number = number

    @classmethod
    def take(cls, path: Path) -> Self | None:
        """Hold a file, made if need be; nothing where another program that lives holds it."""
        while True:
            number = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
            if not _locked(number):
                os.close(number)
                return None
            with suppress(FileNotFoundError):
                if os.path.samestat(path.stat(), os.fstat(number)):
                    return cls(path, number)
            os.close(number)  # its last holder took it away in between

    def write(self, text: str) -> None:
        """Write the text of the file anew."""
        os.ftruncate(self._number, 0)
        os.lseek(self._number, 0, os.SEEK_SET)
        os.write(self._number, text.encode("utf-8"))

    def let_go(self, *, remove: bool = True) -> None:
        """Hold it no more; take it away unless what it says is still wanted."""
        with suppress(OSError):
            if remove:
                self.path.unlink(missing_ok=True)
        os.close(self._number)


if sys.platform == "win32":
    import msvcrt

    def _locked(number: int) -> bool:
        os.lseek(number, FAR, os.SEEK_SET)
        try:
            msvcrt.locking(number, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:
    import fcntl

    def _locked(number: int) -> bool:
        try:
            fcntl.flock(number, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        except OSError:
            return True  # a file system without locks: every program goes by itself, as before
        return True


def held(book: Path, what: str, who: str, at: str, refusal: str) -> HeldFile | None:
    """Hold the one place that a book has for something; nothing where the folder takes no file.

    Raises
    ------
    ShoedownError
        If another station has it; the refusal then begins with who that is.
    """
    path = book.with_name(f"{book.name}.{what}")
    try:
        taken = HeldFile.take(path)
        if taken is not None:
            taken.write(f"{who} since {clock(at)}")
            return taken
        by = clean(path.read_text("utf-8")[:LONGEST]) or "Somebody"
    except (OSError, ValueError, ShoedownError):
        return None
    raise ShoedownError(f"{by} {refusal}")
