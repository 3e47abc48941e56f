"""Friction from laminar to turbulent.

Must hold:
- it grows with rate and is continuous, through the transition as elsewhere;
- slow flow is the exact slow flow; fast flow of a Newtonian fluid is near the smooth wall of
  `fluids`, and is the later bulletin's own figure within what its slow flow differs;
- it is in proportion to length, and falls as the pipe leaves the middle of the hole;
- the rate at which turbulence begins is where the Reynolds number meets its limit.
"""

import math
from itertools import pairwise

import fluids
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.fluids.bulletin import later_annulus
from tally.fluids.eccentric import eccentric_shares
from tally.fluids.equivalent import equivalent_density
from tally.fluids.flow import annulus_velocity, pipe_velocity, reynolds_annulus, reynolds_pipe
from tally.fluids.flow_curve import FlowCurve
from tally.fluids.friction import (
    annulus_loss,
    friction_annulus,
    friction_pipe,
    pipe_loss,
    turbulent_rate,
)
from tally.fluids.hydrostatic import hydrostatic_pressure
from tally.fluids.laminar import annulus_laminar, pipe_laminar, slot_wall_stress
from tests.tally.second_opinion import disc, si

UNIT_DISC = disc(1.0)


def area_of(diameter):
    """Return the area of a circle from the polygon of its unit circle."""
    return UNIT_DISC * diameter**2


CURVES = st.builds(
    FlowCurve, st.one_of(st.just(0.0), st.floats(0.1, 20.0)), st.floats(0.001, 1.0),
    st.floats(0.4, 1.0),
)  # fmt: skip
RATES = st.floats(0.0002, 0.3)
DENSITIES = st.floats(1000.0, 2100.0)


@given(curve=CURVES, rate=RATES, density=DENSITIES, more=st.floats(1.0001, 2.0))
def test_it_grows_with_rate(curve, rate, density, more):
    for lost in (
        lambda q: annulus_loss(curve, density, q, 0.31, 0.25).gradient,
        lambda q: annulus_loss(curve, density, q, 0.31, 0.25, 0.6).gradient,
        lambda q: pipe_loss(curve, density, q, 0.22).gradient,
    ):
        assert lost(rate * more) > lost(rate)


@given(curve=CURVES, rate=RATES, density=DENSITIES)
def test_it_is_continuous_and_has_no_corner(curve, rate, density):
    def lost(q):
        return annulus_loss(curve, density, q, 0.31, 0.25).gradient

    step = 1e-4
    low, here, high = lost(rate * (1 - step)), lost(rate), lost(rate * (1 + step))
    before, after = (here - low) / (here * step), (high - here) / (here * step)
    assert 0 < before < 4.5  # the power of the rate; 4 at most through the transition
    assert after == pytest.approx(before, abs=0.02)


@given(density=DENSITIES, yield_stress=st.floats(0.5, 20.0), plastic=st.floats(0.01, 0.1))
def test_through_the_transition_no_step_is_larger_than_its_rate(density, yield_stress, plastic):
    curve = FlowCurve(yield_stress, plastic)
    rates = [0.001 * 1.02**step for step in range(280)]
    lost = [annulus_loss(curve, density, rate, 0.31, 0.25).gradient for rate in rates]
    powers = [math.log(two / one) / math.log(1.02) for one, two in pairwise(lost)]
    assert all(0 < power < 4.5 for power in powers)
    assert all(abs(two - one) < 1.2 for one, two in pairwise(powers))  # a corner is 2 to 3


@given(curve=CURVES, rate=RATES, density=DENSITIES)
def test_slow_flow_is_the_exact_one(curve, rate, density):
    loss = annulus_loss(curve, density, rate, 0.31, 0.25)
    exact, _ = annulus_laminar(0.31, 0.25, rate, curve.yield_stress, curve.consistency, curve.index)
    assert loss.gradient >= exact * (1 - 1e-9)
    if loss.reynolds < loss.critical / 2:
        assert loss.gradient == pytest.approx(exact, rel=0.001)
    pipe = pipe_loss(curve, density, rate, 0.22)
    exact, _ = pipe_laminar(0.22, rate, curve.yield_stress, curve.consistency, curve.index)
    if pipe.reynolds < pipe.critical / 2:
        assert pipe.gradient == pytest.approx(exact, rel=0.001)


