"""The end of a placement: lift pressure, the bump and its margin, pull, collapse, and lift."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tally.cement.floats import weakest
from tally.cement.placement import Placement
from tally.errors import DomainError
from tally.formula import require_range
from tally.hole.survey import Survey
from tally.pipe.collapse import collapse_load
from tally.pipe.interval import PipeInterval
from tally.pipe.ratings import internal_yield
from tally.string.columns import FluidColumn
from tally.string.filling import collapse_strength
from tally.string.pull import lift_by_pressure, tension_with_pressure
from tally.string.weights import Span, hanging, weighed

PIPE = "casing"
PULLED = "collapse of the casing where it is pulled hardest"


@dataclass(frozen=True, slots=True)
class Margin:
    """A pressure against what is rated for it: of what, where [m], and both, [Pa]."""

    name: str
    depth: float
    pressure: float
    rating: float

    @property
    def left(self) -> float:
        """What the rating leaves, [Pa]; below zero it is exceeded."""
        return self.rating - self.pressure


@dataclass(frozen=True, slots=True)
class Ending:
    """Pressures [Pa] and forces [N] at the end of a placement.

    A margin is None where nothing is rated; `unrated` names what has no rating.
    """

    static_lift: float
    """Columns outside less inside with nothing moving: what the floats hold."""
    final_lift: float
    """The same at the head while pumping, just before the bump."""
    bump: float
    """Final lift and what is put on top of it."""
    inside: Margin | None
    """The weakest rating against pressure from inside at the bump."""
    tension: float
    """Pull in the top joint at the bump."""
    hung: float
    """Weight hanging in the columns as they stand at the end."""
    collapse: Margin | None
    """Where collapse is nearest while the final lift is kept on."""
    collapse_bled: Margin | None
    """The same with the pressure bled off and the floats holding."""
    lift: float
    """Upward force of friction and back pressure in the annulus on the closed end."""
    weight_left: float
    """Weight hanging less lift; below zero the casing rises."""
    lift_margin: float
    """Pressure below the shoe that would still be carried."""
    unrated: tuple[str, ...]


def ending(
    placement: Placement, beyond: float, ratings: Sequence[tuple[str, float | None]] = ()
) -> Ending:
    """Return what the end of a placement comes to.

    Parameters
    ----------
    placement : Placement
        The job to its bump
    beyond : float
        Pressure put on top of the final lift at the bump, [Pa]
    ratings : sequence of (str, float or None)
        What else sees the pressure at the head, with its rating, [Pa]: head, lines, plugs, floats

    Returns
    -------
    ending : Ending
        Pressures, forces and margins

    Raises
    ------
    DomainError
        If the top plug does not come to the float collar, or a number is out of range.

    Notes
    -----
    From inside each pipe is held against its internal yield at its ends, with both columns in
    it. The pull is the weight that hangs in the columns and the bump pressure on the bore of the
    top joint. Collapse counts above the float collar: below it the inside has the pressure of
    the outside. Friction and back pressure at the shoe lift the closed end; the pump's pressure
    works on both ends of the casing and drops out.
    """
    require_range("Pressure on top of the final lift", beyond, 0.0, 100e6, "Pa")
    if not placement.bumped:
        raise DomainError(
            "The top plug does not come to the float collar with what is to be pumped; give the "
            "displacement a volume to the bump, or none so that it goes on to it."
        )
    end = _End.of(placement)
    final = placement.pressure[-1]
    bump = final + beyond
    head = weakest(ratings)
    inside = end.inside_margins(bump)
    if head is not None:
        inside.append(Margin(head.name, end.pipe[0].top, bump, head.pressure))
    friction = max(0.0, placement.points[0].pressure[-1] - end.outer(end.pipe[-1].bottom))
    lift, left, margin = lift_by_pressure(
        end.hung, end.pipe[-1].outer_diameter, friction + end.back
    )
    return Ending(
        static_lift=end.outer(end.pipe[-1].bottom) - end.inner(end.pipe[-1].bottom),
        final_lift=final,
        bump=bump,
        inside=_least(inside),
        # a string that floats in its columns still hangs by the pressure on its bore
        tension=end.hung + tension_with_pressure(0.0, end.pipe[0].inner_diameter, bump)[1],
        hung=end.hung,
        collapse=_least(end.collapse_margins(final)),
        collapse_bled=_least(end.collapse_margins(0.0)),
        lift=lift,
        weight_left=left,
        lift_margin=margin,
        unrated=(*(head.unrated if head else tuple(n for n, _ in ratings)), *end.unrated()),
    )


@dataclass(frozen=True, slots=True)
class _End:
    """The columns and the string as they stand at the end; pressures of the columns, [Pa]."""

    pipe: tuple[PipeInterval, ...]
    collar: float
    survey: Survey
    column: FluidColumn
    annulus: FluidColumn
    back: float
    spans: tuple[Span, ...]

    @classmethod
    def of(cls, placement: Placement) -> _End:
        well, volume = placement.plan.well, placement.volume[-1]
        column, annulus = placement.inside(volume), placement.outside(volume)
        spans = weighed(well.pipe, column, annulus)
        back = placement.plan.back_pressure
        return cls(well.pipe, well.collar, well.survey, column, annulus, back, spans)

    @property
    def hung(self) -> float:
        return hanging(self.spans, self.survey)

    def inner(self, depth: float) -> float:
        return self.column.pressure(depth, self.survey)

    def outer(self, depth: float) -> float:
        return self.annulus.pressure(depth, self.survey) + self.back

    def inside_margins(self, at_head: float) -> list[Margin]:
        found = []
        for each, depth in self._places():
            if each.yield_strength is not None:
                rating, _ = internal_yield(each.outer_diameter, each.wall, each.yield_strength)
                load = at_head + self.inner(depth) - self.outer(depth)
                found.append(Margin(PIPE, depth, load, rating))
        return found

    def collapse_margins(self, at_head: float) -> list[Margin]:
        found = []
        for each, depth in self._places():
            if each.yield_strength is not None or each.collapse_rating is not None:
                outside, inside = self.outer(depth), at_head + self.inner(depth)
                load = collapse_load(each.outer_diameter, each.wall, outside, inside)
                rating = self.strength(each, depth)
                if rating is not None:
                    found.append(Margin(PIPE, depth, load, rating))
        return found

    def strength(self, each: PipeInterval, depth: float) -> float | None:
        """Return the collapse strength under the pull; None where the pull leaves too little."""
        try:
            return collapse_strength(each, hanging(self.spans, self.survey, depth))
        except DomainError:
            return None

    def unrated(self) -> tuple[str, ...]:
        if any(each.yield_strength is None for each in self.pipe):
            return (PIPE,)
        pulled = any(self.strength(each, depth) is None for each, depth in self._places())
        return (PULLED,) if pulled else ()

    def _places(self) -> list[tuple[PipeInterval, float]]:
        """Return the ends of each pipe above the float collar, and where the fluids change."""
        changes = [*self.column.breaks(), *self.annulus.breaks()]
        return [
            (each, depth)
            for each in self.pipe
            for depth in (each.top, min(each.bottom, self.collar), *changes)
            if each.top <= depth <= min(each.bottom, self.collar)
        ]


def _least(margins: Sequence[Margin]) -> Margin | None:
    return min(margins, key=lambda margin: margin.left) if margins else None
