"""Every kind of entry can be brought up for correction, and a reason is not taken for another."""

from __future__ import annotations

import pytest

from screens.dialogs.correct import _change
from screens.pages.page import Page
from tally.book.book import Book
from tally.job.entries.running import Rejected
from tests.screens.books import app_on, book_of, third
from tests.screens.driving import fill, form, offered
from tests.tally.job.kinds import EVERY


@pytest.fixture
def book(tmp_path):
    """Return a book with the string about one third run."""
    with book_of(tmp_path, third()) as made:
        yield made


async def test_the_form_of_every_kind_opens(book: Book):
    app = app_on(book, "run")
    async with app.run_test() as pilot:
        for entry in EVERY:
            assert isinstance(app.screen, Page), entry.KIND
            app.screen.act(_change(app.screen, entry, ""))
            await pilot.pause()
            assert form(app).heading.startswith("Entry 7: "), entry.KIND
            keys = [field.key for field in form(app).fields]
            assert len(keys) == len(set(keys)), entry.KIND
            await pilot.press("escape")
            await pilot.pause()


async def test_the_reason_of_a_rejected_joint_is_corrected_for_another_reason(book: Book):
    rejected = next(each for each in book.entries if isinstance(each, Rejected))
    app = app_on(book, "run")
    async with app.run_test() as pilot:
        await pilot.press("c")
        await fill(pilot, which=str(rejected.seq))
        assert offered(app)["its_reason"] == "failed drift at the pin end"
        await fill(pilot, its_reason="failed drift at the box end", reason="2")
    assert book.job.items["19"].reason == "failed drift at the box end"
    assert book.entries[-1].said() == f"entry {rejected.seq} corrected: read wrongly"
