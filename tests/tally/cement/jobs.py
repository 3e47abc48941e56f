"""Jobs for the tests of the placement: drawn at random or by hand, for the engine and the march."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from math import cos, pi, sin
from random import Random

from tally.cement.plan import BottomPlug, Fluid, Plan, Slug, Stage
from tally.cement.tube import Well
from tally.fluids.flow_curve import FlowCurve
from tally.hole.sections import Hole, HoleSection
from tally.hole.survey import Station, Survey
from tally.pipe.interval import PipeInterval
from tests.tally.cement import plain_march

BARREL, FOOT, INCH, MINUTE = 0.158987294928, 0.3048, 0.0254, 60.0
POUND_A_GALLON = 119.82642731689663
PSI = 6894.757293168361


@dataclass(frozen=True, slots=True)
class Bend:
    """Upright to a depth [m], then building to an angle [rad] at a rate [rad/m], then straight."""

    kick_off: float
    build: float
    angle: float

    def vertical(self, depth: float) -> float:
        """Return the true vertical depth, by the circle."""
        end = self.kick_off + self.angle / self.build
        if depth <= self.kick_off:
            return depth
        if depth <= end:
            return self.kick_off + sin((depth - self.kick_off) * self.build) / self.build
        return self.vertical(end) + (depth - end) * cos(self.angle)

    def stations(self) -> tuple[Station, ...]:
        """Return the stations of a survey of it."""
        end = self.kick_off + self.angle / self.build
        places = [(0.0, 0.0), (self.kick_off, 0.0), (end, self.angle)]
        return tuple(Station(depth, angle, 0.3) for depth, angle in places)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A slug: name, density, flow curve, volume, rate, stop; SI."""

    name: str
    density: float
    curve: FlowCurve | None
    volume: float
    rate: float
    stop: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A job by its numbers, which both sides are made from; SI, depths from the top down."""

    casing: tuple[tuple[float, float, float], ...]
    """Bottom, outside and inside diameter."""
    hole: tuple[tuple[float, float, float], ...]
    """Bottom, diameter, excess; the first is the previous casing."""
    collar: float
    mud: tuple[float, FlowCurve | None]
    slugs: tuple[Stretch, ...]
    bottom_plugs: dict[int, float] = field(default_factory=dict)
    head: float = 0.0
    bend: Bend | None = None
    limit: float = 0.0
    back_pressure: float = 0.0

    @property
    def to_bump(self) -> float:
        """Volume to be pumped in all."""
        inside, top = self.head, 0.0
        for bottom, _, bore in self.casing:
            inside += pi / 4 * bore**2 * max(0.0, min(bottom, self.collar) - top)
            top = bottom
        return inside + sum(each.volume for each in self.slugs[:-1])

    def plan(self) -> Plan:
        """Return it for the engine."""
        tops = (0.0, *(bottom for bottom, _, _ in self.casing))
        pipe = tuple(
            PipeInterval(top, bottom, outer, inner, 60.0, yield_strength=552e6)
            for top, (bottom, outer, inner) in zip(tops, self.casing, strict=False)
        )
        tops = (0.0, *(bottom for bottom, _, _ in self.hole))
        sections = [
            HoleSection(top, bottom, diameter, cased=not place and len(self.hole) > 1,
                        excess=excess)
            for place, (top, (bottom, diameter, excess)) in enumerate(
                zip(tops, self.hole, strict=False)
            )
        ]  # fmt: skip
        survey = Survey(self.bend.stations()) if self.bend else Survey()
        last = len(self.slugs) - 1
        slugs = [
            Slug(
                Fluid(each.name, each.density, each.curve),
                (Stage(0.0 if place == last else each.volume, each.rate, each.stop),),
            )
            for place, each in enumerate(self.slugs)
        ]
        return Plan(
            Well(pipe, Hole(sections), survey, self.collar, self.head),
            Fluid("mud", *self.mud),
            tuple(slugs),
            top_plug=last,
            bottom_plugs=tuple(BottomPlug(p, opens) for p, opens in self.bottom_plugs.items()),
            limit=self.limit,
            back_pressure=self.back_pressure,
        )

    def marched(self, step: float = 6.0) -> list[plain_march.Reading]:
        """Return what the plain march makes of it."""
        vertical: Callable[[float], float] = self.bend.vertical if self.bend else float
        well = plain_march.Well(
            [plain_march.Casing(*each) for each in self.casing],
            [plain_march.Bore(*each) for each in self.hole],
            self.collar,
            self.head,
            vertical,
        )
        slugs = [
            plain_march.Slug(
                plain_march.Fluid(each.name, each.density, each.curve),
                each.volume, each.rate, each.stop,
            )
            for each in self.slugs
        ]  # fmt: skip
        return plain_march.march(
            well, slugs, plain_march.Fluid("mud", *self.mud), bottom_plugs=self.bottom_plugs,
            limit=self.limit, back_pressure=self.back_pressure, step=step,
        )  # fmt: skip


SIZES = (
    (13.375, 12.415, 17.5, 18.73),
    (9.625, 8.835, 12.25, 12.415),
    (9.625, 8.681, 12.25, 12.347),
    (7.0, 6.276, 8.5, 8.681),
    (5.5, 4.892, 7.875, 8.835),
)
"""Casing outside and inside, hole, inside of the casing before, [in]."""


def drawn(random: Random) -> Made:
    """Return a job drawn at random: well, path, fluids, volumes, rates, plugs."""
    outer, inner, hole, previous = (size * INCH for size in random.choice(SIZES))
    shoe = random.uniform(600.0, 3800.0)
    casing: tuple[tuple[float, float, float], ...] = ((shoe, outer, inner),)
    if random.random() < 0.4:
        casing = ((random.uniform(0.2, 0.7) * shoe, outer, inner - 0.004), *casing)
    earlier, excess = random.uniform(0.15, 0.6) * shoe, random.uniform(0.0, 0.4)
    parts = ((earlier, previous, 0.0), (shoe * 0.8, hole, excess), (shoe + 10, hole, excess / 2))
    slowest = 1.5 if outer < 8 * INCH else 3.0
    mud = random.uniform(9.0, 12.5) * POUND_A_GALLON
    made = Made(
        casing=casing,
        hole=parts,
        collar=shoe - random.uniform(12.0, 40.0),
        mud=(mud, _curve(random, 0.5)),
        slugs=_slugs(random, mud, slowest * BARREL / MINUTE, shoe * inner**2),
        head=random.choice((0.0, random.uniform(0.05, 1.0))),
        limit=random.choice((0.0, 0.0, -0.7e5)),
        back_pressure=random.choice((0.0, 0.0, 0.5e6)),
        bend=_bend(random, shoe) if random.random() < 0.4 else None,
    )
    plugs = random.choice(((), (1,), (0, 1)))
    opening = {place: random.uniform(0.5e6, 3e6) for place in plugs}
    displacing = (*made.slugs[:-1], _enough(made))
    return _with(made, slugs=displacing, bottom_plugs=opening)


def _enough(made: Made) -> Stretch:
    """Return the displacement with more volume than takes the plug to the float collar."""
    last = made.slugs[-1]
    return Stretch(last.name, last.density, last.curve, made.to_bump, last.rate)


def _with(made: Made, **changes: object) -> Made:
    from dataclasses import replace

    return replace(made, **changes)  # type: ignore[arg-type]


def _slugs(random: Random, mud: float, slow: float, size: float) -> tuple[Stretch, ...]:
    def stretch(name: str, density: float, share: float, thin: float, stop: float = 0.0) -> Stretch:
        rate = slow * random.uniform(1.0, 3.0)
        return Stretch(name, density, _curve(random, thin), share * size, rate, stop)

    slurry = random.uniform(max(12.5 * POUND_A_GALLON, mud), 15.0 * POUND_A_GALLON)
    stop = random.choice((0.0, 0.0, random.uniform(60.0, 600.0)))
    return (
        stretch("spacer", (mud + slurry) / 2, random.uniform(0.05, 0.2), 0.5),
        stretch("lead", slurry, random.uniform(0.2, 0.9), 1.0),
        stretch("tail", 15.8 * POUND_A_GALLON, random.uniform(0.1, 0.5), 1.5, stop),
        stretch("displacement", mud * random.uniform(0.85, 1.05), 1.0, 0.3),
    )


def _curve(random: Random, thick: float) -> FlowCurve:
    return FlowCurve(random.uniform(1.0, 8.0) * thick, random.uniform(0.01, 0.05) * thick)


def _bend(random: Random, shoe: float) -> Bend:
    build = random.uniform(1.0, 3.5) * pi / 180 / 30
    angle = random.uniform(15.0, 60.0) * pi / 180
    return Bend(random.uniform(0.1, 0.35) * shoe, build, min(angle, 0.4 * shoe * build))
