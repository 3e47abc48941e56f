"""Surge in one annulus.

Must hold:
- both walls hold the mud back: clinging adds to the velocity of the mud;
- against a slot with a moving wall worked out by small steps slow flow is never low, exact for a
  Newtonian fluid, and at most two fifths high;
- the exact clinging constant is that of a true ring;
- it grows with speed, and auto-fill lowers it; the speed for a pressure gives that pressure back;
- open pipe shares the mud so that both ways take the same friction.
"""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_bvp

from tally.errors import DomainError
from tally.fluids.clinging import clinging_constants, fitted_constants
from tally.fluids.flow_curve import FlowCurve
from tally.fluids.laminar import pipe_wall_stress, slot_wall_stress
from tally.fluids.surge import bore, moving_annulus, surge_annulus
from tally.fluids.surge_handbook import handbook_surge
from tally.fluids.surge_speed import greatest_speed, least_lowering_time, peak_speed
from tally.fluids.surge_start import gel_break, surge_density, surge_inertia
from tally.fluids.surge_velocity import open_velocities, surge_velocity
from tally.fluids.textbook_power_law import power_law_annulus, power_law_pipe
from tests.tally.fluids.moving_slot import moving_slot_gradient

HOLE, PIPE, BORE = 0.31115, 0.244475, 0.2205
MUD = (1222.0, 6.0, 0.02)
SPEEDS = st.floats(0.01, 3.0)
CURVES = st.tuples(st.one_of(st.just(0.0), st.floats(0.5, 15.0)), st.floats(0.01, 1.0),
                   st.floats(0.4, 1.0))  # fmt: skip
SHARES = st.floats(0.4, 0.95)


@pytest.mark.parametrize("ratio", [0.4, 0.6, 0.8, 0.95])
def test_the_exact_constant_is_that_of_a_ring_with_a_moving_inside(ratio):
    """Newtonian, no net flow: the gradient of the moving pipe over that of pumping, by steps."""
    inner, outer = ratio / 2, 0.5

    def mean(gradient, wall):
        def slope(r, y):
            return [y[1], gradient - y[1] / r]

        def ends(at_inner, at_outer):
            return [at_inner[0] - wall, at_outer[0]]

        import numpy as np

        radii = np.linspace(inner, outer, 200)
        found = solve_bvp(slope, ends, radii, np.zeros((2, 200)), tol=1e-8)
        u = found.sol(radii)[0]
        return 2 * np.trapezoid(u * radii, radii) / (outer**2 - inner**2)

    dragged, pumped = mean(0.0, -1.0), mean(-1.0, 0.0)
    # the gradient that brings the mean back to nothing, as a mean velocity of pumping
    assert clinging_constants(1.0, ratio)[0] == pytest.approx(-dragged, rel=1e-3)
    assert pumped > 0


@given(share=SHARES)
def test_the_lines_of_the_textbook_lie_near_the_exact_constants(share):
    for exact, fitted in zip(
        clinging_constants(1.0, share), fitted_constants(1.0, share), strict=True
    ):
        assert 0.3 < exact <= 0.5
        assert fitted == pytest.approx(exact, abs=0.04)


@settings(deadline=None, max_examples=15)
@given(speed=SPEEDS, ratio=st.floats(0.3, 5.0), height=st.floats(0.012, 0.07), curve=CURVES)
def test_slow_flow_is_never_below_a_slot_with_a_moving_wall(speed, ratio, height, curve):
    upward = ratio * speed
    by_steps = moving_slot_gradient(height, speed, upward, curve)
    narrow = moving_annulus(1.1, 1.1 - 2 * height, 1200.0, FlowCurve(*curve))
    slow = narrow.flows.slow_gradient(upward + 0.5 * speed)
    assert by_steps * 0.998 <= slow <= by_steps * 1.5
    # the exact slot at the same effective velocity, which the yield part is laid around
    exact = 2 * slot_wall_stress(FlowCurve(*curve), upward + 0.5 * speed, height) / height
    assert by_steps * 0.998 <= exact <= slow * (1 + 1e-9)
    if curve[0] == 0 and curve[2] == 1:
        assert slow == pytest.approx(by_steps, rel=2e-3)


@pytest.mark.parametrize("viscosity", [0.001, 0.03, 0.5])
def test_a_thin_fluid_is_exactly_the_slot(viscosity):
    by_steps = moving_slot_gradient(0.033, 0.5, 0.8, (0.0, viscosity, 1.0))
    narrow = moving_annulus(1.1, 1.1 - 0.066, 1200.0, FlowCurve(0.0, viscosity))
    assert narrow.flows.slow_gradient(0.8 + 0.25) == pytest.approx(by_steps, rel=1e-4)


