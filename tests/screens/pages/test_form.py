"""Forms: the keys that lead from field to field."""

from __future__ import annotations

from screens.dialogs.form import Field, Form
from tests.screens.books import app_on


async def test_up_and_down_change_the_field_of_a_form_higher_than_the_screen(make_book):
    fields = [Field(f"f{number}", f"Field {number}", optional=True) for number in range(20)]
    app = app_on(make_book(()), "run")
    async with app.run_test(size=(80, 24)) as pilot:
        app.push_screen(Form("Many", fields))
        await pilot.press("down", "down", "x", "up", "y")
        values = [app.screen.query_one(f"#field-f{number}").value for number in range(3)]
        assert values == ["", "y", "x"]
