"""The root between two bounds.

Must hold:
- it agrees with scipy's brentq on functions smooth, steep, flat and with a kink;
- it needs few calls, and never leaves the bounds;
- without a change of sign it is refused.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from tally.errors import DomainError
from tally.fluids.root import bracketed_root

ROOTS = st.floats(-0.9, 0.9)
SHAPES = [
    lambda x, r: math.exp(x) - math.exp(r),
    lambda x, r: (x - r) ** 3,
    lambda x, r: math.atan(50 * (x - r)),
    lambda x, r: (x - r) if x < r else 30 * (x - r),
    lambda x, r: math.tanh(5 * (x - r)) + 0.01 * (x - r),
]


@pytest.mark.parametrize("shape", SHAPES)
@given(root=ROOTS, low=st.floats(-3.0, -1.0), high=st.floats(1.0, 3.0))
def test_it_agrees_with_scipy(shape, root, low, high):
    calls = []

    def function(x):
        calls.append(x)
        return shape(x, root)

    got = bracketed_root(function, low, high)
    expected = brentq(shape, low, high, args=(root,), xtol=1e-14, maxiter=1000, disp=False)
    assert got == pytest.approx(expected, abs=2e-5)
    assert abs(shape(got, root)) <= 1e-9
    assert all(low <= x <= high for x in calls)
    assert len(calls) <= 110


def test_a_smooth_function_takes_few_calls():
    calls = []
    got = bracketed_root(lambda x: calls.append(x) or math.exp(x) - 2, -5.0, 5.0)
    assert got == pytest.approx(math.log(2), rel=1e-13)
    assert len(calls) < 20


def test_a_root_on_a_bound_is_found():
    assert bracketed_root(lambda x: x, 0.0, 2.0) == 0.0
    assert bracketed_root(lambda x: x - 2, 0.0, 2.0) == 2.0


def test_the_bounds_may_be_given_either_way_round():
    assert bracketed_root(lambda x: x - 1, 3.0, 0.0) == pytest.approx(1.0)


@pytest.mark.parametrize("function", [lambda _: 1.0, lambda _: math.nan, lambda x: x + 10])
def test_without_a_change_of_sign_it_is_refused(function):
    with pytest.raises(DomainError, match="No root lies between 0 and 1"):
        bracketed_root(function, 0.0, 1.0)
