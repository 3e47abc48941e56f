"""The acts of the running page beyond the common ones: as read, tank, flow, trouble, hold point."""

from __future__ import annotations

from dataclasses import replace
from itertools import cycle
from typing import Any

import pytest

from tally.job.entries.people import ListTaken
from tally.job.setup import Rule
from tally.steps.model import to_fields
from tally.steps.reading import shipped
from tally.units import read
from tests.screens.books import AMA, IVO, NADIA, Story, app_on, setup
from tests.screens.driving import HOSTILE, faults, fill, form, rows, shown
from tests.tally.job.invented import GEAR

SMALL = (80, 24)
(READY,) = [plan for plan in shipped() if plan.id == "crew-and-hole-ready"]


def book(make_book, run: int = 8, ready: bool = False, **changed: Any):
    """Return a book with some items run."""
    story = Story()
    story.starts(setup(**changed), 20)
    if ready:
        story.says(ListTaken, checklist=to_fields(READY))
    story.runs(run)
    return make_book(story.entries)


def row(app, what: str) -> str:
    """Return the row of the page that begins with something."""
    return next((each[12:].strip() for each in rows(app) if what in each), "")


async def test_the_next_item_is_run_with_torque_position_and_lowering_time(make_book):
    band = {
        "torque_minimum": read("6690 ft-lbf", "torque"),
        "torque_maximum": read("11150 ft-lbf", "torque"),
    }
    pipes = (replace(setup().pipes[0], **band),)
    app = app_on(book(make_book, pipes=pipes), "run")
    async with app.run_test(size=SMALL) as pilot:
        before = len(app.job.string)
        await pilot.press("j")
        assert "least 6690 ft-lbf, most 11150 ft-lbf" in shown(app)
        await fill(pilot, torque="12000", position="to the triangle", lowering="22")
        assert "more than the most make-up torque" in shown(app)
        await fill(pilot, reason="gauge checked")
        made = app.job.string[-1]
        assert len(app.job.string) == before + 1
        assert (made.torque.text, made.position, made.lowering) == (
            "12000 ft-lbf", "to the triangle", 22.0,
        )  # fmt: skip
        assert row(app, "lowering time").split()[-6:] == ["-", "22", "s", "no", "limit", "set"]


