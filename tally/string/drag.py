"""Weights on moving: slack-off and pick-up of a soft string along the survey."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, cos, sin, sqrt

from tally.formula import Term, formula, require_range
from tally.hole.survey import Leg, Station, Survey, make_leg
from tally.hole.survey_leg import ANGLE_RANGE, DEPTH_RANGE, LEG
from tally.string.columns import vertical
from tally.string.weights import Span, hanging

FINEST_TURN = 0.05
"""[rad]; an arc that turns more is cut into elements that turn less."""

STRAIGHT = 1e-7
"""[rad]; a leg that turns less is straight."""

FRICTION = Term("friction", "friction factor between pipe and hole", "number", "")
FRICTION_RANGE = "friction factor 0 to 1"
SOURCE = (
    "soft string: Johancsik, Friesen and Dawson, Torque and Drag in Directional Wells, SPE 11380, "
    "1984 (first page seen), with the contact force of a curved string in vector form"
)


@dataclass(frozen=True, slots=True)
class Weights:
    """Hook loads without blocks [N]: at rest and without friction, going down, coming up."""

    hanging: float
    slack_off: float
    pick_up: float

    def with_block(self, block: float) -> Weights:
        """Return the loads that the indicator shows with blocks and tools of that weight [N]."""
        return Weights(self.hanging + block, self.slack_off + block, self.pick_up + block)


@dataclass(frozen=True, slots=True)
class Element:
    """A short arc of the hole: its way down, its turn, and what presses the pipe to its wall.

    `lean` is the length times the vertical part of the direction in which the arc bends,
    `across` the square of the length times the vertical part across arc and bend.
    """

    top: float
    bottom: float
    down: float
    turn: float
    lean: float
    across: float
    friction: float

    def part(self, top: float, bottom: float, down: float) -> Element:
        """Return the element between two depths in it, with the way down between them."""
        share = (bottom - top) / (self.bottom - self.top)
        return Element(
            top,
            bottom,
            down,
            self.turn * share,
            self.lean * share,
            self.across * share * share,
            self.friction,
        )


class DragPath:
    """The hole cut into short arcs, each with its friction factor.

    Parameters
    ----------
    survey : Survey
        Path of the hole
    bottom : float
        Measured depth down to which the path is wanted, [m]
    previous_shoe : float
        Measured depth of the shoe of the previous casing, [m]
    cased, open_hole : float
        Friction factors above and below that shoe, set by a person, [-]

    Raises
    ------
    DomainError
        If a depth or a friction factor is out of range.

    Notes
    -----
    A soft string lies along the hole, has no stiffness and pushes on the wall with
    |T * curvature + weight across|. T is the pull that the fluids' pressure is taken off
    (effective tension), so it starts from 0 at the shoe, open or closed. From element to element
    the pull is carried at mid-element, which is exact in straight hole; arcs turn 3 degrees at
    most. Above the datum the hole is taken as vertical.
    """

    def __init__(
        self,
        survey: Survey,
        bottom: float,
        previous_shoe: float,
        cased: float,
        open_hole: float,
    ) -> None:
        require_range("Bottom of the path", bottom, 1.0, 30_000.0, "m")
        require_range("Previous shoe", previous_shoe, 0.0, 30_000.0, "m")
        require_friction("Friction factor in casing", cased)
        require_friction("Friction factor in open hole", open_hole)
        self.survey = survey
        self.bottom = bottom
        nodes = _nodes(survey, bottom, previous_shoe)
        self.elements: list[Element] = [
            _element(survey, upper, lower, cased if lower <= previous_shoe else open_hole)
            for upper, lower in pairwise(nodes)
        ]
        self._tops = [element.top for element in self.elements]
        self._bottoms = [element.bottom for element in self.elements]

    def weights(self, spans: Sequence[Span]) -> Weights:
        """Return the hook loads of a string in its fluids, its lowest span at the shoe."""
        down = up = 0.0
        for span in reversed(spans):
            for element in self._between(max(0.0, span.top), span.bottom):
                down, up = _carried(element, span.weight, down, up)
            if span.top < 0:
                above = span.weight * (min(0.0, span.bottom) - span.top)
                down, up = down + above, up + above
        return Weights(hanging(spans, self.survey), down, up)

    def _between(self, top: float, bottom: float) -> list[Element]:
        """Return the elements between two depths from the bottom up, cut at the ends."""
        require_range("Depth", bottom, -100.0, self.bottom + 1e-6, "m")
        if bottom <= top:
            return []
        first = max(0, bisect_right(self._tops, top) - 1)
        last = min(bisect_left(self._bottoms, bottom), len(self.elements) - 1)
        found = self.elements[first : last + 1]
        found[-1] = self._cut(found[-1], top, bottom)
        if len(found) > 1:
            found[0] = self._cut(found[0], top, bottom)
        found.reverse()
        return found

    def _cut(self, element: Element, top: float, bottom: float) -> Element:
        upper, lower = max(element.top, top), min(element.bottom, bottom)
        if upper == element.top and lower == element.bottom:
            return element
        way = vertical(lower, self.survey) - vertical(upper, self.survey)
        return element.part(upper, lower, way)


def _carried(element: Element, weight: float, down: float, up: float) -> tuple[float, float]:
    """Return the pulls at the top of an element from those at its foot, moving down and up."""
    way = weight * element.down
    lean, across = weight * element.lean, weight * weight * element.across
    turn, friction = element.turn, element.friction
    if not turn:
        drag = friction * sqrt(lean * lean + across)
        return down + way - drag, up + way + drag
    push = down * turn + lean
    middle = down + (way - friction * sqrt(push * push + across)) / 2
    push = middle * turn + lean
    down += way - friction * sqrt(push * push + across)
    push = up * turn + lean
    middle = up + (way + friction * sqrt(push * push + across)) / 2
    push = middle * turn + lean
    return down, up + way + friction * sqrt(push * push + across)


def _nodes(survey: Survey, bottom: float, previous_shoe: float) -> list[float]:
    """Return the depths at which elements end: stations, the shoe above, finer in sharp arcs."""
    nodes = {0.0, bottom}
    if previous_shoe < bottom:
        nodes.add(previous_shoe)
    for leg in survey.legs:
        pieces = max(1, ceil(leg.angle / FINEST_TURN))
        cuts = (leg.top + leg.length * step / pieces for step in range(pieces + 1))
        nodes.update(depth for depth in cuts if depth < bottom)
    return sorted(nodes)


def _element(survey: Survey, top: float, bottom: float, friction: float) -> Element:
    leg, _ = survey.leg_at((top + bottom) / 2)
    upper, lower = (top - leg.top) / leg.length, (bottom - leg.top) / leg.length
    return replace(_share_of(leg, upper, lower, friction), top=top, bottom=bottom)


def _share_of(leg: Leg, upper: float, lower: float, friction: float) -> Element:
    """Return the element from one share of a leg to another."""
    length = (lower - upper) * leg.length
    turn = leg.severity * length if leg.angle >= STRAIGHT else 0.0
    down = leg.position(lower)[2] - leg.position(upper)[2]
    lean, across = _pressing(leg, (upper + lower) / 2)
    top, bottom = leg.top + upper * leg.length, leg.top + lower * leg.length
    return Element(top, bottom, down, turn, lean * length, across * length * length, friction)


def _pressing(leg: Leg, share: float) -> tuple[float, float]:
    """Return the vertical part of the bend's direction, and the square of that across it."""
    along = leg.direction(share)[2]
    if leg.angle < STRAIGHT:
        return 0.0, max(0.0, 1 - along * along)
    # the tangent of the arc, derived by the angle turned: a unit vector into the bend
    one, two = cos((1 - share) * leg.angle), cos(share * leg.angle)
    bend = (two * leg.last[2] - one * leg.first[2]) / sin(leg.angle)
    return bend, max(0.0, 1 - along * along - bend * bend)


