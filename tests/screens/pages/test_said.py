"""What was said last, and the keys under it, on the smallest screen and on a large one."""

from __future__ import annotations

import pytest

from tests.screens.demo_books import app_at, at, up_to
from tests.screens.driving import fill, rows

SIZES = ((80, 24), (160, 50))


def working(make_book, page, clock):
    return app_at(make_book(up_to(at(clock))), page, at(clock))


@pytest.mark.parametrize("size", SIZES)
async def test_the_keys_stay_while_saved_stands(make_book, size):
    app = working(make_book, "run", "03:12:00")
    async with app.run_test(size=size) as pilot:
        await pilot.press("n")
        await fill(pilot, text="slips changed")
        seen = rows(app)
        assert any(row.startswith("saved") for row in seen)
        assert seen[-1].startswith("Enter as listed")
        assert seen[-1].endswith("? help")
        assert any("pipe empty from the top" in row for row in seen), "the body lost its last row"
        assert any(row.startswith("NEXT") for row in seen)


@pytest.mark.parametrize("size", SIZES)
async def test_the_keys_stay_while_a_refusal_of_two_rows_stands(make_book, size):
    app = working(make_book, "run", "03:12:00")
    async with app.run_test(size=size) as pilot:
        await pilot.press("a")
        await pilot.pause()
        seen = rows(app)
        assert any("has no auto-fill float" in row for row in seen)
        assert seen[-1].endswith("? help")
        assert any("pipe empty from the top" in row for row in seen)


async def test_the_bump_called_early_stands_within_80_columns(make_book):
    app = working(make_book, "plugs", "17:41:20")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("b")
        await pilot.pause()
        called = next(row for row in rows(app) if row.startswith("BUMP CALLED"))
        assert called.endswith(("calculated volume  ESTIMATE", ")"))
        assert rows(app)[-1].endswith("? help")
