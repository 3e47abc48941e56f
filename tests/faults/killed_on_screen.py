"""The real program in its terminal, killed or its disk failing while a joint is saved."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

from tally.book.verify import verify
from tests.drive.jobs import SHOEDOWN, before, book_at, unhurried
from tests.drive.joints import run_so_far, shown_as_saved, waiting
from tests.drive.terminal import Terminal
from tests.faults.outcome import Outcome
from tests.faults.traced import on_a_book

KILLED = "killed at a write of a joint, in the terminal"
BEGUN = "41"
PATIENCE = 60.0
MOST = 60
"""Writes of one joint, generously."""


def killed_while_saving(folder: Path, every: int = 1) -> Outcome:
    """Kill the program at the first write that a joint makes, then at the second, to the last."""
    whole = book_at(folder / "whole.book", unhurried(before(BEGUN)))
    wrong = []
    for tries, number in enumerate(range(1, MOST, every)):
        book = Path(shutil.copy(whole, folder / f"{number}.book"))
        known, joint = run_so_far(book), waiting(book)[0]
        shown, killed = _typed(book, joint, f"pwrite64:signal=SIGKILL:when={number}")
        if not killed:
            return Outcome(KILLED, tries, tuple(wrong))
        told = _wrong(book, known, joint, shown)
        wrong += [f"at write {number}: {told}"] if told else []
    raise AssertionError(f"One joint makes more than {MOST} writes.")


def shown_with(book: Path, inject: str) -> tuple[bool, str]:
    """Type a joint with a call failing; return whether it was shown as saved, and the screen."""
    joint = waiting(book)[0]
    with Terminal([*_under(book, inject), *SHOEDOWN, book], patience=PATIENCE) as terminal:
        terminal.wait_for(f"NEXT  joint {joint}")
        terminal.type(f"{joint}\r")
        terminal.wait_for(re.compile(rf"saved \d\d:\d\d  {joint} run|not saved|is the disk"))
        return bool(shown_as_saved(joint).search(terminal.text())), terminal.text()


def _typed(book: Path, joint: str, inject: str) -> tuple[bool, bool]:
    """Return whether the joint was shown as saved, and whether signal 9 ended the program."""
    with Terminal([*_under(book, inject), *SHOEDOWN, book], patience=PATIENCE) as terminal:
        terminal.wait_for(f"NEXT  joint {joint}")
        terminal.type(f"{joint}\r")
        if terminal.watch_for(shown_as_saved(joint), 3.0):
            terminal.kill9()
            return True, False
        death = terminal.wait_death()
        return False, death.by_sigkill


def _under(book: Path, inject: str) -> list[str]:
    call = inject.partition(":")[0]
    return [*on_a_book(book, call), "-o", "/dev/null", "-e", f"inject={inject}"]


def _wrong(book: Path, known: list[str], joint: str, shown: bool) -> str:
    report = verify(book)
    if not report.ok:
        return " ".join(str(each) for each in report.findings if not each.good)
    new = run_so_far(book)
    if new == [*known, joint] or (new == known and not shown):
        return ""
    return f"{len(known)} items before, {len(new)} now, joint {joint} shown as saved: {shown}"