@given(curve=CURVES, speed=SPEEDS, more=st.floats(1.001, 3.0), share=SHARES)
def test_it_grows_with_speed_and_with_length(curve, speed, more, share):
    pipe = share * HOLE

    def surge(at, length=1000.0):
        return surge_annulus(HOLE, pipe, length, at, 1200.0, *curve)[0]

    assert surge(speed * more if speed * more < 10 else 10.0) > surge(speed) > 0
    assert surge(speed, 1000.0 * more) == pytest.approx(more * surge(speed))


@given(curve=CURVES, speed=SPEEDS, one=st.floats(0.0, 0.9), more=st.floats(0.01, 0.1))
def test_auto_fill_lowers_it(curve, speed, one, more):
    def surge(let_in):
        return surge_annulus(HOLE, PIPE, 1000.0, speed, 1200.0, *curve, BORE, let_in)[0]

    assert surge(one + more) < surge(one) <= surge(0.0)


@given(speed=SPEEDS, share=st.floats(0.0, 1.0))
def test_what_is_pushed_aside_goes_up_or_in(speed, share):
    up = surge_velocity(HOLE, PIPE, speed, BORE, share) * pi / 4 * (HOLE**2 - PIPE**2)
    inside = share * speed * pi / 4 * BORE**2
    assert up + inside == pytest.approx(speed * pi / 4 * PIPE**2)


@given(curve=CURVES, speed=SPEEDS)
def test_it_is_the_larger_of_the_two_and_clinging_adds(curve, speed):
    whole, slow, fast, fitted, slot, handbook, up = surge_annulus(
        HOLE, PIPE, 1000.0, speed, 1200.0, *curve
    )
    assert whole == max(slow, fast)
    assert handbook < slow < slot
    assert slow < fitted < slot
    ring = moving_annulus(HOLE, PIPE, 1200.0, FlowCurve(*curve))
    still = ring.flows.slow_gradient(up) * 1000.0
    assert slow > still * (1 + 1e-6)


@given(rate=st.floats(0.03, 0.3), k=st.floats(0.01, 0.5), n=st.floats(0.5, 1.0))
def test_both_flows_are_the_textbook_ones_where_no_pipe_moves(rate, k, n):
    ring, inside = moving_annulus(HOLE, PIPE, 1200.0, FlowCurve(0.0, k, n)), bore(
        BORE, 1200.0, FlowCurve(0.0, k, n)
    )  # fmt: skip
    lost, velocity, reynolds, _, low, high = power_law_annulus(HOLE, PIPE, 1.0, rate, 1200.0, k, n)
    if reynolds <= low:
        assert ring.flows.slow_gradient(velocity) == pytest.approx(lost)
    elif reynolds >= high:
        assert ring.flows.fast_gradient(velocity) == pytest.approx(lost)
    lost, velocity, reynolds, _, low, high = power_law_pipe(BORE, 1.0, rate, 1200.0, k, n)
    if reynolds <= low:
        assert inside.flows.slow_gradient(velocity) == pytest.approx(lost)
    elif reynolds >= high:
        assert inside.gradient(rate) == pytest.approx(lost)


@given(curve=CURVES, velocity=st.floats(0.01, 3.0))
def test_slow_flow_inside_is_never_below_the_exact_pipe(curve, velocity):
    slow = bore(BORE, 1200.0, FlowCurve(*curve)).flows.slow_gradient(velocity)
    exact = 4 * pipe_wall_stress(FlowCurve(*curve), velocity, BORE) / BORE
    assert exact * (1 - 1e-9) <= slow <= exact * 1.34
    assert slow > 4 / BORE * curve[0]


@pytest.mark.parametrize("n", [0.5, 0.8, 1.0])
def test_where_flow_is_fast_the_yield_part_is_what_the_exact_flow_adds(n):
    thick, thin = FlowCurve(1.0, 1.0, n), FlowCurve(0.0, 1.0, n)
    fast = 1e6
    added = 4 / BORE * (pipe_wall_stress(thick, fast, BORE) - pipe_wall_stress(thin, fast, BORE))
    assert bore(BORE, 1200.0, thick).flows.at_rest == pytest.approx(added, rel=0.01)
    gap = (HOLE - PIPE) / 2
    added = 2 / gap * (slot_wall_stress(thick, fast, gap) - slot_wall_stress(thin, fast, gap))
    ring = moving_annulus(HOLE, PIPE, 1200.0, thick)
    assert ring.flows.at_rest == pytest.approx(added, rel=0.01)


