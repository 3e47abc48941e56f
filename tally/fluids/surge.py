"""Surge and swab in one annulus: what a pipe that moves along the hole adds to the pressure."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import copysign, pi

from tally.fluids.clinging import HANDBOOK, SLOT, clinging_constants, fitted_constants
from tally.fluids.flow import (
    ANNULUS_RANGE,
    DENSITY,
    DENSITY_RANGE,
    EQUIVALENT_SLOT,
    HOLE,
    require_density,
)
from tally.fluids.flow_curve import CONSISTENCY, CURVE_RANGE, INDEX, YIELD_STRESS, FlowCurve
from tally.fluids.laminar import NARROWEST, require_slot
from tally.fluids.surge_velocity import (
    BORE,
    FILL_SHARE,
    SHARE_RANGE,
    SPEED,
    SPEED_RANGE,
    UPWARD,
    surge_velocity,
)
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import LENGTH, LENGTH_RANGE, OUTER_DIAMETER, pipe_capacity

BLASIUS = 0.0791, 0.25
"""Friction factor of smooth walls: the first over Reynolds number to the second."""

CREEP = 1e-4
"""[m/s]; a fluid with a yield stress that goes more slowly does not hold back with all of it."""

SURGE_SOURCE = (
    "laminar: yield part (2n+1)/(n+1) with the slot of a power-law fluid, for n = 1 the textbook "
    "PV v/(1000 D2) + YP/(200 D); turbulent: 0.0791/Re^0.25 with the viscous part alone; Guo and "
    "Liu, Applied Drilling Circulation Systems, 2011, ch. 2"
)
SURGE_RANGE = (
    f"{ANNULUS_RANGE}; pipe over hole {NARROWEST:g} or more; {LENGTH_RANGE}; {DENSITY_RANGE}; "
    f"{CURVE_RANGE}; {SPEED_RANGE}"
)


@dataclass(frozen=True, slots=True)
class TwoFlows:
    """A fluid on its way, with all that does not hang on the velocity.

    Slow flow takes `at_rest + slow * v**index`, turbulent flow `fast * v**power`, [Pa/m].
    """

    at_rest: float
    slow: float
    index: float
    fast: float
    power: float

    def slow_gradient(self, velocity: float) -> float:
        """Return the pressure by length in slow flow at an effective velocity, with its sign."""
        size = abs(velocity)
        # mud between going up and being drawn down holds either way: no jump at rest
        held = self.at_rest * min(1.0, size / CREEP)
        return copysign(held + self.slow * size**self.index, velocity)

    def fast_gradient(self, velocity: float) -> float:
        """Return the pressure by length in turbulent flow, with the sign of the velocity."""
        return copysign(self.fast * abs(velocity) ** self.power, velocity)


@dataclass(frozen=True, slots=True)
class MovingAnnulus:
    """A fluid between a still wall and a moving pipe: areas [m^2], clinging constants, flows.

    `gap` is hole less pipe, [m].
    """

    gap: float
    pipe_area: float
    area: float
    laminar: float
    turbulent: float
    flows: TwoFlows

    def gradient(self, upward: float, speed: float) -> float:
        """Return the pressure by length, [Pa/m]: the larger of slow and turbulent flow.

        `upward` is the mean velocity up the annulus and `speed` that of the pipe down, [m/s].
        """
        slow = self.flows.slow_gradient(upward + self.laminar * speed)
        return max(slow, self.flows.fast_gradient(upward + self.turbulent * speed))


@dataclass(frozen=True, slots=True)
class Bore:
    """A fluid inside pipe: area [m^2] and flows."""

    area: float
    flows: TwoFlows

    def gradient(self, rate: float) -> float:
        """Return the pressure by length of a rate through the pipe [m^3/s], [Pa/m]."""
        velocity = rate / self.area
        return max(self.flows.slow_gradient(velocity), self.flows.fast_gradient(velocity))


@lru_cache(maxsize=512)
def moving_annulus(
    hole_diameter: float, outer_diameter: float, density: float, curve: FlowCurve
) -> MovingAnnulus:
    """Return the annulus of a pipe in a hole; the same one is worked out only once."""
    gap = require_slot(hole_diameter, outer_diameter)
    require_density(density)
    n, (factor, power) = curve.index, BLASIUS
    shape: float = (4 * (2 + 1 / n) / gap) ** n
    reynolds = 12 * EQUIVALENT_SLOT * density / (curve.consistency * shape)
    laminar, turbulent = clinging_constants(hole_diameter, outer_diameter)
    return MovingAnnulus(
        gap=gap,
        pipe_area=pi / 4 * outer_diameter**2,
        area=pi / 4 * (hole_diameter**2 - outer_diameter**2),
        laminar=laminar,
        turbulent=turbulent,
        flows=TwoFlows(
            at_rest=4 / gap * (2 * n + 1) / (n + 1) * curve.yield_stress,
            slow=4 / gap * curve.consistency * shape,
            index=n,
            fast=2 * factor * reynolds**-power * density / (EQUIVALENT_SLOT * gap),
            power=2 - (2 - n) * power,
        ),
    )


@lru_cache(maxsize=512)
def bore(inner_diameter: float, density: float, curve: FlowCurve) -> Bore:
    """Return the inside of a pipe, slow and turbulent in the same way as the annulus."""
    require_density(density)
    n, (factor, power) = curve.index, BLASIUS
    shape: float = (2 * (3 + 1 / n) / inner_diameter) ** n
    reynolds = 8 * density / (curve.consistency * shape)
    flows = TwoFlows(
        at_rest=4 / inner_diameter * (3 * n + 1) / (2 * n + 1) * curve.yield_stress,
        slow=4 / inner_diameter * curve.consistency * shape,
        index=n,
        fast=2 * factor * reynolds**-power * density / inner_diameter,
        power=2 - (2 - n) * power,
    )
    return Bore(pipe_capacity(inner_diameter), flows)


@formula(
    "surge-annulus",
    "Pressure by lowering pipe in one annulus: the larger of slow and turbulent, and each by name",
    inputs=[
        HOLE,
        OUTER_DIAMETER,
        LENGTH,
        SPEED,
        DENSITY,
        YIELD_STRESS,
        CONSISTENCY,
        INDEX,
        BORE,
        FILL_SHARE,
    ],
    outputs=[
        Term("pressure", "surge, or swab: the larger of the two exact ones", "pressure", "psi"),
        Term("laminar", "slow flow, exact clinging constant", "pressure", "psi"),
        Term("turbulent", "turbulent flow, exact clinging constant", "pressure", "psi"),
        Term("fitted", "slow flow, fitted clinging constant", "pressure", "psi"),
        Term("slot", "slow flow, clinging constant 0.5", "pressure", "psi"),
        Term("handbook", "slow flow, clinging constant 0.45", "pressure", "psi"),
        UPWARD,
    ],
    source=SURGE_SOURCE,
    range=f"{SURGE_RANGE}; {SHARE_RANGE}",
)
def surge_annulus(
    hole_diameter: float,
    outer_diameter: float,
    length: float,
    speed: float,
    density: float,
    yield_stress: float,
    consistency: float,
    index: float = 1.0,
    inner_diameter: float = 0.0,
    share: float = 0.0,
) -> tuple[float, float, float, float, float, float, float]:
    """Return the pressure that lowering pipe adds over one annulus, or pulling takes off.

    Parameters
    ----------
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the pipe, [m]
    length : float
        Length along the hole, [m]
    speed : float
        Speed of the pipe, [m/s]
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
    pressure : float
        The larger of slow and turbulent flow, exact clinging constants, [Pa]
    laminar, turbulent : float
        Each of the two, [Pa]
    fitted, slot, handbook : float
        Slow flow with the fitted clinging constant, with 0.5 and with 0.45, [Pa]
    annulus : float
        Mean velocity up the annulus, [m/s]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    The velocity up the annulus and the clinging constant times the speed add up: both walls hold
    the mud back. One textbook subtracts them. Slow flow is that of a yield part and a viscous
    part; against a slot with a moving wall worked out by small steps it is never low, and up to
    two fifths high where the yield stress is nearly all. Speeds are steady: neither the gel at
    the start nor the inertia of the mud is in it.

    Examples
    --------
    >>> values = surge_annulus(0.31, 0.25, 1000.0, 0.5, 1200.0, 5.0, 0.02)
    >>> [round(value) for value in values[:3]]
    [809917, 809917, 703371]
    """
    require_range("Length", length, 0.0, 20_000.0, "m")
    upward = surge_velocity(hole_diameter, outer_diameter, speed, inner_diameter, share)
    curve = FlowCurve(yield_stress, consistency, index)
    ring = moving_annulus(hole_diameter, outer_diameter, density, curve)
    fitted, _ = fitted_constants(hole_diameter, outer_diameter)
    slow = [
        ring.flows.slow_gradient(upward + constant * speed) * length
        for constant in (ring.laminar, fitted, SLOT, HANDBOOK)
    ]
    fast = ring.flows.fast_gradient(upward + ring.turbulent * speed) * length
    return max(slow[0], fast), slow[0], fast, slow[1], slow[2], slow[3], upward
