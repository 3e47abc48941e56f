"""F6 then g, waiting on cement; the condition of the mud and the zones: looks and keys."""

from __future__ import annotations

from dataclasses import replace

import pytest
from textual.screen import ModalScreen

from tally.job.entries.conditioning import RateRead
from tally.job.entries.landing import OnDepth
from tally.job.entries.people import PinSet
from tally.job.entries.waiting import WaitingPicked
from tally.job.entries.watching import Filled
from tally.job.mud import not_filled, pairs
from tally.job.pins import made as pinned
from tally.job.waiting_rules import shipped_rules
from tally.units import read
from tests.screens.demo_books import app_at, at, up_to
from tests.screens.driving import faults, fill, form, offered, shown
from tests.screens.looks import assert_looks

BOTH = ((80, 24), (160, 50))
NEXT_DAY = "2026-03-13T04:30:00-06:00"
RULES = tuple(rule for rule in shipped_rules() if rule.name in ("wyoming", "nevada"))
WHO = {"by": "N. Haddad"}


def circulated():
    """Return the demonstration with the mud conditioned and three rates noted with pressures."""
    made = [entry for entry in up_to(at("17:41:20")) if not isinstance(entry, RateRead)]
    place = next(n for n, entry in enumerate(made) if isinstance(entry, OnDepth)) + 1
    when = made[place].at
    seen = (("2 bbl/min", "110 psi"), ("4 bbl/min", "270 psi"), ("8 bbl/min", "640 psi"))
    made[place:place] = [
        RateRead(
            at=when,
            rate=read(rate, "flow rate"),
            pressure=read(pressure, "pressure"),
            **WHO,
        )
        for rate, pressure in seen
    ]
    return tuple(replace(entry, seq=n) for n, entry in enumerate(made, 1))


def picked():
    """Return the demonstration at its end with the rules of two places confirmed."""
    made = up_to(at("18:30:00"))
    one = WaitingPicked(at=at("18:30:00"), rules=RULES, confirmed="N. Haddad", **WHO)
    return (*made, replace(one, seq=len(made) + 1))


def not_filled_since_the_last_ten():
    """Return the demonstration with the string on depth and the last fill not entered."""
    made = list(up_to(at("10:52:30")))
    last = next(entry for entry in reversed(made) if isinstance(entry, Filled))
    made.remove(last)
    return tuple(replace(entry, seq=n) for n, entry in enumerate(made, 1))


STATES = {
    "mud-condition": ("mud", circulated, at("17:41:20"), ("t",)),
    "waiting-no-rule": ("waiting", lambda: up_to(at("18:30:00")), at("18:30:00"), ()),
    "waiting-rules": ("waiting", picked, at("18:30:00"), ()),
    "waiting-next-day": ("waiting", picked, NEXT_DAY, ()),
    "waiting-place": ("waiting", picked, NEXT_DAY, ("r",)),
    "zones": ("waiting", picked, at("18:30:00"), ("x",)),
    "waiting-help": ("waiting", picked, NEXT_DAY, ("question_mark",)),
}


@pytest.mark.parametrize("size", BOTH)
@pytest.mark.parametrize("name", STATES)
async def test_its_picture_and_its_contrast(make_book, snapshot, name, size):
    page, entries, now, keys = STATES[name]
    app = app_at(make_book(entries()), page, now)
    async with app.run_test(size=size) as pilot:
        await pilot.press(*keys)
        await assert_looks(pilot, snapshot, name)


async def test_rules_are_picked_by_number_and_confirmed_by_name(make_book):
    app = app_at(make_book(up_to(at("18:30:00"))), "plugs", at("18:30:00"))
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("g")
        await pilot.pause()
        assert "No waiting rule is confirmed for the place yet." in shown(app)
        await pilot.press("r")
        await fill(pilot, place="California, offshore")
        assert "1 8 h or 500 psi" in shown(app)
        await fill(pilot, rules="3", confirmed="N. Haddad")
        assert faults(app) == {
            "rules": "'3' is none of the rules; type 1 to 2, with commas.",
        }
        await fill(pilot, rules="2", confirmed="N. Haddad")
        await pilot.pause()
        assert app.job.picked is not None
        assert [rule.name for rule in app.job.picked.rules] == ["california-offshore-others"]
        assert "LEFT 11 h 25 min california-offshore-others" in shown(app)
        assert "not allowed meanwhile: pressure testing, drilling out" in shown(app)


