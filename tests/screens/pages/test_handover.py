"""F2 then h: the handover, and the book that opens with it until somebody has taken over."""

from dataclasses import replace

import pytest

from screens.pages.handover import HandoverPage
from screens.pages.job import JobPage
from screens.pages.run import RunPage
from tally.job.entries.handing_over import HandedOver, TakenOver
from tally.job.entries.people import PinSet
from tally.job.entries.records import CalibrationNoted, NoticeGiven, PressureTested, TimeLost
from tally.job.pins import made
from tests.screens.books import AMA, app_on
from tests.screens.driving import faults, fill, form, offered, shown

NADIA = "Nadia Haddad"


def handed_over(book, to=NADIA, **told):
    """Return a book that was handed over and not taken over yet."""
    last = book.entries[-1]
    book.record(HandedOver(by=AMA, at=last.at, to=to, watch="the trip tank", **told))
    return book


async def test_the_page_says_how_the_job_stands(running):
    app = app_on(running, "job")
    async with app.run_test(size=(80, 50)) as pilot:
        await pilot.press("h")
        await pilot.pause()
        assert isinstance(app.screen, HandoverPage)
        seen = shown(app)
        assert "HANDOVER nobody has handed over yet" in seen
        assert "joints 85 run, 117 left on rack" in seen
        assert "shoe 3,473.76 ft, 4,766.24 ft to the casing point" in seen
        assert "run joint 88, 39.66 ft" in seen
        assert "NEXT h hand over to the next person" in seen
        await pilot.press("escape")
        assert isinstance(app.screen, JobPage)


async def test_both_sign_one_entry_and_the_next_one_is_at_the_keys(running):
    app = app_on(running, "handover")
    async with app.run_test() as pilot:
        await pilot.press("h")
        assert offered(app)["how"] == "stands by and takes over now"
        await fill(pilot, to=NADIA, watch="tight below 3,400 ft [/]")
        last = running.entries[-1]
        assert isinstance(last, HandedOver)
        assert (last.by, last.to, last.taken) == (AMA, NADIA, True)
        assert app.who == NADIA
        seen = shown(app)
        assert f"HANDOVER {NADIA} took over from {AMA}" in seen
        assert "tight below 3,400 ft [/]" in seen
    assert app_on(running, "run").who == NADIA


async def test_a_book_handed_over_opens_there_until_somebody_took_over(running):
    app = app_on(handed_over(running), "run")
    async with app.run_test() as pilot:
        await pilot.pause()
        assert isinstance(app.screen, HandoverPage)
        assert f"NOT TAKEN OVER {AMA} handed over to {NADIA}" in shown(app)
        assert f"NEXT t {NADIA} takes over" in shown(app)
        await pilot.press("t")
        assert offered(app)["name"] == NADIA
        assert "To watch: the trip tank" in shown(app)
        await fill(pilot)
        assert isinstance(running.entries[-1], TakenOver)
        assert running.entries[-1].by == NADIA
        assert app.who == NADIA
    again = app_on(running, "run")
    async with again.run_test() as pilot:
        await pilot.pause()
        assert isinstance(again.screen, RunPage)


async def test_whoever_has_a_pin_takes_over_with_it_only(running):
    last = running.entries[-1]
    running.record(PinSet(by=AMA, at=last.at, name=NADIA, pin=made("4321")))
    app = app_on(handed_over(running), "run")
    count = len(running.entries)
    async with app.run_test() as pilot:
        await pilot.press("t")
        await fill(pilot)
        assert form(app).heading == f"PIN of {NADIA}"
        await fill(pilot, pin="1111")
        assert faults(app)["pin"].startswith("That is not the PIN")
        assert len(running.entries) == count
        await fill(pilot, pin="4321")
        assert running.entries[-1].signed == (NADIA,)


async def test_another_one_takes_over_with_a_reason_that_stays_on_the_page(running):
    other = next(name for name in running.job.people if name not in (AMA, NADIA))
    app = app_on(handed_over(running), "run")
    async with app.run_test() as pilot:
        await pilot.press("t")
        await fill(pilot, name=other)
        assert f"handed over to {NADIA}" in shown(app)
        await fill(pilot, reason="relief came early")
        assert running.job.handovers[-1].taken_by == other
        assert "because relief came early" in shown(app)


async def test_nothing_to_take_over_is_said(running):
    app = app_on(running, "handover")
    async with app.run_test() as pilot:
        await pilot.press("t")
        await pilot.pause()
        assert "Nothing waits to be taken over; h hands over." in shown(app)


async def test_it_is_written_to_be_signed(running, tmp_path):
    app = app_on(handed_over(running), "handover")
    async with app.run_test() as pilot:
        await pilot.press("e")
        await fill(pilot, folder="given")
        while getattr(app.screen, "heading", "") != "Written":
            await pilot.pause(0.02)
    names = sorted(path.name for path in (tmp_path / "given").iterdir())
    assert names == [
        "larkspur-14-handover-not-final.pdf",
        "larkspur-14-handover-not-final.txt",
    ]


KEPT = {
    "notice given": (
        NoticeGiven,
        {"to": "district office", "about": "cementing", "means": "telephone"},
    ),
    "time lost": (TimeLost, {"cause": "weather", "time": "25"}),
    "pressure test": (
        PressureTested,
        {"what": "casing", "pressure": "1500", "time": "30", "held": "held", "ended": "1490"},
    ),
    "calibration": (CalibrationNoted, {"what": "mud balance", "day": "2026-01-31"}),
}


@pytest.mark.parametrize("what", KEPT)
async def test_what_is_kept_for_the_reports_is_one_step_further(running, what):
    kind, told = KEPT[what]
    app = app_on(running, "job")
    async with app.run_test() as pilot:
        await pilot.press("r")
        await fill(pilot, what=what)
        await fill(pilot, **told)
        last = running.entries[-1]
        assert isinstance(last, kind)
        assert last.by == AMA
        assert "saved" in shown(app)
        assert replace(last, seq=0).check(app.job) == ""


async def test_a_day_that_is_none_is_refused_with_what_was_typed(running):
    app = app_on(running, "job")
    async with app.run_test() as pilot:
        await pilot.press("r")
        await fill(pilot, what="calibration")
        await fill(pilot, what="mud balance", day="31 January")
        assert "'31 January' is no day; type it as 2026-03-31." in shown(app)


async def test_before_the_set_up_there_is_nothing_to_hand_over(make_book):
    app = app_on(make_book([]), "handover")
    async with app.run_test() as pilot:
        await pilot.press("h")
        assert "The job is not set up" in shown(app)
