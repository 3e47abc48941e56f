"""What the string may be pulled with, and what pressure adds to its top joint or takes off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi

from tally.errors import DomainError
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    OUTER_DIAMETER,
    OUTER_RANGE,
    closed_end_displacement,
    open_end_displacement,
)
from tally.pipe.weight import STANDARD_GRAVITY
from tally.string.weights import WEIGHT, WEIGHT_RANGE

LOAD = Term("load", "weight hanging now, without blocks and tools", "force", "klbf")
LOAD_RANGE = "forces 0 to 50 MN"
PRESSURE_RANGE = "pressures 0 to 200 MPa"
MEMBERS = ("body", "connection", "elevators and spider", "hoisting gear")


@dataclass(frozen=True, slots=True)
class PullLimit:
    """One member that limits the pull: its name, what it may carry, and what it carries now [N]."""

    name: str
    strength: float
    carries: float

    @property
    def left(self) -> float:
        """What it may still carry, [N]; below zero it carries too much already."""
        return self.strength - self.carries


def least_left(limits: Sequence[PullLimit]) -> PullLimit:
    """Return the member that may carry least beyond what it carries.

    A pull at the top comes on every member below alike, so each counts with its own load: in a
    tapered string a lighter pipe below may govern, though less hangs from it.

    >>> least_left([PullLimit("body", 3.0e6, 1.0e6), PullLimit("lower body", 1.5e6, 2e5)]).name
    'lower body'
    """
    if not limits:
        raise DomainError("No limit of the pull is known; type the ratings of pipe and gear.")
    return min(limits, key=lambda limit: limit.left)


@formula(
    "greatest-pull",
    "Greatest pull beyond the weight: least of pipe body, connection, elevators and hoisting gear",
    inputs=[
        Term("body", "body yield of the weakest pipe", "force", "klbf"),
        Term("body-share", "share of the body yield that may be used", "ratio", "%"),
        Term("connection", "strength of the connection, from its data sheet", "force", "klbf"),
        Term("connection-share", "share of the connection that may be used", "ratio", "%"),
        Term("elevators", "rating of elevators and spider, the lesser", "force", "klbf"),
        Term("gear", "rating of the hoisting gear as rigged", "force", "klbf"),
        LOAD,
        Term("block", "weight of blocks and tools", "force", "klbf", "0 klbf"),
    ],
    outputs=[
        Term("pull", "pull beyond the weight, below zero when there is none", "force difference",
             "klbf"),
        Term("indicator", "greatest load on the indicator, blocks in it", "force", "klbf"),
        Term("governs", "1 body, 2 connection, 3 elevators and spider, 4 hoisting gear", "count",
             ""),
    ],
    source="least of the members less the load; shares are set by a person",
    range=f"{LOAD_RANGE}; shares 10 to 100 %",
)  # fmt: skip
def greatest_pull(
    body: float,
    body_share: float,
    connection: float,
    connection_share: float,
    elevators: float,
    gear: float,
    load: float,
    block: float = 0.0,
) -> tuple[float, float, float]:
    """Return the greatest pull beyond the weight, the indicator then, and what governs it.

    Parameters
    ----------
    body : float
        Body yield of the pipe at the top, [N]
    body_share : float
        Share of it that may be used, [-]
    connection : float
        Strength of the connection, from its data sheet, [N]
    connection_share : float
        Share of it that may be used, [-]
    elevators : float
        Rating of elevators and spider, the lesser, [N]
    gear : float
        Rating of the hoisting gear as rigged, [N]
    load : float
        Weight hanging now, without blocks and tools, [N]
    block : float
        Weight of blocks and tools, [N]

    Returns
    -------
    pull : float
        Pull beyond the weight; below zero where a member carries too much already, [N]
    indicator : float
        Load on the indicator at that pull, blocks in it, [N]
    governs : float
        1 body, 2 connection, 3 elevators and spider, 4 hoisting gear, [-]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    The hoisting gear carries the blocks as well; the others do not. The shares are a person's
    decision, not a constant. Bending, pressure inside and wear are not counted.

    Examples
    --------
    >>> greatest_pull(4.8e6, 0.8, 4.2e6, 0.75, 4.4e6, 3.9e6, 1.6e6, 0.3e6)
    (1550000.0, 3450000.0, 2)
    """
    for thing, force in (("Body yield", body), ("Connection strength", connection),
                         ("Elevators and spider", elevators), ("Hoisting gear", gear),
                         ("Weight hanging", load), ("Weight of the blocks", block)):  # fmt: skip
        require_range(thing, force, 0.0, 50e6, "N")
    require_range("Share of the body", body_share, 0.1, 1.0, "")
    require_range("Share of the connection", connection_share, 0.1, 1.0, "")
    strengths = (body * body_share, connection * connection_share, elevators, gear - block)
    limits = [PullLimit(name, s, load) for name, s in zip(MEMBERS, strengths, strict=True)]
    least = least_left(limits)
    indicator = max(0.0, least.strength + block)
    return least.left, indicator, MEMBERS.index(least.name) + 1


@formula(
    "tension-with-pressure",
    "Pull in the top joint with pressure held on a plug below",
    inputs=[LOAD, INNER_DIAMETER, Term("pressure", "pressure held inside", "pressure", "psi")],
    outputs=[
        Term("tension", "pull in the top joint", "force", "klbf"),
        Term("added", "pull that the pressure adds", "force", "klbf"),
    ],
    source="weight hanging + pressure x bore: the pressure pushes the plug down and the head up",
    range=f"{LOAD_RANGE}; {INNER_RANGE}; {PRESSURE_RANGE}",
)
def tension_with_pressure(
    load: float, inner_diameter: float, pressure: float
) -> tuple[float, float]:
    """Return the pull in the top joint with pressure held on a plug.

    Parameters
    ----------
    load : float
        Weight hanging, without blocks and tools, [N]
    inner_diameter : float
        Inside diameter at the plug, [m]
    pressure : float
        Pressure held inside at the head, [Pa]

    Returns
    -------
    tension : float
        Pull in the top joint, [N]
    added : float
        Pull that the pressure adds, [N]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    While the casing hangs and the plug holds, the pressure on the plug pulls at the top joint
    with the whole bore. It does not show on the indicator, because it is the head that it pushes
    up with the same force.

    Examples
    --------
    >>> [round(value) for value in tension_with_pressure(1.6e6, 0.22, 10e6)]
    [1980133, 380133]
    """
    require_range("Weight hanging", load, 0.0, 50e6, "N")
    require_range("Inside diameter", inner_diameter, 0.05, 1.0, "m")
    require_range("Pressure", pressure, 0.0, 200e6, "Pa")
    added = pi / 4 * inner_diameter**2 * pressure
    return load + added, added


@formula(
    "casing-lift",
    "Lift by unlike columns inside and outside against the buoyed weight of the casing",
    inputs=[
        OUTER_DIAMETER,
        INNER_DIAMETER,
        WEIGHT,
        Term("tvd", "true vertical depth of the shoe", "length", "ft"),
        Term("outside", "pressure outside at the shoe: columns, friction, back pressure",
             "pressure", "psi"),
        Term("inside", "pressure inside at the shoe: columns alone", "pressure", "psi"),
    ],
    outputs=[
        Term("lift", "upward force of the pressure difference on the closed end",
             "force difference", "klbf"),
        Term("weight-left", "buoyed weight in the fluid inside", "force difference", "klbf"),
        Term("net", "weight less lift, below zero when the casing rises", "force difference",
             "klbf"),
        Term("margin", "pressure below the shoe that would still be carried",
             "pressure difference", "psi"),
    ],
    source="pressure difference x closed end against buoyed weight: Lapeyrouse, Hydraulicing "
    "casing (method from memory); drillingformulas.com, pressure to lift the casing while "
    "cementing",
    range=f"{OUTER_RANGE}; {INNER_RANGE}; inside less than outside; {WEIGHT_RANGE}; true vertical "
    f"depth 0 to 15,000 m; {PRESSURE_RANGE}",
)  # fmt: skip
def casing_lift(
    outer_diameter: float,
    inner_diameter: float,
    weight: float,
    true_vertical_depth: float,
    outside: float,
    inside: float,
) -> tuple[float, float, float, float]:
    """Return lift, buoyed weight, what is left of it, and the pressure that would lift the rest.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter, [m]
    inner_diameter : float
        Inside diameter, [m]
    weight : float
        Mass by length in air, [kg/m]
    true_vertical_depth : float
        True vertical depth of the shoe, [m]
    outside : float
        Pressure outside at the shoe: the columns, friction while pumping, back pressure, [Pa]
    inside : float
        Pressure inside at the shoe from the columns alone, without the pump's, [Pa]

    Returns
    -------
    lift : float
        Upward force of the pressure difference on the closed end, [N]
    weight_left : float
        Buoyed weight, both sides in the fluid inside, [N]
    net : float
        Weight less lift; below zero the casing rises, [N]
    margin : float
        Pressure below the shoe that would still be carried, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the inside is not less than the outside.

    Notes
    -----
    Pipe, head and what is inside are taken as one body: pressure of the pump acts on both ends
    of it and drops out, friction in the annulus does not. One published form takes the pump's
    pressure on the bore as well, which counts it twice. Where the annulus bridges, the whole
    pressure of the pump comes below the shoe: hold it against the margin. Friction with the hole
    and the drag of the flow along the pipe are not counted.

    Examples
    --------
    >>> values = casing_lift(0.2445, 0.2205, 70.0, 1000.0, 16e6, 10e6)
    >>> [round(value) for value in values]
    [281708, 598815, 317107, 6753962]
    """
    steel = open_end_displacement(outer_diameter, inner_diameter)
    require_range("Weight by length", weight, 5.0, 1500.0, "kg/m")
    require_range("True vertical depth", true_vertical_depth, 0.0, 15_000.0, "m")
    require_range("Pressure outside", outside, 0.0, 200e6, "Pa")
    require_range("Pressure inside", inside, 0.0, 200e6, "Pa")
    closed = closed_end_displacement(outer_diameter)
    lift = (outside - inside) * closed
    buoyed = weight * true_vertical_depth * STANDARD_GRAVITY - inside * steel
    net = buoyed - lift
    return lift, buoyed, net, net / closed


@formula(
    "lift-by-pressure",
    "What a pressure below the shoe leaves of the hanging weight, and the pressure that lifts it",
    inputs=[
        Term("load", "weight hanging in the fluids as they stand", "force difference", "klbf"),
        OUTER_DIAMETER,
        Term("pressure", "pressure below the shoe beyond the columns: friction, back pressure",
             "pressure", "psi"),
    ],
    outputs=[
        Term("lift", "upward force on the closed end", "force", "klbf"),
        Term("net", "weight less lift, below zero when the casing rises", "force difference",
             "klbf"),
        Term("margin", "pressure below the shoe that would still be carried",
             "pressure difference", "psi"),
    ],
    source="pressure x closed end against the hanging weight",
    range=f"weight -50 to 50 MN; {OUTER_RANGE}; {PRESSURE_RANGE}",
)  # fmt: skip
def lift_by_pressure(
    load: float, outer_diameter: float, pressure: float
) -> tuple[float, float, float]:
    """Return the lift of a pressure below the shoe, and what it leaves of the hanging weight.

    Parameters
    ----------
    load : float
        Weight hanging in the fluids as they stand inside and outside, [N]
    outer_diameter : float
        Outside diameter at the shoe, [m]
    pressure : float
        Pressure below the shoe beyond the standing columns, [Pa]

    Returns
    -------
    lift : float
        Upward force on the closed end, [N]
    net : float
        Weight less lift; below zero the casing rises, [N]
    margin : float
        Pressure below the shoe that would still be carried, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    For a string of several pipes, or in deviated hole, where the hanging weight comes from the
    survey and the columns as they stand. Before circulating, the pressure is the one that breaks
    the mud's gel; while cementing, the friction in the annulus and any back pressure.

    Examples
    --------
    >>> [round(value) for value in lift_by_pressure(6e5, 0.2445, 2e6)]
    [93903, 506097, 10779199]
    """
    require_range("Weight hanging", load, -50e6, 50e6, "N")
    require_range("Pressure", pressure, 0.0, 200e6, "Pa")
    closed = closed_end_displacement(outer_diameter)
    lift = pressure * closed
    return lift, load - lift, (load - lift) / closed