async def test_a_rule_from_memory_asks_where_it_was_read(make_book):
    app = app_at(make_book(up_to(at("18:30:00"))), "waiting", at("18:30:00"))
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("r")
        await fill(pilot, place="Alberta")
        await fill(pilot, rules="1", confirmed="N. Haddad")
        assert "Not read in a document: alberta." in shown(app)
        assert app.job.picked is None
        await fill(pilot, reason="the directive, at the office")
        await pilot.pause()
        assert app.job.picked is not None
        assert app.job.picked.reason == "the directive, at the office"


async def test_the_time_that_has_passed_clears_the_rule_and_not_the_hold_point(make_book):
    app = app_at(make_book(picked()), "waiting", "2026-03-13T12:00:00-06:00")
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.pause()
        assert "the time of" in shown(app)
        assert "Release the hold point: the waiting is over" in shown(app)
        assert "safe" not in shown(app).lower()


async def test_a_rate_and_its_pressure_are_noted(make_book):
    app = app_at(make_book(up_to(at("13:15:00"))), "mud", at("13:15:00"))
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("r")
        await fill(pilot, rate="4", pressure="280")
        await pilot.pause()
        assert [(one.rate.text, one.pressure.text) for one in pairs(app.job)] == [
            ("4 bbl/min", "280 psi")
        ]
        await pilot.press("t")
        assert "280 psi" in shown(app)
        await pilot.press("escape", "m")
        await fill(pilot, stroke="25")
        await pilot.pause()
        assert app.job.moved is not None
        assert app.job.moved.stroke.text == "25 ft"


async def test_mud_seen_at_the_top_asks_for_the_fill_that_the_book_lacks(make_book):
    app = app_at(make_book(not_filled_since_the_last_ten()), "mud", at("10:52:30"))
    async with app.run_test(size=(100, 40)) as pilot:
        assert not_filled(app.job) == 0
        await pilot.press("enter")
        await fill(pilot, state="mud stands at the top")
        await pilot.pause()
        assert [field.key for field in form(app).fields] == ["source", "volume"]
        await pilot.press("escape")
        await pilot.pause()
        assert "the pipe still takes" in shown(app)
        assert not_filled(app.job) > 0
        await pilot.press("f")
        await fill(pilot, source="active pit")
        await pilot.pause()
        assert not_filled(app.job) == 0
        assert "the pipe still takes" not in shown(app)


@pytest.mark.parametrize(("page", "keys"), [("mud", "rtfm"), ("waiting", "rx"), ("plugs", "xm")])
async def test_every_key_opens_something(make_book, page, keys):
    app = app_at(make_book(up_to(at("13:15:00"))), page, at("13:15:00"))
    async with app.run_test() as pilot:
        for key in keys:
            await pilot.press(key)
            assert isinstance(app.screen, ModalScreen), f"{key} opens nothing on {page}"
            await pilot.press("escape")


def with_a_pin():
    """Return the demonstration with a PIN for the one who confirms the rules."""
    made = up_to(at("18:30:00"))
    one = PinSet(at=at("18:30:00"), name="N. Haddad", pin=pinned("2468"), **WHO)
    return (*made, replace(one, seq=len(made) + 1))


async def confirm(pilot):
    await pilot.press("r")
    await fill(pilot, place="Alberta")
    await fill(pilot, rules="1", confirmed="N. Haddad")


async def test_whoever_has_a_pin_confirms_the_rules_with_it(make_book):
    app = app_at(make_book(with_a_pin()), "waiting", at("18:30:00"))
    async with app.run_test(size=(100, 40)) as pilot:
        await confirm(pilot)
        assert form(app).heading == "PIN of N. Haddad"
        await pilot.press("escape")
        await pilot.pause()
        assert offered(app) == {"rules": "1", "confirmed": "N. Haddad"}
        await fill(pilot)
        await fill(pilot, pin="2468")
        await fill(pilot, reason="the directive, at the office")
        await pilot.pause()
        assert app.book.entries[-1].signed == ("N. Haddad",)


async def test_a_pin_typed_for_a_reason_is_not_kept_and_not_left_in_sight(make_book):
    app = app_at(make_book(with_a_pin()), "waiting", at("18:30:00"))
    async with app.run_test(size=(100, 40)) as pilot:
        app.who = "Ivo Marek"
        await confirm(pilot)
        await fill(pilot, pin="2468")
        await fill(pilot, reason="2468")
        assert faults(app)["reason"].startswith("That is the PIN of N. Haddad")
        assert "2468" not in shown(app)
        await fill(pilot, reason="2469")
        await pilot.pause()
        assert app.job.picked is not None
        assert app.job.picked.reason == "2469"
