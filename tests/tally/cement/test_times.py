"""Times of the job and the fluid of a contact time."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.cement.times import cementing_time, fluid_for_contact
from tally.fluids.pump import time_at_rate
from tally.hole.annulus import annulus_volume


@given(st.floats(1.0, 60.0), st.floats(0.005, 0.05), st.floats(0.0, 7200.0))
def test_times_add_up(volume, rate, allowance):
    time, mixing, displacing = cementing_time(volume, rate, 20.0, 0.02, 900.0, allowance, 60.0)
    assert time == pytest.approx(mixing + displacing + 960.0 + allowance)
    assert displacing == pytest.approx(1000.0)


@given(st.floats(1.0, 3600.0), st.floats(0.005, 0.05))
def test_contact_time_and_volume_are_the_same_both_ways(time, rate):
    volume, length = fluid_for_contact(time, rate, 0.311, 0.2445)
    assert time_at_rate(volume, rate) == pytest.approx(time)
    assert annulus_volume(0.311, 0.2445, length) == pytest.approx(volume)
