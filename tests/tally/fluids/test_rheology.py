"""From readings to parameters.

Must hold:
- readings made from a fluid give that fluid back, by two points and by all readings;
- over all readings no other fluid misses them less: scipy finds none, nor does the two-point one;
- readings twice as high are a fluid twice as thick, of the same index;
- cement without its 600 rpm reading can be fitted; too few readings or falling ones are refused.
"""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import least_squares

from tally.errors import DomainError
from tally.fluids.flow_curve import RATE_PER_RPM, STRESS_PER_DEGREE, FlowCurve
from tally.fluids.rheology import (
    POUND_PER_100_FT2,
    bingham_from_readings,
    herschel_bulkley_from_readings,
    power_law_from_readings,
    power_law_two_regions,
)
from tally.fluids.rheology_fit import (
    bingham_fit,
    fit_curve,
    herschel_bulkley_fit,
    power_law_fit,
)
from tests.tally.second_opinion import si

SPEEDS = (600.0, 300.0, 200.0, 100.0, 6.0, 3.0)
YIELDS = st.floats(0.0, 15.0)
INDICES = st.floats(0.25, 1.2)
THICK = st.floats(2.0, 60.0)
NOISE = st.lists(st.floats(-0.06, 0.06), min_size=6, max_size=6)


def fluid(at_rest, thick, index):
    """Return a fluid whose stress at 300 rpm lies `thick` Pa above its yield stress."""
    return FlowCurve(at_rest, thick / (300 * RATE_PER_RPM) ** index, index)


def read(curve):
    return {rpm: curve.stress(rpm * RATE_PER_RPM) / STRESS_PER_DEGREE for rpm in SPEEDS}


def squares(curve, readings):
    """Return the sum of squares of the differences, degrees of the dial."""
    found = read(curve)
    return sum((found[rpm] - value) ** 2 for rpm, value in readings.items())


def test_units_agree_with_pint():
    assert si(1, "force_pound") / si(100, "foot**2") == pytest.approx(POUND_PER_100_FT2)
    assert pytest.approx(1.067, abs=0.0005) == STRESS_PER_DEGREE / POUND_PER_100_FT2


@given(at_rest=YIELDS, thick=THICK, index=INDICES)
def test_readings_of_a_fluid_give_it_back(at_rest, thick, index):
    made = fluid(at_rest, thick, index)
    readings = read(made)
    assume(max(readings.values()) < 500)
    values = [readings[rpm] for rpm in (300.0, 200.0, 100.0, 6.0, 3.0, 600.0)]
    got = herschel_bulkley_fit(*values)
    assert got[0] == pytest.approx(at_rest, abs=1e-4)
    assert got[1] == pytest.approx(index, abs=1e-5)
    assert got[2] == pytest.approx(made.consistency, rel=1e-4)
    assert got[3] < 1e-5


@given(thick=THICK, index=INDICES)
def test_a_power_law_comes_back_from_two_readings_and_from_all(thick, index):
    made = fluid(0.0, thick, index)
    readings = read(made)
    assume(max(readings.values()) < 500)
    got = power_law_from_readings(readings[600.0], readings[300.0])
    assert got == pytest.approx((index, made.consistency))
    values = [readings[rpm] for rpm in (300.0, 200.0, 100.0, 6.0, 3.0, 600.0)]
    assert power_law_fit(*values)[:2] == pytest.approx((index, made.consistency), rel=1e-6)
    pipe_and_annulus = power_law_two_regions(*(readings[r] for r in (600.0, 300.0, 100.0, 3.0)))
    assert pipe_and_annulus == pytest.approx((index, made.consistency) * 2)


@given(plastic=st.floats(0.002, 0.1), at_rest=YIELDS)
def test_a_bingham_fluid_comes_back(plastic, at_rest):
    readings = read(FlowCurve(at_rest, plastic))
    assume(max(readings.values()) < 500)
    values = [readings[rpm] for rpm in (300.0, 200.0, 100.0, 6.0, 3.0, 600.0)]
    assert bingham_fit(*values)[:2] == pytest.approx((plastic, at_rest), abs=1e-9)
    viscosity, point = bingham_from_readings(readings[600.0], readings[300.0])
    assert viscosity == pytest.approx(plastic, rel=0.001)  # 0.511 Pa over 510.9 1/s, said as 1 cP
    assert point * STRESS_PER_DEGREE / POUND_PER_100_FT2 == pytest.approx(at_rest, abs=1e-6)


