"""The greatest speed that a pressure allows, and the least time to lower a joint."""

from __future__ import annotations

from tally.errors import DomainError
from tally.fluids.flow import DENSITY, HOLE
from tally.fluids.flow_curve import CONSISTENCY, INDEX, YIELD_STRESS, FlowCurve
from tally.fluids.surge import SURGE_RANGE, SURGE_SOURCE, moving_annulus
from tally.fluids.surge_velocity import BORE, FASTEST, FILL_SHARE, SHARE_RANGE, SPEED, taken_in
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import LENGTH, OUTER_DIAMETER

SLOWEST = 0.001
"""[m/s]; a joint that would have to go slower takes hours: no speed is slow enough."""


def no_speed(name: str) -> str:
    """Return the sentence for a limit that pipe breaks however slowly it moves."""
    return (
        f"No speed is slow enough at {name}: what the mud takes before it moves is already more "
        "than the limit there leaves; thin the mud or ask for another limit."
    )


@formula(
    "surge-greatest-speed",
    "Greatest speed at which lowering pipe in one annulus adds no more than a pressure",
    inputs=[
        HOLE,
        OUTER_DIAMETER,
        LENGTH,
        Term("allowed", "pressure that may be added", "pressure", "psi"),
        DENSITY,
        YIELD_STRESS,
        CONSISTENCY,
        INDEX,
        BORE,
        FILL_SHARE,
    ],
    outputs=[SPEED],
    source=f"turned round: {SURGE_SOURCE}",
    range=f"{SURGE_RANGE.replace('length 0', 'length 1')}; {SHARE_RANGE}; allowed 0 to 200 MPa",
)
def greatest_speed(
    hole_diameter: float,
    outer_diameter: float,
    length: float,
    allowed: float,
    density: float,
    yield_stress: float,
    consistency: float,
    index: float = 1.0,
    inner_diameter: float = 0.0,
    share: float = 0.0,
) -> float:
    """Return the greatest speed at which pipe in one annulus adds no more than a pressure.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    length : float
        Length along the hole, [m]
    allowed : float
        Pressure that may be added over the length, [Pa]
    density : float
        Density of the fluid, [kg/m^3]
    yield_stress : float
        Yield stress or yield point, [Pa]
    consistency : float
        Plastic viscosity or consistency, [Pa s^n]
    index : float
        Flow index n, 1 for a Bingham fluid, [-]
    inner_diameter : float
        Inside diameter of the pipe; 0 where nothing enters, [m]
    share : float
        Share of its contents that the pipe takes in at its foot, [-]

    Returns
    -------
    speed : float
        Greatest speed of the pipe, no more than 10 m/s, [m/s]

    Raises
    ------
    DomainError
        If a number is out of range, or no speed is slow enough.

    Notes
    -----
    In closed form, for both flows are powers of the speed; the lesser of the two speeds counts.
    For a Bingham fluid in slow flow
    (allowed/length - 6*yield/D) * D**2 / (48*PV*(r + K)) with D hole less pipe, r the velocity up
    the annulus over the speed of the pipe, K the clinging constant. Where the yield part alone is
    more than is allowed, or the speed would be less than 1 mm/s, no speed is slow enough.

    Examples
    --------
    >>> round(greatest_speed(0.31, 0.25, 1000.0, 809917.0, 1200.0, 5.0, 0.02), 3)
    0.5
    """
    require_range("Length", length, 1.0, 20_000.0, "m")
    require_range("Pressure allowed", allowed, 0.0, 200e6, "Pa")
    curve = FlowCurve(yield_stress, consistency, index)
    ring = moving_annulus(hole_diameter, outer_diameter, density, curve)
    pushed = outer_diameter**2 - taken_in(outer_diameter, inner_diameter, share)
    up = pushed / (hole_diameter**2 - outer_diameter**2)
    flows = ring.flows
    left = max(0.0, allowed / length - flows.at_rest)
    slow: float = (left / flows.slow) ** (1 / index) / (up + ring.laminar)
    fast: float = (allowed / length / flows.fast) ** (1 / flows.power) / (up + ring.turbulent)
    speed = min(slow, fast, FASTEST)
    if speed < SLOWEST:
        raise DomainError(no_speed("the foot of the annulus"))
    return speed


@formula(
    "least-lowering-time",
    "Least time in which a joint is lowered, slips out to slips set, without passing a speed",
    inputs=[
        Term("length", "length of the joint", "length", "ft"),
        SPEED,
        Term("peak", "greatest speed over the mean of a joint", "number", ""),
    ],
    outputs=[Term("time", "least lowering time", "lowering time", "s")],
    source="length x peak / speed; a peak of 1.5 is given by Lapeyrouse, Formulas and "
    "Calculations for Drilling, Production and Workover",
    range="length 0.1 to 100 m; speed 0.001 to 10 m/s; peak 1 to 5",
)
def least_lowering_time(length: float, speed: float, peak: float) -> float:
    """Return the least time in which a joint may be lowered.

    Parameters
    ----------
    length : float
        Length of the joint, [m]
    speed : float
        Greatest speed that the pipe may have at any moment, [m/s]
    peak : float
        Greatest over mean speed while the joint goes down, [-]

    Returns
    -------
    time : float
        From slips out to slips set, [s]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    The time of the lowering alone. The time from one joint to the next holds picking up and
    making up as well and says nothing about the speed.

    Examples
    --------
    >>> round(least_lowering_time(12.0, 0.5, 1.5), 6)
    36.0
    """
    require_range("Length of the joint", length, 0.1, 100.0, "m")
    require_range("Speed of the pipe", speed, SLOWEST, FASTEST, "m/s")
    require_peak(peak)
    return length * peak / speed


def peak_speed(length: float, time: float, peak: float) -> float:
    """Return the greatest speed of a joint that was lowered in a time, [m/s].

    >>> peak_speed(12.0, 36.0, 1.5)
    0.5
    """
    require_range("Length of the joint", length, 0.1, 100.0, "m")
    require_range("Lowering time", time, 1.0, 86_400.0, "s")
    require_peak(peak)
    return length * peak / time


def require_peak(peak: float) -> None:
    """Refuse what is no ratio of the greatest to the mean speed."""
    require_range("Peak factor", peak, 1.0, 5.0, "")
