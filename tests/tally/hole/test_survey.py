"""The path of the hole by minimum curvature.

Must hold:
- at a station the position is that of the station, exactly, and depth and direction its own;
- position and direction are continuous everywhere, and the way between two depths is never
  longer than the pipe between them;
- one leg is the circle of direct vector algebra, and the tangent integrated along it;
- between two stations the way so far and the way still to go make the whole leg;
- below the last station the hole goes on straight, and says so;
- upside down or out of order, and half a turn in a leg, are refused in words.
"""

import math

import numpy as np
import pytest
from hypothesis import assume, given, reject, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from tally.errors import DomainError
from tally.hole.survey import Station, Survey, ratio_factor, turn
from tally.hole.survey_leg import survey_between, survey_leg

ANGLES = st.floats(0.0, 1.6)
TURNS = st.floats(0.0, 2 * math.pi)
STEPS = st.floats(5.0, 300.0)


@st.composite
def surveys(draw):
    """Return a survey of a few stations that may lie any way."""
    depth, stations = 0.0, []
    for _ in range(draw(st.integers(1, 6))):
        depth += draw(STEPS)
        stations.append(Station(depth, draw(ANGLES), draw(TURNS)))
    try:
        return Survey(stations)
    except DomainError:  # it turns right back, which no hole does
        reject()


def direction(inclination, azimuth):
    level = math.sin(inclination)
    return np.array([level * math.cos(azimuth), level * math.sin(azimuth), math.cos(inclination)])


def circle(first, last, length):
    """Return position and direction on the arc by direct vector algebra."""
    angle = math.atan2(np.linalg.norm(np.cross(first, last)), float(first @ last))
    inward = last - first * math.cos(angle)
    inward = inward / np.linalg.norm(inward)
    radius = length / angle

    def at(share):
        turned = share * angle
        place = radius * (math.sin(turned) * first + (1 - math.cos(turned)) * inward)
        return place, math.cos(turned) * first + math.sin(turned) * inward

    return at


def offsets(place):
    return np.array([place.north, place.east, place.true_vertical])


@given(hole=surveys())
def test_at_a_station_the_position_is_exact(hole):
    for number, station in enumerate(hole.stations):
        place = hole.at(station.depth)
        assert (place.depth, place.inclination, place.azimuth) == (
            station.depth,
            station.inclination,
            station.azimuth,
        )
        if number < len(hole.legs):
            assert (place.north, place.east, place.true_vertical) == hole.legs[number].start
        assert hole.true_vertical(station.depth) == place.true_vertical
        assert not place.beyond


@given(hole=surveys(), share=st.floats(0.0, 1.0))
def test_the_path_has_no_step(hole, share):
    for depth in (share * hole.deepest, *(station.depth for station in hole.stations)):
        lower = hole.at(depth)
        upper = hole.at(max(0.0, depth - 1e-6))
        assert np.linalg.norm(offsets(lower) - offsets(upper)) <= 1.1e-6
        turned = direction(lower.inclination, lower.azimuth)
        turned = turned - direction(upper.inclination, upper.azimuth)
        assert np.linalg.norm(turned) < 1e-5


@given(hole=surveys(), one=st.floats(0.0, 1.2), two=st.floats(0.0, 1.2))
def test_the_way_is_never_longer_than_the_pipe(hole, one, two):
    upper, lower = sorted((one * hole.deepest, two * hole.deepest))
    way = np.linalg.norm(offsets(hole.at(lower)) - offsets(hole.at(upper)))
    assert way <= (lower - upper) * (1 + 1e-9) + 1e-9


@given(inc=ANGLES, az=TURNS, lower_inc=ANGLES, lower_az=TURNS, length=STEPS,
       share=st.floats(0.0, 1.0))  # fmt: skip
def test_a_leg_is_the_circle_of_vector_algebra(inc, az, lower_inc, lower_az, length, share):
    first, last = direction(inc, az), direction(lower_inc, lower_az)
    assume(1e-6 < turn(inc, az, lower_inc, lower_az) < 3.0)
    place, along = circle(first, last, length)(share)
    hole = Survey([Station(0.0, inc, az), Station(length, lower_inc, lower_az)])
    assert offsets(hole.at(share * length)) == pytest.approx(place, abs=1e-6 * length)
    got = hole.at(share * length)
    assert direction(got.inclination, got.azimuth) == pytest.approx(along, abs=1e-6)


@settings(deadline=None, max_examples=20)
@given(inc=ANGLES, az=TURNS, lower_inc=ANGLES, length=STEPS)
def test_the_coordinates_are_the_tangent_integrated(inc, az, lower_inc, length):
    lower_az = az + 0.7
    assume(turn(inc, az, lower_inc, lower_az) > 1e-6)
    at = circle(direction(inc, az), direction(lower_inc, lower_az), length)
    hole = Survey([Station(0.0, inc, az), Station(length, lower_inc, lower_az % (2 * math.pi))])
    end = offsets(hole.at(length))
    for axis in range(3):
        integral = quad(lambda s, axis=axis: length * at(s)[1][axis], 0.0, 1.0)[0]
        assert end[axis] == pytest.approx(integral, abs=1e-6 * length)


