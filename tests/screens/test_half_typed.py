"""What is half typed when the program ends is there again; what was entered or left is not."""

from __future__ import annotations

import json

import pytest

from screens.half_typed import ENDING, SOON, HalfTyped
from tally.book.book import Book
from tests.screens.books import Story, app_on, setup
from tests.screens.driving import fill, offered, shown

SMALL = (80, 24)


def at_once(_seconds, act):
    """Do at once what the app does a moment later."""
    act()


@pytest.fixture
def path(tmp_path):
    """Return a book with some items run."""
    story = Story()
    story.starts(setup(limits={}), 20)
    story.runs(8)
    Book.create(tmp_path / "x.book", story.entries).close()
    return tmp_path / "x.book"


async def pressed(path, *keys):
    """Press keys in an app that ends without any of them being entered."""
    with Book.open(path) as book:
        app = app_on(book, "run")
        async with app.run_test(size=SMALL) as pilot:
            await pilot.press(*keys)
            await pilot.pause(SOON * 2)


async def test_a_length_half_typed_stands_in_the_line_again(path):
    await pressed(path, *"39.6")
    with Book.open(path) as book:
        app = app_on(book, "run")
        async with app.run_test(size=SMALL) as pilot:
            await pilot.pause()
            assert "joint 7 measures 39.60 ft" in shown(app)
            await pilot.press("9", "enter")
            assert (app.job.string[-1].number, app.job.string[-1].length) == ("7", 3969)
            assert not path.with_name(f"x.book{ENDING}").exists()


async def test_a_form_half_typed_is_told_of_and_filled(path):
    await pressed(path, "n", *"tongs chang")
    with Book.open(path) as book:
        app = app_on(book, "run")
        async with app.run_test(size=SMALL) as pilot:
            await pilot.pause()
            assert "Half typed when the program ended: Note." in shown(app)
            await pilot.press("n")
            assert offered(app) == {"text": "tongs chang"}
            await fill(pilot, text="tongs changed")
            assert app.book.entries[-1].text == "tongs changed"
            await pilot.press("n")
            assert offered(app) == {"text": ""}


@pytest.mark.parametrize("keys", [("4", "escape"), ("7", "enter"), ("n", "a", "escape")])
async def test_what_is_entered_or_left_leaves_nothing(path, keys):
    await pressed(path, *keys)
    assert not path.with_name(f"x.book{ENDING}").exists()


async def test_a_reason_half_typed_for_one_question_is_none_for_the_next(path):
    await pressed(path, "9", "enter", *"because")
    assert not path.with_name(f"x.book{ENDING}").exists()


@pytest.mark.parametrize(
    "text", ["", "[]", "{", '{"where": 1}', '{"where": "\\u001b", "texts": {}}']
)
def test_a_file_of_something_else_is_passed_over(path, text):
    path.with_name(f"x.book{ENDING}").write_text(text)
    with Book.open(path) as book:
        assert HalfTyped(book, at_once).left.where == ""


def test_a_book_to_look_at_keeps_nothing(path):
    kept = path.with_name(f"x.book{ENDING}")
    kept.write_text(json.dumps({"where": "Note", "texts": {"text": "a"}}))
    with Book.open(path, look_only=True) as book:
        half_typed = HalfTyped(book, at_once)
        half_typed.drop()
        half_typed.keep("Tank", {"volume": "1"})
    assert half_typed.left.where == ""
    assert "Note" in kept.read_text()