@given(curve=CURVES, speed=SPEEDS, share=st.floats(0.0, 1.0))
def test_the_greatest_speed_gives_the_pressure_back(curve, speed, share):
    lost = surge_annulus(HOLE, PIPE, 1000.0, speed, 1200.0, *curve, BORE, share)[0]
    found = greatest_speed(HOLE, PIPE, 1000.0, lost, 1200.0, *curve, BORE, share)
    assert found == pytest.approx(speed, rel=1e-6)


@given(curve=CURVES, less=st.floats(0.0, 0.999))
def test_where_the_yield_alone_is_too_much_no_speed_is_slow_enough(curve, less):
    assume(curve[0] > 0)
    ring = moving_annulus(HOLE, PIPE, 1200.0, FlowCurve(*curve))
    with pytest.raises(DomainError, match="No speed is slow enough"):
        greatest_speed(HOLE, PIPE, 1000.0, less * ring.flows.at_rest * 1000.0, 1200.0, *curve)


@given(speed=SPEEDS, viscosity=st.floats(0.001, 0.5))
def test_open_pipe_takes_the_same_friction_on_both_ways(speed, viscosity):
    up, inside = open_velocities(HOLE, PIPE, BORE, speed)
    outer = 48 * viscosity * (up + speed / 2) / (HOLE - PIPE) ** 2
    inner = 32 * viscosity * (inside + speed) / BORE**2
    assert outer == pytest.approx(inner)
    steel = speed * (PIPE**2 - BORE**2)
    assert up * (HOLE**2 - PIPE**2) + inside * BORE**2 == pytest.approx(steel)


@given(speed=st.floats(0.001, 10.0), length=st.floats(1.0, 15.0), peak=st.floats(1.0, 3.0))
def test_a_joint_lowered_in_the_least_time_just_reaches_the_speed(speed, length, peak):
    time = least_lowering_time(length, speed, peak)
    assume(time >= 1)
    assert peak_speed(length, time, peak) == pytest.approx(speed)


def test_the_handbook_knows_open_pipe_and_less_surge_with_it():
    plugged = handbook_surge(HOLE, PIPE, 1000.0, 0.5, 60.0, 38.0)
    opened = handbook_surge(HOLE, PIPE, 1000.0, 0.5, 60.0, 38.0, BORE)
    assert all(one > other for one, other in zip(plugged, opened, strict=True))
    assert plugged[2] == pytest.approx(1.5 * plugged[1])


@given(gel=st.floats(0.1, 30.0), length=st.floats(10.0, 5000.0))
def test_breaking_the_gel_balances_both_walls(gel, length):
    walls = gel * pi * (HOLE + PIPE) * length
    end = pi / 4 * (HOLE**2 - PIPE**2)
    assert gel_break(HOLE, PIPE, length, gel) * end == pytest.approx(walls)


@given(speed=SPEEDS, time=st.floats(0.5, 20.0))
def test_inertia_is_the_mass_of_the_mud_times_how_it_gains_speed(speed, time):
    area = pi / 4 * (HOLE**2 - PIPE**2)
    gained = surge_velocity(HOLE, PIPE, speed) / time
    force = 1200.0 * area * 700.0 * gained
    assert surge_inertia(HOLE, PIPE, 700.0, 1200.0, speed, time) * area == pytest.approx(force)


@given(pressure=st.floats(0.0, 2e7), depth=st.floats(100.0, 8000.0))
def test_swab_is_surge_turned_round(pressure, depth):
    assume(pressure / depth < 15_000)
    surge, swab = surge_density(1222.0, pressure, depth)
    assert surge - 1222.0 == pytest.approx(1222.0 - swab)
    assert surge >= swab


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"speed": -0.1}, "Speed of the pipe"),
        ({"speed": 10.1}, "Speed of the pipe"),
        ({"length": -1.0}, "Length"),
        ({"density": 0.5}, "Density"),
        ({"yield_stress": 201.0}, "Yield stress"),
        ({"outer_diameter": 0.05}, "too wide an annulus"),
        ({"outer_diameter": 0.32}, "is not less than the hole"),
        ({"share": 0.5}, "Inside diameter"),
        ({"share": 1.5, "inner_diameter": BORE}, "Share let in"),
        ({"share": 0.5, "inner_diameter": PIPE}, "not less than the outside diameter"),
    ],
)
def test_out_of_range_is_refused_by_name(wrong, said):
    good = {"hole_diameter": HOLE, "outer_diameter": PIPE, "length": 100.0, "speed": 0.5,
            "density": 1222.0, "yield_stress": 6.0, "consistency": 0.02}  # fmt: skip
    with pytest.raises(DomainError, match=said):
        surge_annulus(**(good | wrong))
