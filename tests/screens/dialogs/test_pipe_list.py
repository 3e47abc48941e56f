"""F3, m: a list is previewed with its doubts first, read back on the rack, and then one entry."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from screens.dialogs.pipe_list import PreviewPanel
from tally.book.book import Book
from tally.job.entries.people import SetUp
from tally.job.entries.pipe import Received
from tally.job.setup import Lengths
from tests.screens.books import AMA, HEAVY, NOW, Story, app_on, book_of, setup
from tests.screens.driving import HOSTILE, faults, fill, form, offered, shown
from tests.tally.feeds.lists.make import FILES


@pytest.fixture
def empty(tmp_path: Path) -> Callable[..., Book]:
    """Return a function that makes a book without pipe, with a list beside it."""

    def make(name: str = "commas.csv", **changed: object) -> Book:
        story = Story()
        story.says(SetUp, setup=setup(**changed))
        shutil.copy(FILES / name, tmp_path)
        return book_of(tmp_path, story.entries)

    return make


async def opened(pilot, name="commas.csv"):
    """Press m and name the file."""
    await pilot.press("m")
    await pilot.pause()
    await fill(pilot, file=name)


def panel(app):
    """Return the preview that is shown, as text."""
    assert isinstance(app.screen, PreviewPanel), f"no preview is shown, but {app.screen}"
    return "\n".join(line.plain for line in app.screen.lines)


async def test_a_list_is_previewed_read_back_and_entered_once(empty):
    with empty() as book:
        app = app_on(book, "rack")
        async with app.run_test() as pilot:
            await opened(pilot)
            told = panel(app)
            assert "12 rows read, 12 can be taken" in told
            assert "total as measured 489.06 ft, running" in told
            assert told.index("Doubts: none") < told.index("What was understood")
            assert told.index("What was understood") < told.index("     2            1      39.97")
            assert len(book.entries) == 1
            await pilot.press("y")
            await fill(pilot, lengths="running")
            assert "To be answered" not in panel(app)
            await pilot.press("y")
            assert offered(app) == {"count": "", "total": ""}
            await fill(pilot, count="12", total="489.06")
            assert "saved 03:12" in shown(app)
            assert "12 items received (1 to 12)" in shown(app)
        entry = book.entries[-1]
        assert isinstance(entry, Received)
        assert (entry.by, entry.at, entry.source, entry.despite) == (AMA, NOW, "commas.csv", "")
        assert entry.read_back == "12 items, 489.06 ft running, read on the rack"
        assert len(book.entries) == 2
        assert book.job.received_length == 48906


async def test_what_the_rack_says_otherwise_must_be_answered(empty):
    with empty() as book:
        app = app_on(book, "rack")
        async with app.run_test() as pilot:
            await opened(pilot)
            await pilot.press("y")
            await fill(pilot, lengths="1")
            await pilot.press("y")
            await fill(pilot, count="13", total="530.41")
            said = (
                "The rack has 13 items, the list 12; the rack measures 530.41 ft, the list 489.06"
            )
            assert said in shown(app)
            await fill(pilot, reason="")
            assert faults(app)["reason"]
            await pilot.press("escape")
            await pilot.pause()
            assert "Nothing was entered; nothing was changed." in shown(app)
            assert len(book.entries) == 1


async def test_rows_left_out_and_doubts_are_answered_too(empty):
    with empty("missing-and-unreadable.csv") as book:
        app = app_on(book, "rack")
        async with app.run_test() as pilot:
            await opened(pilot, "missing-and-unreadable.csv")
            told = panel(app)
            assert "7 rows cannot be taken and would be left out: rows 4, 6, 8" in told
            assert "x row 8      not a length:" in told
            assert told.index("x row 8") < told.index("What was understood")
            await pilot.press("y")
            await fill(pilot, lengths="1")
            await pilot.press("y")
            await fill(pilot, count="5", total="204.75")
            assert "7 rows cannot be taken" in shown(app)
            await fill(pilot, reason="2")
        entry = book.entries[-1]
        assert isinstance(entry, Received)
        assert entry.despite == "not on the rack"
        assert [one.number for one in entry.items] == ["1", "2", "4", "6", "12"]


async def test_doubts_that_do_not_stop_want_a_reason(empty):
    with empty("same-as-before.csv") as book:
        app = app_on(book, "rack")
        async with app.run_test() as pilot:
            await opened(pilot, "same-as-before.csv")
            await pilot.press("y")
            await fill(pilot, lengths="1")
            await pilot.press("y")
            await fill(pilot, count="12", total="487.95")
            assert "2 doubts stand in the list; it is taken as it is written." in shown(app)
            await fill(pilot, reason="1")
        assert book.entries[-1].despite == "measured again, it is right"


async def test_overall_lengths_lose_their_make_up_loss_and_are_read_back_before(empty):
    lengths = Lengths(unit="ft", measured_as="overall", make_up_loss="3.875 in")
    with empty(lengths=lengths, pipes=(*setup().pipes, HEAVY)) as book:
        app = app_on(book, "rack")
        async with app.run_test() as pilot:
            await opened(pilot)
            assert "make-up loss of 3.875 in each, 3.88 ft over 12 rows" in panel(app).replace(
                "\n", " "
            )
            await pilot.press("y")
            assert offered(app) == {"lengths": "overall", "pipe": ""}
            await fill(pilot, lengths="overall", pipe="2")
            assert "less make-up loss 3.875 in each: running 485.22 ft" in panel(app)
            await pilot.press("y")
            assert "Their total length, overall" in shown(app)
            await fill(pilot, count="12", total="485.22")
            assert "That is about the make-up loss (3.875 in) of each item." in shown(app)
            await pilot.press("escape")
            await pilot.pause()
            assert len(book.entries) == 1
            await opened(pilot)
            await pilot.press("y")
            await fill(pilot, lengths="overall", pipe="2")
            await pilot.press("y")
            await fill(pilot, count="12", total="489.06")
        entry = book.entries[-1]
        assert isinstance(entry, Received)
        assert (entry.items[0].length, entry.items[0].pipe) == (3965, HEAVY.name)


async def test_how_it_is_read_can_be_changed(empty):
    with empty("metres-and-nothing-says-so.csv") as book:
        app = app_on(book, "rack")
        async with app.run_test() as pilot:
            await opened(pilot, "metres-and-nothing-says-so.csv")
            assert "the list unit: the list names no unit and the tally is in ft" in " ".join(
                panel(app).replace("?", "").split()
            )
            await pilot.press("c")
            assert offered(app) == {"lengths": "running", "unit": "m"}
            await fill(pilot)
            assert "Doubts: none" in panel(app)
            await pilot.press("c")
            assert offered(app) == {"lengths": "running", "unit": "m"}
            await fill(pilot, unit="ft")
            assert "outside the range" in panel(app)
            await pilot.press("escape")
            await pilot.pause()
            assert "Nothing was entered; the list was only looked at." in shown(app)
        assert len(book.entries) == 1


async def test_the_preview_scrolls(empty):
    with empty() as book:
        app = app_on(book, "rack")
        async with app.run_test(size=(80, 24)) as pilot:
            await opened(pilot)
            assert "12       41.54" not in shown(app)
            await pilot.press("end")
            await pilot.pause()
            assert "41.54" in shown(app)
            await pilot.press("home")
            await pilot.pause()
            assert "commas.csv: CSV with commas" in shown(app)


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("none.csv", "There is no list 'none.csv'"),
        ("", "File is wanted."),
        ("/dev/zero", "There is no list 'zero'"),
        ("../..", "There is no list"),
    ],
)
async def test_a_file_that_cannot_be_read_is_told_beside_its_field(empty, typed, told):
    with empty() as book:
        app = app_on(book, "rack")
        async with app.run_test() as pilot:
            await opened(pilot, typed)
            assert told in faults(app)["file"]
            assert form(app).heading == "Import a pipe list"


@pytest.mark.parametrize("typed", HOSTILE[::2])
async def test_hostile_answers_are_refused_beside_their_field(empty, typed):
    with empty() as book:
        app = app_on(book, "rack")
        async with app.run_test() as pilot:
            await opened(pilot, typed)
            assert faults(app)["file"]
            await fill(pilot, file="commas.csv")
            await pilot.press("y")
            await fill(pilot, lengths=typed)
            assert faults(app)["lengths"]
            await fill(pilot, lengths="1")
            await pilot.press("y")
            await fill(pilot, count=typed, total=typed)
            assert set(faults(app)) == {"count", "total"} or typed.isdigit()
        assert len(book.entries) == 1


async def test_what_a_list_holds_never_becomes_markup_or_an_escape(empty):
    with empty("escapes.csv") as book:
        app = app_on(book, "rack")
        async with app.run_test() as pilot:
            await opened(pilot, "escapes.csv")
            told = panel(app)
            assert "[/] [bold]x" in told
            assert all(line.isprintable() for line in told.split("\n"))


async def test_a_list_that_cannot_be_taken_says_why(empty):
    with empty("total-running-rows-overall.csv") as book:
        app = app_on(book, "rack")
        async with app.run_test() as pilot:
            await opened(pilot, "total-running-rows-overall.csv")
            await pilot.press("y")
            await pilot.pause()
            assert "The lengths are overall and the job has no make-up loss" in shown(app)
        assert len(book.entries) == 1
