"""What the mud page asks beside its steps, and the panels that show mud and zones in full."""

from __future__ import annotations

from screens.acts import say
from screens.dialogs.form import Field
from screens.dialogs.panel import Panel
from screens.dialogs.rig_fields import from_rig
from screens.dialogs.running import ask, fill, stamp
from screens.dialogs.values import measure
from screens.pages.page import Page
from screens.widgets.mud import mud_lines
from tally.job.entries.conditioning import PipeMoved, PipeStopped, RateRead
from tally.job.mud import not_filled

OTHERWISE, STOPPED = "moved otherwise", "stopped"
SCRATCHES = "A scratcher counts only where the stroke is at least its spacing."
NO_SET_UP = "The job is not set up yet; that comes first (F2)."


async def read_rate(page: Page) -> None:
    """Note a steady rate of circulation with its pressure."""
    if page.job.setup is None:
        page.refuse(NO_SET_UP)
        return
    stamped, shown = stamp(page), page.job.known.shown
    rate, pressure = shown.unit("flow rate"), shown.unit("pressure")
    answer = await ask(
        page,
        "Rate and pressure while circulating",
        from_rig(
            page, Field("rate", "Steady rate", measure("flow rate", rate), hint=rate), "flow in"
        ),
        from_rig(
            page,
            Field("pressure", "Pump pressure at it", measure("pressure", pressure), hint=pressure),
            "standpipe pressure",
        ),
        says="Start at the slowest rate; go back if returns lessen.",
    )
    if answer:
        await say(page, RateRead(**stamped, **answer))


async def pipe_moved(page: Page) -> None:
    """Say how the pipe is moved and turned; or, while it is, that it was stopped."""
    if page.job.setup is None:
        page.refuse(NO_SET_UP)
        return
    stamped, moved = stamp(page), page.job.moved
    if moved is not None and not moved.stopped and moved.stroke.value:
        what = await ask(
            page,
            f"Pipe moved over {moved.stroke.text}",
            Field("what", "Now", choices=(OTHERWISE, STOPPED)),
        )
        if not what:
            return
        if what["what"] == STOPPED:
            answer = await ask(page, "Pipe movement stopped", Field("reason", "Reason"))
            if answer:
                await say(page, PipeStopped(**stamped, **answer))
            return
    answer = await ask(page, "Pipe moved up and down", *_movement(page), says=SCRATCHES)
    if answer:
        told = {**answer, "note": answer["note"] or ""}
        await say(page, PipeMoved(**stamped, **told))


def _movement(page: Page) -> list[Field]:
    """Return the fields of how the pipe is moved and turned."""
    shown = page.job.known.shown
    asked = (
        ("strokes", "Times up and down a minute", "stroke rate"),
        ("rotation", "Turned at", "rotary speed"),
        ("torque", "Torque", "torque"),
        ("slack_off", "Weight going down", "force"),
        ("pick_up", "Weight coming up", "force"),
    )
    unit = shown.unit("length")
    stroke = Field("stroke", "Stroke", measure("length", unit), hint=f"{unit}; 0: not moved")
    more = [
        Field(key, label, measure(kind, shown.unit(kind)), optional=True, hint=shown.unit(kind))
        for key, label, kind in asked
    ]
    return [stroke, *more, Field("note", "Note", optional=True)]


async def fill_seen_full(page: Page) -> None:
    """Ask for the fill where mud was seen at the top of a pipe that the book holds empty."""
    if not_filled(page.job):
        await fill(page)


async def fill_pipe(page: Page) -> None:
    """Fill the pipe of the book."""
    if page.job.setup is None:
        page.refuse(NO_SET_UP)
    else:
        await fill(page)


async def show_mud(page: Page) -> None:
    """Show the condition of the mud in full."""
    await page.app.push_screen_wait(Panel("Condition of the mud", mud_lines(page.job)))


async def show_zones(page: Page) -> None:
    """Show what was done at each zone."""
    from screens.widgets.zones import zone_lines  # with the arithmetic of cement, when looked at

    await page.app.push_screen_wait(Panel("Zones", zone_lines(page.job)))
