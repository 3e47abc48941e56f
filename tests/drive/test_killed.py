"""The program killed at random moments while joints are typed: what it showed as saved is there."""

from __future__ import annotations

import random
import time
from dataclasses import dataclass
from pathlib import Path

import pytest

from tally.book.book import Book
from tally.book.verify import verify
from tally.job.counts import balance
from tests.drive.jobs import SHOEDOWN, before, book_at, unhurried
from tests.drive.joints import run_so_far, shown_as_saved, waiting
from tests.drive.terminal import Terminal

SEED = 20260314
SMALL = (60, 15)
LATEST = 0.25
"""How long after its first key a program is killed at the latest [s]: some ten joints."""
BEGUN = "41"
"""From here on the items are joints, whose numbers can be typed."""
ENOUGH = 30
"""Joints that must be left for one try."""


@dataclass(frozen=True, slots=True)
class Try:
    """What one try saw."""

    moment: float
    saved: tuple[str, ...]
    """The joints that the screen showed as saved, in order."""
    in_flight: str
    """The joint that was typed when the program was killed, if one was."""


@pytest.mark.parametrize(
    "tries", [25, pytest.param(200, marks=pytest.mark.long)], ids=["25 tries", "200 tries"]
)
def test_every_joint_shown_as_saved_is_in_the_book(tmp_path, tries):
    draw = random.Random(SEED + tries)
    book = tmp_path / "0.book"
    seen: list[Try] = []
    for number in range(tries):
        if not book.exists() or len(waiting(book)) < ENOUGH:
            book = book_at(tmp_path / f"{number}.book", unhurried(before(BEGUN)))
        known = run_so_far(book)
        seen.append(typed_and_killed(book, draw.uniform(0, LATEST)))
        holds(book, known, seen[-1])
    told(seen)


def typed_and_killed(book: Path, moment: float) -> Try:
    """Type one joint after the other as each is saved; kill the program when the moment comes."""
    numbers = waiting(book)
    saved: list[str] = []
    in_flight = ""
    with Terminal([*SHOEDOWN, book], size=SMALL) as terminal:
        terminal.wait_for(f"NEXT  joint {numbers[0]}")
        deadline = time.monotonic() + moment
        for number in numbers:
            in_flight = number
            terminal.type(f"{number}\r")
            left = deadline - time.monotonic()
            if left <= 0 or not terminal.watch_for(shown_as_saved(number), left):
                break
            saved.append(number)
        death = terminal.kill9()
        assert (death.signal, death.exit_code) == (9, None)
        if shown_as_saved(in_flight).search(terminal.text()):
            saved.append(in_flight)
    return Try(moment, tuple(saved), in_flight)


def holds(book: Path, known: list[str], one: Try) -> None:
    """Assert that the book holds all that was shown, at most the joint in flight, and verifies."""
    report = verify(book)
    assert report.ok, (one, [str(finding) for finding in report.findings])
    new = run_so_far(book)
    assert new[: len(known)] == known, one
    extra = new[len(known) :]
    assert tuple(extra[: len(one.saved)]) == one.saved, (one, extra)
    assert extra[len(one.saved) :] in ([], [one.in_flight]), (one, extra)
    with Book.open(book, look_only=True) as found:
        assert balance(found.job).agrees, one


def told(seen: list[Try]) -> None:
    """Print the moments, and assert that the kills came in the middle of the work."""
    for number, one in enumerate(seen):
        print(f"try {number}: {one.moment * 1000:.0f} ms, saved {len(one.saved)}")  # noqa: T201
    busy = sum(1 for one in seen if one.saved)
    assert busy > len(seen) / 4, "most programs were killed before they had saved a joint"
