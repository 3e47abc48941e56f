"""The margin: the well by depth, with the old casing, the open hole and the pipe in it.

Eight columns: `#` old casing, `:` open hole, `|` pipe, `v` the shoe, `=` the float collar.
"""

from __future__ import annotations

from textual.content import Content

from screens.ink import INK, QUIET
from screens.widgets.bars import Bar
from tally.job import depths
from tally.job.job import Job

WIDTH = 8


class Margin(Bar):
    """The well, drawn to its depth in as many rows as there are."""

    def show(self, job: Job, rows: int) -> None:
        """Draw the job."""
        self.draw(*(self._row(job, row, rows) for row in range(max(0, rows))))

    @staticmethod
    def _row(job: Job, row: int, rows: int) -> Content:
        if job.setup is None:
            return Content("")
        setup = job.setup
        deepest = setup.hole.depth.value
        top, bottom = deepest * row / rows, deepest * (row + 1) / rows
        middle = (top + bottom) / 2
        wall = "#" if setup.previous and middle < setup.previous.shoe.value else ":"
        return Content.assemble((wall, QUIET), (_inside(job, top, bottom), INK), (wall, QUIET))


def _inside(job: Job, top: float, bottom: float) -> str:
    step = job.known.step
    shoe = step.si(depths.shoe_depth(job)) if job.string else 0.0
    if shoe <= top:
        return "     "
    if shoe <= bottom:
        return " |v| "
    made = depths.collar(job)
    collar = shoe - step.si(made.top) if made else None
    return " |=| " if collar is not None and top < collar <= bottom else " | | "
