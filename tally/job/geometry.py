"""Where the string and the hole lie: the pipe of the job in the hole of its set-up."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from itertools import groupby, pairwise
from typing import Generic, TypeVar

from tally.errors import InputError, Missing
from tally.hole import sections, survey
from tally.job import depths
from tally.job.job import Job
from tally.job.setup import EXCESS_ON, Pipe, PreviousCasing, Setup
from tally.pipe.capacity import open_end_displacement
from tally.pipe.grades import minimum_yield
from tally.pipe.interval import PipeInterval
from tally.pipe.weight import STEEL_DENSITY
from tally.string.drag import DragPath
from tally.string.pieces import StringPiece, hung_at, merged

DEEPEST = 30_000.0
"""[m]; the lowest section of the hole and the path of the hole reach so far."""

ON_HOLE = EXCESS_ON[1]

Of = TypeVar("Of")
Worth = TypeVar("Worth")


class Last(Generic[Of, Worth]):
    """A function whose answer for the thing asked about last is kept; that thing never changes."""

    def __init__(self, function: Callable[[Of], Worth]) -> None:
        self._function = function
        self._kept: tuple[Of, Worth] | None = None

    def __call__(self, thing: Of) -> Worth:
        """Return the answer for a thing."""
        if self._kept is None or self._kept[0] is not thing:
            self._kept = (thing, self._function(thing))
        return self._kept[1]


def _string_pieces(job: Job) -> tuple[StringPiece, ...]:
    """Return what is run from the shoe up, like neighbours together."""
    setup = job.known
    pieces = []
    for name, items in groupby(job.string, key=lambda made: made.pipe):
        length = setup.step.si(sum(made.length for made in items))
        pieces.append(piece_of(setup.pipe(name), length))
    return merged(pieces)


string_pieces = Last(_string_pieces)
"""What is run of a job, from the shoe up, like neighbours together."""


def piece_of(pipe: Pipe, length: float) -> StringPiece:
    """Return a length of a pipe of the set-up, [m]."""
    return replace(_kind_of(pipe), length=length)


@cache
def by_length(pipe: Pipe) -> PipeInterval:
    """Return a pipe of the set-up at no place: for what it holds and pushes aside by length."""
    return _kind_of(pipe).hung(0.0, 0.0)


@cache
def _kind_of(pipe: Pipe) -> StringPiece:
    """Return what a pipe is; weight beyond that of its body is the steel of the couplings."""
    body = open_end_displacement(pipe.outer_diameter.value, pipe.inner_diameter.value)
    rating = pipe.collapse_rating
    return StringPiece(
        0.0,
        pipe.outer_diameter.value,
        pipe.inner_diameter.value,
        pipe.weight.value,
        max(0.0, pipe.weight.value / STEEL_DENSITY - body),
        yield_of(pipe),
        rating.value if rating else None,
    )


def _hung(job: Job) -> tuple[PipeInterval, ...]:
    step = job.known.step
    shoe, top = step.si(depths.shoe_depth(job)), -step.si(depths.stick_up(job))
    return hung_at(string_pieces(job), shoe, top)


hung = Last(_hung)
"""The string of a job where it hangs, from the top down; at least one item must be run."""


def yield_of(pipe: Pipe) -> float | None:
    """Return the yield strength of a pipe of a standard grade, [Pa]; of another nothing."""
    try:
        return minimum_yield(pipe.grade)
    except InputError:
        return None


def _path(setup: Setup) -> survey.Survey:
    return survey.Survey(
        [
            survey.Station(each.measured_depth.value, each.inclination.value, each.azimuth.value)
            for each in setup.survey
        ]
    )


path_of = Last(_path)
"""The path of the hole by the survey of the set-up; without one it is vertical."""


def _drag(setup: Setup) -> DragPath:
    weights, shoe = setup.weights, hole_of(setup).previous_shoe
    cased, bare = weights.friction_cased, weights.friction_open
    return DragPath(
        path_of(setup),
        DEEPEST,
        shoe,
        cased.value if cased else 0.0,
        bare.value if bare else 0.0,
    )


drag_of = Last(_drag)
"""The hole with the friction factors of the set-up."""


def hole_with_excess(setup: Setup, excess: float | None) -> sections.Hole:
    """Return the hole of a set-up with another excess of all its open part, or with its own."""
    casings = [each for each in (setup.previous, *setup.other_casings) if each is not None]
    cuts = {0.0, DEEPEST}
    for casing in casings:
        cuts |= {_top(casing), casing.shoe.value}
    for part in setup.sections:
        cuts |= {part.top.value, part.bottom.value}
    ordered = sorted(cut for cut in cuts if cut <= DEEPEST)
    return sections.Hole(
        [_section(setup, casings, upper, lower, excess) for upper, lower in pairwise(ordered)]
    )


def _hole(setup: Setup) -> sections.Hole:
    return hole_with_excess(setup, None)


hole_of = Last(_hole)
"""The hole of the set-up, casing by casing and section by section.

Its excess is on the volume that the set-up names; `require_excess_said` where none is named.
"""


def require_excess_said(setup: Setup) -> None:
    """Refuse an excess of which nobody said what it is a share of."""
    excess = any(part.excess is not None for part in setup.sections)
    if excess and not setup.pumping.excess_applies_to:
        raise Missing(
            "A section of the hole has an excess, and sources differ in what it is a share of: say "
            "in the cementing programme of the set-up whether of the annulus or of the hole."
        )


def _top(casing: PreviousCasing) -> float:
    return casing.top.value if casing.top else 0.0


def _section(
    setup: Setup,
    casings: list[PreviousCasing],
    upper: float,
    lower: float,
    excess: float | None,
) -> sections.HoleSection:
    """Return what is around the pipe between two depths: the innermost casing, else the hole."""
    around = [
        casing.inner_diameter.value
        for casing in casings
        if _top(casing) <= upper and lower <= casing.shoe.value
    ]
    if around:
        return sections.HoleSection(upper, lower, min(around), cased=True)
    for part in setup.sections:
        if part.top.value <= upper and lower <= part.bottom.value:
            size = part.caliper or part.diameter
            own = part.excess.value if part.excess else 0.0
            share = own if excess is None else excess
            return _open_hole(setup, upper, lower, size.value, share)
    return _open_hole(setup, upper, lower, setup.hole.diameter.value, excess or 0.0)


def _open_hole(
    setup: Setup, upper: float, lower: float, diameter: float, excess: float
) -> sections.HoleSection:
    """Return open hole: an excess on the hole makes it wider, one on the annulus stays a share."""
    on_annulus = sections.HoleSection(upper, lower, diameter, excess=excess)
    if setup.pumping.excess_applies_to != ON_HOLE:
        return on_annulus
    return replace(on_annulus, diameter=diameter * (1 + excess) ** 0.5, excess=0.0)
