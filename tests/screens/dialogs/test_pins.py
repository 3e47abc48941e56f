"""PINs on the screen: set one, and sign with it where a name witnesses a step."""

from __future__ import annotations

from pathlib import Path

import pytest

from demo_db.play import entries
from screens.app import ShoedownApp
from screens.pin_tries import PinTries
from tally.book.book import Book
from tests.screens.driving import faults, fill, form, offered, shown

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
        assert offered(app) == {"pin": "", "again": ""}
        await pilot.press(*"2468", "enter", *"2468", "enter")
        await pilot.pause()
        assert "N. Haddad" in app.job.pins
        assert not any("2468" in str(each) for each in app.book.entries)


async def test_a_witness_with_a_pin_signs_with_it(app):
    async with app.run_test() as pilot:
        await at_the_pin(app, pilot)
        assert form(app).heading == "PIN of N. Haddad"
        assert "does not prove who that was" in shown(app)
        await fill(pilot, pin="9999")
        assert "That is not the PIN of N. Haddad" in faults(app)["pin"]
        assert offered(app) == {"pin": ""}
        await pilot.press(*"2468", "enter")
        await pilot.pause()
        record = app.job.steps["plug-loading", "head-vented"]
        assert record.signed == ("N. Haddad",)
        assert app.book.entries[-1].signed == ("N. Haddad",)


async def at_the_pin(app, pilot):
    """Fill a critical step in, to where its witness is asked for the PIN."""
    await pilot.pause()
    await with_pin(pilot, "N. Haddad", "2468")
    app.who = "Ivo Marek"
    await pilot.press("f6")
    await pilot.pause()
    await pilot.press(*["down"] * 15, "y")
    await fill(pilot, state="1", witness="N. Haddad")


async def test_leaving_the_pin_enters_nothing_and_loses_nothing(app):
    async with app.run_test() as pilot:
        await at_the_pin(app, pilot)
        count = app.book.head[0]
        await pilot.press("escape")
        await pilot.pause()
        assert app.book.head[0] == count
        assert "it is not signed. What was filled in is kept." in shown(app)
        assert offered(app) == {
            "state": "no flow and no pressure at two places",
            "witness": "N. Haddad",
        }
        await pilot.press("escape")
        await pilot.pause()
        assert app.book.head[0] == count
        assert "did not sign with the PIN" in shown(app)


async def test_three_wrong_pins_then_a_pause_in_words_and_nothing_is_lost(app):
    now = [0.0]
    app.pin_tries = PinTries(lambda: now[0])
    async with app.run_test() as pilot:
        await at_the_pin(app, pilot)
        await fill(pilot, pin="1111")
        assert "not the PIN of N. Haddad; 2 tries are left before a pause" in shown(app)
        await fill(pilot, pin="1111")
        await fill(pilot, pin="1111")
        assert "the next try is in 30 s" in shown(app)
        await fill(pilot, pin="2468")
        assert "typed 3 times for N. Haddad. Wait 30 s, then type it again" in shown(app)
        assert ("plug-loading", "head-vented") not in app.job.steps
        now[0] += 30
        await fill(pilot, pin="2468")
        assert app.job.steps["plug-loading", "head-vented"].signed == ("N. Haddad",)


async def test_a_hold_point_is_released_by_name_with_the_pin_that_is_set_on_the_way(app):
    async with app.run_test() as pilot:
        await pilot.pause()
        app.who = "Ama Osei"
        await pilot.press("f5")
        await pilot.pause()
        page = app.screen
        page._cursor = next(n for n, (_, s) in enumerate(page.places()) if s.id == "conditioned")
        await pilot.press("y")
        await fill(pilot, despite="shown on paper", second="N. Haddad")
        assert offered(app)["released"] == "N. Haddad"
        await fill(pilot, state="1", witness="Lena Brandvik")
        assert form(app).heading == "N. Haddad has no PIN"
        await fill(pilot, how="2")
        await fill(pilot, pin="2468", again="2468")
        assert form(app).heading == "Lena Brandvik has no PIN"
        await fill(pilot)
        record = app.job.steps["mud-conditioning", "conditioned"]
        assert (record.by, record.witness) == ("N. Haddad", "Lena Brandvik")
        assert app.book.entries[-1].by == "Ama Osei"
        assert record.signed == ("N. Haddad",)
        page._cursor = next(n for n, (_, s) in enumerate(page.places()) if s.id == "conditioned")
        page.draw()
        assert "released by N. Haddad, with PIN" in shown(app)
        assert "seen by Lena Brandvik, without a PIN" in shown(app)


async def test_while_slurry_goes_down_a_shut_gate_is_told_of_after_the_event_is_stored(pumping):
    async with pumping.run_test() as pilot:
        await pilot.pause()
        await pilot.press("p")
        record = pumping.job.steps["plug-release", "top-plug-released"]
        assert (record.at, record.answered) == (NOW, False)
        assert pumping.job.zeroed == record
        assert "Passed, it stays an open exception" in shown(pumping)
        await pilot.press("escape")
        await pilot.pause()
        assert "k says why its shut gate was passed" in shown(pumping)
        await pilot.press("k")
        await fill(pilot, despite="end not called", second="N. Haddad")
        assert pumping.job.steps["plug-release", "top-plug-released"].answered
        (one,) = (e for e in pumping.job.open_exceptions() if e.seq == record.seq)
        assert one.what.endswith("Accepted: end not called. Second person: N. Haddad.")


@pytest.fixture
def pumping(tmp_path: Path):
    made = list(entries("end"))
    before = next(n for n, e in enumerate(made) if getattr(e, "step_id", "") == "slurry-away")
    book = Book.create(tmp_path / "pumping.db", made[:before])
    yield ShoedownApp(book, now=lambda: NOW, start="plugs")
    book.close()


async def test_what_is_saved_names_the_step_in_the_words_of_its_list(pumping):
    async with pumping.run_test(size=(120, 40)) as pilot:
        await pilot.pause()
        await pilot.press("a")
        assert "End the slurry; give the volume pumped, done" in shown(pumping)
        await pilot.press("c")
        await pilot.pause()
        assert "End the slurry; give the volume pumped" in shown(pumping)