@given(viscosity=st.floats(0.0008, 0.01), rate=RATES, density=DENSITIES)
def test_water_in_pipe_is_near_the_smooth_wall_of_fluids(viscosity, rate, density):
    loss = pipe_loss(FlowCurve(0.0, viscosity), density, rate, 0.22)
    reynolds = fluids.Reynolds(V=loss.velocity, D=0.22, rho=density, mu=viscosity)
    assert loss.reynolds == pytest.approx(reynolds)
    assume(reynolds < 1000 or 6000 < reynolds < 200_000)
    factor = fluids.friction.friction_factor(Re=reynolds, eD=0.0)
    dry = factor * density * loss.velocity**2 / (2 * 0.22)
    assert loss.gradient == pytest.approx(dry, rel=0.001 if reynolds < 1000 else 0.05)


@given(rate=st.floats(0.002, 0.1), density=DENSITIES, at_rest=st.floats(0.0, 8.0),
       thick=st.floats(0.05, 0.6), index=st.floats(0.6, 1.0))  # fmt: skip
def test_it_stays_near_the_later_bulletin(rate, density, at_rest, thick, index):
    curve = FlowCurve(at_rest, thick, index)
    wall = slot_wall_stress(curve, annulus_velocity(0.31, 0.25, rate), 0.03)
    assume(at_rest < 0.3 * wall)  # beyond, its sum of a yield and a viscous part reads high
    live = annulus_loss(curve, density, rate, 0.31, 0.25).gradient
    printed = later_annulus(0.31, 0.25, 1.0, rate, density, at_rest, thick, index, curve.slope())[1]
    assert live == pytest.approx(printed, rel=0.12)


@given(curve=CURVES, rate=RATES, density=DENSITIES, length=st.floats(1.0, 5000.0))
def test_it_is_in_proportion_to_length(curve, rate, density, length):
    parts = (curve.yield_stress, curve.consistency, curve.index)
    pressure, gradient, velocity, *_ = friction_annulus(0.31, 0.25, length, rate, density, *parts)
    assert pressure == pytest.approx(gradient * length)
    assert velocity == pytest.approx(annulus_velocity(0.31, 0.25, rate))
    pressure, gradient, velocity, *_ = friction_pipe(0.22, length, rate, density, *parts)
    assert pressure == pytest.approx(gradient * length)
    assert velocity == pytest.approx(pipe_velocity(0.22, rate))


@given(curve=CURVES, rate=RATES, one=st.floats(0.0, 0.95), more=st.floats(0.0, 0.05))
def test_it_falls_as_the_pipe_leaves_the_middle(curve, rate, one, more):
    off = annulus_loss(curve, 1200.0, rate, 0.31, 0.25, one + more).gradient
    nearer = annulus_loss(curve, 1200.0, rate, 0.31, 0.25, one).gradient
    assert off <= nearer * (1 + 1e-9)
    assert nearer <= annulus_loss(curve, 1200.0, rate, 0.31, 0.25).gradient * (1 + 1e-9)
    assert off > 0


def test_slow_and_fast_flow_each_take_their_own_share():
    laminar, turbulent = eccentric_shares(0.31, 0.25, 1.0, 0.7)
    for curve, rate, share in ((FlowCurve(5.0, 0.05), 0.003, laminar),
                               (FlowCurve(0.0, 0.001), 0.1, turbulent)):  # fmt: skip
        middle = annulus_loss(curve, 1200.0, rate, 0.31, 0.25).gradient
        off = annulus_loss(curve, 1200.0, rate, 0.31, 0.25, 0.7).gradient
        assert off / middle == pytest.approx(share, rel=1e-3)


