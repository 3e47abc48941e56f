"""A checklist read whole, without working it: before the job, at a meeting, or in trouble."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from textual.content import Content

from screens.dialogs.form import Field
from screens.dialogs.panel import Panel
from screens.dialogs.running import ask
from screens.ink import ATTENTION, BOLD, INK, QUIET, line, wrap
from screens.pages.page import Page
from tally.job.expected import expected
from tally.job.job import Job
from tally.steps.model import Checklist, Step

WIDTH = 70
INSET = 4


def lists_to_read(job: Job, page: str = "") -> tuple[Checklist, ...]:
    """Return the lists of the book, those of a page first; those that ship where it has none."""
    from tally.steps.reading import shipped

    every = tuple(job.lists.values()) or shipped()
    return tuple(sorted(every, key=lambda plan: (plan.page != page, plan.on_call)))


async def read_a_list(page: Page, plans: Sequence[Checklist]) -> None:
    """Ask which list, and show it whole."""
    titled = {plan.title: plan for plan in plans}
    answer = await ask(page, "Read a list", Field("which", "Which", choices=tuple(titled)))
    if answer:
        plan = titled[answer["which"]]
        await page.app.push_screen_wait(Panel(plan.title, list_lines(page.job, plan, WIDTH)))


def list_lines(job: Job, plan: Checklist, width: int) -> list[Content]:
    """Return a list with its purpose, its cautions, and what each step wants."""
    lines = [*wrap(plan.purpose, width), *wrap(f"Caution: {plan.caution}", width, ATTENTION)]
    for number, step in enumerate(plan.steps, start=1):
        lines += [line(""), *wrap(f"{number}  {step.text}", width, BOLD)]
        for text, style in _told(job, plan, step):
            lines += [Content(" " * INSET) + each for each in wrap(text, width - INSET, style)]
    return [*lines, line(""), *wrap(f"Source: {plan.source}", width, QUIET)]


def _told(job: Job, plan: Checklist, step: Step) -> Iterator[tuple[str, str]]:
    """Yield what is said of a step: how, who, what it wants and expects, its caution."""
    if step.detail:
        yield step.detail, QUIET
    witness = f", seen by {step.witness or 'another person'}" if step.critical else ""
    hold = "hold point, released by " if step.hold_point else ""
    yield f"{hold}{step.who}{witness}; {_wants(job, plan, step)}", INK
    if step.caution:
        yield f"Caution: {step.caution}", ATTENTION


def _wants(job: Job, plan: Checklist, step: Step) -> str:
    if step.want == "state":
        return f"wanted: {' or '.join(step.good)}"
    if step.want == "none":
        return "nothing to enter"
    want = expected(job, plan, step) if job.setup and not step.blind else None
    if want is None:
        return f"wanted: {step.quantity}"
    return f"wanted: {step.quantity}, expected {step.compare} {want.text} ({want.origin})"
