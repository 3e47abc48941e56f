"""A station that only watches: what it follows, what it says, and that no key enters anything."""

from __future__ import annotations

import asyncio
import re
import shutil
import sqlite3
from contextlib import closing

import pytest
from textual.events import Key, Paste

from screens.app import PAGES, page_kind
from screens.dialogs.form import Form
from screens.dialogs.help import HelpPanel
from screens.pages.page import Page
from screens.watching import LOOKS, NOTHING, WHOLE, WatchingApp
from screens.widgets.bars import Said
from tally.book.book import Book
from tally.book.schema import SCHEMA
from tally.job.entries.people import Note
from tally.job.entries.pumping import Pumped
from tests.drive.jobs import before, book_at
from tests.drive.jobs import played as played_through
from tests.screens.driving import shown

SMALL = (80, 24)
READ = "Read a list"
"""The one question that a page asks here: which list to show."""
BETWEEN = "2026-03-14T03:30:00+01:00"
KEYS = (
    *"abcdefghijklmnopqrstuvwxyz0123456789",
    *("enter", "space", "plus", "minus", "full_stop", "slash", "backspace", "delete"),
    *("up", "down", "left", "right", "home", "end", "pageup", "pagedown", "tab"),
)
CHARACTERS = {"space": " ", "plus": "+", "minus": "-", "full_stop": ".", "slash": "/"}


@pytest.fixture(scope="module", params=["running", "cementing"])
def played(request, tmp_path_factory):
    """Return the demonstration at a moment of running, and at one of cementing."""
    said = before("89") if request.param == "running" else while_displacing()
    return book_at(tmp_path_factory.mktemp("played") / "larkspur.book", said)


def while_displacing():
    """Return the entries up to the first reading of the counts behind the top plug."""
    return played_through()[: next(e.seq for e in played_through() if isinstance(e, Pumped))]


@pytest.fixture
def path(played, tmp_path):
    """Return a copy of it."""
    shutil.copy(played, tmp_path / "larkspur.book")
    return tmp_path / "larkspur.book"


def watching(book, **given):
    """Return a station that counts the keys it is done with."""
    app = WatchingApp(book, **given)
    take, app.taken = app._take, 0

    async def counted(event):
        await take(event)
        app.taken += 1

    app._take = counted
    return app


async def press(app, key):
    """Press a key as a terminal would, and wait until it has had its effect."""
    character = CHARACTERS.get(key, key if len(key) == 1 else None)
    await took(app, Key(key, character))


async def took(app, event):
    """Wait until the app is done with a key or a paste."""
    before = app.taken
    app.post_message(event)
    for _ in range(10_000):
        if app.taken > before and app._is_quiet():
            return
        await asyncio.sleep(0.001)
    raise AssertionError(f"{event} never had its effect on {app.screen}: {app.taken - before}")


@pytest.mark.parametrize("mode", PAGES)
async def test_no_key_of_any_page_enters_anything_or_asks_for_it(path, mode):
    before, beside = path.read_bytes(), sorted(path.parent.iterdir())
    with Book.open(path, look_only=True) as book:
        app = watching(book, start=mode)
        async with app.run_test(size=SMALL) as pilot:
            await pilot.pause()
            for key in (*KEYS, *KEYS[:26]):
                if app.current_mode != mode:
                    app.action_go(mode)
                    await pilot.pause()
                await press(app, key)
                if isinstance(app.screen, Page):
                    said = " ".join(one.plain for one in app.screen.query_one("#said", Said)._lines)
                    assert "nothing was saved" not in said, (key, "the book had to refuse it")
                    # the line that goes to an item of the rack, or finds a calculation
                    finds = key in ("slash", "tab") or (mode == "rack" and key.isdigit())
                    assert app.screen.focused is None or finds, (key, "a line to type in opened")
                if isinstance(app.screen, Form):
                    assert mode == "calculations" or key == "h", (key, app.screen.heading)
                    assert mode == "calculations" or app.screen.heading == READ
                if not isinstance(app.screen, Page):
                    await press(app, "n")
                    await press(app, "k")
                while not isinstance(app.screen, Page):
                    await press(app, "escape")
                app.screen.set_focus(None)
            await took(app, Paste("41.35\n"))
        assert app.return_code in (0, None)
    assert path.read_bytes() == before
    assert sorted(path.parent.iterdir()) == beside


