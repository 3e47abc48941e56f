"""Pump files of the demonstration's well as a pump may record them: the plain march, with noise.

The march is the independent one of tests/tally/cement; it is given the well and the fluids and
knows nothing of how the program works a placement out. What it does not march is added plainly:
the bump, pumping past the collar without one, losses.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from functools import cache
from math import pi
from random import Random

from demo_db.play import entries
from tally.job.entries.steps import StepDone
from tally.job.entry import Entry
from tally.job.fold import fold
from tally.job.pump_plan import plan_of
from tests.tally.cement import plain_march
from tests.tally.cement.plain_march import Bore, Casing, Fluid, Reading, Slug, Well

BARREL, PSI = 0.158987294928, 6894.757293168361
A_MINUTE = BARREL / 60
SPACING = 5.0
"""[s] between two rows."""
TITLES = "Elapsed time (s);Total volume (bbl);Pump pressure (psi);Rate (bbl/min)\n"
FAST, SLOW = 5.8, 2.0
"""[bbl/min] behind the plug, and over the last `SLOWED` bbl."""
SLOWED = 20.0
SEATED, RISE = 1.2, 620.0
"""[bbl] pumped from the first rise to the stop, [psi] that it brings."""
NOISE = 15.0
"""[psi]"""


@cache
def until_spacer() -> tuple[Entry, ...]:
    """Return the demonstration's entries up to the spacer: all agreed, nothing pumped."""
    played = entries()
    first = next(e.seq for e in played if isinstance(e, StepDone) and e.step_id == "spacer-pumped")
    return played[: first - 2]


@dataclass(frozen=True, slots=True)
class Marched:
    """The march from the spacer to the collar, with what it pumped ahead of the top plug, [bbl]."""

    readings: tuple[Reading, ...]
    spacer: float
    slurry: float

    @property
    def zero(self) -> float:
        """Volume at which the top plug is released, [bbl]."""
        return self.spacer + self.slurry

    @property
    def bump(self) -> float:
        """Volume from the zero to the collar, [bbl]."""
        return self.readings[-1].volume / BARREL - self.zero


@cache
def marched() -> Marched:
    """Return the march of the demonstration's well and fluids."""
    plan = plan_of(fold(until_spacer()))
    well, top = plan.well, -plan.well.pipe[0].top
    casing = [
        Casing(p.bottom + top, p.outer_diameter, p.inner_diameter,
               pi / 4 * p.outer_diameter**2 + p.coupling_area)
        for p in well.pipe
    ]  # fmt: skip
    hole = [Bore(s.bottom + top, s.diameter, s.excess) for s in well.hole.sections]

    def vertical(depth: float) -> float:
        return well.survey.true_vertical(max(0.0, depth - top)) + min(depth, top)

    fluids = [Fluid(s.fluid.name, s.fluid.density, s.fluid.curve) for s in plan.slugs]
    volumes = [sum(stage.volume for stage in slug.stages) for slug in plan.slugs]
    slugs = [
        Slug(fluid, volume, slug.stages[0].rate, sum(stage.stop for stage in slug.stages))
        for fluid, volume, slug in zip(fluids[:-1], volumes[:-1], plan.slugs, strict=False)
    ]
    inside = sum(
        pi
        / 4
        * c.inner**2
        * (min(c.bottom, well.collar + top) - (casing[n - 1].bottom if n else 0))
        for n, c in enumerate(casing)
    )
    to_collar = inside + well.head
    last = [
        Slug(fluids[-1], to_collar - SLOWED * BARREL, FAST * A_MINUTE),
        Slug(fluids[-1]._replace(name="slow"), 3 * SLOWED * BARREL, SLOW * A_MINUTE),
    ]
    readings = plain_march.march(
        Well(casing, hole, well.collar + top, well.head, vertical),
        [*slugs, *last],
        Fluid("mud", plan.mud.density, plan.mud.curve),
        top_plug=len(slugs),
        bottom_plugs={each.ahead_of: each.opens_at for each in plan.bottom_plugs},
        step=20.0,
    )
    return Marched(tuple(readings), volumes[0] / BARREL, sum(volumes[1:-1]) / BARREL)


