"""PINs on the screen: set one, and sign with it where a name witnesses a step."""

from __future__ import annotations

from pathlib import Path

import pytest

from demo_db.play import entries
from screens.app import ShoedownApp
from tally.book.book import Book
from tests.screens.driving import faults, fill, form, shown

NOW = "2026-03-12T19:10:00-06:00"


@pytest.fixture
def app(tmp_path: Path):
    book = Book.create(tmp_path / "pins.db", entries("third"))
    yield ShoedownApp(book, now=lambda: NOW, start="job")
    book.close()


async def with_pin(pilot, name: str, pin: str) -> None:
    await pilot.press("k")
    await fill(pilot, name=name)
    await fill(pilot, pin=pin, again=pin)


async def test_a_pin_is_set_and_never_shown(app):
    async with app.run_test() as pilot:
        await pilot.pause()
        await pilot.press("k")
        await fill(pilot, name="N. Haddad")
        await fill(pilot, pin="2468", again="2469")
        assert "The two differ" in faults(app)["again"]
        assert "2468" not in shown(app)
        await fill(pilot, pin="2468", again="2468")
        assert "N. Haddad" in app.job.pins
        assert not any("2468" in str(each) for each in app.book.entries)


async def test_a_witness_with_a_pin_signs_with_it(app):
    async with app.run_test() as pilot:
        await pilot.pause()
        await with_pin(pilot, "N. Haddad", "2468")
        app.who = "Ivo Marek"
        await pilot.press("f6")
        await pilot.pause()
        await pilot.press(*["down"] * 15, "y")
        await fill(pilot, state="1", witness="N. Haddad")
        assert form(app).heading == "PIN of N. Haddad"
        assert "does not prove who that was" in shown(app)
        await fill(pilot, pin="9999")
        assert "That is not the PIN of N. Haddad" in faults(app)["pin"]
        await fill(pilot, pin="2468")
        record = app.job.steps["plug-loading", "head-vented"]
        assert record.signed == ("N. Haddad",)
        assert app.book.entries[-1].signed == ("N. Haddad",)


async def test_leaving_the_pin_enters_nothing(app):
    async with app.run_test() as pilot:
        await pilot.pause()
        await with_pin(pilot, "N. Haddad", "2468")
        app.who = "Ivo Marek"
        count = app.book.head[0]
        await pilot.press("f6")
        await pilot.pause()
        await pilot.press(*["down"] * 15, "y")
        await fill(pilot, state="1", witness="N. Haddad")
        await pilot.press("escape")
        await pilot.pause()
        assert app.book.head[0] == count
        assert "did not sign with the PIN" in shown(app)
