"""The next item with what was read while it went down: length, torque, position, lowering time."""

from __future__ import annotations

from screens.dialogs.form import Field
from screens.dialogs.rig_fields import lowered_from_rig
from screens.dialogs.running import ask, say_run, stamp
from screens.dialogs.values import measure, steps_text
from screens.pages.page import Page
from tally.job.counts import next_item
from tally.job.entries.running import ItemRun
from tally.job.fittings import due_next
from tally.job.making_up import torque_band


async def run_as_read(page: Page) -> None:
    """Run the next item with what was read; what is left empty was not read."""
    job = page.job
    due = next_item(job)
    if job.setup is None or due is None:
        page.refuse("There is no item left on the rack to run.")
        return
    torque, time = job.known.shown.unit("torque"), "s"
    rig = page.shoedown.rig
    down = rig.lowered() if rig else None
    answer = await ask(
        page,
        f"Run {due.number} as read",
        Field("length", "Length", steps_text(job), optional=True, hint="empty: as listed"),
        Field("torque", "Make-up torque", measure("torque", torque), optional=True, hint=torque),
        Field("position", "Position of the coupling", optional=True,
              hint="turns, flush, to the triangle"),
        lowered_from_rig(
            Field("lowering", "Lowering time, slips out to slips set",
                  measure("lowering time", time), optional=True, hint=time),
            down,
        ),
        says=torque_band(job, due),
    )  # fmt: skip
    if not answer:
        return
    length, typed = answer["length"] or (None, "")
    entry = ItemRun(
        **stamp(page),
        number=due.number,
        fittings=due_next(job),
        length=length,
        typed=typed,
        torque=answer["torque"],
        position=answer["position"] or "",
        lowering=answer["lowering"],
        origins=answer.get("origins", ()),
    )
    await say_run(page, entry)
