"""Space-out from the running list: the choices, one taken, why nothing fits."""

from dataclasses import replace

import pytest

from screens.dialogs.space_out import SpaceOutPanel
from screens.pages.running_list import ListPage
from tally.job.entries.rack import OrderSet
from tally.job.setup import KeepClear, Planned, SpaceOut
from tally.job.space_out import asked, proposals
from tally.units import read
from tests.screens.books import AMA, Story, app_on, setup
from tests.screens.driving import shown
from tests.screens.looks import assert_looks


def feet(text):
    """Return a length."""
    return read(f"{text} ft", "length")


def job(rams="23.5"):
    """Return a job with two pups, a hanger and a landing joint still to run."""
    plan = setup()
    more = (
        Planned(number="P1", kind="pup", length=610, typed="6.10"),
        Planned(number="P2", kind="pup", length=1004, typed="10.04"),
        Planned(number="H1", kind="hanger", length=150, typed="1.50"),
        Planned(number="L1", kind="landing joint", length=2975, typed="29.75"),
    )
    clear = (
        KeepClear(name="slips", above=feet("2"), bottom=feet("1")),
        KeepClear(name="rams", top=feet("21"), bottom=feet(rams)),
    )
    point = replace(plan.hole, casing_point=feet("8100"), depth=feet("8120"))
    wishes = SpaceOut(pocket_band=feet("5"), stick_up_band=feet("1"), coupling=feet("0.9"))
    plan = replace(plan, items=(*plan.items, *more), hole=point, keep_clear=clear, space_out=wishes)
    story = Story()
    story.starts(plan, 205)
    story.runs(88)
    return story.entries


async def until(pilot, so):
    """Wait until something is so, three seconds at most."""
    for _ in range(60):
        await pilot.pause(0.05)
        if so():
            return
    pytest.fail("it did not come about")


async def test_a_choice_taken_is_the_running_list(make_book):
    book = make_book(job())
    best = proposals(asked(book.job))
    app = app_on(book, "rack")
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("o", "s")
        await until(pilot, lambda: isinstance(app.screen, SpaceOutPanel))
        text = shown(app)
        assert "wanted, ft: pocket 20.00 (15.00 to 25.00); stick-up 3.22 (2.22 to 4.22)" in text
        assert "clear rams 21.00 to 23.50" in text
        step = book.job.known.step
        for place, one in enumerate(best, start=1):
            assert f"{place} pocket {step.show(one.pocket)} stick-up" in text
            assert f"hang-off {step.show(2975 - one.stick_up)}" in text
        await pilot.press("2", "enter")
        await pilot.pause()
        assert isinstance(app.screen, ListPage)
        assert "RUNNING LIST set by Ama Osei, 03:12" in shown(app)
    last = book.entries[-1]
    assert isinstance(last, OrderSet)
    assert last.by == AMA
    assert last.reason == f"space-out, pocket {step.with_unit(best[1].pocket)}"
    used = (*best[1].used, *best[1].pups, "H1", "L1")
    start = last.order.index(used[0])
    assert last.order[start : start + len(used)] == used


async def test_escape_takes_none(make_book):
    book = make_book(job())
    app = app_on(book, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o", "s")
        await until(pilot, lambda: isinstance(app.screen, SpaceOutPanel))
        await pilot.press("down", "escape")
        assert isinstance(app.screen, ListPage)
    assert not isinstance(book.entries[-1], OrderSet)


async def test_what_rules_it_out_is_said_in_one_sentence(make_book):
    app = app_on(make_book(job(rams="70")), "rack")
    async with app.run_test(size=(100, 30)) as pilot:
        await pilot.press("o", "s")
        await until(pilot, lambda: "Nothing fits" in shown(app))
        assert isinstance(app.screen, ListPage)
        assert "Nothing fits; it would with" in shown(app)


@pytest.mark.parametrize("size", [(80, 24), (160, 50)])
async def test_how_it_looks(make_book, snapshot, size):
    app = app_on(make_book(job()), "rack")
    async with app.run_test(size=size) as pilot:
        await pilot.press("o", "s")
        await until(pilot, lambda: isinstance(app.screen, SpaceOutPanel))
        await assert_looks(pilot, snapshot, "space-out")
