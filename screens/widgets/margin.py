"""The margin: the well by depth, with the old casing, the hole, the pipe, and what stands in it.

Eight columns: `#` old casing, `:` open hole, `|` pipe, `=` the float collar, `v` the shoe, `.` pipe
that is empty. Beside the pipe `( )` a centralizer and `* *` scratchers alone; once fluids are
pumped their letters stand there instead, and in the pipe theirs and the plugs, `B` and `T`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual.content import Content

from screens.ink import INK, QUIET
from screens.widgets.bars import Bar
from tally.job import depths, volumes
from tally.job.centralizing import is_centralizer
from tally.job.job import Job

if TYPE_CHECKING:
    from tally.cement.fluid_stretches import FluidStretch

WIDTH = 8
PLUGS = {"bottom plug": "B", "top plug": "T"}
EMPTY = "."
BARE, SCRATCHED, CENTRED = (" ", " "), ("*", "*"), ("(", ")")


class Margin(Bar):
    """The well, drawn to its depth in as many rows as there are."""

    def show(self, job: Job, rows: int) -> None:
        """Draw the job."""
        self.draw(*margin_rows(job, rows))


def margin_rows(job: Job, rows: int) -> list[Content]:
    """Return the rows of the margin, empty before the job is set up."""
    if job.setup is None:
        return [Content("")] * max(0, rows)
    return [
        Content.assemble((wall, QUIET), (pipe, INK), (wall, QUIET))
        for wall, pipe in zip(_walls(job, rows), _pipe(job, rows), strict=True)
    ]


@dataclass(frozen=True, slots=True)
class _Rows:
    """The rows of a margin: which one a depth stands in, and the depth in the middle of one."""

    deepest: float
    count: int

    def of(self, depth: float) -> int:
        return min(self.count - 1, max(0, int(depth / self.deepest * self.count)))

    def middles(self) -> Iterable[float]:
        return (self.deepest * (row + 0.5) / self.count for row in range(self.count))


def _rows(job: Job, rows: int) -> _Rows:
    return _Rows(job.known.hole.depth.value, max(0, rows))


def _walls(job: Job, rows: int) -> list[str]:
    previous = job.known.previous
    shoe = previous.shoe.value if previous else 0.0
    return ["#" if middle < shoe else ":" for middle in _rows(job, rows).middles()]


def _pipe(job: Job, rows: int) -> list[str]:
    """Return what stands between the walls, five letters a row."""
    drawn, step = _rows(job, rows), job.known.step
    if not job.string or not drawn.count:
        return ["     "] * drawn.count
    shoe = step.si(depths.shoe_depth(job))
    if shoe <= 0:
        return ["     "] * drawn.count
    last = drawn.of(shoe)
    inside, beside = _standing(job, drawn) or _running(job, drawn)
    collar = depths.collar(job)
    if collar is not None:
        row = _above(last, drawn.of(shoe - step.si(collar.top)))
        inside[row] = inside[row] if inside[row] in PLUGS.values() else "="
    inside[last] = "v"
    return [
        f"{left}|{within}|{right}" if row <= last else "     "
        for row, (within, (left, right)) in enumerate(zip(inside, beside, strict=True))
    ]


def _above(last: int, row: int) -> int:
    """Return the row of something in the pipe, kept above the row of its shoe."""
    return max(0, min(row, last - 1))


def _running(job: Job, drawn: _Rows) -> tuple[list[str], list[tuple[str, str]]]:
    """Return the empty pipe, and the centralizers and scratchers beside it."""
    step, stick_up = job.known.step, depths.stick_up(job)
    level = 0.0
    if job.known.filling.closed_end and job.landing is None:
        level = volumes.empty_length(job) - step.si(stick_up)
    inside = [EMPTY if middle < level else " " for middle in drawn.middles()]
    beside = [BARE] * drawn.count
    shoe = depths.shoe_depth(job)
    for made in job.string:
        if made.fittings:
            row = drawn.of(step.si(shoe - made.top) + step.si(made.length) / 2)
            centred = any(is_centralizer(job.known, each.what) for each in made.fittings)
            beside[row] = CENTRED if centred or beside[row] == CENTRED else SCRATCHED
    return inside, beside


def _standing(job: Job, drawn: _Rows) -> tuple[list[str], list[tuple[str, str]]] | None:
    """Return the fluids pumped and the plugs, once there are any."""
    if job.landing is None:
        return None
    from tally.job.standing import standing

    found = standing(job)
    if found is None:
        return None
    letters = fluid_letters(found.names)
    level = found.inside[0].top
    inside = [
        EMPTY if middle < level else _letter(letters, found.inside, middle)
        for middle in drawn.middles()
    ]
    last = drawn.of(job.known.step.si(depths.shoe_depth(job)))
    for name, depth in found.plugs:
        inside[_above(last, drawn.of(depth))] = PLUGS[name]
    around = [_letter(letters, found.outside, middle) for middle in drawn.middles()]
    return inside, [(letter, letter) for letter in around]


def _letter(letters: Sequence[str], stretches: Sequence[FluidStretch], depth: float) -> str:
    """Return the letter of the fluid at a depth; mud, and what pushes the plug, have none."""
    at = next((each.slug for each in stretches if each.top <= depth < each.bottom), None)
    return " " if at is None or at >= len(letters) else letters[at]


def fluid_letters(names: Sequence[str]) -> tuple[str, ...]:
    """Return a letter of its own for each fluid, its first one where no other has it.

    >>> fluid_letters(("spacer", "lead", "scavenger", "tail"))
    ('s', 'l', 'c', 't')
    """
    taken: list[str] = []
    for name in names:
        own = (each for each in name.casefold() if each.isascii() and each.isalpha())
        spare = (each for each in "abcdefghijklmnopqrstuwxyz" if each not in taken)
        taken.append(next((each for each in own if each not in (*taken, "v")), next(spare, "?")))
    return tuple(taken)
