"""The act that connects the stream of the rig, or leaves it."""

from __future__ import annotations

from screens.dialogs.form import Field
from screens.dialogs.running import ask
from screens.pages.page import Page
from tally.errors import ShoedownError
from tally.feeds.rig_source import source_at
from tally.feeds.rig_values import chosen_items
from tally.feeds.wits_items import SETS

LEAVE, OTHERWISE = "leave the stream", "connect otherwise"
NO, YES = "no", "yes"


async def connect_rig(page: Page) -> None:
    """Connect the stream of the rig; where one is followed, leave it or connect otherwise."""
    app = page.shoedown
    if page.job.setup is None:
        page.refuse("The job is not set up yet; that comes first (e).")
        return
    if app.rig is not None:
        what = await ask(
            page,
            f"Readings from the rig: {app.rig.watch.stream.source.name}",
            Field("what", "Now", choices=(LEAVE, OTHERWISE)),
            says="\n".join(app.rig.watch.stream.faults.told()),
        )
        if not what:
            return
        if what["what"] == LEAVE:
            app.leave_rig()
            page.saved("The stream of the rig is left; what came is kept in the book.")
            return
    answer = await ask(page, "Readings from the rig, WITS level 0", *_fields(page))
    if not answer:
        return
    try:
        app.leave_rig()
        app.follow_rig(
            answer["address"], answer["units"], answer["items"] or "", send=answer["send"] == YES
        )
    except ShoedownError as fault:
        page.refuse(str(fault))
        return
    page.draw()


def _fields(page: Page) -> list[Field]:
    rig, units = page.shoedown.rig, page.job.known.shown.name
    return [
        Field("address", "Where", _address, rig.address if rig else "",
              hint="HOST:PORT, listen:PORT, serial:PORT@BAUD, file:PATH"),
        Field("units", "Its unit set", choices=SETS, value=rig.units if rig else units),
        Field("items", "Items otherwise", _items, rig.items if rig else "", optional=True,
              hint="like: trip tank=1130, displacement tank=1117"),
        Field("send", "Send shoe depth and volume to bump back", choices=(NO, YES),
              value=YES if rig and rig.send else NO),
    ]  # fmt: skip


def _address(text: str) -> str:
    source_at(text)
    return text


def _items(text: str) -> str:
    chosen_items(text)
    return text
