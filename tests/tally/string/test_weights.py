"""Hanging weight in unlike fluids.

Must hold:
- it is the free body's balance: steel, and the pressures on every end and shoulder, summed;
- with like fluids it is the buoyancy factor's, with air the weight in air;
- each metre emptied takes its contents off, wherever the survey runs: only the way down counts;
- how the pipe is cut into pieces does not matter.
"""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.hole.survey import Station, Survey
from tally.pipe.capacity import pipe_volume
from tally.pipe.interval import PipeInterval
from tally.pipe.weight import STANDARD_GRAVITY, STEEL_DENSITY, buoyancy_factor
from tally.string.columns import FluidColumn, Layer, column, stacked, vertical
from tally.string.pieces import StringPiece, hung_at, merged
from tally.string.weights import buoyed_weight, hanging, weighed
from tests.tally.second_opinion import disc, si

UNIT_DISC = disc(1.0)


def area_of(diameter):
    """Return the area of a circle from the polygon of its unit circle."""
    return UNIT_DISC * diameter**2


DENSITIES = st.floats(0.0, 2400.0)
BENT = Survey([Station(300.0, 0.0, 0.0), Station(900.0, 0.9, 0.7), Station(1500.0, 1.2, 1.5)])
ROUND = 1e-5  # polygons for circles


def steel(outer, bore):
    return area_of(outer) - area_of(bore)


@given(
    outside=st.lists(DENSITIES, min_size=2, max_size=2),
    inside=st.lists(DENSITIES, min_size=2, max_size=2),
    level=st.floats(0.0, 900.0),
    change=st.floats(100.0, 900.0),
    bore=st.floats(0.16, 0.22),
    lower=st.floats(0.25, 0.28),
)
def test_it_is_the_free_body_of_ends_and_shoulders(outside, inside, level, change, bore, lower):
    # A vertical string: light pipe on top, wider and heavier pipe of another bore below.
    upper = (0.2445, 0.2205)
    below = (lower, bore)
    mud = stacked([(change, outside[0]), (1000.0, outside[1])])
    fill = stacked([(max(level, change), inside[0]), (1000.0, inside[1])], top=level)
    pipe = [
        PipeInterval(0.0, 600.0, *upper, steel(*upper) * STEEL_DENSITY),
        PipeInterval(600.0, 1000.0, *below, steel(*below) * STEEL_DENSITY),
    ]
    got = hanging(weighed(pipe, fill, mud), Survey())
    out = {depth: mud.pressure(depth, Survey()) for depth in (600.0, 1000.0)}
    into = {depth: fill.pressure(depth, Survey()) for depth in (600.0, 1000.0)}
    metal = sum(each.weight * each.length for each in pipe) * STANDARD_GRAVITY
    foot = -out[1000.0] * area_of(lower) + into[1000.0] * area_of(bore)  # closed end, both faces
    shoulder = out[600.0] * (area_of(lower) - area_of(0.2445))  # mud presses down on the wider pipe
    step = -into[600.0] * (area_of(bore) - area_of(0.2205))  # and up or down where the bore changes
    assert got == pytest.approx(metal + foot + shoulder + step, abs=ROUND * 2e7)


@given(density=DENSITIES, depth=st.floats(1.0, 5000.0))
def test_with_one_fluid_it_is_the_buoyancy_factor(density, depth):
    mass = steel(0.2445, 0.2205) * STEEL_DENSITY
    load, air, _, _ = buoyed_weight(0.2445, 0.2205, mass, depth, density, density)
    assert air == pytest.approx(mass * depth * STANDARD_GRAVITY)
    assert load == pytest.approx(air * buoyancy_factor(density), abs=ROUND * air)
    assert buoyed_weight(0.2445, 0.2205, mass, depth, 0.0, 0.0)[0] == air


@given(one=DENSITIES, two=DENSITIES, empty=st.floats(0.0, 1000.0))
def test_the_formula_and_the_string_agree_in_a_vertical_hole(one, two, empty):
    pipe = [PipeInterval(0.0, 1000.0, 0.2445, 0.2205, 70.0)]
    spans = weighed(pipe, column(two, empty), column(one))
    expected = buoyed_weight(0.2445, 0.2205, 70.0, 1000.0, one, two, empty)[0]
    assert hanging(spans, Survey()) == pytest.approx(expected, abs=1e-3)


