"""How a test of a page works it: fill a form at once, and read what the screen shows."""

from __future__ import annotations

from typing import Any

from textual.app import App
from textual.pilot import Pilot
from textual.widgets import Input, Static

from screens.dialogs.form import Form
from tests.screens.cells import cells

HOSTILE = ("[/]", "\x1b[31m41", "9**9**9", "4" * 10_000, "41,350", "\u202e41", "[bold]x")
"""What somebody may type into any field."""


def rows(app: App[Any]) -> list[str]:
    """Return the rows of the screen as text."""
    return ["".join(cell.text for cell in row).rstrip() for row in cells(app)]


def shown(app: App[Any]) -> str:
    """Return the page, or the dialog over it, as text with its breaks and blanks made one."""
    dialog = app.screen.query("#form, #panel")
    seen = rows(app)
    if dialog:
        place = dialog.first().content_region
        seen = [row[place.x : place.right] for row in seen[place.y : place.bottom]]
    return " ".join(" ".join(seen).split())


def form(app: App[Any]) -> Form:
    """Return the form that is asked now."""
    assert isinstance(app.screen, Form), f"no form is asked, but {app.screen}"
    return app.screen


def offered(app: App[Any]) -> dict[str, str]:
    """Return what each field of the form holds before anything is typed."""
    return {
        field.key: app.screen.query_one(f"#field-{field.key}", Input).value
        for field in form(app).fields
    }


def faults(app: App[Any]) -> dict[str, str]:
    """Return the fields of the form with a fault beside them."""
    told = {
        field.key: str(app.screen.query_one(f"#fault-{field.key}", Static).content)
        for field in form(app).fields
    }
    return {key: text for key, text in told.items() if text}


async def fill(pilot: Pilot[Any], **typed: str) -> None:
    """Type into fields of the form that is asked and enter it."""
    asked = form(pilot.app)
    for key, text in typed.items():
        asked.query_one(f"#field-{key}", Input).value = text
    asked.query_one(f"#field-{asked.fields[-1].key}", Input).focus()
    await pilot.pause()
    await pilot.press("enter")
    await pilot.pause()