@given(inc=ANGLES, az=TURNS, lower_inc=ANGLES, lower_az=TURNS, share=st.floats(0.05, 0.95))
def test_the_way_so_far_and_the_way_to_go_make_the_leg(inc, az, lower_inc, lower_az, share):
    assume(turn(inc, az, lower_inc, lower_az) < 3.0)
    whole = survey_leg(1000.0, inc, az, 1100.0, lower_inc, lower_az)
    down, north, east, mid_inc, mid_az = survey_between(
        1000.0, inc, az, 1100.0, lower_inc, lower_az, 1000.0 + 100 * share
    )
    rest = survey_leg(1000.0 + 100 * share, mid_inc, mid_az, 1100.0, lower_inc, lower_az)
    assert down + rest[0] == pytest.approx(whole[0], abs=1e-6)
    assert north + rest[1] == pytest.approx(whole[1], abs=1e-6)
    assert east + rest[2] == pytest.approx(whole[2], abs=1e-6)
    assert rest[3] == pytest.approx((1 - share) * whole[3], abs=1e-6)


@given(inc=ANGLES, az=TURNS, lower_inc=ANGLES, lower_az=TURNS)
def test_the_turn_is_the_angle_between_the_vectors(inc, az, lower_inc, lower_az):
    first, last = direction(inc, az), direction(lower_inc, lower_az)
    expected = math.atan2(np.linalg.norm(np.cross(first, last)), float(first @ last))
    assert turn(inc, az, lower_inc, lower_az) == pytest.approx(expected, abs=2e-8)


def test_a_tiny_turn_keeps_its_digits():
    assert turn(0.3, 1.0, 0.3 + 1e-9, 1.0) == pytest.approx(1e-9, rel=1e-6)


@given(angle=st.floats(0.019, 0.021))
def test_the_ratio_factor_has_no_step_where_its_series_ends(angle):
    assert ratio_factor(angle) == pytest.approx(math.tan(angle / 2) / (angle / 2), rel=1e-12)


@given(hole=surveys(), further=st.floats(1.0, 1000.0))
def test_beyond_the_last_station_the_hole_is_straight(hole, further):
    last = hole.stations[-1]
    foot, below = hole.at(last.depth), hole.at(last.depth + further)
    assert below.beyond
    assert (below.inclination, below.azimuth) == (last.inclination, last.azimuth)
    assert below.dogleg_severity == 0.0
    way = offsets(below) - offsets(foot)
    expected = further * direction(last.inclination, last.azimuth)
    assert way == pytest.approx(expected, abs=1e-6)


def test_without_a_station_the_hole_is_vertical():
    place = Survey().at(1234.0)
    assert (place.true_vertical, place.north, place.east) == (1234.0, 0.0, 0.0)
    assert place.beyond


def test_an_upright_station_makes_no_false_turn():
    for azimuth in (0.0, 1.0, 5.0):
        values = survey_leg(0.0, 0.0, azimuth, 100.0, 0.1, 2.0)
        assert values[3] == pytest.approx(0.1)
        assert math.atan2(values[2], values[1]) == pytest.approx(2.0)


def test_severity_belongs_to_the_leg_above_a_station():
    hole = Survey([Station(0.0, 0.0, 0.0), Station(100.0, 0.0, 0.0), Station(200.0, 0.1, 0.0)])
    assert hole.at(100.0).dogleg_severity == 0.0
    assert hole.at(150.0).dogleg_severity == pytest.approx(0.001)
    assert hole.at(200.0).dogleg_severity == pytest.approx(0.001)
    assert hole.at(250.0).dogleg_severity == 0.0


def test_stations_out_of_order_are_refused_with_both_depths():
    with pytest.raises(DomainError, match=r"Station at 90 m is not below the station at 100 m"):
        Survey([Station(100.0, 0.0, 0.0), Station(90.0, 0.1, 0.0)])


def test_half_a_turn_in_a_leg_is_refused():
    with pytest.raises(DomainError, match="would turn by 179 deg, 175 or more"):
        survey_leg(0.0, 1.56, 0.0, 100.0, 1.57, math.pi)


@pytest.mark.parametrize(
    ("station", "said"),
    [
        ((-1.0, 0.0, 0.0), "Measured depth"),
        ((1.0, -0.1, 0.0), "Inclination"),
        ((1.0, 3.2, 0.0), "Inclination"),
        ((1.0, 0.1, 6.4), "Azimuth"),
        ((1.0, 0.1, math.nan), "Azimuth"),
    ],
)
def test_a_station_that_cannot_be_is_refused(station, said):
    with pytest.raises(DomainError, match=said):
        Station(*station)


def test_a_depth_not_between_the_stations_is_refused():
    with pytest.raises(DomainError, match="Depth wanted 1,101 m is outside 1,000 to 1,100 m"):
        survey_between(1000.0, 0.1, 0.0, 1100.0, 0.2, 0.0, 1101.0)
