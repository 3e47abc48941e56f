"""What presses pipe to the wall.

Must hold:
- it is the balance of forces on a soft string, added up along the arc by vectors;
- it is the printed form with the cosines toward the bend and across it;
- upper and lower end may be changed over in straight hole; in a bend the tension's sign counts.
"""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.hole.survey import Station, make_leg
from tally.string.side_force import side_force, side_vector

INCLINATIONS, AZIMUTHS = st.floats(0.1, 1.4), st.floats(1.0, 1.4)
WEIGHTS, TENSIONS = st.floats(-300.0, 1500.0), st.floats(-2e5, 3e6)


def along_the_arc(weight, length, upper, lower, tension, parts=2000):
    """Return the load across an arc: each short piece's weight across and its turn under pull."""
    leg = make_leg(Station(0.0, *upper), Station(length, *lower), (0.0, 0.0, 0.0))
    nodes = np.array([leg.direction(place / parts) for place in range(parts + 1)])
    middle = (nodes[1:] + nodes[:-1]) / 2
    middle /= np.linalg.norm(middle, axis=1)[:, None]
    down = np.array([0.0, 0.0, 1.0])
    across = down - (middle @ down)[:, None] * middle
    return weight * length / parts * across.sum(axis=0) + tension * (nodes[-1] - nodes[0])


def by_cosines(weight, length, upper, lower, tension):
    """Return the load by the cosines toward the centre of the bend and across it."""
    (i1, a1), (i2, a2) = upper, lower
    bend = math.acos(math.cos(i1) * math.cos(i2) + math.sin(i1) * math.sin(i2) * math.cos(a2 - a1))
    toward = math.sin((i1 - i2) / 2) * math.sin((i1 + i2) / 2) / math.sin(bend / 2)
    over = math.sin(i1) * math.sin(i2) * math.sin(a2 - a1) / math.sin(bend)
    in_plane = weight * length * toward + 2 * tension * math.sin(bend / 2)
    return math.hypot(in_plane, weight * length * over)


@settings(max_examples=60)
@given(INCLINATIONS, AZIMUTHS, st.floats(0.01, 0.1), st.floats(0.01, 0.1), WEIGHTS, TENSIONS)
def test_it_is_the_printed_form_by_cosines(inclination, azimuth, turn, drop, weight, tension):
    upper, lower = (inclination, azimuth), (inclination - drop, azimuth + turn)
    got = side_force(weight, 12.0, upper[0], lower[0], upper[1], lower[1], tension)
    assert got == pytest.approx(by_cosines(weight, 12.0, upper, lower, tension), rel=1e-6, abs=1e-3)


@settings(max_examples=40)
@given(INCLINATIONS, AZIMUTHS, st.floats(-0.05, 0.05), st.floats(-0.05, 0.05), WEIGHTS, TENSIONS)
def test_it_is_the_balance_along_the_arc(inclination, azimuth, turn, build, weight, tension):
    upper, lower = (inclination, azimuth), (inclination + build, azimuth + turn)
    wanted = along_the_arc(weight, 12.0, upper, lower, tension)
    got = side_force(weight, 12.0, upper[0], lower[0], upper[1], lower[1], tension)
    # along the arc the weight across is not all in one direction: a thousandth of it
    assert got == pytest.approx(float(np.linalg.norm(wanted)), abs=abs(weight) * 12.0 * 2e-3 + 1e-6)


@given(INCLINATIONS, AZIMUTHS, st.floats(0.0, 0.1), WEIGHTS, TENSIONS)
def test_the_load_lies_across_the_span(inclination, azimuth, turn, weight, tension):
    upper, lower = (Station(0.0, inclination + part, azimuth).direction for part in (0.0, turn))
    load = side_vector(upper, lower, weight, tension)
    mean = [one + two for one, two in zip(upper, lower, strict=True)]
    along = sum(one * two for one, two in zip(load, mean, strict=True))
    assert along == pytest.approx(0.0, abs=1e-9 * (abs(weight) + abs(tension) + 1))


def test_tension_lifts_pipe_in_a_build_and_compression_presses_it():
    straight = side_force(500.0, 12.0, 0.5, 0.5)
    build, drop = (0.5, 0.502), (0.502, 0.5)
    assert side_force(500.0, 12.0, *build, tension=1e5) < straight
    assert side_force(500.0, 12.0, *build, tension=-1e5) > straight
    assert side_force(500.0, 12.0, *drop, tension=1e5) > straight
    assert side_force(500.0, 12.0, *drop, tension=-1e5) < straight


def test_a_turn_of_a_right_angle_is_refused():
    with pytest.raises(DomainError, match="Cosine of the bend"):
        side_force(500.0, 12.0, 0.0, 1.6)
