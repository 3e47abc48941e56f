"""Two real programs on one book, and a book that another process holds."""

from __future__ import annotations

import re
import subprocess
import sys
import time

import pytest

from tally.book.book import Book
from tally.book.verify import verify
from tests.drive.floor import Floor
from tests.drive.jobs import SHOEDOWN, before, book_at, unhurried
from tests.drive.terminal import Terminal

AT_ONCE = 1.0
"""How soon an entry made elsewhere must be seen [s]."""
HOLDS = """
import sqlite3, sys, time
held = sqlite3.connect(sys.argv[1], isolation_level=None)
held.execute("BEGIN EXCLUSIVE")
print("held", flush=True)
sys.stdin.read()
held.execute("ROLLBACK")
"""


@pytest.fixture
def book(tmp_path):
    """Return a book a third run."""
    return book_at(tmp_path / "larkspur.book", unhurried(before("89")))


def at_the_keys(start, *command):
    """Start the program and wait for the running page."""
    floor = Floor(start(*SHOEDOWN, *command))
    floor.says("NEXT  joint 89")
    return floor


def typed(floor, number):
    """Type a joint and wait until it is saved."""
    floor.saves(f"{number} run", "enter", typed=number)


def leave(*floors):
    """Leave the programs."""
    for floor in floors:
        floor.terminal.press("f10")
        assert floor.terminal.wait_exit() == 0


def test_an_entry_made_in_one_is_seen_in_the_other_within_a_second(start, book):
    one, other = at_the_keys(start, book), at_the_keys(start, book)
    waits = []
    for here, there, number in ((one, other, "89"), (other, one, "90"), (one, other, "91")):
        typed(here, number)
        began = time.monotonic()
        there.says(f"NEXT  joint {int(number) + 1}")
        waits.append(time.monotonic() - began)
    assert max(waits) < AT_ONCE, waits
    leave(one, other)
    assert verify(book).ok
    with Book.open(book, look_only=True) as found:
        assert [made.number for made in found.job.string[-3:]] == ["89", "90", "91"]


def test_an_entry_is_checked_against_what_the_other_one_just_made(start, book):
    one, other = at_the_keys(start, book), at_the_keys(start, book)
    other.terminal.type("89")
    other.says("joint 89, ")
    typed(one, "89")
    other.terminal.press("enter")
    other.says("in the string already")
    leave(one, other)
    with Book.open(book, look_only=True) as found:
        assert [made.number for made in found.job.string].count("89") == 1


def test_a_look_only_one_sees_the_entry_and_cannot_make_one(start, book):
    writes, looks = at_the_keys(start, book), at_the_keys(start, "open", "--look", book)
    looks.says("LOOK ONLY")
    typed(writes, "89")
    looks.says("NEXT  joint 90")
    looks.terminal.type("90")
    looks.terminal.press("enter")
    looks.says("The book is open to look only; nothing was saved.")
    looks.says("NEXT  joint 90")
    leave(writes, looks)
    with Book.open(book, look_only=True) as found:
        assert found.job.string[-1].number == "89"


def test_a_book_that_another_process_holds_gives_a_sentence_and_loses_nothing(start, book):
    floor = at_the_keys(start, book)
    holder = subprocess.Popen(
        [sys.executable, "-c", HOLDS, book], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )
    assert holder.stdout.readline() == b"held\n"
    floor.terminal.type("89")
    floor.says("joint 89, ")
    began = time.monotonic()
    floor.terminal.press("enter")
    floor.says(re.compile(r"Another program held the book for \d\.\d s; nothing was saved\."))
    assert 1.5 < time.monotonic() - began < 4.0
    floor.says("NEXT  joint 89")
    holder.communicate(b"")
    typed(floor, "89")
    leave(floor)
    assert verify(book).ok
    with Book.open(book, look_only=True) as found:
        assert found.job.string[-1].number == "89"


def test_a_held_book_is_not_opened_and_says_why(book):
    holder = subprocess.Popen(
        [sys.executable, "-c", HOLDS, book], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )
    assert holder.stdout.readline() == b"held\n"
    with Terminal([*SHOEDOWN, book]) as terminal:
        began = time.monotonic()
        assert terminal.wait_exit() == 2
        assert time.monotonic() - began < 4.0
        assert "Another program held the book" in terminal.text()
    holder.communicate(b"")
