"""The mixing log on a panel: read it, and enter densities, totals, samples, what came back."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import Any

from textual.binding import Binding

from screens.acts import not_set_up, say
from screens.dialogs.form import Field
from screens.dialogs.panel import Panel
from screens.dialogs.rig_fields import from_rig
from screens.dialogs.running import ask, stamp
from screens.dialogs.steps import PRESSURES, RATES
from screens.dialogs.values import measure, whole_number
from screens.pages.page import Page
from screens.widgets.mixing import mixing_lines
from tally.job.entries.mixing import PARTS, SURFACE, MixRead, SampleKept, SurfaceSeen
from tally.job.job import Job
from tally.job.mix_plan import mixed_names


class MixingPanel(Panel):
    """The mixing log; a letter leaves it for the form of an entry."""

    BINDINGS = [
        Binding("r", "leave_for('read')", "Read densities and totals", id="mixing.read"),
        Binding("s", "leave_for('sample')", "A sample is kept", id="mixing.sample"),
        Binding("v", "leave_for('surface')", "Seen at surface", id="mixing.surface"),
    ]

    def __init__(self, job: Job) -> None:
        super().__init__("Mixing log", mixing_lines(job), "r read   s sample   v at surface")
        self.next = ""

    def action_leave_for(self, what: str) -> None:
        """Leave the panel for a form."""
        self.next = what
        self.dismiss(None)


async def show_mixing(page: Page) -> None:
    """Show the log; what is entered from it comes back to it."""
    if not_set_up(page):
        return
    while True:
        panel = MixingPanel(page.job)
        await page.app.push_screen_wait(panel)
        if not panel.next:
            return
        if not await ACTS[panel.next](page):
            return


def _of(page: Page, key: str, label: str, quantity: str) -> Field:
    unit = page.job.known.shown.unit(quantity)
    return Field(key, label, measure(quantity, unit), optional=True, hint=unit)


def _fluid(page: Page) -> Field:
    names = mixed_names(page.job)
    last = page.job.mixing[-1].fluid if page.job.mixing else ""
    return Field("fluid", "Fluid", choices=names, value=last)


def _given(answer: dict[str, Any]) -> dict[str, Any]:
    return {key: one for key, one in answer.items() if one is not None}


async def read_while_mixing(page: Page) -> None:
    """Read what can be read before the volume is zeroed: densities, totals, pressure, rate."""
    await _read(page)


async def _read(page: Page) -> bool:
    stamped = stamp(page)
    answer = await ask(
        page,
        "Mixing: densities and what is used so far",
        _fluid(page),
        from_rig(
            page,
            _of(page, "gauge", "Density by the gauge in the line", "density"),
            "cement density",
        ),
        _of(page, "balance", "Density by the balance", "density"),
        _of(page, "pumped", "Pumped of it so far", "volume"),
        Field("sacks", "Sacks of cement so far", whole_number, optional=True),
        _of(page, "cement", "or cement in bulk so far", "mass"),
        _of(page, "mix_fluid", "Mix fluid so far, by tank straps", "volume"),
        from_rig(page, _of(page, "pressure", "Pump pressure", "pressure"), *PRESSURES),
        from_rig(page, _of(page, "rate", "Rate", "flow rate"), *RATES),
    )
    return bool(answer) and await say(page, MixRead(**stamped, **_given(answer)))


async def _sample(page: Page) -> bool:
    stamped = stamp(page)
    answer = await ask(
        page,
        "Sample kept",
        _fluid(page),
        Field("part", "Of its", choices=PARTS),
        Field("note", "Note", optional=True),
    )
    return bool(answer) and await say(page, SampleKept(**stamped, **_given(answer)))


async def _surface(page: Page) -> bool:
    stamped = stamp(page)
    answer = await ask(
        page,
        "Seen at surface",
        Field("what", "What", choices=SURFACE),
        _of(page, "volume", "Come back of it so far", "volume"),
        _of(page, "density", "Density", "density"),
    )
    return bool(answer) and await say(page, SurfaceSeen(**stamped, **_given(answer)))


ACTS: dict[str, Callable[[Page], Awaitable[bool]]] = {
    "read": _read,
    "sample": _sample,
    "surface": _surface,
}
