"""F6: a list for trouble on one key, a list left and found again, the mixing log, the shoe."""

from __future__ import annotations

from dataclasses import replace

import pytest
from textual.screen import ModalScreen

from screens.widgets.mixing import mixing_lines
from tally.job.entries.calling import ListStarted
from tally.job.fold import fold
from tally.units import read
from tests.screens.demo_books import app_at, at, up_to
from tests.screens.driving import fill, shown

SMALL = (80, 24)


async def test_trouble_is_one_key_and_a_number_and_its_steps_come_next(make_book):
    async with app_at(make_book(up_to(at("17:41:20"))), "plugs", at("17:41:20")).run_test(
        size=SMALL
    ) as pilot:
        await pilot.pause()
        before = shown(pilot.app)
        assert "Returns lost" not in before
        await pilot.press("t")
        await fill(pilot, what="3")
        assert "Returns lost" in shown(pilot.app)
        await fill(pilot, why="level falls in the pits")
        await pilot.pause()
        assert pilot.app.job.started["returns-lost"].why == "level falls in the pits"
        assert "NEXT Enter Give the volume pumped when the returns fell" in shown(pilot.app)
        await pilot.press("t")
        assert "Started already: Returns lost" in shown(pilot.app)


async def test_a_list_for_trouble_is_read_without_starting_it(make_book):
    async with app_at(make_book(up_to(at("14:29:30"))), "plugs", at("14:29:30")).run_test(
        size=(100, 50)
    ) as pilot:
        await pilot.pause()
        await pilot.press("t")
        await fill(pilot, what="Read a list without starting it")
        await fill(pilot, which="Floats leak")
        seen = shown(pilot.app)
        assert "keep the cement where it is" in seen
        assert "Caution: Heat from the cement raises the pressure of a shut casing" in seen
        assert "2 Shut in at the head cementer, seen by company representative; wanted: " in seen
        assert pilot.app.job.started == {}


async def test_before_the_job_is_set_up_the_lists_that_ship_are_read(tmp_path):
    from screens.app import ShoedownApp
    from tally.book.book import Book

    with Book.create(tmp_path / "new.book", []) as book:
        app = ShoedownApp(book, now=lambda: at("14:29:30"), start="plugs")
        async with app.run_test(size=(100, 50)) as pilot:
            await pilot.pause()
            await pilot.press("t")
            await fill(pilot, which="Top plug does not seat")
            assert "limit past the calculated volume" in shown(app)
            await pilot.press("escape", "h")
            await pilot.pause()
            await fill(pilot, which="Rig-up")
            assert "Caution: Unions of some sizes can be made up and do not hold" in shown(app)
            await pilot.press("escape")


async def test_the_pumping_hand_still_stores_its_event_while_a_list_is_open(make_book):
    made = up_to(at("17:41:20"))
    start = {"by": "Ivo Marek", "at": at("17:42:00"), "seq": len(made) + 1}
    made = (*made, ListStarted(list_id="early-pressure-rise", why="rise", **start))
    async with app_at(make_book(made), "plugs", at("17:42:30")).run_test(size=SMALL) as pilot:
        await pilot.press("s")
        await pilot.pause()
        assert ("plug-release", "slowed") in pilot.app.job.steps
        assert not isinstance(pilot.app.screen, ModalScreen)


async def test_a_list_that_was_left_says_where_and_goes_back_a_block(make_book):
    made = up_to(at("14:29:30"))
    async with app_at(make_book(made), "plugs", at("16:29:30")).run_test(size=SMALL) as pilot:
        await pilot.pause()
        assert "left 2 h ago after: Second person: give the sacks" in shown(pilot.app)
        await pilot.press("backspace")
        assert "HERE Enter Second person: give the pump strokes" in shown(pilot.app)
        await pilot.press("home", "enter")
        await fill(pilot, value="228 bbl")
        await pilot.pause()
        assert "left 2 h" not in shown(pilot.app)


async def test_the_mixing_log_is_read_and_written_on_one_key(make_book):
    async with app_at(make_book(up_to(at("15:30:00"))), "plugs", at("15:30:00")).run_test(
        size=SMALL
    ) as pilot:
        await pilot.press("l")
        assert "lead 12.9 lb/gal 12.8 lb/gal 12.8 lb/gal agrees" in shown(pilot.app)
        assert "samples of lead: start, middle; not kept: end" in shown(pilot.app)
        await pilot.press("r")
        await fill(pilot, fluid="lead", balance="13.1", gauge="13.0")
        await pilot.pause()
        assert "lead 13.0 lb/gal 13.1 lb/gal 12.8 lb/gal outside" in shown(pilot.app)
        assert "Mixing: lead weighs 13.1 lb/gal" in pilot.app.job.exceptions[-1].what


async def test_a_suspect_shoe_stands_at_the_head_until_a_test_clears_it(make_book):
    async with app_at(make_book(up_to(at("18:30:00"))), "plugs", at("18:30:00")).run_test(
        size=SMALL
    ) as pilot:
        await pilot.press("t")
        await fill(pilot, what="Fluid pumped back in")
        await fill(pilot, volume="2.5 bbl", decided="N. Haddad")
        await pilot.pause()
        assert "SHOE SUSPECT: 2.5 bbl that came back was pumped in again" in shown(pilot.app)
        await pilot.press("t")
        await fill(pilot, what="Shoe tested")
        await fill(pilot, how="drilled out, 500 psi for 30 min", held="1", cleared="N. Haddad")
        await pilot.pause()
        assert "SHOE SUSPECT" not in shown(pilot.app)
        assert "shoe cleared by N. Haddad" in shown(pilot.app)


def test_the_lines_of_the_log_fit_their_panel() -> None:
    assert all(len(each.plain) <= 70 for each in mixing_lines(fold(up_to(at("18:30:00")))))


@pytest.mark.parametrize("width", [80, 160])
async def test_the_head_of_the_page_fits(make_book, width):
    async with app_at(make_book(up_to(at("14:29:30"))), "plugs", at("14:29:30")).run_test(
        size=(width, 24)
    ) as pilot:
        await pilot.pause()
        assert "Plug release and displacement: " in shown(pilot.app)
        assert ".." not in shown(pilot.app).split("Rig-up")[0].split("COLLAR")[0]


async def test_a_density_written_down_wrongly_is_corrected_and_leaves_no_exception(make_book):
    made = up_to(at("15:30:00"))
    app = app_at(make_book(made), "plugs", at("15:30:00"))
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("l", "r")
        await fill(pilot, fluid="lead", balance="18.2")
        await pilot.press("escape")
        assert "lead weighs 18.2 lb/gal" in app.job.exceptions[-1].what
        await pilot.press("c")
        await fill(pilot, which=str(app.job.seq))
        await fill(pilot, balance="12.8", reason="1")
        await pilot.pause()
        assert app.job.mixing[-1].balance.text == "12.8 lb/gal"
        assert not any("18.2" in each.what for each in app.job.open_exceptions())


def test_a_slurry_in_doubt_says_so_under_the_totals_of_the_log():
    job = fold(up_to(at("18:30:00")))
    wet = read("13.5 gal/sk", "mix water")
    fluids = tuple(replace(each, mix_water=wet) for each in job.known.fluids if each.cement)
    told = " ".join(
        each.plain for each in mixing_lines(replace(job, setup=replace(job.known, fluids=fluids)))
    )
    assert "in doubt: Density of lead is typed as 12.8 lb/gal" in told
    assert "in doubt" not in " ".join(each.plain for each in mixing_lines(job))
