"""The path of the hole by minimum curvature: position and direction at any depth."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import asin, atan2, cos, hypot, isfinite, pi, sin, sqrt, tan

from tally.errors import DomainError
from tally.formula import require_range

LONGEST_TURN = 175 * pi / 180
"""[rad]; near half a turn the arc between two directions is not determined."""

Vector = tuple[float, float, float]
"""North, east, down."""


@dataclass(frozen=True, slots=True)
class Station:
    """A survey station: measured depth [m], inclination and azimuth [rad]."""

    depth: float
    inclination: float
    azimuth: float

    def __post_init__(self) -> None:
        require_range("Measured depth", self.depth, 0.0, 30_000.0, "m")
        require_range("Inclination", self.inclination, 0.0, pi * (1 + 1e-12), "rad")
        require_range("Azimuth", self.azimuth, 0.0, 2 * pi * (1 + 1e-12), "rad")

    @property
    def direction(self) -> Vector:
        """Unit vector along the hole, down it."""
        level = sin(self.inclination)
        return level * cos(self.azimuth), level * sin(self.azimuth), cos(self.inclination)


@dataclass(frozen=True, slots=True)
class Place:
    """A point of the hole: depths and offsets [m], angles [rad], dogleg severity [rad/m].

    `beyond` says that no station lies below, so that the hole was taken as straight from there.
    """

    depth: float
    true_vertical: float
    north: float
    east: float
    inclination: float
    azimuth: float
    dogleg_severity: float
    beyond: bool = False


@dataclass(frozen=True, slots=True)
class Leg:
    """The arc between two stations: from a point and a direction, turning by `angle` [rad]."""

    top: float
    length: float
    start: Vector
    first: Vector
    last: Vector
    angle: float

    @property
    def severity(self) -> float:
        """Turn by length, [rad/m]."""
        return self.angle / self.length

    def direction(self, share: float) -> Vector:
        """Return the unit vector along the hole at a share of the leg."""
        if self.angle < 1e-9:
            return self.last if share >= 1 else self.first
        whole = sin(self.angle)
        one, two = sin((1 - share) * self.angle) / whole, sin(share * self.angle) / whole
        first, last = self.first, self.last
        return (
            one * first[0] + two * last[0],
            one * first[1] + two * last[1],
            one * first[2] + two * last[2],
        )

    def position(self, share: float) -> Vector:
        """Return the position at a share of the leg."""
        step = share * self.length / 2 * ratio_factor(share * self.angle)
        start, first, here = self.start, self.first, self.direction(share)
        return (
            start[0] + step * (first[0] + here[0]),
            start[1] + step * (first[1] + here[1]),
            start[2] + step * (first[2] + here[2]),
        )


class Survey:
    """The path of the hole: arcs from station to station, straight below the last one.

    Parameters
    ----------
    stations : sequence of Station
        By measured depth, each deeper than the one before; without any the hole is vertical

    Raises
    ------
    DomainError
        If the depths do not rise, or one leg turns by 175 degrees or more.

    Notes
    -----
    The path starts at measured depth 0, true vertical depth 0, north 0 and east 0. Where the
    first station lies deeper, the hole is taken as vertical at 0. At a station the position is
    that of the station, exactly, from the leg above as from the leg below.

    Examples
    --------
    >>> hole = Survey([Station(0.0, 0.0, 0.0), Station(500.0, 0.0, 0.0), Station(800.0, 0.5, 1.0)])
    >>> place = hole.at(800.0)
    >>> round(place.true_vertical, 2), round(place.north, 2), place.beyond
    (787.66, 39.69, False)
    >>> hole.at(1000.0).beyond
    True
    """

    def __init__(self, stations: Sequence[Station] = ()) -> None:
        whole = list(stations)
        if not whole or whole[0].depth > 0:
            whole.insert(0, Station(0.0, 0.0, whole[0].azimuth if whole else 0.0))
        self.stations: tuple[Station, ...] = tuple(whole)
        self._depths = [station.depth for station in whole]
        self.legs = tuple(_legs(whole))
        last = whole[-1]
        end = self.legs[-1].position(1.0) if self.legs else (0.0, 0.0, 0.0)
        self._below = Leg(last.depth, 1.0, end, last.direction, last.direction, 0.0)

    @property
    def deepest(self) -> float:
        """Measured depth of the last station, [m]; below it the hole is taken as straight."""
        return self._depths[-1]

    def leg_at(self, depth: float) -> tuple[Leg, float]:
        """Return the leg that holds a depth, and the depth as a share of the leg."""
        require_range("Measured depth", depth, 0.0, 30_000.0, "m")
        place = bisect_right(self._depths, depth) - 1
        leg = self.legs[place] if place < len(self.legs) else self._below
        return leg, (depth - leg.top) / leg.length

    def at(self, depth: float) -> Place:
        """Return the place at a measured depth [m], from 0 to 30,000 m."""
        leg, share = self.leg_at(depth)
        north, east, down = leg.position(share)
        inclination, azimuth = self._angles(leg, share)
        severity = self._severity(depth)
        beyond = depth > self.deepest
        return Place(depth, down, north, east, inclination, azimuth, severity, beyond)

    def true_vertical(self, depth: float) -> float:
        """Return the true vertical depth at a measured depth, [m]."""
        leg, share = self.leg_at(depth)
        return leg.position(share)[2]

    def _severity(self, depth: float) -> float:
        """Return the dogleg severity of the leg that holds or ends at the depth."""
        place = max(0, bisect_left(self._depths, depth) - 1)
        return self.legs[place].severity if place < len(self.legs) else 0.0

    def _angles(self, leg: Leg, share: float) -> tuple[float, float]:
        """Return inclination and azimuth; a station keeps its own, an upright hole the last."""
        place = bisect_right(self._depths, leg.top) - 1
        station = self.stations[place]
        if share == 0 or leg is self._below:
            return station.inclination, station.azimuth
        return angles(leg.direction(share), station.azimuth)


def angles(direction: Vector, azimuth_when_upright: float) -> tuple[float, float]:
    """Return inclination and azimuth of a unit vector (north, east, down)."""
    north, east, down = direction
    level = hypot(north, east)
    azimuth = atan2(east, north) % (2 * pi) if level > 1e-12 else azimuth_when_upright
    return atan2(level, down), azimuth


def turn(
    inclination: float, azimuth: float, lower_inclination: float, lower_azimuth: float
) -> float:
    """Return the angle between two directions of the hole, without loss of digits when small.

    >>> round(turn(0.2618, 0.3491, 0.4363, 0.7854), 4)
    0.226
    """
    half = sin((lower_inclination - inclination) / 2) ** 2
    half += sin(inclination) * sin(lower_inclination) * sin((lower_azimuth - azimuth) / 2) ** 2
    return 2 * asin(min(1.0, sqrt(max(0.0, half))))


def ratio_factor(angle: float) -> float:
    """Return what makes the chords of an arc its length: tan(b/2) / (b/2).

    >>> ratio_factor(0.0), round(ratio_factor(0.22605), 5)
    (1.0, 1.00428)
    """
    if angle < 0.02:
        return 1 + angle**2 / 12 + angle**4 / 120
    return tan(angle / 2) / (angle / 2)


def make_leg(upper: Station, lower: Station, start: Vector) -> Leg:
    """Return the arc from one station to the next, or refuse what no arc joins."""
    if not (isfinite(lower.depth) and lower.depth > upper.depth):
        raise DomainError(
            f"Station at {lower.depth:.6g} m is not below the station at {upper.depth:.6g} m; "
            "check their order."
        )
    angle = turn(upper.inclination, upper.azimuth, lower.inclination, lower.azimuth)
    if angle >= LONGEST_TURN:
        raise DomainError(
            f"Between {upper.depth:.6g} and {lower.depth:.6g} m the hole would turn by "
            f"{angle * 180 / pi:.0f} deg, 175 or more; check inclination and azimuth."
        )
    length = lower.depth - upper.depth
    return Leg(upper.depth, length, start, upper.direction, lower.direction, angle)


def _legs(stations: Sequence[Station]) -> list[Leg]:
    legs: list[Leg] = []
    start: Vector = (0.0, 0.0, 0.0)
    for upper, lower in pairwise(stations):
        legs.append(make_leg(upper, lower, start))
        start = legs[-1].position(1.0)
    return legs
