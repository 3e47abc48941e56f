"""Slow flow, exactly.

Must hold:
- the wall stress drives the rate that it was asked for, by integrating the flow curve;
- a Newtonian fluid has 16/Re in pipe (second opinion: `fluids`) and 12 mu v / h**2 in a slot;
- the true ring of an annulus is within 3 % of the slot from 0.3, within 1 % from 0.5;
- friction grows with rate, with yield stress and with thickness; at no rate nothing is lost.
"""

import math

import fluids
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from tally.errors import DomainError
from tally.fluids.flow_curve import FlowCurve
from tally.fluids.laminar import (
    annulus_laminar,
    pipe_laminar,
    pipe_wall_stress,
    slot_wall_stress,
)

CURVES = st.builds(
    FlowCurve, st.one_of(st.just(0.0), st.floats(0.1, 40.0)), st.floats(0.001, 2.0),
    st.floats(0.3, 1.2),
)  # fmt: skip
SPEEDS = st.floats(0.01, 3.0)
SIZES = st.floats(0.01, 0.4)


def sheared(curve, stress):
    """Return the shear rate at a stress."""
    over = max(0.0, stress - curve.yield_stress)
    return (over / curve.consistency) ** (1 / curve.index)


@settings(deadline=None, max_examples=40)
@given(curve=CURVES, speed=SPEEDS, diameter=SIZES)
def test_in_pipe_the_wall_stress_drives_the_velocity(curve, speed, diameter):
    wall = pipe_wall_stress(curve, speed, diameter)
    radius = diameter / 2
    plug = radius * curve.yield_stress / wall
    # mean velocity = (1/R^2) * integral of r^2 * shear rate, by parts from the velocity profile
    mean = quad(lambda r: r * r * sheared(curve, wall * r / radius), plug, radius)[0] / radius**2
    assert mean == pytest.approx(speed, rel=1e-6)


@settings(deadline=None, max_examples=40)
@given(curve=CURVES, speed=SPEEDS, height=SIZES)
def test_in_a_slot_the_wall_stress_drives_the_velocity(curve, speed, height):
    wall = slot_wall_stress(curve, speed, height)
    half = height / 2
    plug = half * curve.yield_stress / wall
    mean = quad(lambda y: y * sheared(curve, wall * y / half), plug, half)[0] / half
    assert mean == pytest.approx(speed, rel=1e-6)


@given(viscosity=st.floats(0.001, 1.0), rate=st.floats(0.0001, 0.05), diameter=st.floats(0.06, 0.4))
def test_a_newtonian_fluid_in_pipe_agrees_with_fluids(viscosity, rate, diameter):
    velocity = 4 * rate / (math.pi * diameter**2)
    density = 0.5 * 2000 * viscosity / (velocity * diameter)  # so that the flow is laminar
    reynolds = fluids.Reynolds(V=velocity, D=diameter, rho=density, mu=viscosity)
    factor = fluids.friction.friction_factor(Re=reynolds)
    gradient, wall = pipe_laminar(diameter, rate, 0.0, viscosity)
    assert gradient == pytest.approx(factor * density * velocity**2 / (2 * diameter))
    assert wall == pytest.approx(gradient * diameter / 4)


def ring(hole, pipe, rate, viscosity):
    """Return the gradient of a Newtonian fluid in a true ring."""
    k = pipe / hole
    velocity = rate / (math.pi / 4 * (hole**2 - pipe**2))
    return 8 * viscosity * velocity / (hole / 2) ** 2 / (1 + k * k - (1 - k * k) / math.log(1 / k))


@given(hole=st.floats(0.2, 0.6), share=st.floats(0.3, 0.95), viscosity=st.floats(0.001, 1.0))
def test_the_slot_is_near_the_true_ring(hole, share, viscosity):
    slot, _ = annulus_laminar(hole, hole * share, 0.01, 0.0, viscosity)
    true = ring(hole, hole * share, 0.01, viscosity)
    assert slot == pytest.approx(true, rel=0.01 if share >= 0.5 else 0.03)
    assert slot >= true


@given(curve=CURVES, rate=st.floats(0.0001, 0.05), more=st.floats(1.001, 3.0))
def test_friction_grows_with_rate_yield_and_thickness(curve, rate, more):
    def lost(rate=rate, at_rest=curve.yield_stress, thick=curve.consistency):
        return annulus_laminar(0.31, 0.25, rate, at_rest, thick, curve.index)[0]

    assert lost(rate=rate * more) > lost()
    assert lost(thick=curve.consistency * more) > lost()
    assert lost(at_rest=curve.yield_stress + more) > lost()


@given(curve=CURVES, speed=SPEEDS, size=SIZES)
def test_the_wall_stress_lies_above_the_yield_stress(curve, speed, size):
    for stress in (pipe_wall_stress(curve, speed, size), slot_wall_stress(curve, speed, size)):
        assert stress > curve.yield_stress


@given(curve=CURVES)
def test_a_creeping_fluid_is_held_by_its_yield_stress_alone(curve):
    stress = slot_wall_stress(curve, 1e-12, 0.05)
    creeping = curve.consistency * (6 * 1e-12 / 0.05) ** curve.index
    assert stress - curve.yield_stress < 0.05 * max(1.0, curve.yield_stress) + 10 * creeping


def test_at_no_rate_nothing_is_lost():
    assert annulus_laminar(0.31, 0.25, 0.0, 5.0, 0.02) == (0.0, 0.0)
    assert pipe_laminar(0.22, 0.0, 5.0, 0.02) == (0.0, 0.0)


def test_an_annulus_too_wide_for_a_slot_is_refused():
    with pytest.raises(DomainError, match=r"0\.08 m is less than 0\.3 of the hole diameter 0\.31"):
        annulus_laminar(0.31, 0.08, 0.01, 0.0, 0.02)
