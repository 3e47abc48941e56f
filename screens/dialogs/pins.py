"""PINs: set one, and ask for one where a name signs something off."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from screens.acts import say
from screens.dialogs.form import Field, Form
from screens.pages.page import Page
from screens.pin_tries import MOST, PAUSE_SECONDS, PinTries
from tally.errors import InputError
from tally.job.entries.people import PinSet
from tally.job.pins import PROVES, Pin, made, matches, read_pin

NOT_SIGNED = "Not entered yet: it is not signed. What was filled in is kept."
BY_NAME, SET_NOW = "with the name alone, shown as without a PIN", "set a PIN now and sign with it"


async def signed(page: Page, *names: str, offer: bool = False) -> tuple[str, ...] | None:
    """Ask each named person who has a PIN for it; return who signed, or nothing if left.

    A person without a PIN signs with the name alone. Where something is released or signed,
    `offer` asks such a person once whether to set a PIN.
    """
    told: list[str] = []
    for name in dict.fromkeys(each for each in names if each):
        if name not in page.job.pins:
            how = await _offered(page, name) if offer else BY_NAME
            if not how:
                page.refuse(f"Not entered; {name} did not sign.")
                return None
            told += [name] if how == SET_NOW else []
            continue
        if not await _typed(page, name):
            page.refuse(f"Not entered; {name} did not sign with the PIN.")
            return None
        told.append(name)
    return tuple(told)


async def signed_form(
    page: Page,
    title: str,
    fields: Sequence[Field],
    signing: Sequence[str],
    *,
    also: str = "",
    offer: bool = False,
    says: str = "",
    caution: str = "",
) -> dict[str, Any] | None:
    """Ask for texts, then for the PINs of those named in some of them; nothing if it was left.

    Where somebody leaves at the PIN, the form comes again with what was filled in.
    """
    kept: dict[str, str] = {}
    while True:
        filled = [replace(each, value=kept.get(each.key) or each.value) for each in fields]
        form = Form(title, filled, says=says, caution=caution)
        answer = await page.app.push_screen_wait(form)
        if answer is None:
            return None
        named = [str(answer.get(key) or "") for key in signing]
        signers = await signed(page, *named, also, offer=offer)
        if signers is not None:
            return {**{key: value or "" for key, value in answer.items()}, "signed": signers}
        kept = form.typed | {k: one for k, one in answer.items() if isinstance(one, str)}
        says = NOT_SIGNED


async def _typed(page: Page, name: str) -> bool:
    """Ask for a PIN; whether it was typed."""
    reader = _pin_of(page.shoedown.pin_tries, page.job.pins[name], name)
    field = Field("pin", "PIN", reader, secret=True)
    answer = await page.app.push_screen_wait(Form(f"PIN of {name}", [field], says=PROVES))
    return bool(answer)


def _pin_of(tries: PinTries, kept: Pin, name: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        left = tries.wait(name)
        if left:
            raise InputError(
                f"Another PIN was typed {MOST} times for {name}. Wait {left} s, then type it "
                "again; what was filled in before is kept."
            )
        if not matches(kept, read_pin(text)):
            raise InputError(_not_it(name, tries.wrong(name)))
        tries.right(name)
        return text

    return read


def _not_it(name: str, left: int) -> str:
    told = f"That is not the PIN of {name}; "
    if not left:
        return f"{told}the next try is in {PAUSE_SECONDS:g} s. What was filled in before is kept."
    tries = "1 try is" if left == 1 else f"{left} tries are"
    return f"{told}{tries} left before a pause. Type it again, or Esc to leave."


async def _offered(page: Page, name: str) -> str:
    """Ask somebody without a PIN, once, how to sign, and set it now; nothing where that is left."""
    asked = page.shoedown.asked_for_pin
    if name in asked:
        return BY_NAME
    answer = await page.app.push_screen_wait(
        Form(
            f"{name} has no PIN",
            [Field("how", f"{name} signs", choices=(BY_NAME, SET_NOW), value=BY_NAME)],
            says=PROVES,
        )
    )
    if not answer or (answer["how"] == SET_NOW and not await _new_pin(page, name, ())):
        return ""
    asked.add(name)
    return str(answer["how"])


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
    if signers is not None:
        await _new_pin(page, name, signers)


async def _new_pin(page: Page, name: str, signers: tuple[str, ...]) -> bool:
    """Ask for a new PIN, twice the same; whether it is in the book."""
    answer = await page.app.push_screen_wait(
        NewPin(
            f"New PIN of {name}",
            [
                Field("pin", "PIN", read_pin, secret=True, hint="4 to 12 digits"),
                Field("again", "The same again", read_pin, secret=True),
            ],
        )
    )
    if not answer:
        return False
    app = page.shoedown
    pin = made(answer["pin"])
    return await say(page, PinSet(by=app.who, at=app.now(), name=name, pin=pin, signed=signers))


class NewPin(Form):
    """Two fields that must hold the same PIN."""

    def read_all(self) -> tuple[dict[str, str], dict[str, str]]:
        """Refuse two that differ."""
        values, faults = super().read_all()
        if not faults and values["pin"] != values["again"]:
            faults["again"] = "The two differ; type the same PIN in both."
        return values, faults
