"""How fast the mud goes up beside a pipe that goes down: closed, with auto-fill, open."""

from __future__ import annotations

from tally.fluids.flow import ANNULUS_RANGE, HOLE
from tally.fluids.laminar import require_slot
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    OUTER_DIAMETER,
    require_gap,
    require_wall,
)

SPEED = Term("speed", "speed of the pipe along the hole", "velocity", "ft/min")
FILL_SHARE = Term(
    "share", "share of its contents that the pipe takes in at its foot", "ratio", "%", "0 %"
)
BORE = Term("id", "inside diameter of the pipe, wanted with a share only", "diameter", "in", "0 in")
UPWARD = Term("annulus", "mean velocity of the mud up the annulus", "velocity", "ft/min")
DOWN_OR_UP = "velocity difference"
FASTEST = 10.0
"""[m/s]; pipe is not lowered faster."""

SPEED_RANGE = "speed 0 to 10 m/s"
SHARE_RANGE = "share 0 to 100 %, with an inside diameter less than the outside"


@formula(
    "surge-velocity",
    "Mean velocity of the mud up the annulus while pipe is lowered, closed or on auto-fill",
    inputs=[HOLE, OUTER_DIAMETER, SPEED, BORE, FILL_SHARE],
    outputs=[UPWARD],
    source="balance of volumes; closed as printed by Guo and Liu, Applied Drilling Circulation "
    "Systems, 2011, ch. 2",
    range=f"{ANNULUS_RANGE}; {SPEED_RANGE}; {SHARE_RANGE}",
)
def surge_velocity(
    hole_diameter: float,
    outer_diameter: float,
    speed: float,
    inner_diameter: float = 0.0,
    share: float = 0.0,
) -> float:
    """Return the mean velocity up the annulus while pipe is lowered.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    speed : float
        Speed of the pipe, [m/s]
    inner_diameter : float
        Inside diameter of the pipe; 0 where nothing enters, [m]
    share : float
        Share of its contents that the pipe takes in at its foot: 0 closed, 1 all of it, [-]

    Returns
    -------
    annulus : float
        Mean velocity up the annulus, [m/s]

    Raises
    ------
    DomainError
        If a number is out of range, or a share is given without an inside diameter.

    Notes
    -----
    speed * (od**2 - share*id**2) / (hole**2 - od**2). The share comes from the crew's own record
    of the fills; with all of it only the steel pushes mud aside. Couplings are not counted.

    Examples
    --------
    >>> [round(surge_velocity(0.31, 0.25, 0.5, 0.22, share), 3) for share in (0.0, 0.5, 1.0)]
    [0.93, 0.57, 0.21]
    """
    require_gap(hole_diameter, outer_diameter)
    require_speed(speed)
    pushed = outer_diameter**2 - taken_in(outer_diameter, inner_diameter, share)
    return speed * pushed / (hole_diameter**2 - outer_diameter**2)


@formula(
    "surge-velocity-open",
    "Velocities in annulus and pipe while open pipe is lowered slowly in a thin fluid",
    inputs=[HOLE, OUTER_DIAMETER, INNER_DIAMETER, SPEED],
    outputs=[
        Term("annulus", "mean velocity up the annulus, below zero down", DOWN_OR_UP, "ft/min"),
        Term("pipe", "mean velocity up inside the pipe", DOWN_OR_UP, "ft/min"),
    ],
    source="equal laminar friction inside and outside, levels alike; PETE 411 lecture sheets, "
    "lesson 15",
    range=f"{ANNULUS_RANGE}; {INNER_RANGE}; {SPEED_RANGE}; Newtonian, laminar",
)
def open_velocities(
    hole_diameter: float, outer_diameter: float, inner_diameter: float, speed: float
) -> tuple[float, float]:
    """Return the velocities up the annulus and up the pipe while open pipe is lowered.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    inner_diameter : float
        Inside diameter of the pipe, [m]
    speed : float
        Speed of the pipe, [m/s]

    Returns
    -------
    annulus : float
        Mean velocity up the annulus; below zero the mud is drawn down, [m/s]
    pipe : float
        Mean velocity up inside the pipe, [m/s]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    speed * (4*od**2*D**2 - 3*id**4) / (4*D**2*(hole**2 - od**2) + 6*id**4) with D hole less pipe;
    the rest of what the steel pushes aside goes up inside. Friction is then the same on both
    ways: 48*mu*(va + v/2)/D**2 = 32*mu*(vi + v)/id**2, one pipe in one hole.

    Examples
    --------
    >>> [round(value, 4) for value in open_velocities(0.31, 0.25, 0.22, 0.5)]
    [-0.2107, 0.292]
    """
    gap = require_slot(hole_diameter, outer_diameter)
    require_speed(speed)
    inside = taken_in(outer_diameter, inner_diameter, 1.0)
    wide, area = 4 * gap**2, hole_diameter**2 - outer_diameter**2
    up = speed * (wide * outer_diameter**2 - 3 * inside**2) / (wide * area + 6 * inside**2)
    return up, ((outer_diameter**2 - inside) * speed - up * area) / inside


def taken_in(outer_diameter: float, inner_diameter: float, share: float) -> float:
    """Return share * id**2, [m^2], or refuse a share of a pipe that has no inside."""
    require_range("Share let in", share, 0.0, 1.0, "")
    require_range("Inside diameter", inner_diameter, 0.0, 1.0, "m")
    if share == 0:
        return 0.0
    require_wall(outer_diameter, inner_diameter)
    return share * inner_diameter**2


def require_speed(speed: float) -> None:
    """Refuse what is no speed of pipe."""
    require_range("Speed of the pipe", speed, 0.0, FASTEST, "m/s")
