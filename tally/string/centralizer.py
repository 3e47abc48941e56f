"""Centralizers: how far off the wall each holds the pipe under a load."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import pairwise
from math import inf

from tally.errors import DomainError
from tally.fluids.flow import ANNULUS_RANGE, HOLE
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import OUTER_DIAMETER, require_gap

TEST_STANDOFF = 0.67
"""[-]; a bow's restoring force is that which leaves so much of the gap."""

STANDOFF = Term("standoff", "gap left, as a share of that of centred pipe", "ratio", "%")
GAP = Term("gap", "smallest distance between pipe and wall", "diameter", "in")
LOAD = Term("load", "load across the pipe on one centralizer", "force", "lbf")
BOW = Term("bow", "outside diameter of the bow centralizer, free", "diameter", "in")
RIGID = Term("rigid", "outside diameter of the rigid centralizer", "diameter", "in")
RESTORING = Term("restoring", "restoring force at a standoff of 67 %", "force", "lbf")
TEST_HOLE = Term("test-hole", "hole in which the restoring force was measured", "diameter", "in")
SIZES_RANGE = f"{ANNULUS_RANGE}; centralizer 0.05 to 1.5 m, more than the pipe"
FORCE_RANGE = "restoring force 10 N to 1 MN"
STRAIGHT_LINE = (
    "straight line through the restoring force at 67 %, an assumption: real bows stiffen"
)


