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

AT_ONCE = 5.0
"""How soon an entry made elsewhere must be seen, on a machine as loaded as may be [s]. On a quiet
one it is under a second; `python -m tests.bench --only station` measures that."""
PEOPLE = ("Ama Osei", "N. Haddad", "Ivo Marek")
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


# Three stations, each of a person of its own


def at(who, *floors):
    """Put one of the people of the job at the keys of each station."""
    for floor, name in zip(floors, who, strict=True):
        floor.becomes(name)


def test_three_stations_and_one_that_watches_see_each_entry_within_a_second_in_one_order(
    start, book
):
    lead, cementer, company = (at_the_keys(start, book) for _ in range(3))
    watches = at_the_keys(start, "watch", book)
    at(PEOPLE, lead, cementer, company)
    everybody = (lead, cementer, company, watches)
    waits = []
    for place, number in enumerate(("89", "90", "91", "92", "93", "94")):
        typed(everybody[place % 3], number)
        began = time.monotonic()
        for floor in everybody:
            floor.says(f"NEXT  joint {int(number) + 1}")
        waits.append(time.monotonic() - began)
    assert max(waits) < AT_ONCE, waits
    leave(*everybody)
    assert verify(book).ok
    with Book.open(book, look_only=True) as found:
        run = [entry for entry in found.entries if entry.KIND == "item run"][-6:]
    assert [entry.number for entry in run] == ["89", "90", "91", "92", "93", "94"]
    assert [entry.by for entry in run] == [*PEOPLE, *PEOPLE]


def test_of_two_acts_that_cannot_both_hold_the_second_is_told_by_whom_and_loses_nothing(
    start, book
):
    lead, company = (at_the_keys(start, book) for _ in range(2))
    at((PEOPLE[0], PEOPLE[2]), lead, company)
    company.asks("x", "Reject before make-up")
    company.terminal.type("89")
    company.terminal.press("down")
    company.terminal.type("bent pin end")
    typed(lead, "89")
    company.terminal.press("enter")
    company.says(re.compile(rf"It came in between:\s+{PEOPLE[0]}\s+entered\s+at"))
    company.says(re.compile(r"What\s+was\s+typed\s+is\s+in\s+the\s+form\s+again"))
    company.asks("x", "Reject before make-up")
    company.says("bent pin end")
    company.terminal.press("escape")
    leave(lead, company)
    with Book.open(book, look_only=True) as found:
        assert found.job.items["89"].state == "run"
        assert found.entries[-1].number == "89"


def test_a_length_typed_for_a_joint_that_another_station_ran_is_not_taken_for_the_next(start, book):
    lead, other = (at_the_keys(start, book) for _ in range(2))
    other.terminal.type("41.35")
    other.says("joint 89 measures 41.35 ft")
    typed(lead, "89")
    other.says("NEXT  joint 90")
    other.terminal.press("enter")
    other.says("joint 90 measures 41.35 ft: changed by another")
    other.terminal.press("escape")
    leave(lead, other)
    with Book.open(book, look_only=True) as found:
        assert found.job.string[-1].number == "89"
        assert found.job.string[-1].length == 4027


def test_one_station_has_the_set_up_open_at_a_time(start, book):
    one, other = (at_the_keys(start, book) for _ in range(2))
    at((PEOPLE[0],), one)
    for floor in (one, other):
        floor.terminal.press("f2")
        floor.says("last entry")
    one.asks("e", "CHANGE OF THE SET-UP")
    other.terminal.press("e")
    other.says(re.compile(rf"{PEOPLE[0]} since \d\d:\d\d has the set-up open at another"))
    one.terminal.press("escape")
    one.says("last entry")
    other.asks("e", "CHANGE OF THE SET-UP")
    one.terminal.press("e")
    one.says("has the set-up open at another")
    other.terminal.kill9()
    one.asks("e", "CHANGE OF THE SET-UP")
    one.terminal.press("escape")
    one.says("last entry")
    leave(one)


def test_what_one_station_types_is_neither_shown_nor_dropped_by_another(start, book):
    one = at_the_keys(start, book)
    one.terminal.type("41.3")
    one.says("joint 89 measures 41.3")
    kept = book.with_name(f"{book.name}.half-typed.json")
    one.terminal.wait_until(lambda _rows: kept.exists() and kept.stat().st_size, "the file kept")
    other = at_the_keys(start, book)
    other.terminal.type("90")
    other.says("joint 90, ")
    other.terminal.press("escape")
    other.says("Enter as listed")
    leave(other)
    assert "41.3" in kept.read_text()
    one.terminal.kill9()
    again = start(*SHOEDOWN, book)
    again.wait_for("joint 89 measures 41.3")