def require_friction(thing: str, friction: float) -> None:
    """Refuse what is no friction factor."""
    require_range(thing, friction, 0.0, 1.0, "")


@formula(
    "drag-leg",
    "Pull at the top of one survey leg from that at its foot: at rest, going down, coming up",
    inputs=[
        Term("foot", "pull at the lower station, pressure of the fluids taken off", "force",
             "klbf"),
        Term("weight", "buoyed weight by length", "force per length", "lbf/ft"),
        *LEG,
        FRICTION,
    ],
    outputs=[
        Term("hanging", "pull at the upper station without friction", "force difference", "klbf"),
        Term("slack-off", "pull at the upper station going down", "force difference", "klbf"),
        Term("pick-up", "pull at the upper station coming up", "force difference", "klbf"),
    ],
    source=SOURCE,
    range=f"pull 0 to 20 MN; buoyed weight 0 to 15 kN/m; {DEPTH_RANGE}; {ANGLE_RANGE}; "
    f"{FRICTION_RANGE}",
)  # fmt: skip
def drag_leg(
    foot: float,
    weight: float,
    upper: float,
    upper_inclination: float,
    upper_azimuth: float,
    lower: float,
    lower_inclination: float,
    lower_azimuth: float,
    friction: float,
) -> tuple[float, float, float]:
    """Return the pull at the top of one survey leg: at rest, going down and coming up.

    Parameters
    ----------
    foot : float
        Pull at the lower station, the pressure of the fluids taken off, [N]
    weight : float
        Buoyed weight by length along the pipe, [N/m]
    upper, lower : float
        Measured depth of the two stations, [m]
    upper_inclination, lower_inclination : float
        Inclination from the vertical, [rad]
    upper_azimuth, lower_azimuth : float
        Direction from north, clockwise, [rad]
    friction : float
        Friction factor, [-]

    Returns
    -------
    hanging : float
        Pull at the upper station without friction, [N]
    slack_off : float
        Pull at the upper station while the pipe goes down, [N]
    pick_up : float
        Pull at the upper station while the pipe comes up, [N]

    Raises
    ------
    DomainError
        If a number is out of range, or the stations do not follow one another.

    Notes
    -----
    The pipe pushes on the wall with |T * curvature + weight across|: in a build under pull the
    two are against one another, in a drop or a turn they add up [1]_. Stiffness and the
    fit of centralizers are not counted; set the friction factor from weights seen on the job.

    Examples
    --------
    >>> values = drag_leg(500e3, 600.0, 1000.0, 0.5, 0.3, 1030.0, 0.4, 0.3, 0.3)
    >>> [round(value) for value in values]
    [516201, 498868, 534057]

    References
    ----------
    .. [1] Johancsik, Friesen and Dawson, SPE 11380, 1984.
    """
    require_range("Pull at the foot", foot, 0.0, 20e6, "N")
    require_range("Buoyed weight by length", weight, 0.0, 15e3, "N/m")
    require_friction("Friction factor", friction)
    leg = make_leg(
        Station(upper, upper_inclination, upper_azimuth),
        Station(lower, lower_inclination, lower_azimuth),
        (0.0, 0.0, 0.0),
    )
    pieces = max(1, ceil(leg.angle / FINEST_TURN))
    down = up = foot
    for step in range(pieces, 0, -1):
        element = _share_of(leg, (step - 1) / pieces, step / pieces, friction)
        down, up = _carried(element, weight, down, up)
    return foot + weight * leg.position(1.0)[2], down, up
