"""Who is at the keys: one key changes it, and every entry carries the name."""

from __future__ import annotations

from screens.acts import say
from screens.dialogs.form import Field, Form
from screens.pages.page import Page
from tally.job.entries.people import PersonAdded
from tally.job.setup import ROLES

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
        await _add(page)
    else:
        page.shoedown.who = answer["who"]
        page.saved(f"{answer['who']} is at the keys; every entry carries this name")


async def _add(page: Page) -> None:
    answer = await page.app.push_screen_wait(
        Form(
            "Somebody new on the job",
            [Field("name", "Name"), Field("role", "Role", choices=ROLES)],
        )
    )
    if not answer:
        return
    app = page.shoedown
    entry = PersonAdded(by=app.who or answer["name"], at=app.now(), **answer)
    if await say(page, entry):
        app.who = answer["name"]
        page.draw()
