"""The chart of the displacement: pressure and rate against volume, with the events marked."""

from __future__ import annotations

from tally.reports.final_tally import FinalTally
from tally.reports.pdf.chart import (
    DASHED,
    DOTTED,
    SMALL,
    Scale,
    frame,
    key,
    readings,
    right_side,
    scale,
)
from tally.reports.pdf.document import Section
from tally.reports.pdf.pen import BLACK, SOLID, Pen
from tally.reports.pdf.pieces import Picture, Pieces, paragraph, table
from tally.reports.pump_curve import PumpCurve, pump_curve
from tally.reports.text_parts import stamp
from tally.units import to_unit

HEIGHT = 320.0
_NOT_READ = "Nothing was read while the top plug was pumped down; there is no curve to draw."
_TITLE = "Displacement: pressure and rate against volume"


def pump_section(tally: FinalTally, room: float) -> Section:
    """Return the curves of the displacement, and its events under them."""
    found = pump_curve(tally.job)
    if found is None:
        return Section(_TITLE, (paragraph(_NOT_READ, room),))

    def drawn(pen: Pen, left: float, low: float) -> None:
        _draw(pen, tally, found, (left + 56, low + 42), (left + room - 46, low + HEIGHT - 16))

    return Section(_TITLE, ((Picture(HEIGHT, drawn),), *_events(tally, found, room)))


def _events(tally: FinalTally, found: PumpCurve, room: float) -> tuple[Pieces, ...]:
    show = tally.setup.shown
    columns = table(
        room,
        *(("mark", 24.0, True), ("event", 0.0), ("seen", 110.0)),
        *((f"volume, {show.unit('volume')}", 62.0, True), ("time", 72.0), ("by", 80.0)),
    )
    told = (
        f"Volume since the zero by the {found.by}. An event lies where its time does between two "
        "readings."
    )
    rows = [
        columns.row(
            [
                str(number),
                one.text,
                one.said,
                show.number(one.volume, "volume"),
                stamp(one.at),
                one.by,
            ]
        )
        for number, one in enumerate(found.events, start=1)
    ]
    first = (*paragraph(told, room), *columns.heading(), *(rows[0] if rows else ()))
    return (first, *rows[1:])


def _draw(
    pen: Pen,
    tally: FinalTally,
    found: PumpCurve,
    lower: tuple[float, float],
    upper: tuple[float, float],
) -> None:
    units = tally.setup.shown
    volume, pressure, rate = (units.unit(each) for each in ("volume", "pressure", "flow rate"))
    volumes = [to_unit(one.volume, volume) for one in found.readings]
    pressures = [
        None if p is None else to_unit(p, pressure) for p in (r.pressure for r in found.readings)
    ]
    rates = [None if q is None else to_unit(q, rate) for q in (r.rate for r in found.readings)]
    across = scale(volumes, lower[0], upper[0], most=10)
    up = scale([each for each in pressures if each is not None], lower[1], upper[1])
    beside = scale([each for each in rates if each is not None], lower[1], upper[1])
    frame(pen, across, up, f"volume since the zero, {volume}", f"pressure, {pressure} (dots)")
    right_side(pen, across, beside, f"rate, {rate} (squares)")
    _mark_events(pen, found, across, volume, upper[1], lower[1])
    for read, on, dash, kind in ((rates, beside, DASHED, "square"), (pressures, up, SOLID, "dot")):
        readings(pen, list(zip(volumes, read, strict=True)), across, on, kind, dash)
    key(pen, lower[0], lower[1] - 32, _KEY)


_KEY = (
    ("dot", "pressure, left", SOLID),
    ("square", "rate, right", DASHED),
    ("", "event, by its number below", DOTTED),
)


def _mark_events(
    pen: Pen, found: PumpCurve, across: Scale, unit: str, high: float, low: float
) -> None:
    """Draw a line at each event with its number over it; numbers that would touch move aside."""
    free = float("-inf")
    for number, one in enumerate(found.events, start=1):
        place = across.at(to_unit(one.volume, unit))
        pen.line([(place, low), (place, high)], grey=BLACK, dash=DOTTED, wide=0.8)
        free = max(place, free + 8)
        pen.centred(free, high + 5, str(number), size=SMALL)
