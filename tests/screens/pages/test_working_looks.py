"""How the pages of the floor and of the cementer look in their main states: pictures, contrast."""

from __future__ import annotations

import pytest
from textual.screen import ModalScreen

from tests.screens.contrast import assert_contrast
from tests.screens.demo_books import app_at, at, set_up, up_to
from tests.screens.looks import LEAST, assert_looks

BOTH = ((80, 24), (160, 50))
SMALL = ((80, 24),)

STATES = {
    "run-a-third": ("run", "03:12:00", (), BOTH),
    "run-just-before-on-depth": ("run", "10:52:00", (), BOTH),
    "run-on-depth": ("run", "10:52:30", (), BOTH),
    "run-a-form": ("run", "03:12:00", ("x",), SMALL),
    "run-a-question": ("run", "03:14:00", ("9", "1", "enter"), SMALL),
    "run-a-length-typed": ("run", "03:12:00", tuple("41.35"), SMALL),
    "run-a-number-refused": ("run", "03:12:00", tuple("999"), SMALL),
    "run-help": ("run", "03:12:00", ("question_mark",), SMALL),
    "run-volumes": ("run", "03:12:00", ("v",), SMALL),
    "run-weights": ("run", "03:12:00", ("b",), SMALL),
    "run-trouble": ("run", "03:12:00", ("t",), SMALL),
    "run-what-holds-it": ("run", "03:12:00", ("s",), SMALL),
    "run-volumes-on-depth": ("run", "10:52:30", ("v",), SMALL),
    "ready-released": ("ready", "03:12:00", (), BOTH),
    "mud-partly-worked": ("mud", "13:15:00", (), BOTH),
    "mud-hold-point": ("mud", "13:33:00", (), SMALL),
    "mud-hold-point-form": ("mud", "13:33:00", ("y",), SMALL),
    "plugs-loading": ("plugs", "13:48:00", (), BOTH),
    "plugs-gate-shut": ("plugs", "14:50:00", ("p",), SMALL),
    "plugs-waiting-for-a-witness": ("plugs", "15:08:00", (), SMALL),
    "plugs-displacing": ("plugs", "17:41:20", (), BOTH),
    "plugs-falling": ("plugs", "16:47:20", (), SMALL),
    "plugs-chart": ("plugs", "17:41:20", ("v",), SMALL),
    "plugs-try-a-change": ("plugs", "17:41:20", ("i",), SMALL),
    "plugs-counts": ("plugs", "17:41:20", ("r",), SMALL),
    "plugs-past-the-bump": ("plugs", "17:56:30", (), BOTH),
    "plugs-help": ("plugs", "17:41:20", ("question_mark",), SMALL),
}
CASES = [(name, size) for name, (_page, _clock, _keys, sizes) in STATES.items() for size in sizes]

FORMS = {
    "run": (
        "x",
        "l",
        "p",
        "i",
        "r",
        "f",
        "v",
        "k",
        "b",
        "j",
        "e",
        "o",
        "s",
        "t",
        "m",
        "c",
        "n",
        "d",
        "w",
        "ctrl+p",
        "question_mark",
    ),
    "mud": ("enter", "z", "c", "n"),
    "plugs": ("enter", "z", "c"),
    "rack": ("a", "s", "x"),
    "job": ("a", "n", "c"),
    "reports": ("e", "o"),
    "calculations": ("enter",),
}


@pytest.mark.parametrize(("name", "size"), CASES)
async def test_its_picture_and_its_contrast(make_book, snapshot, name, size):
    page, clock, keys, _sizes = STATES[name]
    app = app_at(make_book(up_to(at(clock))), page, at(clock))
    async with app.run_test(size=size) as pilot:
        await pilot.press(*keys)
        await assert_looks(pilot, snapshot, name)


@pytest.mark.parametrize("size", BOTH)
async def test_nothing_run_yet(make_book, snapshot, size):
    made = set_up()
    app = app_at(make_book(made), "run", made[-1].at)
    async with app.run_test(size=size) as pilot:
        await assert_looks(pilot, snapshot, "run-nothing-yet")


@pytest.mark.parametrize("page", FORMS)
async def test_every_form_has_contrast_with_its_faults(make_book, page):
    app = app_at(make_book(up_to(at("10:52:00"))), page, at("10:52:00"))
    async with app.run_test() as pilot:
        for key in FORMS[page]:
            await pilot.press(key)
            assert isinstance(app.screen, ModalScreen), f"{key} opens nothing on {page}"
            for _field in range(2):
                await pilot.press("backspace", "enter")
            for theme, least in LEAST.items():
                app.theme = theme
                await pilot.pause()
                assert_contrast(app, text=least)
            while isinstance(app.screen, ModalScreen):
                await pilot.press("escape")
