"""How the dialogs look that no other test draws: kept pictures, and the contrast of the panels."""

from __future__ import annotations

import pytest
from textual.screen import ModalScreen

import tally.formulas
from tests.screens.contrast import DAY, NIGHT, assert_contrast
from tests.screens.demo_books import app_at, at, up_to
from tests.screens.pages.test_looks import FORMULAS

LEAST = {"plain": DAY, "day": DAY, "night": NIGHT}
"""Night comes last: its looks are kept. The contrast of forms is held in test_working_looks."""

OPENED = {
    ("run", "03:12:00"): {
        "tank": ("r",),
        "tank-changed": ("e",),
        "fill": ("f",),
        "lay-down": ("l",),
        "run-as-read": ("j",),
        "flow-check": ("o",),
        "pipe-moved": ("m",),
        "correct": ("c",),
    },
    ("plugs", "17:41:20"): {
        "mixing-log": ("l",),
        "trouble-list": ("t",),
        "zones-under-way": ("x",),
        "read-a-list": ("h",),
    },
    ("mud", "13:15:00"): {"step": ("enter",), "mud-rate": ("r",)},
    ("rack", "03:12:00"): {"receive": ("a",), "bundle": ("b",), "equipment": ("q",)},
    ("job", "10:52:40"): {"records": ("r",), "person": ("a",)},
    ("reports", "10:52:40"): {"exceptions": ("o",), "close": ("k",)},
    ("calculations", "10:52:40"): {"calculation": ("enter",)},
}
PANELS = ("mixing-log", "zones-under-way", "exceptions")
"""What is read, not filled in: drawn on the large screen too."""


@pytest.mark.parametrize("place", OPENED, ids=lambda place: place[0])
async def test_its_pictures_and_their_contrast(make_book, snapshot, place, monkeypatch):
    chosen = {name: tally.formulas.find(name) for name in FORMULAS}
    monkeypatch.setattr(tally.formulas, "all_formulas", lambda: chosen)
    page, clock = place
    app = app_at(make_book(up_to(at(clock))), page, at(clock))
    async with app.run_test(size=(80, 24)) as pilot:
        for name, keys in OPENED[place].items():
            await look(pilot, snapshot, name, keys)


@pytest.mark.parametrize(("page", "clock"), [("plugs", "17:41:20"), ("reports", "10:52:40")])
async def test_its_panels_on_a_large_screen(make_book, snapshot, page, clock):
    app = app_at(make_book(up_to(at(clock))), page, at(clock))
    async with app.run_test(size=(160, 50)) as pilot:
        for name in PANELS:
            if name in OPENED[page, clock]:
                await look(pilot, snapshot, name, OPENED[page, clock][name])


async def look(pilot, snapshot, name, keys):
    """Open a dialog, hold it to its contrast and its picture, and close it."""
    app = pilot.app
    await pilot.press(*keys)
    await pilot.pause()
    assert isinstance(app.screen, ModalScreen), f"{keys} opens nothing for {name}"
    for theme, least in LEAST.items() if name in PANELS else ():
        app.theme = theme
        await pilot.pause()
        assert_contrast(app, text=least)
    await snapshot.check(pilot, f"dialog-{name}")
    while isinstance(app.screen, ModalScreen):
        await pilot.press("escape")
