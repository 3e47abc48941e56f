"""An entry that changes the cementing programme says by how much, on the line that says saved."""

from __future__ import annotations

from screens.acts import say
from screens.app import ShoedownApp
from tally.book.book import Book
from tally.job.entries.running import ItemRun, Rejected
from tests.screens.driving import shown
from tests.tally.job.invented import LEAD, Telling
from tests.tally.job.invented_programme import cemented

NOW = "2026-05-02T07:00:00+02:00"


async def test_what_an_entry_changed_is_told_and_nothing_else(tmp_path):
    told = Telling().starts(cemented(), 14).runs("S1")
    book = Book.create(tmp_path / "told.db", told.entries)
    app = ShoedownApp(book, now=lambda: NOW, start="run")
    async with app.run_test(size=(120, 40)) as pilot:
        app.who = LEAD
        await pilot.pause()
        page = app.screen
        await say(page, Rejected(number="1", reason="bent", by=LEAD, at=NOW))
        await pilot.pause()
        assert "collar 40.07 ft deeper: displacement 2.9 bbl more, slurry 2.9 bbl less" in shown(
            app
        )
        await say(page, ItemRun(number="2", by=LEAD, at=NOW))
        await pilot.pause()
        assert "collar" not in shown(app).partition("saved")[2].partition("NEXT")[0]
    book.close()