@settings(deadline=None, max_examples=40)
@given(at_rest=st.floats(0.5, 10.0), thick=THICK, index=st.floats(0.4, 1.0), noise=NOISE)
def test_no_other_fluid_misses_the_readings_less(at_rest, thick, index, noise):
    made = fluid(at_rest, thick, index)
    readings = {
        rpm: value * (1 + off) for (rpm, value), off in zip(read(made).items(), noise, strict=True)
    }
    assume(max(readings.values()) < 500)
    fit = fit_curve(readings)
    least = squares(fit.curve, readings)
    assert fit.misfit == pytest.approx((least / 6) ** 0.5, rel=1e-6, abs=1e-9)
    found = least_squares(
        lambda p: (
            p[0] + np.exp(p[1]) * (np.array(SPEEDS) * RATE_PER_RPM) ** p[2]
        ) / STRESS_PER_DEGREE - np.array(list(readings.values())),
        [at_rest, np.log(made.consistency), index],
        bounds=([0.0, -30.0, 0.1], [100.0, 10.0, 1.5]),
        x_scale=[1.0, 1.0, 0.1],
        xtol=1e-12, ftol=1e-12, gtol=1e-12,
    )  # fmt: skip
    assert least <= 2 * found.cost * (1 + 1e-6) + 1e-9
    assert least <= squares(made, readings) + 1e-9


@given(noise=NOISE)
def test_more_parameters_never_fit_worse(noise):
    readings = {
        rpm: value * (1 + off)
        for (rpm, value), off in zip(read(fluid(2.0, 15.0, 0.7)).items(), noise, strict=True)
    }
    whole = fit_curve(readings).misfit
    assert whole <= fit_curve(readings, index=1.0).misfit + 1e-9
    assert whole <= fit_curve(readings, with_yield=False).misfit + 1e-9


@given(at_rest=YIELDS, thick=st.floats(2.0, 30.0), index=INDICES, more=st.floats(1.0, 2.0))
def test_higher_readings_are_a_thicker_fluid_of_the_same_index(at_rest, thick, index, more):
    readings = read(fluid(at_rest, thick, index))
    assume(max(readings.values()) < 240)
    one = fit_curve(readings).curve
    two = fit_curve({rpm: more * value for rpm, value in readings.items()}).curve
    assert two.index == pytest.approx(one.index, abs=1e-5)
    assert two.stress(500.0) == pytest.approx(more * one.stress(500.0))


def test_cement_is_fitted_without_its_fastest_reading():
    slow = read(fluid(4.0, 20.0, 0.8))
    values = [slow[rpm] for rpm in (300.0, 200.0, 100.0, 6.0, 3.0)]
    assert herschel_bulkley_fit(*values)[1] == pytest.approx(0.8, abs=1e-5)
    spun_out = herschel_bulkley_fit(*values, slow[600.0] * 0.8)
    assert spun_out[1] < 0.75


@given(r3=st.floats(0.0, 20.0), r6=st.floats(0.0, 40.0))
def test_the_two_point_yield_lies_from_nothing_to_the_slowest_reading(r3, r6):
    at_rest, index, consistency = herschel_bulkley_from_readings(90.0, 55.0, r6, r3)
    assert 0 <= at_rest <= r3 * STRESS_PER_DEGREE
    made = FlowCurve(at_rest, consistency, index)
    assert made.stress(300 * RATE_PER_RPM) == pytest.approx(55 * STRESS_PER_DEGREE)
    assert made.stress(600 * RATE_PER_RPM) == pytest.approx(90 * STRESS_PER_DEGREE)


@given(at_rest=YIELDS, thick=THICK, index=INDICES)
def test_the_slope_of_a_fluid_is_that_of_its_two_fast_readings(at_rest, thick, index):
    made = fluid(at_rest, thick, index)
    readings = read(made)
    assume(max(readings.values()) < 500)
    slope = power_law_from_readings(readings[600.0], readings[300.0])[0]
    assert made.slope() == pytest.approx(slope)


@pytest.mark.parametrize(
    ("function", "readings", "said"),
    [
        (bingham_from_readings, (30.0, 40.0), "Reading 30 at 600 rpm is below 40 at 300 rpm"),
        (bingham_from_readings, (50.0, 20.0), "less than half"),
        (power_law_from_readings, (40.0, 40.0), "must rise with the speed"),
        (power_law_from_readings, (501.0, 40.0), "Reading at 600 rpm"),
        (power_law_two_regions, (60.0, 40.0, 2.0, 3.0), "at 3 rpm and 2 at 100 rpm must rise"),
        (herschel_bulkley_from_readings, (60.0, 10.0, 0.0, 12.0), "is not below the reading 10"),
        (herschel_bulkley_fit, (10.0, 20.0, 30.0, 40.0, 50.0, 5.0), "no flow index|do not rise"),
    ],
)
def test_readings_that_cannot_be_are_refused(function, readings, said):
    with pytest.raises(DomainError, match=said):
        function(*readings)


def test_too_few_readings_are_refused():
    with pytest.raises(DomainError, match="2 readings are too few; 3 or more"):
        fit_curve({600.0: 60.0, 300.0: 40.0})
