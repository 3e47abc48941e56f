"""What the picture of the well shows: casings, hole, pipe, fluids and pieces, by depth [m]."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tally.errors import ShoedownError
from tally.job.cement_job import programme_of
from tally.job.geometry import hole_of, hung
from tally.job.job import Job
from tally.job.planned_string import as_planned
from tally.reports.final_tally import FinalTally

OPEN, CASED = "open hole", "cased"


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of something of one diameter, or of two with something between them."""

    what: str
    top: float
    bottom: float
    outer: float
    inner: float = 0.0


@dataclass(frozen=True, slots=True)
class Fluid:
    """A fluid of the programme around the pipe."""

    name: str
    kind: str
    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Named:
    """A depth that has a name."""

    text: str
    depth: float


@dataclass(frozen=True, slots=True)
class Well:
    """Everything the picture shows."""

    deepest: float
    casings: tuple[Stretch, ...]
    hole: tuple[Stretch, ...]
    pipe: tuple[Stretch, ...]
    shoe: float
    collar: float | None
    fluids: tuple[Fluid, ...]
    lacks: str
    """Why no fluids are shown."""
    pieces: tuple[tuple[str, tuple[float, ...]], ...]
    """Each kind of centralizer or scratcher with the middles of its joints."""
    names: tuple[Named, ...]


def well_of(tally: FinalTally) -> Well:
    """Return the well with its string as it stands."""
    job, setup, step = tally.job, tally.setup, tally.setup.step
    track = tally.shoe_track
    shoe = step.si(tally.depths.shoe) if tally.rows else 0.0
    fluids, lacks = _fluids(job)
    return Well(
        deepest=max(setup.hole.depth.value, shoe),
        casings=tuple(_casings(job)),
        hole=tuple(_hole(job)),
        pipe=tuple(
            Stretch(
                "pipe", max(0.0, each.top), each.bottom, each.outer_diameter, each.inner_diameter
            )
            for each in (hung(job) if tally.rows else ())
            if each.bottom > 0
        ),
        shoe=shoe,
        collar=step.si(track[-1].top) if track else None,
        fluids=fluids,
        lacks=lacks,
        pieces=_pieces(tally),
        names=tuple(_names(tally, fluids)),
    )


def _casings(job: Job) -> Iterator[Stretch]:
    setup = job.known
    for casing in (setup.previous, *setup.other_casings):
        if casing is not None:
            top = casing.top.value if casing.top else 0.0
            yield Stretch(casing.name, top, casing.shoe.value, casing.inner_diameter.value)


def _hole(job: Job) -> Iterator[Stretch]:
    """Yield what a fluid around the pipe stands in, from the top down."""
    depth = job.known.hole.depth.value
    for part in hole_of(job.known).sections:
        if part.top < depth:
            what = CASED if part.cased else OPEN
            yield Stretch(what, part.top, min(part.bottom, depth), part.diameter)


def _fluids(job: Job) -> tuple[tuple[Fluid, ...], str]:
    try:
        placed = programme_of(as_planned(job)).placed
    except ShoedownError as lack:
        return (), str(lack)
    return tuple(Fluid(one.name, one.kind, one.top, one.bottom) for one in placed), ""


def _pieces(tally: FinalTally) -> tuple[tuple[str, tuple[float, ...]], ...]:
    si = tally.setup.step.si
    kinds: dict[str, list[float]] = {}
    for row in tally.rows:
        for fitting in row.fittings:
            kinds.setdefault(fitting.what, []).append(si(row.top + row.bottom) / 2)
    return tuple((kind, tuple(depths)) for kind, depths in kinds.items())


def _names(tally: FinalTally, fluids: tuple[Fluid, ...]) -> Iterator[Named]:
    setup, step = tally.setup, tally.setup.step
    for casing in (setup.previous, *setup.other_casings):
        if casing is not None:
            yield Named(f"{casing.name}, shoe {casing.shoe.text}", casing.shoe.value)
    for zone in setup.zones:
        yield Named(f"{zone.name}, {zone.top.text} to {zone.bottom.text}", zone.top.value)
    for row in tally.rows:
        if not row.joint:
            depth = row.bottom if row.kind == "shoe" else row.top
            yield Named(f"{row.kind} {step.with_unit(depth)}", step.si(depth))
    for fluid in fluids:
        top = step.with_unit(step.steps(fluid.top))
        yield Named(f"{fluid.name}, top {top} by the programme", fluid.top)
    yield Named(f"hole {setup.hole.depth.text}", setup.hole.depth.value)
