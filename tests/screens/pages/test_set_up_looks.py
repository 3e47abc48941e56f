"""How the set-up looks, its pages and its forms: kept pictures, and contrast, in three themes."""

import pytest

from screens.app import ShoedownApp
from tally.book.new_book import NewBook
from tests.screens.books import AMA, NOW, Story, app_on, setup
from tests.screens.driving import fill
from tests.screens.looks import assert_looks

SIZES = ((80, 24), (160, 50))


@pytest.fixture
def new(tmp_path):
    """Return the app on a book that is not made yet."""
    book = NewBook(tmp_path / "larkspur.book")
    return ShoedownApp(book, now=lambda: NOW, start="job", who=AMA)


@pytest.fixture
def standing(make_book):
    """Return the app on a book that is set up."""
    story = Story()
    story.starts(setup(), 5)
    return app_on(make_book(story.entries), "job")


async def check(pilot, snapshot, name):
    await assert_looks(pilot, snapshot, name)


@pytest.mark.parametrize("size", SIZES)
async def test_a_new_set_up_and_a_form_with_faults(new, snapshot, size):
    async with new.run_test(size=size) as pilot:
        await pilot.press("down", "enter")
        await fill(pilot, diameter="12-1/4 in", depth="8,260 ft", casing_point="8270 ft")
        await check(pilot, snapshot, "set-up-form")
        await pilot.press("escape")
        await check(pilot, snapshot, "set-up-new")


@pytest.mark.parametrize("size", SIZES)
async def test_the_lines_of_a_table_and_what_would_change(standing, snapshot, size):
    async with standing.run_test(size=size) as pilot:
        await pilot.press("e", "end", "up", "enter", "down", "down")
        await check(pilot, snapshot, "set-up-limits")
        await pilot.press("x", "escape", "end")
        await check(pilot, snapshot, "set-up-changes")
        await pilot.press("s")
        await pilot.pause()
        await check(pilot, snapshot, "set-up-reason")
