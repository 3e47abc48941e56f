"""Random keys over every page: no crash, nothing lost, and no total that the lines do not give.

A walk that fails says how to walk it again: `python -m tests.screens.any_keys BOOK SEED KEYS`,
which is also how new ones are taken.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from screens.app import PAGES, page_kind
from screens.pages.page import Page
from screens.pages.run import RunPage
from tests.screens.any_keys import BOOKS, Walk, walk
from tests.screens.key_pool import LEAVE

OTHER = 20_261
"""A run of the checks walks where the last one did; new walks are taken by hand."""
KEYS = 30
LONG = 5_000
SEEDS = [pytest.param(1, id="fixed"), pytest.param(OTHER, id="another")]


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    """Return where the books lie that walks are begun with."""
    return tmp_path_factory.mktemp("walks")


@pytest.fixture(autouse=True)
def _elsewhere(tmp_path, monkeypatch):
    """Let no walk write beside the code."""
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("name", BOOKS)
async def test_any_keys(folder, name, seed):
    await walk(name, seed, KEYS, folder)


@pytest.mark.long
@pytest.mark.parametrize("name", BOOKS)
async def test_any_keys_for_long(folder, name):
    await walk(name, OTHER, LONG // len(BOOKS), folder)


async def _every_key(name: str, folder: Path) -> None:
    """Press every key of every page once, and leave what it opens."""
    one = Walk(name, 0, folder)
    async with one.sitting():
        for page in PAGES:
            bound = (key for kind in page_kind(page).__mro__ for key in _keys(kind))
            for key in sorted({*bound, "4", "slash"} - {*LEAVE}):
                while not isinstance(one.app.screen, Page) or len(one.app.screen_stack) > 1:
                    await one.presses("escape", "escape")
                one.app.switch_mode(page)
                await one.presses(key, "full_stop", "1", "escape")
            await one.looks()


def _keys(kind: type) -> list[str]:
    """Return the keys that a class of pages binds itself."""
    bindings = vars(kind).get("BINDINGS", ()) if issubclass(kind, Page) else ()
    return [key for binding in bindings for key in binding.key.split(",")]


async def test_every_key_of_every_page_of_a_book_without_a_set_up(folder):
    await _every_key("no set-up", folder)


@pytest.mark.long
@pytest.mark.parametrize("name", BOOKS)
async def test_every_key_of_every_page_with_every_book(folder, name):
    await _every_key(name, folder)


# The looks themselves: each must see what it is there for


async def test_a_total_that_the_lines_do_not_give_is_seen(folder):
    one = Walk("a third run", 0, folder)
    async with one.sitting() as app:
        await one.looks()
        standing = app.book._standing
        short = replace(standing.job, string=standing.job.string[:-1])
        app.book._standing = replace(standing, job=short)
        with pytest.raises(AssertionError):
            await one.looks()
        longer = replace(standing.job.string[-1], length=1 + standing.job.string[-1].length)
        string = (*standing.job.string[:-1], longer)
        app.book._standing = replace(standing, job=replace(standing.job, string=string))
        with pytest.raises(AssertionError):
            await one.looks()


async def test_what_is_shown_as_saved_and_is_not_in_the_book_is_seen(folder):
    one = Walk("a third run", 0, folder)
    async with one.sitting() as app:
        app.screen.saved("saved 03:12  89 run with bow centralizer")
        with pytest.raises(AssertionError, match="not in the book"):
            await one.looks()


async def test_a_line_that_is_gone_is_seen(folder):
    one = Walk("a third run", 0, folder)
    one.lines.append("a line that was there before")
    async with one.sitting():
        with pytest.raises(AssertionError, match="a line is gone"):
            await one.looks()


async def test_a_form_that_comes_to_nothing_is_seen(folder, monkeypatch):
    async def forgets(page, entry, **_more):
        return True

    monkeypatch.setattr("screens.dialogs.running.say", forgets)
    one = Walk("a third run", 0, folder)
    async with one.sitting():
        await one.presses("n", *"tight")
        with pytest.raises(AssertionError, match="nothing came of it"):
            await one.enters(one.app.screen)


async def test_a_crash_is_told_with_its_seed_and_its_keys(folder, monkeypatch):
    monkeypatch.setattr(RunPage, "action_as_listed", lambda page: 1 // 0)
    with pytest.raises(ZeroDivisionError) as crash:
        await walk("a third run", 7, 400, folder)
    (note,) = crash.value.__notes__
    assert "any_keys 'a third run' 7 400" in note
    assert "the last keys: " in note
