"""The plugs page from the slurry on: expected beside seen, the chart, a change tried."""

import re
from datetime import timedelta

import pytest

from screens.acts import say
from screens.dialogs.doubt import StoreInDoubt
from screens.dialogs.panel import Panel
from screens.dialogs.placing import PAUSE, TryChange
from tally.job.entries.pumping import Pumped
from tally.job.entry import moment
from tally.units import read
from tests.screens.demo_books import app_at, at, up_to
from tests.screens.driving import faults, fill, rows, shown

WORKING = at("17:41:20")


@pytest.fixture
def displacing(make_book):
    return make_book(up_to(WORKING))


async def _typed(pilot, key, text):
    pilot.app.screen.query_one(f"#field-{key}").value = text
    await pilot.pause(2 * PAUSE)


def _keys(owner):
    bound = [
        each
        for cls in owner.__mro__
        if cls.__module__.startswith("screens.")
        for each in cls.__dict__.get("BINDINGS", ())
    ]
    return {key for each in bound for key in each.key.split(",")}


async def test_expected_stands_beside_seen(displacing):
    app = app_at(displacing, "plugs", WORKING)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        told = shown(app)
    assert "pressure 868 psi 875 +7 agrees (150)" in told
    assert "equivalent density at lower sand, foot 12.3 lb/gal now, 12.7 at most;" in told
    assert "takes fluid at 14.6: agrees" in told
    assert "returns full seen: full, agrees" in told
    assert "bottom on the collar" in told


def _pumped_by_hand(seats):
    """Return the job with a reading each barrel and a half; the plug seats, or pumping goes on."""
    told = [(577.0 + 1.5 * n, 1035 + 6 * n, "3 bbl/min") for n in range(14)]
    told += [(597.6, 1700, "3 bbl/min"), (597.7, 1695, "0 bbl/min")] if seats else []
    start = moment(WORKING)
    return (
        *up_to(WORKING),
        *(
            Pumped(
                by="Ivo Marek",
                at=(start + timedelta(seconds=30 * place)).isoformat(),
                tank=read(f"{barrels} bbl", "volume"),
                pressure=read(f"{psi} psi", "pressure"),
                rate=read(rate, "flow rate"),
            )
            for place, (barrels, psi, rate) in enumerate(told)
        ),
    )


@pytest.mark.parametrize("size", [(80, 24), (160, 50)])
async def test_a_bump_is_proposed_in_a_line_that_names_the_key_until_it_is_called(make_book, size):
    app = app_at(make_book(_pumped_by_hand(seats=True)), "plugs", at("17:50:00"))
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        told = re.search(r"rise seen at ([\d.]+) bbl, inside the band: b to confirm", shown(app))
        assert told
        assert abs(float(told[1]) - 597.5) < 1.0  # the last reading before the rise, and the first
        await pilot.press("b")
        await pilot.pause()
        assert "BUMP CALLED" in shown(app)
        assert "rise seen" not in shown(app)


async def test_no_bump_is_proposed_while_the_pressure_goes_on_as_before(make_book):
    app = app_at(make_book(_pumped_by_hand(seats=False)), "plugs", at("17:50:00"))
    async with app.run_test(size=(160, 50)) as pilot:
        await pilot.pause()
        assert "pressure" in shown(app)
        assert "rise seen" not in shown(app)


@pytest.mark.parametrize("clock", ["14:40:00", "17:56:30"])
async def test_nothing_of_it_before_the_slurry_and_after_the_bump(make_book, clock):
    app = app_at(make_book(up_to(at(clock))), "plugs", at(clock))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "takes fluid at" not in shown(app)


