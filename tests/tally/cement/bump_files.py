"""Recorded pump files for the bump finder: the plain march, with what a gauge and a well add.

for made in files(seeds): made.points, made.rule, made.bump     # bump is None where there is none
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import pi
from random import Random

from tally.cement.bump import BumpRule, PumpPoint
from tally.fluids.flow_curve import FlowCurve
from tests.tally.cement.plain_march import Bore, Casing, Fluid, Reading, Slug, Well, march

BARREL, FOOT, INCH, PSI = 0.158987294928, 0.3048, 0.0254, 6894.757293168361
POUND_A_GALLON = 119.82642731689663
A_MINUTE = BARREL / 60
SIZES = ((13.375, 12.415, 17.5), (9.625, 8.681, 12.25), (7.0, 6.276, 8.75), (5.5, 4.778, 7.875))
WATCHED = 80 * BARREL


@dataclass(frozen=True, slots=True)
class Marched:
    """A displacement without a bump, a little past the collar: readings from the zero on."""

    seed: int
    readings: tuple[Reading, ...]
    calculated: float


@dataclass(frozen=True, slots=True)
class PumpFile:
    """A recorded file, where its bump is, and by what it was made."""

    told: str
    points: tuple[PumpPoint, ...]
    rule: BumpRule
    bump: float | None
    noise: float
    spacing: float


def marched(seed: int) -> Marched:
    """Return the displacement of a well drawn at random, with rate changes before the collar."""
    random = Random(seed)
    outer, inner, hole = (size * INCH for size in random.choice(SIZES))
    shoe = random.uniform(2500, 12_500) * FOOT
    collar = shoe - random.uniform(40, 90) * FOOT
    calculated = pi / 4 * inner**2 * collar
    size = pi / 4 * (hole**2 - outer**2)
    slurry = size * shoe * random.uniform(0.3, 0.9)
    mud_weight = random.uniform(9.0, 12.5) * POUND_A_GALLON
    mud = Fluid("mud", mud_weight, _curve(random, 0.5))
    cement = Fluid("slurry", random.uniform(13.5, 16.2) * POUND_A_GALLON, _curve(random, 1.0))
    behind = Fluid("behind", mud_weight * random.uniform(0.9, 1.0), _curve(random, 0.2))
    fast = random.uniform(4.0, 8.0) * A_MINUTE * (0.7 if inner < 6 * INCH else 1.0)
    slugs = [Slug(cement, slurry, fast), *_displacing(random, behind, calculated, fast)]
    well = Well(
        [Casing(shoe, outer, inner)], [Bore(shoe + 3, hole, random.uniform(0, 0.2))], collar
    )
    whole = march(well, slugs, mud, top_plug=None, step=20.0)
    start = next(each.time for each in whole if each.volume >= slurry - 1e-9)
    after = [
        each._replace(time=each.time - start, volume=each.volume - slurry)
        for each in whole
        if each.volume > slurry
    ]
    return Marched(seed, tuple(after), calculated)


def _curve(random: Random, thick: float) -> FlowCurve:
    return FlowCurve(random.uniform(1.0, 8.0) * thick, random.uniform(0.01, 0.04) * thick)


def _displacing(random: Random, fluid: Fluid, calculated: float, fast: float) -> list[Slug]:
    """Return the displacement in stretches: rates 30 % or more apart in the last 60 bbl."""
    last = min(60 * BARREL, calculated * 0.6)
    marks = sorted(random.uniform(0.05, 0.97) * last for _ in range(random.randint(1, 4)))
    slugs, rate, done = [Slug(fluid, calculated - last, fast)], fast, 0.0
    for mark in [*marks, last + _band(calculated) + 4 * BARREL]:
        slugs.append(Slug(fluid, mark - done, rate))
        slower = rate * random.uniform(0.35, 0.7)
        rate = slower if slower > 1.5 * A_MINUTE and random.random() < 0.6 else rate / 0.65
        rate, done = min(rate, 9 * A_MINUTE), mark
    return slugs


def _band(calculated: float) -> float:
    return max(1.5 * BARREL, 0.008 * calculated)


def files(marches: Sequence[Marched], seeds: Sequence[int]) -> Iterator[PumpFile]:
    """Yield a file for each seed, every second without a bump."""
    for place, seed in enumerate(seeds):
        yield recorded(marches[place // 2 % len(marches)], seed, bumped=place % 2 == 0)


def recorded(well: Marched, seed: int, *, bumped: bool) -> PumpFile:
    """Return the file of one well as a gauge and a pump may record it."""
    random = Random(seed)
    band = _band(well.calculated)
    rule = BumpRule(well.calculated, band, band)
    noise, spacing = random.uniform(5, 60) * PSI, random.uniform(1, 10)
    bump = well.calculated + random.uniform(-0.95, 0.95) * band if bumped else None
    until = bump if bump is not None else well.calculated + band + random.uniform(0.5, 3) * BARREL
    extra = _extra(random, well.calculated, band, free=not bumped)
    path = [(t, v, p + extra(v), q) for t, v, p, q in _along(well, until, spacing)]
    path += _stopped(random, path, spacing) if bump is None else _held(random, path, bump, spacing)
    rated, step = random.random() < 0.75, random.choice((0.0, 0.02, 0.1)) * BARREL
    points = tuple(
        PumpPoint(
            time,
            round(volume / step) * step if step else volume,
            pressure + random.gauss(0, noise),
            max(0.0, rate * random.gauss(1, 0.008)) if rated else None,
        )
        for time, volume, pressure, rate in path
    )
    told = f"march {well.seed}, file {seed}, bump {bumped}, {noise / PSI:.0f} psi, {spacing:.1f} s"
    return PumpFile(told, points, rule, bump, noise, spacing)


Step = tuple[float, float, float, float]


def _along(well: Marched, until: float, spacing: float) -> list[Step]:
    """Return time, volume, pressure and rate of the march at a spacing, in its last barrels."""
    times = [each.time for each in well.readings]
    first = next(each.time for each in well.readings if each.volume >= until - WATCHED)
    path: list[Step] = []
    time = first
    while time < times[-1]:
        place = max(1, bisect_left(times, time))
        old, new = well.readings[place - 1], well.readings[place]
        share = (time - old.time) / (new.time - old.time) if new.time > old.time else 1.0
        volume = old.volume + share * (new.volume - old.volume)
        if volume > until:
            break
        # a pump takes some seconds to another rate, and the pressure goes with it
        moved = min(1.0, share * (new.time - old.time) / 6.0)
        pressure = old.pressure + (moved if old.rate != new.rate else share) * (
            new.pressure - old.pressure
        )
        path.append((time, volume, pressure, old.rate + moved * (new.rate - old.rate)))
        time += spacing
    return path


def _held(random: Random, path: Sequence[Step], bump: float, spacing: float) -> list[Step]:
    """Return the bump: fluid pressed together up to the margin, then the pressure kept on."""
    time, volume, pressure, rate = path[-1]
    rate = max(rate, A_MINUTE)
    margin, gives = random.uniform(500, 1000) * PSI, random.uniform(2.4e-6, 3.8e-6) / PSI
    leak = random.uniform(0, 6) * PSI / 60
    room, pumped, held = gives * bump * margin, volume - bump, 0.0
    after: list[Step] = []
    while held < max(90, 6 * spacing):
        time, stopped = time + spacing, pumped >= room
        pumped += rate * spacing
        held += spacing if stopped else 0.0
        pressed = min(1.0, pumped / room)
        seen = pressure + margin * pressed - leak * held
        after.append((time, bump + room * pressed, seen, 0.0 if stopped else rate))
    return after


def _stopped(random: Random, path: Sequence[Step], spacing: float) -> list[Step]:
    """Return the end without a bump: the pump stops, the friction is gone."""
    time, volume, pressure, _ = path[-1]
    left = pressure * random.uniform(0.3, 0.9)
    return [(time + spacing * n, volume, left, 0.0) for n in range(1, int(60 / spacing) + 3)]


class _Extra:
    """What a well adds to the pressure by volume: cement that sets, losses, a valve."""

    def __init__(self, random: Random, calculated: float, band: float, free: bool) -> None:
        self.sets = random.uniform(100, 700) * PSI if random.random() < 0.4 else 0.0
        self.over = random.uniform(25, 60) * BARREL
        self.begins = calculated + band - self.over
        self.bent = random.uniform(1, 3)
        self.loses = random.uniform(2, 12) * PSI / BARREL if random.random() < 0.3 else 0.0
        self.lost_from = calculated - random.uniform(5, 50) * BARREL
        early = calculated - band - random.uniform(4, 30) * BARREL
        self.shut = early if free and random.random() < 0.35 else None
        self.shut_for = random.uniform(0.5, 3) * BARREL
        self.shut_by = random.uniform(300, 1500) * PSI

    def __call__(self, volume: float) -> float:
        done = max(0.0, min(1.0, (volume - self.begins) / self.over))
        lost = self.loses * max(0.0, min(volume - self.lost_from, 20 * BARREL))
        shut = self.shut is not None and self.shut <= volume < self.shut + self.shut_for
        set_by = self.sets * float(done**self.bent)
        return set_by - lost + (self.shut_by if shut else 0.0)


def _extra(random: Random, calculated: float, band: float, *, free: bool) -> _Extra:
    return _Extra(random, calculated, band, free)
