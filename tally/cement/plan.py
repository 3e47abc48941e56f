"""What is to be pumped: fluids in their order, rates, stops, and what plug goes ahead of which."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from tally.cement.tube import Well
from tally.errors import DomainError
from tally.fluids.flow import require_density
from tally.fluids.flow_curve import FlowCurve
from tally.formula import require_range

FASTEST = 1.0
"""[m3/s], as for the friction of a flow."""


@dataclass(frozen=True, slots=True)
class Fluid:
    """A fluid: density [kg/m^3] and flow curve; without a curve it flows without friction.

    `planned_density` is that which its friction is worked out with where the one that was read
    is a little off it, so that a hundred readings do not want a hundred frictions.
    """

    name: str
    density: float
    curve: FlowCurve | None = None
    planned_density: float | None = None

    def __post_init__(self) -> None:
        require_density(self.density)
        require_density(self.flows_as)

    @property
    def flows_as(self) -> float:
        """Density that its friction is worked out with, [kg/m^3]."""
        return self.density if self.planned_density is None else self.planned_density


@dataclass(frozen=True, slots=True)
class Stage:
    """A volume [m^3] pumped at one rate [m^3/s], then a stop [s].

    A volume of 0 in the very last stage is whatever takes the top plug to the float collar. What
    has been pumped already (`seen`) keeps its rate, also where the plan would slow down.
    """

    volume: float
    rate: float
    stop: float = 0.0
    seen: bool = False

    def __post_init__(self) -> None:
        require_range("Volume of the stage", self.volume, 0.0, 10_000.0, "m3")
        require_range("Pump rate", self.rate, 1e-5, FASTEST, "m3/s")
        require_range("Stop", self.stop, 0.0, 1e6, "s")


@dataclass(frozen=True, slots=True)
class Slug:
    """A fluid pumped in one or more stages."""

    fluid: Fluid
    stages: tuple[Stage, ...]

    @property
    def volume(self) -> float:
        """Volume of all its stages, [m^3]."""
        return sum(stage.volume for stage in self.stages)


def slug(fluid: Fluid, volume: float, rate: float, stop: float = 0.0) -> Slug:
    """Return a fluid pumped at one rate.

    >>> slug(Fluid("spacer", 1300.0), 8.0, 0.02).volume
    8.0
    """
    return Slug(fluid, (Stage(volume, rate, stop),))


@dataclass(frozen=True, slots=True)
class BottomPlug:
    """A plug ahead of a slug (its place in the order, from 0), opened by a pressure [Pa]."""

    ahead_of: int
    opens_at: float

    def __post_init__(self) -> None:
        require_range("Pressure that opens the bottom plug", self.opens_at, 0.0, 50e6, "Pa")


@dataclass(frozen=True, slots=True)
class Point:
    """A depth of the annulus to watch, [m]; pore pressure and strength as densities [kg/m^3]."""

    name: str
    depth: float
    pore: float | None = None
    weak_at: float | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """A two-plug job: the well full of mud, and what is pumped into it in order.

    Parameters
    ----------
    well : Well
        Casing, hole, path, float collar, line and head
    mud : Fluid
        What stands in the whole well at the start
    slugs : tuple of Slug
        In the order of pumping; a last stage without a volume goes on to the bump
    top_plug : int or None
        Place of the slug that follows the top plug; None where there is no top plug
    bottom_plugs : tuple of BottomPlug
        None, one or two
    points : tuple of Point
        Depths to watch; new shoe and previous shoe are watched anyway
    slow_volume, slow_rate : float
        Volume before the bump that is pumped slowly, [m^3], and how slowly, [m^3/s]
    limit : float
        Pressure in the gap that a falling column leaves: 0 where air comes in at the head, down to
        -101325 where nothing does, [Pa]
    back_pressure : float
        Pressure held at the top of the annulus, [Pa]
    """

    well: Well
    mud: Fluid
    slugs: tuple[Slug, ...]
    top_plug: int | None = None
    bottom_plugs: tuple[BottomPlug, ...] = ()
    points: tuple[Point, ...] = ()
    slow_volume: float = 0.0
    slow_rate: float | None = None
    limit: float = 0.0
    back_pressure: float = 0.0

    def __post_init__(self) -> None:
        if not self.slugs:
            raise DomainError("Nothing is to be pumped; give the fluids in their order.")
        require_range("Pressure of the gap", self.limit, -101_325.0, 5e6, "Pa")
        require_range("Back pressure", self.back_pressure, 0.0, 50e6, "Pa")
        require_range("Slow-down volume", self.slow_volume, 0.0, 1000.0, "m3")
        if self.slow_rate is not None:
            require_range("Slow-down rate", self.slow_rate, 1e-5, FASTEST, "m3/s")
        places = [plug.ahead_of for plug in self.bottom_plugs]
        places += [] if self.top_plug is None else [self.top_plug]
        if places != sorted(set(places)) or not all(0 <= p < len(self.slugs) for p in places):
            raise DomainError(
                f"The plugs go ahead of fluids {', '.join(str(p + 1) for p in places)} of "
                f"{len(self.slugs)}; each needs a fluid of its own, bottom plugs first."
            )

    def starts(self) -> tuple[float, ...]:
        """Return the volume pumped when each slug begins, [m^3]."""
        total, starts = 0.0, []
        for each in self.slugs:
            starts.append(total)
            total += each.volume
        return tuple(starts)

    @property
    def pumped(self) -> float:
        """Volume of all slugs, [m^3]."""
        return sum(each.volume for each in self.slugs)

    def stages(self, bump: float | None) -> Iterator[tuple[int, Stage]]:
        """Return slug place and stage in order, cut at the bump and split for the slow-down."""
        flat = [(place, stage) for place, each in enumerate(self.slugs) for stage in each.stages]
        if bump is None:
            yield from flat
            return
        slow_from = bump - self.slow_volume if self.slow_rate else bump
        at = 0.0
        for number, (place, stage) in enumerate(flat, start=1):
            to_bump = number == len(flat) and not stage.volume
            volume = bump - at if to_bump else min(stage.volume, bump - at)
            whole = replace(stage, volume=max(0.0, volume))
            yield from ((place, each) for each in self._slowed(whole, at, slow_from))
            at += whole.volume

    def _slowed(self, stage: Stage, at: float, slow_from: float) -> Iterator[Stage]:
        fast = min(stage.volume, max(0.0, slow_from - at))
        slow = self.slow_rate
        if slow is None or stage.seen or fast >= stage.volume or stage.rate <= slow:
            yield stage
            return
        if fast > 0:
            yield replace(stage, volume=fast, stop=0.0)
        yield replace(stage, volume=stage.volume - fast, rate=slow)


def changed(
    plan: Plan,
    *,
    after: float = 0.0,
    rate: float | None = None,
    density: Mapping[str, float] | None = None,
) -> Plan:
    """Return the plan with a rate or densities by fluid changed.

    They change only what is pumped after the volume `after`.
    """
    if rate is None and not density:
        return plan
    known = {each.fluid.name for each in plan.slugs}
    strange = [name for name in density or {} if name not in known]
    if strange:
        raise DomainError(f"{strange[0]} is not among the fluids to pump: {', '.join(known)}.")
    split, after_slug = divided(plan, after)
    slugs = [
        each if place < after_slug else _changed(each, rate, density or {})
        for place, each in enumerate(split.slugs)
    ]
    return replace(split, slugs=tuple(slugs))


def divided(plan: Plan, at: float) -> tuple[Plan, int]:
    """Return the plan with the slug that is being pumped at a volume cut in two, and the second's
    place in it."""
    before: list[Slug] = []
    for place, (start, each) in enumerate(zip(plan.starts(), plan.slugs, strict=True)):
        if at <= start:
            return plan, place
        to_bump = place == len(plan.slugs) - 1 and not each.stages[-1].volume
        if at < start + each.volume or to_bump:
            parts = halves(each, at - start)
            return with_slugs(plan, [*before, *parts, *plan.slugs[place + 1 :]], place), place + 1
        before.append(each)
    return plan, len(plan.slugs)


def with_slugs(plan: Plan, slugs: Sequence[Slug], grown: int) -> Plan:
    """Return the plan with one slug cut into more; the plugs behind it keep their fluid."""
    more = len(slugs) - len(plan.slugs)
    bottom = tuple(
        replace(plug, ahead_of=plug.ahead_of + more * (plug.ahead_of > grown))
        for plug in plan.bottom_plugs
    )
    top = plan.top_plug
    if top is not None and top > grown:
        top += more
    return replace(plan, slugs=tuple(slugs), bottom_plugs=bottom, top_plug=top)


def halves(whole: Slug, volume: float) -> tuple[Slug, Slug]:
    """Return what of a slug is pumped when a volume of it is, and what is left."""
    first: list[Stage] = []
    rest: list[Stage] = []
    for stage in whole.stages:
        to_bump = not stage.volume
        done = volume if to_bump else min(stage.volume, volume)
        volume -= done
        if done >= stage.volume and not to_bump:
            first.append(stage)
            continue
        if done > 0:
            first.append(replace(stage, volume=done, stop=0.0))
        rest.append(replace(stage, volume=0.0 if to_bump else stage.volume - done))
    return Slug(whole.fluid, tuple(first)), Slug(whole.fluid, tuple(rest))


def _changed(each: Slug, rate: float | None, density: Mapping[str, float]) -> Slug:
    fluid = replace(each.fluid, density=density.get(each.fluid.name, each.fluid.density))
    stages = each.stages if rate is None else tuple(replace(s, rate=rate) for s in each.stages)
    return Slug(fluid, stages)
