"""The chart of weight against depth: what was expected, and what the indicator showed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tally.errors import ShoedownError
from tally.job.depths import shoe_depth
from tally.job.job import Job
from tally.job.weight_band import weight_band
from tally.reports.final_tally import FinalTally
from tally.reports.pdf.chart import DASHED, curve, frame, key, mark, scale
from tally.reports.pdf.document import Section
from tally.reports.pdf.pen import SOLID, Pen
from tally.reports.pdf.pieces import Picture, Pieces, paragraph
from tally.string.drag import Weights
from tally.units import Measure, to_unit

HEIGHT = 330.0
_DEPTHS = 30
"""Depths at which the weights to expect are worked out."""
_READ = (("slack_off", "down", "going down, read"), ("pick_up", "up", "coming up, read"),
         ("hanging", "ring", "at rest, read"))  # fmt: skip


@dataclass(frozen=True, slots=True)
class Weighed:
    """What the chart shows, in the units of the job."""

    expected: tuple[tuple[float, Weights], ...]
    """Depth and weights, both in SI."""
    lacks: str
    read: tuple[tuple[str, float, float], ...]
    """Which weight, depth [m] and load [N]."""


def weight_section(tally: FinalTally, room: float) -> Section:
    """Return the weights against depth."""
    found = _weighed(tally.job)
    told: Pieces = ()
    if found.lacks:
        told += paragraph(f"What to expect is not drawn: {found.lacks}", room)
    if not found.read:
        told += paragraph("The indicator was not read: no weight stands in the book.", room)
    if not found.read and not found.expected:
        return Section("Weight against depth", (told,))

    def drawn(pen: Pen, left: float, low: float) -> None:
        _draw(pen, tally, found, (left + 56, low + 42), (left + room - 8, low + HEIGHT - 6))

    return Section("Weight against depth", ((*told, Picture(HEIGHT, drawn)),))


def _weighed(job: Job) -> Weighed:
    step = job.known.step
    read = tuple(
        (which, step.si(one.shoe), measure.value)
        for one in job.weighed
        for which, _, _ in _READ
        if isinstance(measure := getattr(one, which), Measure)
    )
    try:
        return Weighed(_expected(job), "", read)
    except ShoedownError as lack:
        return Weighed((), str(lack), read)


def _expected(job: Job) -> tuple[tuple[float, Weights], ...]:
    """Return the weights to expect, pipe full, from the first joint to where the string is."""
    if not job.string:
        return ()
    deepest = job.known.step.si(shoe_depth(job))
    first = job.known.step.si(job.string[min(3, len(job.string) - 1)].top)
    if deepest <= first:
        return ()
    apart = (deepest - first) / (_DEPTHS - 1)
    depths = [first + apart * place for place in range(_DEPTHS)]
    depths[-1] = deepest
    return tuple(zip(depths, weight_band(job, depths), strict=True))


def _draw(
    pen: Pen,
    tally: FinalTally,
    found: Weighed,
    lower: tuple[float, float],
    upper: tuple[float, float],
) -> None:
    force, length = tally.setup.shown.unit("force"), tally.setup.step.unit
    loads = [load for _, _, load in found.read]
    loads += [each for _, one in found.expected for each in (one.slack_off, one.pick_up)]
    depths = [depth for _, depth, _ in found.read] + [depth for depth, _ in found.expected]
    across = scale([to_unit(load, force) for load in loads], lower[0], upper[0])
    down = scale([to_unit(depth, length) for depth in depths], upper[1], lower[1], most=10)
    frame(pen, across, down, f"load on the indicator, {force}", f"depth of the shoe, {length}")

    def at(depth: float, load: float) -> tuple[float, float]:
        return across.at(to_unit(load, force)), down.at(to_unit(depth, length))

    _curves(pen, [at(depth, one.slack_off) for depth, one in found.expected], solid=True)
    _curves(pen, [at(depth, one.pick_up) for depth, one in found.expected], solid=False)
    kinds = {which: kind for which, kind, _ in _READ}
    for which, depth, load in found.read:
        mark(pen, kinds[which], at(depth, load))
    _key(pen, found, (lower[0], lower[1] - 32))


def _curves(pen: Pen, points: Sequence[tuple[float, float]], *, solid: bool) -> None:
    curve(pen, points, dash=SOLID if solid else DASHED)


def _key(pen: Pen, found: Weighed, at: tuple[float, float]) -> None:
    seen = {which for which, _, _ in found.read}
    expected = [("", "going down, expected", SOLID), ("", "coming up, expected", DASHED)]
    key(
        pen,
        *at,
        [
            *(expected if found.expected else []),
            *((kind, text, None) for which, kind, text in _READ if which in seen),
        ],
    )