@dataclass(frozen=True, slots=True)
class Row:
    """A row: time [s], volume in all [bbl], pressure [psi], rate and returns [bbl/min]."""

    time: float
    volume: float
    pressure: float
    rate: float
    returns: float


@dataclass(frozen=True, slots=True)
class Recorded:
    """A pump file, row by row, with the returns that somebody at the flow line would see."""

    rows: tuple[Row, ...]
    zero: float

    def time_at(self, volume: float) -> float:
        """Return when a volume since the zero is first reached, [s]."""
        return next(row.time for row in self.rows if row.volume >= self.zero + volume - 1e-6)

    def returns_at(self, volume: float) -> str:
        """Return in words how the returns are at a volume since the zero."""
        time = self.time_at(volume)
        near = [row for row in self.rows if abs(row.time - time) <= 30 and row.rate > 0]
        share = sum(row.returns for row in near) / sum(row.rate for row in near)
        if share < 0.05:
            return "none"
        return "full" if 0.9 <= share <= 1.1 else "less than pumped" if share < 1 else (
            "more than pumped"
        )  # fmt: skip


def recorded(*, bump: float | None, past: float = 0.0, lost_from: float | None = None) -> Recorded:
    """Return a file with a bump so far beyond the collar [bbl], or pumped so far past it without.

    With `lost_from` a part of the returns is lost from a volume since the zero on, [bbl].
    """
    march, random = marched(), Random(20)
    rows = list(_along(march, lost_from))
    end = rows[-1]
    for volume in _steps(bump if bump is not None else past):
        rows.append(_on(rows[-1], end.pressure, end.volume + volume, SLOW))
    if bump is not None:
        rows += _seats(rows[-1])
    else:
        rows += _stops(rows[-1])
    noisy = [
        Row(r.time, r.volume, max(0.0, r.pressure + random.gauss(0, NOISE)),
            r.rate * random.gauss(1, 0.008), r.returns)
        for r in rows
    ]  # fmt: skip
    return Recorded(tuple(noisy), march.zero)


def lines(rows: list[Row]) -> str:
    """Return rows as the file has them: volume to a tenth, pressure to a psi."""
    return "".join(
        f"{row.time:.0f};{row.volume:.1f};{row.pressure:.0f};{row.rate:.2f}\n" for row in rows
    )


def _along(march: Marched, lost_from: float | None) -> list[Row]:
    times = [reading.time for reading in march.readings]
    rows, time = [], 0.0
    while time < times[-1]:
        place = max(1, bisect_left(times, time))
        old, new = march.readings[place - 1], march.readings[place]
        share = (time - old.time) / (new.time - old.time) if new.time > old.time else 1.0
        volume = (old.volume + share * (new.volume - old.volume)) / BARREL
        pressure = (old.pressure + share * (new.pressure - old.pressure)) / PSI
        returns = (new.returns - old.returns) / (new.time - old.time) / A_MINUTE
        lost = 0.0 if lost_from is None else max(0.0, volume - march.zero - lost_from)
        if lost:
            pressure, returns = pressure - 2.0 * min(lost, 60.0), 0.5 * returns
        rows.append(Row(time, max(0.0, volume), pressure, new.rate / A_MINUTE, returns))
        time += SPACING
    return rows


def _steps(volume: float) -> list[float]:
    step = SLOW * SPACING / 60
    return [step * n for n in range(1, round(volume / step) + 1)]


def _on(row: Row, pressure: float, volume: float, rate: float) -> Row:
    return Row(row.time + SPACING, volume, pressure, rate, rate)


def _seats(row: Row) -> list[Row]:
    """Return the bump: the pressure up within so much, the pump stopped, the pressure held."""
    rows = [row]
    for volume in _steps(SEATED):
        pressure = row.pressure + RISE * min(1.0, volume / SEATED)
        rows.append(Row(rows[-1].time + SPACING, row.volume + volume, pressure, SLOW, 0.0))
    top = rows[-1]
    for n in range(1, 25):
        rows.append(Row(top.time + n * SPACING, top.volume, top.pressure - 0.2 * n, 0.0, 0.0))
    return rows[1:]


def _stops(row: Row) -> list[Row]:
    return [
        Row(row.time + n * SPACING, row.volume, 0.8 * row.pressure, 0.0, 0.0) for n in range(1, 13)
    ]
