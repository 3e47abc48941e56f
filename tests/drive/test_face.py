"""What the screens do by themselves: help, palette, themes, sizes, a key held down, leaving."""

from __future__ import annotations

import re

import pytest

from tally.book.book import Book
from tests.drive.escapes import foreign_sequences
from tests.drive.floor import FORM_FOOT, PAGES, Floor
from tests.drive.jobs import SHOEDOWN, before, book_at

THIRD = "89"
"""The next joint once a third of the string is run."""


@pytest.fixture
def book(tmp_path):
    """Return a book a third run, with a least time between joints."""
    return book_at(tmp_path / "larkspur.book", before(THIRD))


@pytest.fixture
def floor(start, book):
    """Return somebody at the keys of the program on that book."""
    made = Floor(start(*SHOEDOWN, book))
    made.says(f"NEXT  joint {THIRD}")
    return made


def test_help_tells_the_keys_and_the_palette_finds_every_act(floor):
    floor.asks("?", "What do I do here?")
    floor.terminal.press("pagedown")
    floor.says("Reject a joint before make-up")
    floor.terminal.press("escape")
    floor.terminal.wait_gone("Reject a joint before make-up")
    floor.asks("ctrl+p", "act")
    floor.terminal.type("write a note")
    floor.says("key n")
    floor.terminal.press("enter")
    floor.says("What happened")
    floor.terminal.press("escape")
    floor.terminal.wait_gone(FORM_FOOT)


def test_every_page_is_on_its_key(floor):
    for key, shown in PAGES.items():
        floor.terminal.press(key)
        floor.says(shown)


def below_the_clock(floor):
    """Return the rows under the first one, which tells the time."""
    return floor.terminal.screen()[1:]


def test_the_theme_goes_round_and_changes_no_word(floor):
    at_night = below_the_clock(floor)
    for _ in range(3):
        sent = len(floor.terminal.raw)
        floor.terminal.press("f9")
        floor.terminal.wait_until(
            lambda rows, sent=sent: len(floor.terminal.raw) > sent + 1000 and rows[1:] == at_night,
            "the same page painted anew",
        )


def test_the_page_follows_the_size_of_the_terminal_and_comes_back(floor):
    before = below_the_clock(floor)
    floor.terminal.resize(160, 50)
    floor.says("displaced, closed end")
    floor.says(re.compile(r"\u2580\u2580\u2588"))
    floor.terminal.resize(60, 15)
    floor.terminal.wait_gone("displaced, closed end")
    floor.says(f"NEXT  joint {THIRD}")
    floor.says(re.compile(r"\? help\Z"))
    floor.terminal.resize(80, 24)
    floor.terminal.wait_until(lambda rows: rows[1:] == before, "what it showed before")
    floor.terminal.wait_still(0.3)  # what is read may end within an escape code
    assert foreign_sequences(floor.terminal.raw) == {}


def test_enter_held_down_runs_one_joint_and_the_next_asks_when_it_comes_too_soon(floor, book):
    for _ in range(10):
        floor.terminal.press("enter")
        floor.terminal.watch(0.04)
    floor.says(re.compile(r"saved \d\d:\d\d  89 run"))
    floor.terminal.watch(0.8)
    assert FORM_FOOT not in floor.terminal.text()
    floor.asks("enter", "The last item was run")
    floor.says("the least plausible is 75 s.")
    floor.terminal.press("escape")
    floor.says("Not entered; nothing was changed.")
    floor.terminal.press("f10")
    assert floor.terminal.wait_exit() == 0
    with Book.open(book, look_only=True) as found:
        assert found.job.joints_run == 87
        assert len(found.entries) == len(before(THIRD)) + 1


def test_keys_that_come_in_one_burst_are_taken_in_their_order(floor, book):
    floor.terminal.type("89\rx\r1\r" + "nthe line was held up\r")
    floor.says("note: the line was held up")
    floor.terminal.press("f10")
    assert floor.terminal.wait_exit() == 0
    with Book.open(book, look_only=True) as found:
        said = [entry.said() for entry in found.entries[-3:]]
    assert said == [
        "89 run with bow centralizer mid-joint",
        "90 rejected (failed drift)",
        "note: the line was held up",
    ]