async def test_the_foot_and_the_help_say_that_nothing_can_be_entered(path):
    with Book.open(path, look_only=True) as book:
        app = watching(book)
        async with app.run_test(size=SMALL) as pilot:
            for mode in PAGES:
                app.action_go(mode)
                await pilot.pause()
                assert "LOOK ONLY nothing can be entered" in shown(app), mode
            await pilot.press("f4", "x")
            await pilot.pause()
            assert NOTHING in shown(app)
            await press(app, "question_mark")
            assert isinstance(app.screen, HelpPanel)
            told = " ".join(line.plain for line in app.screen.lines)
            assert "This station only watches" in told
            assert "Volumes: displaced, held, filled" in told
            assert "Reject a joint" not in told
            assert "Who is at the keys" not in told


async def test_the_palette_offers_looks_alone(path):
    with Book.open(path, look_only=True) as book:
        app = watching(book)
        async with app.run_test(size=SMALL) as pilot:
            await pilot.pause()
            offered = {each.title for each in app.get_system_commands(app.screen)}
    assert "Volumes: displaced, held, filled" in offered
    assert "Night, day, plain" in offered
    assert not offered & {"Reject a joint before make-up", "Who is at the keys", "Write a note"}


async def test_what_another_station_enters_is_shown(path):
    with Book.open(path, look_only=True) as book:
        app = watching(book, start="job")
        async with app.run_test(size=SMALL) as pilot:
            await pilot.pause()
            with Book.open(path) as other:
                other.record(Note(by="Ivo Marek", at=BETWEEN, text="tongs changed"))
            app._look()
            await pilot.pause()
            assert re.search(r"last entry .{0,8}03:30, .* ago, Ivo Marek", shown(app))


async def test_a_book_that_is_moved_is_told_in_words_and_followed_again_once_it_is_back(path):
    aside = path.with_name("aside.book")
    with Book.open(path, look_only=True) as book:
        app = watching(book)
        async with app.run_test(size=SMALL) as pilot:
            await pilot.pause()
            path.rename(aside)
            app._look()
            await pilot.pause()
            told = f"or replaced. What is shown is the book as it stood after entry {book.head[0]}"
            assert told in shown(app)
            await press(app, "f3")
            for _ in range(20):  # it looks four times a second; the page may not stand at the first
                app._look()
                await pilot.pause()
                if told in shown(app):
                    break
            assert told in shown(app)
            shutil.copy(aside, path)
            app._look()
            await pilot.pause()
            assert told in shown(app)
            path.unlink()
            aside.rename(path)
            app._look()
            await pilot.pause()
            assert "larkspur.book is followed again" in shown(app)


async def test_a_book_stepped_up_by_a_later_release_is_told_in_words(path):
    with Book.open(path, look_only=True) as book:
        app = watching(book)
        async with app.run_test(size=SMALL) as pilot:
            await pilot.pause()
            with closing(sqlite3.connect(path)) as later:
                later.execute(f"PRAGMA user_version = {SCHEMA + 1}")
                later.commit()
            app._look()
            await pilot.pause()
            assert f"stepped up by a later release (schema {SCHEMA + 1}; this one" in shown(app)


def test_every_act_that_looks_is_the_act_of_a_key():
    ids = {
        binding.id
        for kind in (WatchingApp, *map(page_kind, PAGES))
        for each in kind.__mro__
        for binding in vars(each).get("BINDINGS", ())
        if not isinstance(binding, tuple)
    }
    assert ids >= LOOKS
    assert not any(one.startswith(WHOLE) for one in LOOKS)