@dataclass(frozen=True, slots=True)
class Bow:
    """A bow centralizer: free outside diameter [m], and how far it gives way under a load.

    `table` has pairs of deflection [m] and load [N], rising; between them it is read along
    straight lines from no deflection at no load. With `straight` the last line goes on for ever.
    In a hole wider than that of the test it is taken to be as stiff as there.
    """

    outer_diameter: float
    table: tuple[tuple[float, float], ...]
    straight: bool = False
    _loads: tuple[float, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        require_centralizer(self.outer_diameter)
        points = self.table if self.table[:1] == ((0.0, 0.0),) else ((0.0, 0.0), *self.table)
        if len(points) < 2:
            raise DomainError("The bow has no line of load and deflection; add one.")
        for (less, light), (more, heavy) in pairwise(points):
            if not (more > less and heavy > light):
                raise DomainError(
                    f"The bow gives way {more:.6g} m under {heavy:,.6g} N after {less:.6g} m under "
                    f"{light:,.6g} N; both must grow from line to line."
                )
        object.__setattr__(self, "table", points)
        object.__setattr__(self, "_loads", tuple(load for _, load in points))

    @property
    def greatest_load(self) -> float:
        """Load up to which the bow is known, [N]."""
        return inf if self.straight else self._loads[-1]

    def deflection(self, load: float) -> float:
        """Return how far the bow gives way, [m]; without end past its table."""
        if load > self.greatest_load:
            return inf
        place = min(max(1, bisect_left(self._loads, load)), len(self.table) - 1)
        (less, light), (more, heavy) = self.table[place - 1], self.table[place]
        return less + (more - less) * (load - light) / (heavy - light)

    def gap(self, load: float, clearance: float, outer_diameter: float) -> float:
        """Return the distance to the wall under a load, [m]; below zero the pipe lies on it."""
        free = (self.outer_diameter - outer_diameter) / 2
        return min(clearance, free) - self.deflection(load)


@dataclass(frozen=True, slots=True)
class Rigid:
    """A rigid or solid centralizer of an outside diameter [m]; it does not give way."""

    outer_diameter: float

    def __post_init__(self) -> None:
        require_centralizer(self.outer_diameter)

    @property
    def greatest_load(self) -> float:
        """Load up to which it is known, [N]."""
        return inf

    def gap(self, load: float, clearance: float, outer_diameter: float) -> float:
        """Return the distance to the wall, [m], the centralizer lying on it under any load."""
        return min(clearance, (self.outer_diameter - outer_diameter) / 2)


Centralizer = Bow | Rigid


def straight_bow(outer_diameter: float, restoring_force: float, test_clearance: float) -> Bow:
    """Return a bow that gives way along a straight line, through its force at 67 % standoff.

    Free outside diameter [m], restoring force [N], clearance of centred pipe in the hole of the
    test [m].

    >>> bow = straight_bow(0.34, 5000.0, 0.03)
    >>> round(bow.gap(5000.0, 0.03, 0.2445) / 0.03, 3)
    0.67
    """
    require_range("Restoring force", restoring_force, 10.0, 1e6, "N")
    require_range("Clearance in the hole of the test", test_clearance, 1e-4, 1.0, "m")
    given = (1 - TEST_STANDOFF) * test_clearance
    return Bow(outer_diameter, ((given, restoring_force),), straight=True)


def tabled_bow(outer_diameter: float, lines: Iterable[tuple[float, float]]) -> Bow:
    """Return a bow by its table of deflection [m] and load [N], in any order of the lines.

    >>> tabled_bow(0.34, [(0.02, 6000.0), (0.01, 2000.0)]).deflection(4000.0)
    0.015
    """
    return Bow(outer_diameter, tuple(sorted(lines)))


@formula(
    "bow-standoff",
    "Standoff at a bow centralizer under a load, by its restoring force",
    inputs=[LOAD, HOLE, OUTER_DIAMETER, BOW, RESTORING, TEST_HOLE],
    outputs=[STANDOFF, GAP],
    source=STRAIGHT_LINE,
    range=f"load 0 to 5 MN; {SIZES_RANGE}; {FORCE_RANGE}; hole of the test more than the pipe",
)
def bow_standoff(
    load: float,
    hole_diameter: float,
    outer_diameter: float,
    bow_diameter: float,
    restoring_force: float,
    test_hole: float,
) -> tuple[float, float]:
    """Return the standoff at a bow centralizer, as far as a straight line tells it.

    Parameters
    ----------
    load : float
        Load across the pipe on this centralizer, [N]
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    bow_diameter : float
        Outside diameter of the bow, free, [m]
    restoring_force : float
        Force that leaves a standoff of 67 % in the hole of the test, [N]
    test_hole : float
        Diameter of the hole of the test, [m]

    Returns
    -------
    standoff : float
        Gap left as a share of that of centred pipe; 0 for pipe on the wall, [-]
    gap : float
        Smallest distance between pipe and wall, [m]

    Raises
    ------
    DomainError
        If a number is out of range, or pipe, centralizer and holes do not fit.

    Notes
    -----
    The bow gives way 0.33 * clearance of the test * load / restoring force. This straight line is
    an assumption; bows stiffen, and a table of load and deflection is better. In a hole larger
    than the free bow the play is taken off first. The force is a spring's: a bow that was set by
    the way in holds less.

    Examples
    --------
    >>> values = bow_standoff(4000.0, 0.3112, 0.2445, 0.34, 7117.0, 0.3112)
    >>> [round(value, 4) for value in values]
    [0.8145, 0.0272]
    """
    require_range("Load on a centralizer", load, 0.0, 5e6, "N")
    clearance = require_gap(hole_diameter, outer_diameter) / 2
    require_fit(bow_diameter, outer_diameter)
    test_clearance = require_gap(test_hole, outer_diameter) / 2
    bow = straight_bow(bow_diameter, restoring_force, test_clearance)
    gap = max(0.0, bow.gap(load, clearance, outer_diameter))
    return gap / clearance, gap


@formula(
    "rigid-standoff",
    "Standoff at a rigid centralizer that lies on the wall",
    inputs=[HOLE, OUTER_DIAMETER, RIGID],
    outputs=[STANDOFF, GAP],
    source="half the difference of the diameters; no deflection is assumed",
    range=f"{SIZES_RANGE} and not more than the hole",
)
def rigid_standoff(
    hole_diameter: float, outer_diameter: float, rigid_diameter: float
) -> tuple[float, float]:
    """Return the standoff at a rigid centralizer.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    rigid_diameter : float
        Outside diameter of the centralizer, [m]

    Returns
    -------
    standoff : float
        Gap left as a share of that of centred pipe, [-]
    gap : float
        Smallest distance between pipe and wall, [m]

    Raises
    ------
    DomainError
        If a number is out of range, or the centralizer does not fit between pipe and hole.

    Examples
    --------
    >>> [round(value, 4) for value in rigid_standoff(0.3112, 0.2445, 0.3048)]
    [0.904, 0.0302]
    """
    clearance = require_gap(hole_diameter, outer_diameter) / 2
    require_fit(rigid_diameter, outer_diameter)
    require_range("Outside diameter of the centralizer", rigid_diameter, 0.05, hole_diameter, "m")
    gap = Rigid(rigid_diameter).gap(0.0, clearance, outer_diameter)
    return gap / clearance, gap


@formula(
    "standoff-ratio",
    "Standoff and eccentricity of pipe from its distance to the wall",
    inputs=[HOLE, OUTER_DIAMETER, GAP],
    outputs=[
        STANDOFF,
        Term("eccentricity", "0 for pipe in the middle, 1 for pipe on the wall", "ratio", "%"),
        Term("clearance", "gap all round of centred pipe", "diameter", "in"),
    ],
    source="smallest gap over half the difference of the diameters; API TR 10TR4, 2008, 2.1",
    range=f"{ANNULUS_RANGE}; gap 0 to that of centred pipe",
)
def standoff_ratio(
    hole_diameter: float, outer_diameter: float, gap: float
) -> tuple[float, float, float]:
    """Return the standoff, the eccentricity and the gap of centred pipe.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    gap : float
        Smallest distance between pipe and wall, [m]

    Returns
    -------
    standoff : float
        Gap as a share of that of centred pipe, [-]
    eccentricity : float
        1 less the standoff, [-]
    clearance : float
        Gap of centred pipe, [m]

    Raises
    ------
    DomainError
        If a number is out of range, or the gap is more than that of centred pipe.

    Examples
    --------
    >>> [round(value, 4) for value in standoff_ratio(0.3112, 0.2445, 0.02)]
    [0.5997, 0.4003, 0.0333]
    """
    clearance = require_gap(hole_diameter, outer_diameter) / 2
    require_range("Smallest distance to the wall", gap, 0.0, clearance * (1 + 1e-9), "m")
    standoff = min(1.0, gap / clearance)
    return standoff, 1 - standoff, clearance


def require_centralizer(diameter: float) -> None:
    """Refuse what is no outside diameter of a centralizer, [m]."""
    require_range("Outside diameter of the centralizer", diameter, 0.05, 1.5, "m")


def require_fit(diameter: float, outer_diameter: float) -> None:
    """Refuse a centralizer that is not larger than its pipe, [m]."""
    require_centralizer(diameter)
    if diameter <= outer_diameter:
        raise DomainError(
            f"The centralizer of {diameter:.6g} m is not larger than the pipe of "
            f"{outer_diameter:.6g} m; check which is which."
        )