@given(share=st.floats(0.6, 0.95))
def test_a_pipe_on_the_wall_of_a_narrow_annulus_is_near_the_exact_slot(share):
    laminar, turbulent = eccentric_shares(0.3, 0.3 * share, 1.0, 1.0)
    assert laminar == pytest.approx(1 / 2.5, abs=0.07)
    assert 0.5 < turbulent < 0.65


@settings(deadline=None)
@given(curve=CURVES, density=DENSITIES)
def test_turbulence_begins_where_the_numbers_meet(curve, density):
    try:
        rate, velocity = turbulent_rate(
            0.31, 0.25, density, curve.yield_stress, curve.consistency, curve.index
        )
    except DomainError:
        assert annulus_loss(curve, density, 1.0, 0.31, 0.25).reynolds < 3470
        return
    loss = annulus_loss(curve, density, rate, 0.31, 0.25)
    assert loss.reynolds == pytest.approx(loss.critical, rel=1e-6)
    assert velocity == pytest.approx(loss.velocity)


def test_at_no_rate_nothing_is_lost():
    assert annulus_loss(FlowCurve(5.0, 0.02), 1200.0, 0.0, 0.31, 0.25).gradient == 0.0
    assert pipe_loss(FlowCurve(5.0, 0.02), 1200.0, 0.0, 0.22).gradient == 0.0


@given(density=st.floats(0.0, 2500.0), pressure=st.floats(0.0, 5e7), depth=st.floats(10.0, 9000.0))
def test_the_equivalent_density_presses_as_hard_as_both_together(density, pressure, depth):
    equivalent = equivalent_density(density, pressure, depth)
    assume(equivalent <= 3000.0)
    together = hydrostatic_pressure(density, depth) + pressure
    assert hydrostatic_pressure(equivalent, depth) == pytest.approx(together)


@given(inches=st.floats(2.5, 30.0), gallons=st.floats(1.0, 2000.0))
def test_velocity_in_pipe_agrees_with_a_polygon_in_other_units(inches, gallons):
    feet_a_second = gallons / 60 * 231 / 1728 / (area_of(inches) / 144)
    got = pipe_velocity(si(inches, "inch"), si(gallons, "gallon/minute"))
    assert got == pytest.approx(si(feet_a_second, "foot/second"), rel=1e-5)


@given(velocity=st.floats(0.01, 5.0), viscosity=st.floats(0.001, 0.5))
def test_reynolds_numbers_agree_with_fluids(velocity, viscosity):
    pipe = fluids.Reynolds(V=velocity, D=0.22, rho=1200.0, mu=viscosity)
    assert reynolds_pipe(0.22, velocity, 1200.0, viscosity) == pytest.approx(pipe)
    slot = fluids.Reynolds(V=velocity, D=0.06 * math.sqrt(2 / 3), rho=1200.0, mu=viscosity)
    assert reynolds_annulus(0.31, 0.25, velocity, 1200.0, viscosity) == pytest.approx(
        slot, rel=0.001
    )


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"rate": -0.01}, "Pump rate"),
        ({"rate": 1.1}, "Pump rate"),
        ({"density": 0.5}, "Density"),
        ({"yield_stress": 201.0}, "Yield stress"),
        ({"consistency": 0.0}, "Consistency"),
        ({"index": 1.6}, "Flow index"),
        ({"eccentricity": 1.01}, "Eccentricity"),
        ({"outer_diameter": 0.31}, "Outside diameter 0.31 m is not less than the hole"),
        ({"length": -1.0}, "Length"),
    ],
)
def test_out_of_range_is_refused_by_name(wrong, said):
    good = {"hole_diameter": 0.31, "outer_diameter": 0.25, "length": 100.0, "rate": 0.02,
            "density": 1200.0, "yield_stress": 5.0, "consistency": 0.02}  # fmt: skip
    with pytest.raises(DomainError, match=said):
        friction_annulus(**(good | wrong))
