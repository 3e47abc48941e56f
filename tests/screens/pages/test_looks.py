"""How the rack, the reports, the job and the calculations look: kept pictures, and contrast."""

import pytest

import tally.formulas
from tests.screens.books import app_on
from tests.screens.looks import assert_looks

SIZES = ((80, 24), (160, 50))
FORMULAS = (
    "annulus",
    "buoyancy-factor-two-fluids",
    "capacity",
    "closed-end-displacement",
    "displacement-to-collar",
    "hydrostatic",
    "pipe-volume",
    "pump-rate",
    "pump-stroke",
    "strokes-for-volume",
    "time-at-rate",
    "volume-over-length",
)
"""A register that does not grow, so that a new formula changes no picture."""


async def check(app, snapshot, size, press=()):
    async with app.run_test(size=size) as pilot:
        await pilot.press(*press)
        await assert_looks(pilot, snapshot, app.current_mode)


@pytest.mark.parametrize("size", SIZES)
async def test_the_rack(running, snapshot, size):
    await check(app_on(running, "rack"), snapshot, size)


@pytest.mark.parametrize("size", SIZES)
async def test_the_handover(running, snapshot, size):
    await check(app_on(running, "handover"), snapshot, size)


@pytest.mark.parametrize("size", SIZES)
async def test_the_job(running, snapshot, size):
    await check(app_on(running, "job"), snapshot, size)


@pytest.mark.parametrize("size", SIZES)
async def test_the_reports(on_depth, snapshot, size):
    await check(app_on(on_depth, "reports"), snapshot, size)


@pytest.mark.parametrize("size", SIZES)
async def test_the_calculations(running, snapshot, size, monkeypatch):
    chosen = {name: tally.formulas.find(name) for name in FORMULAS}
    monkeypatch.setattr(tally.formulas, "all_formulas", lambda: chosen)
    await check(app_on(running, "calculations"), snapshot, size, ["down"])
