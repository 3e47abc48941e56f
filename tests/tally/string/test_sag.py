"""Sag between two centralizers.

Must hold:
- it is the bend of a built-in beam by finite differences, in tension and in compression;
- the series near no tension meets the closed form;
- it grows with spacing and load and shrinks with tension; a span that buckles is refused.
"""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.linalg import solve_banded

from tally.errors import DomainError
from tally.string.sag import bending_stiffness, sag, span_sag

STIFFNESS = bending_stiffness(0.2445, 0.2205)


def by_finite_differences(side, spacing, tension, stiffness, parts=400):
    """Return the bend in the middle from E J y'''' - T y'' = q, built in at both ends."""
    h = spacing / parts
    count = parts - 1
    bands = np.zeros((5, count))
    bend, pull = stiffness / h**4, tension / h**2
    bands[2] = 6 * bend + 2 * pull
    bands[2, [0, -1]] += bend  # no slope at the ends: the point past an end mirrors that before it
    bands[1, 1:] = bands[3, :-1] = -4 * bend - pull
    bands[0, 2:] = bands[4, :-2] = bend
    return float(solve_banded((2, 2), bands, np.full(count, side))[count // 2])


@pytest.mark.parametrize("tension", [0.0, 50e3, 222e3, 890e3, -89e3])
@pytest.mark.parametrize("spacing", [6.0, 12.192, 24.0])
def test_sag_is_that_of_finite_differences(tension, spacing):
    wanted = by_finite_differences(430.0, spacing, tension, STIFFNESS)
    assert sag(430.0, spacing, tension, STIFFNESS) == pytest.approx(wanted, rel=1e-4)


@pytest.mark.parametrize("sign", [1, -1])
def test_series_and_closed_form_meet(sign):
    edge = 1e-3 * 4 * STIFFNESS / 12**2
    under, over = (
        sag(430.0, 12.0, sign * edge * part, STIFFNESS) for part in (0.9999999, 1.0000001)
    )
    assert under == pytest.approx(over, rel=1e-7)


@settings(max_examples=60)
@given(st.floats(1.0, 3000.0), st.floats(2.0, 40.0), st.floats(-1e5, 3e6), st.floats(1.01, 2.0))
def test_sag_grows_with_spacing_and_load_and_shrinks_with_tension(side, spacing, tension, more):
    bent = sag(side, spacing, tension, STIFFNESS)
    assert bent > 0
    assert sag(side, spacing * more, tension, STIFFNESS) > bent
    assert sag(side * more, spacing, tension, STIFFNESS) > bent
    assert sag(side, spacing, tension + 1e4, STIFFNESS) < bent or bent == math.inf


def test_compression_that_buckles_the_span_is_refused_and_less_is_not():
    edge = math.pi**2 * 4 * STIFFNESS / 30**2
    assert span_sag(0.2445, 0.2205, 30.0, 400.0, -0.99 * edge) > 1.0
    with pytest.raises(DomainError, match=r"buckles a span of 30 m"):
        span_sag(0.2445, 0.2205, 30.0, 400.0, -1.01 * edge)
