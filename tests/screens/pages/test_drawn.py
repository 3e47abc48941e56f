"""What is drawn for the floor: the far view, the well to scale, gain and loss, weights."""

from __future__ import annotations

from tests.screens.demo_books import app_at, at, up_to
from tests.screens.driving import fill, rows, shown

NIGHT = at("10:00:00")
SMALL = (80, 24)
BLOCK = "\u2588"


def app(make_book, clock: str = "10:00:00", start: str = "run"):
    return app_at(make_book(up_to(at(clock))), start, at(clock))


async def test_the_far_view_takes_the_keys_of_the_floor(make_book, snapshot):
    app_ = app_at(make_book(up_to(NIGHT)), "run", at("10:03:00"))
    async with app_.run_test(size=SMALL) as pilot:
        run = app_.job.joints_run
        await pilot.press("z")
        assert sum(BLOCK in row for row in rows(app_)) == 15
        assert "since" in shown(app_)
        await snapshot.check(pilot, "far-80x24")
        await pilot.press("enter")
        assert app_.job.joints_run == run + 1
        assert "saved" in shown(app_)
        await pilot.press("escape")
        assert "on location" in shown(app_)


async def test_the_far_view_is_larger_where_there_is_room(make_book, snapshot):
    app_ = app(make_book)
    async with app_.run_test(size=(160, 50)) as pilot:
        await pilot.press("z")
        assert sum(BLOCK in row for row in rows(app_)) == 30
        await snapshot.check(pilot, "far-160x50")


async def test_a_loss_outside_its_limit_is_shouted(make_book):
    app_ = app(make_book)
    async with app_.run_test(size=SMALL) as pilot:
        await pilot.press("r")
        await fill(pilot, volume="1", mark="no")
        await fill(pilot, reason="pit gate found open")
        await pilot.press("z")
        assert "LOSS" in shown(app_)


async def test_gain_and_loss_against_joints(make_book, snapshot):
    app_ = app(make_book)
    async with app_.run_test(size=SMALL) as pilot:
        await pilot.press("y")
        assert "since the old shoe" in shown(app_)
        await snapshot.check(pilot, "gain-and-loss-80x24")


async def test_weights_are_drawn_above_their_figures(make_book, snapshot):
    app_ = app(make_book)
    async with app_.run_test(size=SMALL) as pilot:
        await pilot.press("b")
        assert "read down" in shown(app_)
        await snapshot.check(pilot, "weights-80x24")
        await pilot.press("pagedown", "pagedown")
        assert "by the running list" in shown(app_)


async def test_the_well_to_scale_names_its_depths(make_book, snapshot):
    app_ = app(make_book, "17:00:00", "plugs")
    async with app_.run_test(size=SMALL) as pilot:
        await pilot.press("q")
        await snapshot.check(pilot, "well-80x24")
        await pilot.press("pagedown", "pagedown")
        told = [" ".join(row.split()) for row in rows(app_)]
        assert any("8,240.00 7,706.37 the shoe" in row for row in told)
        assert any("top plug, calculated" in row for row in told)


async def test_without_a_set_up_nothing_is_drawn(make_book):
    app_ = app_at(make_book(()), "run", NIGHT)
    async with app_.run_test(size=SMALL) as pilot:
        for key in ("y", "q", "b"):
            await pilot.press(key)
            assert "The job is not set up yet." in shown(app_)
        await pilot.press("z")
        assert "not set up" in shown(app_)
