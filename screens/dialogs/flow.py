"""What the trip tank and the flow check ask, beyond a reading of the tank."""

from __future__ import annotations

from screens.acts import not_set_up, say
from screens.dialogs.form import Field
from screens.dialogs.rig_fields import from_rig
from screens.dialogs.running import ask, stamp
from screens.dialogs.values import measure
from screens.pages.page import Page
from tally.job.entries.flow import FlowChecked
from tally.job.entries.watching import TANK_CHANGES, TankRead
from tally.job.flow import STATES


async def change_tank(page: Page) -> None:
    """Empty or fill the trip tank: read before, where it was, then as it stands for the next."""
    if not_set_up(page):
        return
    unit = page.job.known.shown.unit("volume")
    read = measure("volume", unit)
    answer = await ask(
        page,
        "Trip tank emptied or filled",
        Field("how", "What was done", choices=TANK_CHANGES),
        Field("before", "Volume before", read, optional=True, hint=f"{unit}; empty: not read"),
        from_rig(
            page,
            Field("volume", "Volume now", read, hint=f"{unit}; the next reading starts from it"),
            "trip tank",
        ),
    )
    if not answer:
        return
    if answer["before"] and not await say(page, TankRead(**stamp(page), volume=answer["before"])):
        return
    del answer["before"]
    await say(page, TankRead(**stamp(page), mark=True, **answer))


async def check_flow(page: Page) -> None:
    """Say what the well showed with the pumps off, and how long it was watched."""
    if not_set_up(page):
        return
    answer = await ask(
        page,
        "Flow check, pumps off",
        Field("state", "The well", choices=STATES),
        Field("time", "Watched for", measure("time", "min"), hint="min"),
        Field("note", "Note", optional=True, hint="empty: none"),
    )
    if answer:
        told = {**answer, "note": answer["note"] or ""}
        await say(page, FlowChecked(**stamp(page), **told))
