"""The string as it goes down: what moves with the next joint, and what the hole can bear."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tally.errors import Missing, ShoedownError
from tally.hole.survey import Survey
from tally.job import depths
from tally.job.counts import next_item
from tally.job.geometry import Last, hole_of, path_of, piece_of, string_pieces
from tally.job.job import Job
from tally.job.rheology import curve_of
from tally.job.setup import MUD, Setup
from tally.job.volumes import entering
from tally.job.weight_band import whole_string
from tally.pipe.weight import STANDARD_GRAVITY
from tally.string.pieces import StringPiece, hung_at
from tally.string.surge import Bound, Greatest, MovingString, Mud, moving_string

SHALLOWEST = 1.0
"""[m]; nearer to the datum a pressure is no density."""


@dataclass(frozen=True, slots=True)
class Lowered:
    """A string with its shoe at a depth [m], on the move; `joint` is the length going down [m]."""

    string: MovingString
    shoe: float
    joint: float
    name: str


@dataclass(frozen=True, slots=True)
class Point:
    """A place that can bear only so much: its name, depths [m], and the density there [kg/m^3]."""

    name: str
    depth: float
    true_vertical: float
    density: float

    def equivalent(self, mud: float, pressure: float) -> float:
        """Return the density that presses here as the mud and a pressure do together."""
        return mud + pressure / (STANDARD_GRAVITY * self.true_vertical)

    def pressure(self, added: float) -> float:
        """Return the pressure here of a density added to the mud, [Pa]."""
        return added * STANDARD_GRAVITY * self.true_vertical


def _going_down(job: Job) -> Lowered:
    """Return the string with the next joint on it, at the end of its way down.

    With nothing more to run, or on depth, it is the string as it is.
    """
    step, due = job.known.step, None if job.landing else next_item(job)
    pieces: Sequence[StringPiece] = string_pieces(job)
    length = step.si(job.length)
    if due is not None:
        added = piece_of(job.known.pipe(due.pipe), step.si(due.length))
        pieces, length = (*pieces, added), length + added.length
        joint, name = added.length, due.number
    elif job.string:
        joint, name = step.si(job.string[-1].length), job.string[-1].number
    else:
        raise Missing("Nothing is run yet, and nothing is left to run.")
    top = step.si(depths.stick_up(job))
    shoe = length - top
    if shoe <= SHALLOWEST:
        raise Missing("The shoe is not below the datum yet.")
    return Lowered(moving(job, pieces, shoe), shoe, joint, name)


going_down = Last(_going_down)
"""The string of a job as it goes down with its next joint."""


def moving(job: Job, pieces: Sequence[StringPiece], shoe: float) -> MovingString:
    """Return pieces as they move with their shoe at a depth, the foot as the job has it."""
    setup = job.known
    pipe = hung_at(pieces, shoe, -setup.step.si(depths.stick_up(job)))
    share = entering(job) if setup.filling.closed_end else None
    return moving_string(pipe, hole_of(setup), mud_of(setup), share)


def mud_of(setup: Setup) -> Mud:
    """Return the mud in the hole; raises Missing where its flow is not set up."""
    return Mud(setup.pumping.mud_weight.value, curve_of(setup, MUD))


def weak_points(setup: Setup, shoe: float) -> tuple[Point, ...]:
    """Return where the open hole takes fluid, and at which density, with the shoe at a depth.

    The shoe of the last casing and the zones below it; a zone counts at its ends, where the hole
    changes, and at the shoe. What lies behind casing bears nothing.
    """
    hole = hole_of(setup)
    casings = [each for each in (setup.previous, *setup.other_casings) if each is not None]
    points = [
        (f"the shoe of {each.name}", each.shoe.value, each.weak_at.value)
        for each in casings
        if each.weak_at is not None and each.shoe.value == hole.previous_shoe
    ]
    for zone in setup.zones:
        if zone.weak_at is not None:
            places = _places(setup, zone.top.value, zone.bottom.value, shoe)
            points += [(zone.name, place, zone.weak_at.value) for place in places]
    return tuple(_points(path_of(setup), points))


def pore_points(setup: Setup, shoe: float) -> tuple[Point, ...]:
    """Return where the open hole holds fluid, and the density of its pressure."""
    points = [
        (zone.name, place, zone.pore.value)
        for zone in setup.zones
        if zone.pore is not None
        for place in _places(setup, zone.top.value, zone.bottom.value, shoe)
    ]
    return tuple(_points(path_of(setup), points))


def _places(setup: Setup, top: float, bottom: float, shoe: float) -> list[float]:
    """Return the depths of a zone that count: its open ends, the shoe, the changes of the hole."""
    hole = hole_of(setup)
    upper = max(top, hole.previous_shoe)
    if upper > bottom:
        return []
    changes = [shoe, *(section.bottom for section in hole.sections)]
    return sorted({upper, bottom, *(each for each in changes if upper < each < bottom)})


def point_at(setup: Setup, name: str, depth: float) -> Point:
    """Return a place of the hole for which no density is set."""
    return Point(name, depth, path_of(setup).true_vertical(depth), 0.0)


def _points(path: Survey, points: Sequence[tuple[str, float, float]]) -> Iterator[Point]:
    for name, depth, density in points:
        vertical = path.true_vertical(depth)
        if vertical >= SHALLOWEST:
            yield Point(name, depth, vertical, density)


def surge_bounds(setup: Setup, points: Sequence[Point], margin: float) -> tuple[Bound, ...]:
    """Return what may be added at each weak point, the margin kept.

    Raises Missing where the mud alone is as heavy as a point bears.
    """
    mud = setup.pumping.mud_weight
    for point in points:
        if point.density - margin <= mud.value:
            raise Missing(_too_heavy(setup, point, margin))
    return tuple(
        Bound(point.name, point.depth, point.pressure(point.density - margin - mud.value))
        for point in points
    )


def swab_bounds(setup: Setup, points: Sequence[Point], margin: float) -> tuple[Bound, ...]:
    """Return what may be taken off at each zone that holds fluid, the margin kept.

    Raises Missing where the mud alone does not hold a zone.
    """
    mud = setup.pumping.mud_weight
    for point in points:
        if point.density + margin >= mud.value:
            raise Missing(_too_light(setup, point, margin))
    return tuple(
        Bound(point.name, point.depth, point.pressure(mud.value - point.density - margin))
        for point in points
    )


def _too_heavy(setup: Setup, point: Point, margin: float) -> str:
    return (
        f"The mud of {setup.pumping.mud_weight.text} standing still is as heavy as "
        f"{point.name} bears, {_density(setup, point.density - margin)} with the margin kept; "
        "no speed is slow enough."
    )


def _too_light(setup: Setup, point: Point, margin: float) -> str:
    return (
        f"The mud of {setup.pumping.mud_weight.text} standing still does not hold {point.name}, "
        f"{_density(setup, point.density + margin)} with the margin kept; no speed is slow enough."
    )


def _density(setup: Setup, value: float) -> str:
    return setup.shown.show(value, "density")


def fastest(string: MovingString, setup: Setup, bounds: Sequence[Bound]) -> Greatest:
    """Return the greatest speed that keeps the bounds.

    Raises Missing where the gel alone breaks one, DomainError where no speed is slow enough.
    """
    gel = setup.pumping.gel_strength
    for bound in bounds if gel else ():
        if gel and string.gel_break(gel.value, bound.depth) > bound.pressure:
            raise Missing(
                f"Breaking the gel of {gel.text} takes more than {bound.name} bears, the margin "
                "kept; no speed is slow enough. Turn the pipe or circulate before it goes down."
            )
    return string.greatest_speed(bounds)


def fastest_at(job: Job, shoes: Sequence[float]) -> tuple[Greatest | str, ...]:
    """Return the greatest running speed with the shoe at each depth [m], else why there is none.

    The string is what is run with what the running list has still to come. Each annulus is
    worked out once for all depths, and only lengths change from one to the next.
    """
    setup, pieces = job.known, whole_string(job)
    limit = setup.limit("surge_margin")
    margin = limit.value if limit else 0.0

    def at(shoe: float) -> Greatest | str:
        try:
            bounds = surge_bounds(setup, weak_points(setup, shoe), margin)
            return fastest(moving(job, pieces, shoe), setup, bounds)
        except ShoedownError as lack:
            return str(lack)

    return tuple(at(shoe) for shoe in shoes)
