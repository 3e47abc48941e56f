"""Hostile text typed and pasted into every field: read rightly or refused in a sentence."""

from __future__ import annotations

import re

import pytest

from tally.book.book import Book
from tests.drive.escapes import foreign_sequences
from tests.drive.floor import FORM_FOOT, Floor
from tests.drive.jobs import SHOEDOWN, before, book_at, on_depth, played, unhurried

LONG = "x" * 10_000
LENGTHS = {
    "9 5/8 in": "joint 89 measures 0.80 ft",
    "12-1/4": "joint 89 measures 12.25 ft",
    "41,35 ft": "joint 89 measures 41.35 ft",
    "41' 4\"": "joint 89 measures 41.33 ft",
    "4127": "There is no joint 4127 in the book.",
    "4,127": "a comma that may mark thousands or decimals",
    "9**9**9": '"9**9**9" is not read as a length',
    "1e3": "a power of ten",
    "[/]": '"[/]" is not read as a length',
    "\x1b[31m41.35": "is not read as a length",
    "\x1b]52;c;Zm9v\x07": "is not read as a length",
    "\u202e41.35": "character 1 is a character that turns the writing",
    "": '"" is not read as a length',
    LONG: "more than the 40 that are kept",
}
"""What the entry line makes of a text: its meaning, or why it is refused."""

A_FEW = ("41' 4\"", "9**9**9", "\x1b[31m41", LONG)
IN_FORMS = (*A_FEW, "9 5/8 in", "41,35 ft", "12-1/4", "4127", "", "[/]", "\u202e41")

RUNNING = {
    "f4": {"x": 2, "l": 2, "i": 1, "r": 2, "f": 2, "c": 1, "d": 2, "w": 1},
    "f3": {"a": 3, "s": 2, "x": 2},
    "f2": {"a": 2},
    "f5": {"enter": 1, "z": 2},
}
"""The forms of a job that is run, by page and key, with how many fields each has."""
PUMPING = {"f6": {"z": 2, "c": 1, "w": 1}}
NO_NUMBER = ("9**9**9", "", "\x1b[31m41", "[/]", LONG)


@pytest.fixture
def at_the_keys(start, tmp_path):
    """Return a function that starts the program on a book and waits for its first page."""

    def begin(entries):
        book = book_at(tmp_path / "larkspur.book", unhurried(entries))
        floor = Floor(start(*SHOEDOWN, book, size=(80, 20)))
        floor.says("NEXT")
        return floor, book

    return begin


def entered(book):
    """Return how many entries a book holds."""
    with Book.open(book, look_only=True) as found:
        return found.head[0]


def leave(floor):
    """Leave the program; nothing that a terminal obeys may have come out of it."""
    floor.terminal.press("f10")
    assert floor.terminal.wait_exit() == 0
    assert foreign_sequences(floor.terminal.raw) == {}


def test_the_entry_line_reads_it_rightly_or_says_why_not(at_the_keys):
    floor, book = at_the_keys(before("89"))
    entries = entered(book)
    for text, said in LENGTHS.items():
        floor.terminal.press("4", "backspace")
        floor.says(re.compile("^number or length *$", re.M))
        put(floor, text)
        if not text:
            floor.terminal.press("enter")
        told(floor, said)
        floor.terminal.press("escape")
        floor.terminal.wait_gone("number or length")
    assert entered(book) == entries
    leave(floor)


def test_ten_thousand_characters_typed_one_by_one_do_not_hang_it(at_the_keys):
    floor, _book = at_the_keys(before("89"))
    floor.terminal.type("4" * 10_000)
    told(floor, "No more than 40 characters fit here.")
    floor.terminal.press("escape")
    floor.terminal.wait_gone("number or length")
    leave(floor)


@pytest.mark.parametrize(
    ("entries", "forms", "texts"),
    [
        pytest.param(before("89"), RUNNING, A_FEW, id="running, a few"),
        pytest.param(played(), PUMPING, A_FEW, id="pumping, a few"),
        pytest.param(before("89"), RUNNING, IN_FORMS, id="running", marks=pytest.mark.long),
        pytest.param(played(), PUMPING, IN_FORMS, id="pumping", marks=pytest.mark.long),
    ],
)
def test_every_form_refuses_it_in_a_sentence_and_nothing_is_entered(
    at_the_keys, entries, forms, texts
):
    floor, book = at_the_keys(entries)
    count = entered(book)
    for page, keys in forms.items():
        floor.terminal.press(page)
        for key, fields in keys.items():
            for text in texts:
                refused(floor, key, [text] * fields)
    assert entered(book) == count
    leave(floor)


def test_numbers_no_person_would_type_are_refused_where_cement_is_pumped(at_the_keys):
    bumped = next(e.seq for e in played() if getattr(e, "step_id", "") == "bumped")
    floor, book = at_the_keys(played()[: bumped - 1])
    count = entered(book)
    floor.terminal.press("f6")
    for text in NO_NUMBER:
        if text:
            refused(floor, "r", [text] * 6)
    assert entered(book) == count
    leave(floor)


def test_the_load_hung_is_a_force(at_the_keys):
    floor, book = at_the_keys(on_depth())
    count = entered(book)
    for text in ("9 5/8 in", "41,35 ft", "41' 4\"", *NO_NUMBER):
        refused(floor, "h", [text, "1"])
    assert entered(book) == count
    leave(floor)


def test_calculations_read_it_rightly_or_refuse_it(at_the_keys):
    floor, _book = at_the_keys(before("89"))
    floor.terminal.press("f8")
    floor.says("NEXT  Enter works")
    floor.terminal.press("/")
    floor.terminal.type("annulus")
    floor.terminal.press("enter")
    floor.says("NEXT  Enter works annulus")
    for text in NO_NUMBER:
        refused(floor, "enter", [text] * 2)
    leave(floor)


def test_a_note_is_kept_as_it_was_typed(at_the_keys):
    floor, book = at_the_keys(before("89"))
    for text in ("[/]", "9**9**9", "=1+2", "41' 4\"", "[bold]x[/bold] {0} %s \\n"):
        floor.asks("n", "What happened")
        floor.terminal.type(text)
        floor.saves(f"note: {text}", "enter")
    with Book.open(book, look_only=True) as found:
        assert [text for _seq, text in found.job.notes][-5:-3] == ["[/]", "9**9**9"]
    leave(floor)


def put(floor, text):
    """Paste a text into the field that has the focus."""
    if text:
        floor.terminal.paste(text)


def told(floor, said):
    """Wait until the screen tells something, however its lines are broken."""
    words = r"[\s|:#=v]+".join(re.escape(word) for word in said.split())
    floor.says(re.compile(words))


def refused(floor, key, texts):
    """Answer a form with texts; it must say in a sentence what is wrong, and change nothing."""
    floor.terminal.press(key)
    floor.says(FORM_FOOT)
    before = floor.terminal.in_reverse()
    for text in texts:
        floor.terminal.press("backspace")
        put(floor, text)
        floor.terminal.press("enter")
    said = floor.terminal.wait_for_reverse(but=before)
    assert re.fullmatch(r"[A-Za-z\"'].*[.]", said), (key, texts, said)
    assert "Error" not in said
    floor.terminal.press("escape")
    floor.terminal.wait_gone(FORM_FOOT)
