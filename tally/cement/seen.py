"""What has been pumped so far, put in the plan's place: the rest of the job is then predicted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise

from tally.cement.plan import Fluid, Plan, Slug, Stage, halves
from tally.errors import DomainError
from tally.formula import require_range

MOST_PIECES = 24
"""What was pumped is cut into no more pieces than this, but for stops and changes of fluid."""

WIDEST = 100.0
"""Times the usual bands; wider ones would join nothing more."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A volume as pumped [m^3]: of which slug (its place), rate [m^3/s], density if read [kg/m^3].

    `stop` is the time that the pump then stood, [s].
    """

    slug: int
    volume: float
    rate: float
    density: float | None = None
    stop: float = 0.0

    def __post_init__(self) -> None:
        require_range("Volume pumped", self.volume, 0.0, 10_000.0, "m3")
        require_range("Rate seen", self.rate, 1e-5, 1.0, "m3/s")
        require_range("Stop", self.stop, 0.0, 1e6, "s")


def as_pumped(plan: Plan, seen: Sequence[Seen]) -> Plan:
    """Return the plan with what was pumped in place of what was planned, the rest as planned.

    A slug before the last one pumped is over, whatever was planned of it. Where a density was
    read the fluid has it for that volume; its flow curve stays the planned one.
    """
    if not seen:
        return plan
    last = _require_order(plan, seen)
    pieces = _few(seen)
    slugs: list[Slug] = []
    begins: list[int] = []
    for place, planned in enumerate(plan.slugs):
        begins.append(len(slugs))
        if place > last:
            slugs.append(planned)
            continue
        done = _done(planned, [piece for piece in pieces if piece.slug == place])
        rest = halves(planned, sum(each.volume for each in done))[1] if place == last else None
        left = [rest] if rest is not None and rest.stages else []
        slugs += [*done, *left] or [Slug(planned.fluid, (_nothing(planned),))]
    bottom = tuple(replace(p, ahead_of=begins[p.ahead_of]) for p in plan.bottom_plugs)
    top = None if plan.top_plug is None else begins[plan.top_plug]
    return replace(plan, slugs=tuple(slugs), bottom_plugs=bottom, top_plug=top)


def _few(seen: Sequence[Seen]) -> tuple[Seen, ...]:
    """Return what was pumped in so few pieces that they are worked out at once."""
    pieces, wider = merged(seen), 1.0
    while len(pieces) > MOST_PIECES and wider < WIDEST:
        wider *= 1.5
        pieces = merged(seen, 0.02 * wider, 6.0 * wider)
    return pieces


def merged(
    seen: Sequence[Seen], rate_share: float = 0.02, density_band: float = 6.0
) -> tuple[Seen, ...]:
    """Return what was pumped in fewer pieces: neighbours of like rate and density are one.

    Volume and time stay; rates within a share of the first of the piece and densities within a
    band [kg/m^3] of it count as like.

    >>> pieces = [Seen(0, 1.0, 0.0200, 1300.0), Seen(0, 1.0, 0.0201, 1302.0), Seen(0, 1.0, 0.01)]
    >>> [(each.volume, round(each.rate, 5)) for each in merged(pieces)]
    [(2.0, 0.02005), (1.0, 0.01)]
    """
    groups: list[list[Seen]] = []
    for each in seen:
        first = groups[-1][0] if groups else None
        if first and not groups[-1][-1].stop and _alike(first, each, rate_share, density_band):
            groups[-1].append(each)
        else:
            groups.append([each])
    return tuple(_one(group) for group in groups)


def _one(group: Sequence[Seen]) -> Seen:
    volume = sum(each.volume for each in group)
    time = sum(each.volume / each.rate for each in group)
    density = group[0].density
    if density is not None and volume > 0:
        density = sum((each.density or density) * each.volume for each in group) / volume
    rate = volume / time if time > 0 else group[0].rate
    return replace(group[0], volume=volume, rate=rate, density=density, stop=group[-1].stop)


def _alike(first: Seen, each: Seen, rate_share: float, density_band: float) -> bool:
    if first.slug != each.slug or abs(each.rate - first.rate) > rate_share * first.rate:
        return False
    if first.density is None or each.density is None:
        return first.density is each.density
    return abs(each.density - first.density) <= density_band


def _done(planned: Slug, pieces: Sequence[Seen]) -> list[Slug]:
    """Return slugs of what was pumped of one, a new one where the density changes."""
    slugs: list[Slug] = []
    for density, group in groupby(pieces, key=lambda piece: piece.density):
        fluid = planned.fluid if density is None else _weighing(planned, density)
        stages = tuple(Stage(each.volume, each.rate, each.stop, seen=True) for each in group)
        slugs.append(Slug(fluid, stages))
    return slugs


def _weighing(planned: Slug, density: float) -> Fluid:
    fluid = planned.fluid
    return replace(fluid, density=density, planned_density=fluid.flows_as)


def _nothing(planned: Slug) -> Stage:
    """Return a stage of nothing: a slug that was left out keeps its place for its plug."""
    return replace(planned.stages[0], volume=0.0, stop=0.0, seen=True)


def _require_order(plan: Plan, seen: Sequence[Seen]) -> int:
    places = [each.slug for each in seen]
    if any(before > after for before, after in pairwise(places)) or not (
        places[0] >= 0 and places[-1] < len(plan.slugs)
    ):
        raise DomainError(
            f"What was pumped names fluids {places[0] + 1} to {places[-1] + 1} of "
            f"{len(plan.slugs)}; they are pumped in the order of the plan."
        )
    return places[-1]
