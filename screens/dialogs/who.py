"""Who is at the keys: one key changes it, and every entry carries the name."""

from __future__ import annotations

from screens.dialogs.form import Field, Form
from screens.dialogs.people import add_person
from screens.pages.page import Page

SOMEBODY_ELSE = "somebody else"


async def change_who(page: Page) -> None:
    """Ask who is at the keys; somebody new is added to the book first."""
    names = (*page.job.people, SOMEBODY_ELSE)
    answer = await page.app.push_screen_wait(
        Form("Who is at the keys", [Field("who", "Name", choices=names)])
    )
    if not answer:
        return
    if answer["who"] == SOMEBODY_ELSE:
        name = await add_person(page)
        if name:
            page.shoedown.who = name
            page.draw()
    else:
        page.shoedown.who = answer["who"]
        page.saved(f"{answer['who']} is at the keys; every entry carries this name")
