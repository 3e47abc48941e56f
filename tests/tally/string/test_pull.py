"""Greatest pull, pressure on the plug, lift.

Must hold:
- no member carries more than it may at the greatest pull, and one carries just that;
- at the margin the lift is the whole weight; lift and weight are the free body's balance;
- the method of difference in column against buoyed weight is the same balance.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.pipe.weight import STANDARD_GRAVITY
from tally.string.pull import (
    MEMBERS,
    PullLimit,
    casing_lift,
    greatest_pull,
    least_left,
    lift_by_pressure,
    tension_with_pressure,
)
from tally.string.weights import buoyed_weight
from tests.tally.second_opinion import disc

UNIT_DISC = disc(1.0)


def area_of(diameter):
    """Return the area of a circle from the polygon of its unit circle."""
    return UNIT_DISC * diameter**2


FORCES = st.floats(1e5, 1e7)
SHARES = st.floats(0.4, 1.0)


@given(
    body=FORCES, body_share=SHARES, joint=FORCES, joint_share=SHARES, elevators=FORCES,
    gear=FORCES, load=FORCES, block=st.floats(0.0, 5e5),
)  # fmt: skip
def test_at_the_greatest_pull_one_member_carries_just_what_it_may(
    body, body_share, joint, joint_share, elevators, gear, load, block
):
    pull, indicator, governs = greatest_pull(
        body, body_share, joint, joint_share, elevators, gear, load, block
    )
    carried = [load + pull] * 3 + [load + pull + block]
    allowed = [body * body_share, joint * joint_share, elevators, gear]
    slack = [may - does for may, does in zip(allowed, carried, strict=True)]
    assert min(slack) == pytest.approx(0.0, abs=1e-3)
    assert slack[int(governs) - 1] == pytest.approx(0.0, abs=1e-3)
    assert indicator == pytest.approx(max(0.0, load + pull + block), abs=1e-3)


def test_a_lighter_pipe_below_may_govern():
    limits = [PullLimit(MEMBERS[0], 3e6, 2e6), PullLimit("lower pipe", 1.2e6, 0.5e6)]
    least = least_left(limits)
    assert (least.name, least.left) == ("lower pipe", pytest.approx(0.7e6))
    with pytest.raises(DomainError, match="type the ratings"):
        least_left([])


@given(load=FORCES, bore=st.floats(0.1, 0.5), pressure=st.floats(1e4, 7e7))
def test_pressure_on_the_plug_pulls_with_the_whole_bore(load, bore, pressure):
    tension, added = tension_with_pressure(load, bore, pressure)
    assert tension - load == pytest.approx(added)
    assert added == pytest.approx(area_of(bore) * pressure, rel=1e-5)


@given(
    tvd=st.floats(50.0, 4000.0), outside=st.floats(800.0, 2300.0), inside=st.floats(800.0, 2300.0)
)
def test_lift_and_weight_are_the_balance_of_the_free_body(tvd, outside, inside):
    pressures = outside * STANDARD_GRAVITY * tvd, inside * STANDARD_GRAVITY * tvd
    lift, weight, net, margin = casing_lift(0.2445, 0.2205, 70.0, tvd, *pressures)
    hanging = buoyed_weight(0.2445, 0.2205, 70.0, tvd, outside, inside)[0]
    assert net == pytest.approx(hanging, abs=1e-2)
    assert weight - lift == pytest.approx(net)
    like = buoyed_weight(0.2445, 0.2205, 70.0, tvd, inside, inside)[0]
    assert weight == pytest.approx(like, abs=1e-2)
    assert lift_by_pressure(hanging, 0.2445, 0.0)[2] == pytest.approx(margin, abs=0.1)


@given(load=st.floats(-1e6, 1e7), pressure=st.floats(0.0, 5e7))
def test_at_the_margin_the_lift_is_the_whole_weight(load, pressure):
    lift, net, margin = lift_by_pressure(load, 0.2445, pressure)
    assert lift + net == pytest.approx(load, abs=1e-6)
    if 0 <= pressure + margin <= 2e8:
        assert lift_by_pressure(load, 0.2445, pressure + margin)[1] == pytest.approx(0, abs=1e-2)


@pytest.mark.parametrize(
    ("place", "said"),
    [(0, "Body yield"), (1, "Share of the body"), (2, "Connection strength"), (4, "Elevators"),
     (5, "Hoisting gear"), (6, "Weight hanging"), (7, "Weight of the blocks")],
)  # fmt: skip
def test_out_of_range_is_refused_by_name(place, said):
    values = [4.8e6, 0.8, 4.2e6, 0.75, 4.4e6, 3.9e6, 1.6e6, 0.3e6]
    values[place] = -1.0
    with pytest.raises(DomainError, match=said):
        greatest_pull(*values)
