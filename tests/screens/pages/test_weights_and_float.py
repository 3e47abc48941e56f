"""The weight read on the running page, the weights against depth, and the auto-fill float."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tally.job.setup import Filling
from tally.units import read
from tests.screens.books import NOW, Story, app_on, setup
from tests.screens.driving import HOSTILE, faults, fill, rows, shown
from tests.tally.job.invented import GEAR

FLOAT = Filling(auto_fill=read("40 %", "ratio"))
SMALL = (80, 24)


def book(make_book, filling=None, **changed):
    story = Story()
    story.starts(setup(filling=filling or Filling(), **changed), 20)
    story.runs(8)
    return make_book(story.entries)


async def test_a_weight_read_stands_beside_what_hung_then(make_book):
    app = app_on(book(make_book, weights=GEAR), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("k")
        await fill(pilot, slack_off="54", pick_up="55.5", hanging="")
        assert "saved 03:12 weight on the indicator down 54 klbf, up 55.5 klbf" in shown(app)
        row = next(each for each in rows(app) if "weight going down" in each)
        # empty it weighs 47 - 73.0/144 x 76.3 = 8.3 lb/ft in mud: 45 + 245.6 x 0.0083 = 47 klbf
        assert row.split()[-4:] == ["+7", "no", "limit", "set"]
        await pilot.press("b")
        assert "54 56 ahead, by the running list, full pipe" in shown(app)
        assert "no least weight going down is set" in shown(app)


async def test_a_weight_of_nonsense_keeps_the_form_open_and_nothing_is_saved(make_book):
    app = app_on(book(make_book, weights=GEAR), "run")
    async with app.run_test(size=SMALL) as pilot:
        for text in HOSTILE:
            await pilot.press("k")
            await fill(pilot, slack_off=text, pick_up="", hanging="")
            assert faults(app), text
            await pilot.press("escape")
        await pilot.press("k")
        await fill(pilot, slack_off="", pick_up="", hanging="")
        assert "Type at least one weight" in shown(app)
        assert app.job.weighed == ()


async def test_without_gear_in_the_set_up_the_panel_says_what_lacks(make_book):
    app = app_on(book(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("b")
        assert "Block weight is not in the job set-up." in shown(app)
        await pilot.press("escape", "k")
        await fill(pilot, slack_off="54", pick_up="", hanging="")
        row = next(each for each in rows(app) if "weight going down" in each)
        assert row.split()[-5:] == ["-", "54", "no", "limit", "set"]


async def test_the_float_is_converted_from_the_palette_or_a_key(make_book):
    app = app_on(book(make_book, FLOAT), "run")
    async with app.run_test(size=SMALL) as pilot:
        assert "empty, auto-fill 40%" in shown(app)
        await pilot.press("a")
        await fill(pilot, pressure="350", rate="")
        assert "saved 03:12 auto-fill float converted at 350 psi" in shown(app)
        assert "auto-fill 40%" not in shown(app)
        assert app.job.converted is not None
        assert app.job.converted.at == NOW
        await pilot.press("a")
        assert "The float was converted at entry" in shown(app)
        assert len(app.book.entries) == app.job.converted.seq


async def test_a_pipe_without_such_a_float_has_nothing_to_convert(make_book):
    app = app_on(book(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("a")
        assert "The job set-up has no auto-fill float" in shown(app)


@pytest.mark.parametrize("converted", [False, True])
async def test_on_depth_with_the_float_still_filling_is_said(make_book, converted):
    from tally.job.entries.auto_fill import AutoFillConverted
    from tally.job.entries.landing import OnDepth

    story = Story()
    story.starts(replace(setup(), filling=FLOAT), 4)
    story.runs(6)
    if converted:
        story.says(AutoFillConverted)
    story.says(OnDepth, stick_up=342, counted=0, typed="3.42", despite="short")
    app = app_on(make_book(story.entries), "run")
    async with app.run_test(size=SMALL):
        assert ("the auto-fill float is not converted: a" in shown(app)) is not converted


async def test_a_weight_and_a_conversion_can_be_corrected(make_book):
    app = app_on(book(make_book, FLOAT, weights=GEAR), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("k")
        await fill(pilot, slack_off="54", pick_up="55.5", hanging="")
        await pilot.press("a")
        await fill(pilot, pressure="350", rate="")
        weight = app.job.weighed[0].seq
        for which, changed in ((weight, {"slack_off": "45 klbf"}), (weight + 1, {"rate": "3"})):
            await pilot.press("c")
            await fill(pilot, which=str(which))
            await fill(pilot, **changed, reason="read wrongly")
        assert app.job.weighed[0].slack_off.text == "45 klbf"
        assert app.job.weighed[0].pick_up.text == "55.5 klbf"
        assert app.job.converted.rate.text == "3 bbl/min"
