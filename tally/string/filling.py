"""How many joints may be run before the string must be filled, and what governs that."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tally.errors import DomainError
from tally.fluids.root import bracketed_root
from tally.formula import require_range
from tally.hole.sections import Hole
from tally.hole.survey import Survey
from tally.pipe.collapse import collapse_load, collapse_under_tension
from tally.pipe.interval import PipeInterval, inside_volume
from tally.string.columns import FluidColumn, column, vertical
from tally.string.empty_pipe import require_factor
from tally.string.pieces import StringPiece, hung_at, merged
from tally.string.weights import Span, hanging, weighed

COLLAPSE = "collapse of the pipe"
FLOAT = "rating of the float"
INTERVAL = "interval of the programme"
SLIPS = "weight that holds the slips"
FALL = "fall of the annulus if the float lets go"
NOTHING_SET = (
    "No limit of filling is known; set the grade of the pipe, the rating of the float, the "
    "interval, the least weight in the slips or the greatest fall of the annulus."
)
ORDER = (COLLAPSE, FLOAT, INTERVAL, SLIPS, FALL)


@dataclass(frozen=True, slots=True)
class FillLimits:
    """What must hold while joints are run without filling; None where nobody set a limit.

    The design factor goes with the collapse ratings of the pieces. Rating and pressure in [Pa],
    the load in [N] without blocks; the interval counts joints run since the string was filled.
    """

    design_factor: float = 1.0
    float_rating: float | None = None
    interval: int | None = None
    least_load: float | None = None
    greatest_fall: float | None = None


@dataclass(frozen=True, slots=True)
class FillState:
    """The string as it hangs before the next joint.

    `pieces` from the shoe up; the next joints are `joint`. `empty` is the length along the pipe
    that is empty at the top now [m], `since_fill` the joints run since it was last filled,
    `self_filled` the share of each joint that an auto-fill float lets in (0 once converted).
    """

    pieces: tuple[StringPiece, ...]
    joint: StringPiece
    shoe_depth: float
    survey: Survey
    hole: Hole
    outside_density: float
    inside_density: float
    empty: float = 0.0
    since_fill: int = 0
    self_filled: float = 0.0


@dataclass(frozen=True, slots=True)
class Check:
    """One limit: what it comes to, what it is held against, and whether it holds."""

    name: str
    value: float
    limit: float
    holds: bool


@dataclass(frozen=True, slots=True)
class Standing:
    """The string after some more joints unfilled: its checks, and what happens at the float."""

    joints: int
    empty: float
    difference: float
    load: float
    fall: float
    fall_pressure: float
    checks: tuple[Check, ...]

    @property
    def broken(self) -> tuple[Check, ...]:
        """The limits that do not hold."""
        return tuple(check for check in self.checks if not check.holds)


@dataclass(frozen=True, slots=True)
class FillAnswer:
    """Joints that may still be run unfilled, and what governs ("" when nothing does so far).

    `at` is the string at that count; `past` is the string one joint further, where a limit
    breaks. With joints at 0 and a limit broken in `at`, it must be filled now.
    """

    joints: int
    governs: str
    at: Standing
    past: Standing | None

    @property
    def now(self) -> bool:
        """Whether a limit is broken already."""
        return bool(self.at.broken)


def joints_to_limit(state: FillState, limits: FillLimits, most: int = 100) -> FillAnswer:
    """Return how many joints may be run before the string must be filled.

    Parameters
    ----------
    state : FillState
        The string as it hangs
    limits : FillLimits
        What must hold
    most : int
        Joints looked ahead, [-]

    Returns
    -------
    answer : FillAnswer
        The joints, the limit that breaks with one more, and the figures at both counts

    Raises
    ------
    DomainError
        If a number is out of range, or the pull leaves no strength to rate collapse by.

    Notes
    -----
    Least of five: collapse under the pull on the pipe and with a design factor, at the level
    and at the shoe and where the pipe changes; the float's rating; the programme's interval; the
    load that holds the slips; and the pressure that the annulus loses if the float lets go. The
    first that breaks governs; where several break together they are named in that order.

    Examples
    --------
    >>> from tally.hole.sections import HoleSection
    >>> joint = StringPiece(12.0, 0.2445, 0.2205, 70.0)
    >>> hole = Hole([HoleSection(0.0, 3000.0, 0.315)])
    >>> state = FillState((joint,) * 50, joint, 600.0, Survey(), hole, 1200.0, 1200.0)
    >>> answer = joints_to_limit(state, FillLimits(float_rating=3e6, interval=30))
    >>> answer.joints, answer.governs
    (21, 'rating of the float')
    """
    _require(state, limits)
    state = replace(state, pieces=merged(state.pieces))
    before = standing(state, limits, 0)
    if not before.checks:
        raise DomainError(NOTHING_SET)
    if before.broken:
        return FillAnswer(0, _named(before), before, before)
    for joints in range(1, most + 1):
        after = standing(state, limits, joints)
        if after.broken:
            return FillAnswer(joints - 1, _named(after), before, after)
        before = after
    return FillAnswer(most, "", before, None)


def standing(state: FillState, limits: FillLimits, joints: int) -> Standing:
    """Return how the string stands after some more joints run without filling."""
    added = joints * state.joint.length
    shoe, empty = state.shoe_depth + added, state.empty + added * (1 - state.self_filled)
    pipe = hung_at(merged([*state.pieces, replace(state.joint, length=added)]), shoe)
    inside = column(state.inside_density, min(empty, shoe))
    outside = column(state.outside_density)
    spans = weighed(pipe, inside, outside)
    difference = outside.pressure(shoe, state.survey) - inside.pressure(shoe, state.survey)
    load = hanging(spans, state.survey)
    fall = level_fall(state, pipe, inside.top)
    lost = outside.pressure(fall, state.survey)
    checks = (
        *_collapse(pipe, spans, inside, outside, state.survey, limits.design_factor),
        *_most(FLOAT, difference, limits.float_rating),
        *_most(INTERVAL, state.since_fill + joints, limits.interval),
        *_least(SLIPS, load, limits.least_load),
        *_most(FALL, lost, limits.greatest_fall),
    )
    return Standing(joints, empty, difference, load, fall, lost, checks)


def level_fall(state: FillState, pipe: Sequence[PipeInterval], level: float) -> float:
    """Return how far the annulus falls if the float lets go, [m], from the top of the hole.

    Mud flows in at the shoe until the columns balance; what the annulus loses is what the pipe
    gains. Near the top the hole is taken as vertical.
    """
    top, shoe = state.hole.top, pipe[-1].bottom
    if level <= top or state.outside_density <= 0:
        return 0.0
    standing_inside = vertical(shoe, state.survey) - vertical(level, state.survey)
    apart = standing_inside * (1 - state.inside_density / state.outside_density)

    def short(fall: float) -> float:
        """Return what the pipe could still take when the annulus has fallen so far."""
        gained = inside_volume(pipe, max(top, fall - apart), level)
        return gained - state.hole.annulus(pipe, top, fall)

    deepest = min(level + apart, shoe)
    if deepest <= top or short(top) <= 0:
        return 0.0
    return bracketed_root(short, top, deepest) - top


def _collapse(
    pipe: Sequence[PipeInterval],
    spans: Sequence[Span],
    inside: FluidColumn,
    outside: FluidColumn,
    survey: Survey,
    factor: float,
) -> list[Check]:
    """Return the check of the place where most of the collapse rating is used, if one is known."""
    found: list[Check] = []
    for each in pipe:
        if each.yield_strength is None and each.collapse_rating is None:
            continue
        depths = {max(each.top, min(inside.top, each.bottom)), each.bottom}
        for depth in depths:
            pressures = outside.pressure(depth, survey), inside.pressure(depth, survey)
            load = collapse_load(each.outer_diameter, each.wall, *pressures)
            limit = collapse_strength(each, hanging(spans, survey, depth)) / factor
            found.append(Check(COLLAPSE, load, limit, load <= limit))
    return [max(found, key=lambda check: check.value / check.limit)] if found else []


def collapse_strength(pipe: PipeInterval, pull: float) -> float:
    """Return the collapse rating under a pull; a typed one stands as the data sheet has it."""
    if pipe.collapse_rating is not None:
        return pipe.collapse_rating
    assert pipe.yield_strength is not None  # the caller has left such pipe out
    stress = max(0.0, pull) / pipe.body
    return collapse_under_tension(pipe.outer_diameter, pipe.wall, pipe.yield_strength, stress)[0]


def _most(name: str, value: float, limit: float | None) -> list[Check]:
    return [] if limit is None else [Check(name, value, limit, value <= limit)]


def _least(name: str, value: float, limit: float | None) -> list[Check]:
    return [] if limit is None else [Check(name, value, limit, value >= limit)]


def _named(after: Standing) -> str:
    return " and ".join(name for name in ORDER if name in {each.name for each in after.broken})


def _require(state: FillState, limits: FillLimits) -> None:
    require_factor(limits.design_factor)
    require_range("Empty pipe", state.empty, 0.0, state.shoe_depth, "m")
    require_range("Share that fills itself", state.self_filled, 0.0, 1.0, "")
    require_range("Length of a joint", state.joint.length, 0.5, 20.0, "m")
