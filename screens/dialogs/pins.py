"""PINs: set one, and ask for one where a name signs something off."""

from __future__ import annotations

from collections.abc import Callable

from screens.acts import say
from screens.dialogs.form import Field, Form
from screens.pages.page import Page
from tally.errors import InputError
from tally.job.entries.people import PinSet
from tally.job.job import Job
from tally.job.pins import PROVES, made, matches, read_pin


async def signed(page: Page, *names: str) -> tuple[str, ...] | None:
    """Ask each named person who has a PIN for it; return who signed, or nothing if left.

    A person without a PIN signs with the name alone.
    """
    told = []
    for name in dict.fromkeys(name for name in names if name in page.job.pins):
        answer = await page.app.push_screen_wait(
            Form(
                f"PIN of {name}",
                [Field("pin", "PIN", _pin_of(page.job, name), secret=True)],
                says=PROVES,
            )
        )
        if not answer:
            page.refuse(f"Not entered; {name} did not sign with the PIN.")
            return None
        told.append(name)
    return tuple(told)


def _pin_of(job: Job, name: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        if not matches(job.pins[name], read_pin(text)):
            raise InputError(f"That is not the PIN of {name}; type it again, or Esc to leave.")
        return text

    return read


async def set_pin(page: Page) -> None:
    """Set somebody's PIN, or change it."""
    if not page.job.people:
        page.refuse("Nobody is on the job yet; add the person first.")
        return
    which = await page.app.push_screen_wait(
        Form("Set a PIN", [Field("name", "Whose", choices=tuple(page.job.people))], says=PROVES)
    )
    if not which:
        return
    name = str(which["name"])
    signers = await signed(page, name)
    if signers is None:
        return
    answer = await page.app.push_screen_wait(
        NewPin(
            f"New PIN of {name}",
            [
                Field("pin", "PIN", read_pin, secret=True, hint="4 to 12 digits"),
                Field("again", "The same again", read_pin, secret=True),
            ],
        )
    )
    if answer:
        app = page.shoedown
        pin = made(answer["pin"])
        await say(page, PinSet(by=app.who, at=app.now(), name=name, pin=pin, signed=signers))


class NewPin(Form):
    """Two fields that must hold the same PIN."""

    def read_all(self) -> tuple[dict[str, str], dict[str, str]]:
        """Refuse two that differ."""
        values, faults = super().read_all()
        if not faults and values["pin"] != values["again"]:
            faults["again"] = "The two differ; type the same PIN in both."
        return values, faults