async def test_the_tank_is_emptied_with_both_levels_and_the_next_reading_starts_there(make_book):
    app = app_on(book(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("r")
        await fill(pilot, volume="30", mark="no")
        await pilot.press("e")
        await fill(pilot, how="emptied", before="30.2", volume="5")
        assert "trip tank 5 bbl, emptied: a new mark" in shown(app)
        assert [level.volume.text for level in app.job.tank] == ["30 bbl", "30.2 bbl", "5 bbl"]
        await pilot.press("r")
        await fill(pilot, volume="5.1", mark="no")
        assert row(app, "since").split()[-3:] == ["no", "limit", "set"] or row(app, "in all")
        assert app.job.exceptions == ()


async def test_a_gain_is_called_and_asks_and_a_flow_check_answers_it(make_book):
    app = app_on(book(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        for volume in ("10", "12.5"):
            await pilot.press("r")
            await fill(pilot, volume=volume, mark="no")
        assert "The trip tank shows a gain of 2.5 bbl" in shown(app)
        await fill(pilot, reason="line emptied late")
        assert row(app, "trip tank, last").endswith("GAIN (1.0)")
        assert "GAIN of 2.5 bbl: flow check, o" in shown(app)
        await pilot.press("o")
        await fill(pilot, state="no flow", time="5", note="")
        assert "saved 03:12 flow check, 5 min: no flow" in shown(app)
        assert "flow check, o" not in shown(app)
        assert len(app.job.open_exceptions()) == 1


async def test_a_well_that_flows_stops_the_pipe_in_words(make_book):
    app = app_on(book(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("o")
        await fill(pilot, state="flows", time="2", note="")
        assert "NEXT no pipe is run" in shown(app)
        await pilot.press("enter")
        assert "the shut-in plan and the people in charge lead, not this book" in shown(app)
        await pilot.press("escape")
        assert "Not entered; nothing was changed." in shown(app)


TROUBLES = {
    "tight spot": ({"overpull": "20", "done": "worked"}, "tight spot: overpull 20 klbf; worked"),
    "stuck": ({"note": "ledge"}, "pipe stuck: ledge"),
    "losses": ({"volume": "5"}, "losses: 5 bbl"),
    "gain, well shut in": ({"gain": "3"}, "well shut in: gain 3 bbl"),
    "something dropped": (
        {"what": "tong die", "where": "on the floor"}, "dropped: tong die, on the floor",
    ),
    "crew change": ({"lead": NADIA, "told": "joint 9 next"}, f"crew change: {NADIA} leads"),
}  # fmt: skip


async def test_each_trouble_is_two_forms_away_and_in_the_list_of_what_happened(make_book):
    app = app_on(book(make_book, weights=GEAR), "run")
    async with app.run_test(size=SMALL) as pilot:
        for what, (typed, said) in TROUBLES.items():
            await pilot.press("t")
            await fill(pilot, what=what)
            await fill(pilot, **typed)
            assert f"saved 03:12 {said}" in shown(app)
            assert app.job.happened[-1].words.startswith(said)
        assert len(app.job.happened) == len(TROUBLES)


async def test_stuck_shows_the_pull_and_is_ended_from_the_same_menu(make_book):
    app = app_on(book(make_book, weights=GEAR), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("t")
        await fill(pilot, what="stuck")
        assert "Greatest pull beyond the weight" in shown(app)
        assert "on the indicator" in shown(app)
        await fill(pilot, note="")
        await pilot.press("t")
        assert "stuck" not in form(app).fields[0].choices
        await fill(pilot, what="pipe free again")
        await fill(pilot, how="worked down")
        assert app.job.stuck is None
        assert app.job.open_exceptions() == ()


async def test_the_next_lead_is_at_the_keys_after_the_crew_change(make_book):
    app = app_on(book(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("t")
        await fill(pilot, what="crew change")
        await fill(pilot, lead=IVO, told="joint 9 next")
        assert app.book.entries[-1].by == AMA
        assert app.who == IVO


@pytest.mark.parametrize("later", [True, False])
async def test_a_missed_centralizer_is_installed_later_or_an_exception(make_book, later):
    programme = (Rule(what="rigid centralizer", joints=(3,)),)
    story = Story()
    story.starts(setup(programme=programme), 20)
    story.runs(8)
    from tally.job.entries.running import Fitted

    story.says(Fitted, number="3", fittings=(), despite="forgotten")
    app = app_on(make_book(story.entries), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("t")
        await fill(pilot, what="centralizer missed")
        assert "Missing: rigid centralizer mid-joint on 3" in shown(app)
        await fill(pilot, how="installed later" if later else "not installed", reason="damaged")
        if later:
            await fill(pilot, fittings="rigid centralizer mid-joint")
            assert [str(each) for each in app.job.made("3").fittings] == [
                "rigid centralizer mid-joint"
            ]
        assert len(app.job.open_exceptions()) == (0 if later else 1)


async def test_a_wrong_joint_found_later_leads_to_the_correction_of_its_entry(make_book):
    app = app_on(book(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("t")
        await fill(pilot, what="wrong joint found later")
        await fill(pilot, number="4")
        assert "Entry 8: 4 run" in shown(app)
        await fill(pilot, number="12", reason="painted number read wrongly")
        assert app.job.made("12").joint == 4
        assert app.job.items["4"].state == "on rack"


async def test_the_first_joint_above_the_shoe_track_waits_for_the_hold_point(make_book):
    app = app_on(book(make_book, run=4, ready=True), "run")
    async with app.run_test(size=SMALL) as pilot:
        assert "g HOLD POINT crew and hole ready" in shown(app)
        await pilot.press("enter")
        assert "Gate shut: run 3" in shown(app)
        await pilot.press("escape")
        assert "Not done yet: Release the hold point" in shown(app)
        assert len(app.job.string) == 4
        await pilot.press("x", "escape", "enter")
        await fill(pilot, despite="list on paper", second=NADIA)
        assert len(app.job.string) == 5
        (only,) = app.job.open_exceptions()
        assert f"Second person: {NADIA}." in only.what


async def test_nonsense_keeps_the_forms_open_and_nothing_is_saved(make_book):
    app = app_on(book(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        count = len(app.book.entries)
        asked = cycle((("j", "torque"), ("e", "volume"), ("o", "time")))
        for text, (key, field) in zip(HOSTILE, asked, strict=False):
            await pilot.press(key)
            await fill(pilot, **{field: text})
            assert faults(app), (key, text)
            await pilot.press("escape")
        assert len(app.book.entries) == count


async def test_what_holds_the_string_is_one_key_away(make_book):
    app = app_on(book(make_book, weights=GEAR), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("s")
        for part in ("Greatest pull beyond the weight", "Weight expected going down", "speed"):
            assert part in shown(app)


async def test_the_pipe_is_moved_and_stopped_on_one_key(make_book):
    app = app_on(book(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("m")
        await fill(pilot, stroke="15", strokes="2", rotation="20")
        assert "pipe moved over 15 ft, 2 strokes/min, turned at 20 rpm" in shown(app)
        await pilot.press("m")
        await fill(pilot, what="stopped")
        await fill(pilot, reason="landing")
        assert "saved 03:12 pipe movement stopped (landing)" in shown(app)
        assert app.job.moved.stopped


async def test_a_form_higher_than_the_screen_opens_at_its_top_and_keeps_each_label_in_sight(
    make_book,
):
    app = app_on(book(make_book), "run")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("m")
        await pilot.pause()
        for field in form(app).fields:
            body = form(app).query_one("#form-body").region
            for part in ("label", "field"):
                assert body.contains_region(form(app).query_one(f"#{part}-{field.key}").region)
            if field is form(app).fields[0]:
                assert body.contains_region(form(app).query(".form-says").first().region)
            await pilot.press("down")
            await pilot.pause()
