"""Handing the job over by name, and taking it over."""

from __future__ import annotations

from screens.acts import not_set_up, others, say
from screens.dialogs.form import Field
from screens.dialogs.pins import signed
from screens.dialogs.running import ask, stamp
from screens.pages.page import Page
from tally.job.entries.handing_over import HandedOver, TakenOver

HERE, LATER = "stands by and takes over now", "takes over later"


async def hand_over(page: Page) -> None:
    """Hand over to the next person; both sign where the next one stands by."""
    if not_set_up(page):
        return
    by = page.shoedown.who
    answer = await ask(
        page,
        f"Hand over: {by} to the next person",
        Field("to", "To", choices=others(page, by)),
        Field("watch", "What to watch", optional=True, hint="empty: nothing beside the page"),
        Field("how", "The next person", choices=(HERE, LATER), value=HERE),
        says="State, next act, fluids and open exceptions stand on the page by themselves.",
    )
    if not answer:
        return
    taken = answer["how"] == HERE
    signers = await signed(page, *((by, answer["to"]) if taken else (by,)))
    if signers is None:
        return
    told = {"to": answer["to"], "watch": answer["watch"] or "", "taken": taken}
    if await say(page, HandedOver(**stamp(page), **told, signed=signers)) and taken:
        _at_the_keys(page, answer["to"])


async def take_over(page: Page) -> None:
    """Take over what was handed over; from here on entries carry the next person's name."""
    waiting = page.job.waiting_handover
    if waiting is None:
        page.refuse("Nothing waits to be taken over; h hands over.")
        return
    answer = await ask(
        page,
        f"Take over from {waiting.by}",
        Field("name", "Who takes over", choices=others(page, waiting.by), value=waiting.to),
        says=f"To watch: {waiting.watch}" if waiting.watch else "",
    )
    if not answer:
        return
    signers = await signed(page, answer["name"])
    if signers is None:
        return
    who = {**stamp(page), "by": answer["name"]}
    if await say(page, TakenOver(**who, name=answer["name"], signed=signers)):
        _at_the_keys(page, answer["name"])


def _at_the_keys(page: Page, name: str) -> None:
    page.shoedown.who = name
    page.draw()
