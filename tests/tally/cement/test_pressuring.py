"""Compressibility, and the volume that pressures up a closed space."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.cement.pressuring import mud_compressibility, volume_to_pressure_up
from tally.errors import DomainError


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_a_mud_lies_between_its_parts(water, rest):
    oil = (1 - water) * rest
    mud = mud_compressibility(water, oil, 1 - water - oil, 4.4e-10, 7.3e-10, 2.9e-11)
    assert 2.9e-11 - 1e-20 <= mud <= 7.3e-10 + 1e-20
    assert mud_compressibility(0.0, 1.0, 0.0, 4.4e-10, 7.3e-10, 2.9e-11) == 7.3e-10
    back = volume_to_pressure_up(40.0, 7e6, mud)
    assert back == pytest.approx(40.0 * 7e6 * mud)


def test_parts_that_are_not_the_whole_mud_are_told():
    with pytest.raises(DomainError, match=r"together 0\.9 is outside"):
        mud_compressibility(0.2, 0.6, 0.1, 4.4e-10, 7.3e-10, 2.9e-11)
