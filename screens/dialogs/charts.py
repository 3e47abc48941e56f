"""What is looked at as a drawing: the well, the weights, gain and loss.

A drawing is read in when it is asked for: the page that shows it opens without.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual.content import Content

from screens.acts import not_set_up
from screens.dialogs.panel import Panel
from screens.pages.page import Page
from tally.job.job import Job

WIDTH, ROWS = 70, 18
AROUND = 6
"""Rows of a panel beside its lines."""


async def show_well(page: Page) -> None:
    """Show the well to scale, and what stands at which depth."""
    from screens.widgets.section_chart import section_lines

    await _show(page, "The well to scale", section_lines, "string calculated from what was run")


async def show_tank_chart(page: Page) -> None:
    """Show what the trip tank gained and lost against the items run."""
    from screens.widgets.tank_chart import tank_chart

    await _show(page, "Gain and loss against the items run", tank_chart)


async def show_weights(page: Page) -> None:
    """Show the weights against depth: drawn, then in figures."""
    from screens.widgets.weight_chart import weight_chart
    from screens.widgets.weights import weight_lines

    def lines(job: Job, width: int, rows: int) -> Sequence[Content]:
        return [*weight_chart(job, width, rows), *weight_lines(job, min(width, 60))]

    await _show(page, "Weights against depth", lines, "k on the page: read the weight")


async def _show(
    page: Page, title: str, lines: Callable[[Job, int, int], Sequence[Content]], foot: str = ""
) -> None:
    if not_set_up(page):
        return
    room = min(WIDTH, page.size.width - 8)
    rows = min(ROWS, page.size.height - AROUND)
    await page.app.push_screen_wait(Panel(title, lines(page.job, room, rows), foot))
