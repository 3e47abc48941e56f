"""The chart of the mixing: density against volume mixed, by gauge and by balance."""

from __future__ import annotations

from itertools import groupby

from tally.reports.final_tally import FinalTally
from tally.reports.mixing_fields import Weighed, mixing_curve
from tally.reports.pdf.chart import (
    DASHED,
    DOTTED,
    SMALL,
    frame,
    key,
    readings,
    scale,
)
from tally.reports.pdf.document import Section
from tally.reports.pdf.letters import shortened
from tally.reports.pdf.pen import BLACK, SOLID, Pen, Point
from tally.reports.pdf.pieces import Picture, paragraph
from tally.units import to_unit

HEIGHT = 230.0
_TITLE = "Mixing: density against volume"
_NOT_READ = "No density was read with a volume; there is no curve to draw."
_READ = (("gauge", DASHED, "ring"), ("balance", SOLID, "dot"))


def mixing_chart_section(tally: FinalTally, room: float) -> Section:
    """Return the densities of what was mixed."""
    read = mixing_curve(tally)
    if not any(one.gauge or one.balance for one in read):
        return Section(_TITLE, (paragraph(_NOT_READ, room),))

    def drawn(pen: Pen, left: float, low: float) -> None:
        _draw(pen, tally, read, (left + 56, low + 42), (left + room - 8, low + HEIGHT - 16))

    return Section(_TITLE, ((Picture(HEIGHT, drawn),),))


def _draw(
    pen: Pen, tally: FinalTally, read: tuple[Weighed, ...], lower: Point, upper: Point
) -> None:
    units = tally.setup.shown
    volume, density = units.unit("volume"), units.unit("density")
    volumes = [to_unit(one.volume, volume) for one in read]
    known = [to_unit(d, density) for one in read for d in (one.gauge, one.balance) if d is not None]
    across = scale(volumes, lower[0], upper[0], most=10)
    up = scale(known, lower[1], upper[1], nothing=False)
    frame(pen, across, up, f"volume mixed, {volume}", f"density, {density}")
    _mark_fluids(pen, read, [across.at(each) for each in volumes], upper, lower)
    for which, dash, kind in _READ:
        points = [
            (one.fluid, x, None if (d := getattr(one, which)) is None else to_unit(d, density))
            for x, one in zip(volumes, read, strict=True)
        ]
        # one fluid does not turn into the next, so no curve goes from one to another
        for _, of_one in groupby(points, key=lambda point: point[0]):
            readings(pen, [(x, y) for _, x, y in of_one], across, up, kind, dash)
    key(pen, lower[0], lower[1] - 32, _KEY)


_KEY = (
    ("ring", "gauge in the line", DASHED),
    ("dot", "balance", SOLID),
    ("", "end of a fluid as read", DOTTED),
)


def _mark_fluids(
    pen: Pen, read: tuple[Weighed, ...], places: list[float], upper: Point, lower: Point
) -> None:
    """Draw a line where the reading of a fluid ends, with its name before it."""
    begun = lower[0]
    for at, one in enumerate(read):
        if at + 1 < len(read) and read[at + 1].fluid == one.fluid:
            continue
        line = [(places[at], lower[1]), (places[at], upper[1])]
        pen.line(line, grey=BLACK, dash=DOTTED, wide=0.8)
        room = places[at] - begun - 3
        if room > 24:
            pen.text(begun + 2, upper[1] + 4, shortened(one.fluid, room, size=SMALL), size=SMALL)
        begun = places[at]