async def test_the_chart_stands_on_a_high_page_and_one_key_away(displacing):
    app = app_at(displacing, "plugs", WORKING)
    async with app.run_test(size=(160, 50)) as pilot:
        await pilot.pause()
        assert ". expected * read" in shown(app)
    app = app_at(displacing, "plugs", WORKING)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert ". expected * read" not in shown(app)
        await pilot.press("v")
        await pilot.pause()
        assert isinstance(app.screen, Panel)
        drawn = rows(app)
        assert ". expected" in shown(app)
        assert sum(row.count("*") for row in drawn) >= 12


async def test_a_change_stands_beside_the_live_job_and_is_not_recorded(displacing):
    app = app_at(displacing, "plugs", WORKING)
    before = app.job.seq
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("i")
        await pilot.pause()
        assert isinstance(app.screen, TryChange)
        assert "time to the bump" in shown(app)
        await _typed(pilot, "rate", "9")
        told = shown(app)
        await pilot.press("escape")
        await pilot.pause()
        assert not isinstance(app.screen, TryChange)
    now, then = told.split("before the slow-down ")[1].split(" psi")[:2]
    assert float(then.replace(",", "")) > float(now.replace(",", ""))
    assert app.job.seq == before


async def test_what_cannot_be_tried_is_said_beside_its_field(displacing):
    app = app_at(displacing, "plugs", WORKING)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("i")
        await pilot.pause()
        await _typed(pilot, "rate", "[/]")
        assert list(faults(app)) == ["rate"]
        await _typed(pilot, "rate", "5000")
        assert "Pump rate" in shown(app)


async def test_the_foot_names_trouble_and_no_key_of_the_page_hides_one_of_the_program(displacing):
    app = app_at(displacing, "plugs", WORKING)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "t trouble i try v chart ? help" in " ".join(rows(app)[-1].split())
        of_program = _keys(type(app))
        assert not _keys(type(app.screen)) & of_program
        assert not {step.key for _, step in app.screen.places() if step.key} & of_program
        await pilot.press("w")
        await pilot.pause()
        assert "Who is at the keys" in shown(app)


async def test_counts_turned_round_are_asked_once_and_stored_in_doubt(displacing):
    app = app_at(displacing, "plugs", WORKING)
    before = app.job.seq
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("r")
        await pilot.pause()
        await _typed(pilot, "tank", "5610")
        await _typed(pilot, "strokes", "562")
        for key in ("tank", "strokes", "pressure", "rate", "returns_seen", "returned"):
            pilot.app.screen.query_one(f"#field-{key}").focus()
            await pilot.press("enter")
        await pilot.pause()
        assert isinstance(app.screen, StoreInDoubt)
        assert "Is it the other way round, 562 bbl and 5610 strokes?" in shown(app)
        await pilot.press("escape")
        await pilot.pause()
        assert app.job.seq == before
        assert "Not entered: pumped 5610 bbl, 562 strokes; nothing was changed." in shown(app)


async def test_a_second_enter_stores_it_and_the_head_stays_as_it_was(displacing):
    app = app_at(displacing, "plugs", WORKING)
    counted = len(app.job.pumped)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        head = rows(app)[3]
        page = app.screen
        entry = Pumped(by="Ivo Marek", at=WORKING, tank=read("5610 bbl", "volume"), strokes=562)
        page.act(say(page, entry))
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        assert len(app.job.pumped) == counted
        assert [one.strokes for one in app.job.in_doubt] == [562]
        assert "IN DOUBT, not counted: 5610 bbl, 562 strokes at 17:41" in shown(app)
        assert rows(app)[3] == head
        assert "SHOE SUSPECT" not in shown(app)


async def test_before_the_zero_a_pressure_is_read_while_mixing_and_stands_beside_the_expected(
    make_book,
):
    app = app_at(make_book(up_to(at("15:30:00"))), "plugs", at("15:30:30"))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert app.job.zeroed is None
        await pilot.press("r")
        await fill(pilot, fluid="lead", pressure="45")
        assert app.book.entries[-1].pressure.text == "45 psi"
        row = next(each for each in rows(app) if " pressure " in each)
        assert "45" in row.split()
