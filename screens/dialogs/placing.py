"""The placement looked at: pressure against volume, and a change tried beside the live one."""

from __future__ import annotations

from collections.abc import Iterator

from textual.containers import VerticalScroll
from textual.content import Content
from textual.timer import Timer
from textual.widgets import Input, Static

from screens.dialogs.form import Field, Form
from screens.dialogs.panel import Panel
from screens.dialogs.values import measure
from screens.ink import ATTENTION, BOLD, INK, QUIET, Line, line, page, wrap
from screens.pages.page import Page
from screens.widgets.pressure_chart import pressure_chart
from tally.cement.placement import CAUGHT_UP, SLOWS
from tally.errors import ShoedownError
from tally.job.figures import show
from tally.job.job import Job
from tally.job.placement import BEFORE, Live, live, try_change
from tally.job.placement_outcome import Governing, governing

WIDTH, ROWS = 70, 16
PAUSE = 0.3
"""[s] without a key until a change is worked out."""
COLUMNS = (46, 64, 70)


async def show_chart(on: Page) -> None:
    """Show pressure against volume, expected and read."""
    if on.job.setup is None:
        on.refuse("The job is not set up yet.")
        return
    width = min(WIDTH, on.size.width - 8)
    lines = pressure_chart(on.job, width, min(ROWS, on.size.height - 7))
    await on.app.push_screen_wait(Panel("Pressure against volume since the zero", lines))


async def try_a_change(on: Page) -> None:
    """Let somebody try a rate, an excess or a density; nothing of it is recorded."""
    try:
        if on.job.setup is None:
            on.refuse("The job is not set up yet.")
            return
        live(on.job)
    except ShoedownError as lack:
        on.refuse(str(lack))
        return
    await on.app.push_screen_wait(TryChange(on.job))


class TryChange(Form):
    """Rate, excess and density, with what they make of the job beside the live prediction."""

    KEPT = False

    ENTERS = "close"
    ESCAPES = "close"

    def __init__(self, job: Job) -> None:
        super().__init__("Try a change; nothing is recorded", _fields(job))
        self.job = job
        self._waiting: Timer | None = None

    def on_mount(self) -> None:
        """Show the live prediction under the fields."""
        body = self.query_one("#form-body", VerticalScroll)
        body.mount(Static(page(compared(self.job, live(self.job), None)), id="change"))

    def on_input_changed(self, event: Input.Changed) -> None:
        """Work the change out once nobody types."""
        event.stop()
        if self._waiting is not None:
            self._waiting.stop()
        self._waiting = self.set_timer(PAUSE, self.work_out)

    def work_out(self) -> None:
        """Show what the change makes of the job, or what is wrong with it."""
        values, faults = self.read_all()
        for field in self.fields:
            told = faults.get(field.key, "")
            self.query_one(f"#fault-{field.key}", Static).update(line(told, ATTENTION))
        if not faults:
            self.query_one("#change", Static).update(page(list(self._tried(values))))

    def _tried(self, values: dict[str, object]) -> Iterator[Content]:
        here = live(self.job)
        try:
            yield from compared(self.job, here, _changed(self.job, here, values))
            yield from wrap(held(values), COLUMNS[-1], QUIET)
        except ShoedownError as fault:
            yield from compared(self.job, here, None)
            yield line(str(fault), ATTENTION)

    def _enter(self) -> None:
        self.dismiss(None)


def _fields(job: Job) -> list[Field]:
    shown, here = job.known.shown, live(job)
    ahead = still_to_pump(here)
    rate, density = shown.unit("flow rate"), shown.unit("density")
    weighed = measure("density", density)
    labels = {
        "rate": "Rate from here on: changes friction and time",
        "excess": "Excess of the open hole: a wider hole, the same volumes",
        "density": f"Density of {ahead} from here on: changes the columns",
    }
    return [
        Field("rate", labels["rate"], measure("flow rate", rate), optional=True, hint=rate),
        Field("excess", labels["excess"], measure("ratio", "%"), optional=True, hint="%"),
        Field("density", labels["density"], weighed, optional=True, hint=density),
    ]


def still_to_pump(here: Live) -> str:
    """Return the name of the fluid that is being pumped, or is the next."""
    slugs = here.plan.slugs
    ends = [*here.plan.starts()[1:], float("inf")]
    return next(
        each.fluid.name for each, end in zip(slugs, ends, strict=True) if end > here.pumped + 1e-6
    )


def held(values: dict[str, object]) -> str:
    """Return what the change leaves as it is; nothing without one."""
    if all(value is None for value in values.values()):
        return ""
    kept = {"rate": "rates", "excess": "the hole", "density": "densities"}
    still = [words for key, words in kept.items() if values[key] is None]
    return f"Held: {', '.join(('what was pumped', 'volumes still to pump', *still))}."


def _changed(job: Job, here: Live, values: dict[str, object]) -> Live | None:
    """Return the job with what was typed; nothing where nothing was."""
    rate, excess, density = (
        None if values[key] is None else float(values[key].value)  # type: ignore[attr-defined]
        for key in ("rate", "excess", "density")
    )
    if rate is None and excess is None and density is None:
        return None
    weighed = None if density is None else {still_to_pump(here): density}
    return try_change(job, rate=rate, excess=excess, density=weighed)


def compared(job: Job, here: Live, tried: Live | None) -> list[Content]:
    """Return what the live prediction and the change come to, row by row."""
    titles = Line(COLUMNS[-1]).end(COLUMNS[0], "as it goes", QUIET)
    lines = [titles.end(COLUMNS[1], "with the change", BOLD).content()]
    now = _rows(job, here)
    then = _rows(job, tried) if tried is not None else [("", "")] * len(now)
    for (what, value), (_, other) in zip(now, then, strict=True):
        drawn = Line(COLUMNS[-1]).put(0, what, QUIET).end(COLUMNS[0], value, INK)
        lines.append(drawn.end(COLUMNS[1], other or "-", BOLD if other else QUIET).content())
    return lines


def _rows(job: Job, here: Live) -> list[tuple[str, str]]:
    placement, found = here.placement, governing(here)
    falls = [each.volume for each in placement.events if each.what == CAUGHT_UP]
    slows = [
        placement.at(each.volume - BEFORE).pressure
        for each in placement.events
        if each.what == SLOWS
    ]
    left = placement.time[-1] - here.now.time
    return [
        (
            "pressure before the slow-down",
            show(job, slows[-1], "pressure") if slows else "no slow-down",
        ),
        ("final pressure", show(job, placement.pressure[-1], "pressure")),
        ("greatest equivalent density ahead", show(job, found.greatest, "density")),
        (f"  at {found.name}, takes fluid at", _limit(job, found)),
        (
            "free fall ends, from the zero",
            show(job, falls[-1] - here.zero, "volume difference") if falls else "no fall",
        ),
        ("time to the bump", show(job, left, "time")),
    ]


def _limit(job: Job, found: Governing) -> str:
    return "not set" if found.limit is None else show(job, found.limit, "density")