@given(density=DENSITIES, level=st.floats(0.0, 1500.0))
def test_emptying_takes_the_contents_off_along_the_way_down(density, level):
    pipe = [PipeInterval(0.0, 1500.0, 0.2445, 0.2205, 70.0)]
    full = hanging(weighed(pipe, column(density), column(1200.0)), BENT)
    drawn = hanging(weighed(pipe, column(density, level), column(1200.0)), BENT)
    gone = pipe_volume(0.2205, 1.0) * density * STANDARD_GRAVITY * BENT.true_vertical(level)
    assert full - drawn == pytest.approx(gone, abs=1e-3)


@given(cuts=st.lists(st.floats(0.0, 1500.0), max_size=5), density=DENSITIES)
def test_how_the_pipe_is_cut_does_not_matter(cuts, density):
    whole = [PipeInterval(0.0, 1500.0, 0.2445, 0.2205, 70.0, 0.0005)]
    depths = [0.0, *sorted(cuts), 1500.0]
    parts = [
        PipeInterval(upper, lower, 0.2445, 0.2205, 70.0, 0.0005)
        for upper, lower in pairwise(depths)
    ]
    fluids = column(density, 100.0), column(1300.0)
    assert hanging(weighed(parts, *fluids), BENT) == pytest.approx(
        hanging(weighed(whole, *fluids), BENT), abs=1e-3
    )


def test_a_stick_up_hangs_in_air():
    pipe = [PipeInterval(-3.0, 100.0, 0.2445, 0.2205, 70.0)]
    spans = weighed(pipe, column(1200.0), column(1200.0))
    assert spans[0].weight == pytest.approx(70.0 * STANDARD_GRAVITY)
    below = hanging(weighed([PipeInterval(0.0, 100.0, 0.2445, 0.2205, 70.0)],
                            column(1200.0), column(1200.0)), Survey())  # fmt: skip
    assert hanging(spans, Survey()) == pytest.approx(below + 3 * 70.0 * STANDARD_GRAVITY)


@given(depth=st.floats(0.0, 1500.0), middle=st.floats(0.0, 1500.0))
def test_pressure_is_the_sum_over_the_layers(depth, middle):
    fluid = stacked([(middle, 1100.0), (1500.0, 1900.0)])
    upper, lower = BENT.true_vertical(min(depth, middle)), BENT.true_vertical(depth)
    expected = (1100.0 * upper + 1900.0 * (lower - upper)) * STANDARD_GRAVITY
    assert fluid.pressure(depth, BENT) == pytest.approx(expected, abs=1.0)
    if depth > 0:
        assert fluid.density_at(depth) == (1100.0 if depth <= middle else 1900.0)


def test_over_the_top_there_is_air():
    fluid = column(1200.0, 50.0)
    assert (fluid.density_at(50.0), fluid.pressure(50.0, BENT)) == (0.0, 0.0)
    assert FluidColumn(()).pressure(100.0, BENT) == 0.0
    assert vertical(-3.0, BENT) == -3.0


def test_fluids_out_of_order_are_refused_with_both_depths():
    with pytest.raises(DomainError, match="down to 100 m ends above 200 m"):
        FluidColumn((Layer(200.0, 1200.0), Layer(100.0, 1900.0)))


def test_like_joints_become_one_piece_and_unlike_ones_stay_apart():
    light = StringPiece(12.0, 0.2445, 0.2205, 70.0)
    heavy = StringPiece(11.0, 0.2445, 0.2168, 80.0)
    found = merged([heavy, heavy, light, light, light, heavy])
    assert [(piece.length, piece.weight) for piece in found] == [
        (22.0, 80.0), (36.0, 70.0), (11.0, 80.0),
    ]  # fmt: skip
    assert merged([]) == ()
    assert hung_at(found, 69.0)[0].top == 0.0


def test_a_string_too_short_is_refused_with_its_length():
    with pytest.raises(DomainError, match="string of 12 m does not reach from the shoe at 20 m"):
        hung_at([StringPiece(12.0, 0.2445, 0.2205, 70.0)], 20.0)


def test_more_empty_than_there_is_is_refused():
    with pytest.raises(DomainError, match="Empty pipe 101 m is outside 0 to 100 m"):
        buoyed_weight(0.2445, 0.2205, 70.0, 100.0, 1200.0, 1200.0, 101.0)


def test_pounds_agree_with_pint():
    got = buoyed_weight(si(9.625, "inch"), si(8.681, "inch"), si(47, "pound/foot"),
                        si(1000, "foot"), 0.0, 0.0)  # fmt: skip
    assert got[1] == pytest.approx(si(47_000, "force_pound"))
    assert not math.isnan(got[0])
