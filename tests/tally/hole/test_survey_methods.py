"""Older methods of survey calculation.

Must hold:
- on a straight hole all methods agree with minimum curvature;
- on a gentle leg they agree to the fourth part in a thousand;
- radius of curvature is the mean of the direction when both angles turn evenly.
"""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from tally.errors import DomainError
from tally.hole.survey_leg import survey_leg
from tally.hole.survey_methods import average_angle, balanced_tangential, radius_of_curvature

METHODS = (average_angle, balanced_tangential, radius_of_curvature)
ANGLES = st.floats(0.05, 1.5)
TURNS = st.floats(0.8, 5.5)


@pytest.mark.parametrize("method", METHODS)
@given(inc=ANGLES, az=TURNS, length=st.floats(1.0, 300.0))
def test_a_straight_hole_is_the_same_by_any_method(method, inc, az, length):
    leg = (100.0, inc, az, 100.0 + length, inc, az)
    assert method(*leg) == pytest.approx(survey_leg(*leg)[:3])


@pytest.mark.parametrize("method", METHODS)
@given(inc=ANGLES, az=TURNS, more=st.floats(-0.04, 0.04), round_=st.floats(-0.04, 0.04))
def test_a_gentle_leg_is_near_minimum_curvature(method, inc, az, more, round_):
    leg = (100.0, inc, az, 130.0, inc + more, az + round_)
    assert method(*leg) == pytest.approx(survey_leg(*leg)[:3], abs=0.012)


@settings(deadline=None, max_examples=20)
@given(inc=ANGLES, az=TURNS, more=st.floats(-0.3, 0.3), round_=st.floats(-0.7, 0.7))
def test_radius_of_curvature_is_the_direction_integrated(inc, az, more, round_):
    lower = max(0.0, inc + more)
    got = radius_of_curvature(0.0, inc, az, 100.0, lower, az + round_)
    turns = (lambda s: inc + s * (lower - inc)), (lambda s: az + s * round_)
    # north needs equal turning of both angles along a cylinder: the book takes them apart
    down = quad(lambda s: 100 * math.cos(turns[0](s)), 0.0, 1.0)[0]
    level = quad(lambda s: 100 * math.sin(turns[0](s)), 0.0, 1.0)[0]
    share = quad(lambda s: math.cos(turns[1](s)), 0.0, 1.0)[0]
    assert got[0] == pytest.approx(down)
    assert got[1] == pytest.approx(level * share)


def test_azimuths_across_north_are_refused_in_words():
    with pytest.raises(DomainError, match="more than 180 deg apart across north"):
        average_angle(0.0, 0.2, 0.1, 100.0, 0.2, 6.2)
