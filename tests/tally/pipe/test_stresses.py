"""Stresses in a pipe body.

Must hold:
- stress around the pipe, summed through the wall, balances the pressures on half a ring;
- the same squeeze from every side strains nothing: the equivalent stress is 0;
- a bare pull gives the pull over the area, in every outcome.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from tally.pipe.ratings import PSI
from tally.pipe.stresses import axial_stress, triaxial_stress

BORES = st.floats(0.08, 0.7)
WALLS = st.floats(0.004, 0.03)
PRESSURES = st.floats(0.0, 1e8)


@given(bore=BORES, wall=WALLS, inside=PRESSURES, outside=PRESSURES)
def test_stress_around_the_pipe_balances_the_pressures(bore, wall, inside, outside):
    outer = bore + 2 * wall
    at_bore, at_outside, _, _ = triaxial_stress(outer, bore, inside, outside, 0.0)
    # Lame: hoop = mean + c / r**2, with the two constants from the two walls
    c = (at_bore - at_outside) / (4 / bore**2 - 4 / outer**2)
    mean = at_bore - 4 * c / bore**2
    held = 2 * quad(lambda r: mean + c / r**2, bore / 2, outer / 2)[0]
    assert held == pytest.approx(inside * bore - outside * outer, abs=2.0)


@given(bore=BORES, wall=WALLS, pressure=PRESSURES)
def test_an_even_squeeze_strains_nothing(bore, wall, pressure):
    result = triaxial_stress(bore + 2 * wall, bore, pressure, pressure, -pressure)
    assert result[2:] == pytest.approx((0.0, 0.0), abs=1e-4 * (1 + pressure))


@given(bore=BORES, wall=WALLS, pull=st.floats(0.0, 1e7))
def test_a_bare_pull_is_the_only_stress(bore, wall, pull):
    stress = axial_stress(bore + 2 * wall, bore, pull)
    if stress <= 950e6:
        result = triaxial_stress(bore + 2 * wall, bore, 0.0, 0.0, stress)
        assert result == pytest.approx((0.0, 0.0, stress, stress))


def test_the_slip_of_the_handbook_lies_in_mixing_the_walls():
    hoop, _, _, _ = triaxial_stress(13.375 * 0.0254, 12.347 * 0.0254, 4800 * PSI, 0.0, 0.0)
    axial = 24_182 * PSI
    mixed = (((hoop - axial) ** 2 + axial**2 + hoop**2) / 2) ** 0.5
    assert mixed / PSI == pytest.approx(52_426, abs=6)
