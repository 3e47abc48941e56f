"""A program killed, or its disk failing, at each call of a kind that recording makes."""

from __future__ import annotations

import re
import shutil
import signal
from dataclasses import dataclass
from pathlib import Path
from subprocess import CompletedProcess

from tests.faults.outcome import Outcome
from tests.faults.survived import lost
from tests.faults.traced import calls_of, failing
from tests.tally.book.invented import new_book, run

NOTES = 2
DIED = (-signal.SIGKILL, 128 + signal.SIGKILL)
SENTENCES = re.compile(r"[A-Z0-9a-z][^\n]+\.\n")
"""What a program says that could not go on: sentences on one line, and no trace of its insides."""


@dataclass(frozen=True, slots=True)
class Sweep:
    """A fault that is made to happen at the first call of a kind, then at the second, and on."""

    name: str
    call: str
    what: str
    """What strace puts in the place of the call: "signal=SIGKILL", "error=EIO"."""
    ever: bool = False
    """Whether every later call of the kind fails too."""

    def at(self, number: int) -> str:
        """Return what strace is told to put in the place of a call."""
        return f"{self.call}:{self.what}:when={number}{'+' if self.ever else ''}"


SWEEPS = (
    Sweep("killed at a write", "pwrite64", "signal=SIGKILL"),
    Sweep("killed at a sync", "fdatasync", "signal=SIGKILL"),
    Sweep("killed as the journal goes", "unlink", "signal=SIGKILL"),
    Sweep("a sync fails once", "fdatasync", "error=EIO"),
    Sweep("every sync fails from then on", "fdatasync", "error=EIO", ever=True),
    Sweep("the disk is full at a write", "pwrite64", "error=ENOSPC"),
    Sweep("the disk is full from then on", "pwrite64", "error=ENOSPC", ever=True),
    Sweep("a write fails", "pwrite64", "error=EIO"),
    Sweep("a read fails", "pread64", "error=EIO"),
)


def swept(
    folder: Path, sweep: Sweep, every: int = 1, *, notes: int = NOTES, without: str = ""
) -> Outcome:
    """Try a fault at each call of its kind that recording makes, or at each so many.

    A program that was to be killed must have died by signal 9; one whose disk failed must have
    ended by itself with a sentence, or have done all its work. `without` takes a protection away.
    """
    whole = folder / "whole.book"
    with new_book(whole) as made:
        made.record(run("SHOE"))
        start = len(made.entries)
    clean = _copy(whole, folder / "clean")
    calls = calls_of(_writing(clean, notes, without), clean, sweep.call)
    wrong, numbers = [], range(1, calls + 1, every)
    for number in numbers:
        book = _copy(whole, folder / f"{number}")
        ended = failing(_writing(book, notes, without), book, sweep.at(number))
        told = _wrong(ended, sweep, notes) or lost(book, start, ended.stdout.splitlines())
        wrong += [f"at call {number}: {told}"] if told else []
    return Outcome(sweep.name, len(numbers), tuple(wrong))


def _copy(whole: Path, folder: Path) -> Path:
    folder.mkdir()
    return Path(shutil.copy(whole, folder / "job.book"))


def _writing(book: Path, notes: int, without: str) -> list[str | Path]:
    return ["tests.faults.writer", book, str(notes), *([without] if without else [])]


def _wrong(ended: CompletedProcess[str], sweep: Sweep, notes: int) -> str:
    """Return what was wrong with the way in which the program ended, or nothing."""
    if "SIGKILL" in sweep.what:
        died = ended.returncode in DIED
        return "" if died else f"it ended with {ended.returncode}, not by signal 9. {ended.stderr}"
    done = ended.returncode == 0 and len(ended.stdout.splitlines()) == notes
    return "" if done or SENTENCES.fullmatch(ended.stderr) else f"it said {ended.stderr!r}"
