"""Couplings in displacement and weight; pipe at its place in the hole.

Must hold:
- a flush coupling adds nothing, a longer or wider one never less;
- closed less open end is what the bore holds, with and without a coupling;
- volumes of parts of an interval add up to that of the whole.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import DomainError, InputError
from tally.pipe.capacity import pipe_volume
from tally.pipe.couplings import (
    coupling_displacement,
    coupling_sizes,
    find_coupling,
    joint_displacement,
    joint_weight,
)
from tally.pipe.interval import PipeInterval, inside_volume
from tally.pipe.sizes import casing_sizes
from tally.pipe.weight import MILL_STEEL_DENSITY
from tests.tally.second_opinion import disc, si

UNIT_DISC = disc(1.0)


def area_of(diameter):
    """Return the area of a circle from the polygon of its unit circle."""
    return UNIT_DISC * diameter**2


BORES = st.floats(0.08, 0.7)
WALLS = st.floats(0.004, 0.03)
COLLARS = st.floats(0.0, 0.05)
LENGTHS = st.floats(0.01, 0.4)


@given(bore=BORES, wall=WALLS, extra=COLLARS, length=LENGTHS)
def test_a_coupling_is_a_ring_of_polygons(bore, wall, extra, length):
    outer = bore + 2 * wall
    ring = (area_of(outer + extra) - area_of(outer)) * length
    got = coupling_displacement(outer, outer + extra, length)
    assert got == pytest.approx(ring, rel=1e-5, abs=1e-12)


@given(bore=BORES, wall=WALLS, extra=COLLARS, length=st.floats(5.0, 14.0))
def test_closed_less_open_end_is_what_the_bore_holds(bore, wall, extra, length):
    outer = bore + 2 * wall
    closed, steel, closed_by_length, steel_by_length = joint_displacement(
        outer, bore, length, outer + extra, 0.25
    )
    assert closed - steel == pytest.approx(pipe_volume(bore, length))
    assert closed_by_length * length == pytest.approx(closed)
    assert steel_by_length * length == pytest.approx(steel)


@given(bore=BORES, wall=WALLS, length=st.floats(5.0, 14.0), gain=st.floats(0.0, 60.0))
def test_the_weight_of_a_joint_is_its_steel_and_the_gain(bore, wall, length, gain):
    outer = bore + 2 * wall
    steel = (area_of(outer) - area_of(bore)) * length * MILL_STEEL_DENSITY
    mass, by_length = joint_weight(outer, wall, length, gain)
    assert mass == pytest.approx(steel + gain, rel=1e-4)
    assert by_length * length == pytest.approx(mass)


@pytest.mark.parametrize("size", coupling_sizes(), ids=lambda size: f"{size.pipe_diameter:.4f}")
def test_a_printed_coupling_weighs_more_than_what_stands_out_of_the_pipe(size):
    for length, mass in ((size.length_short, size.mass_short), (size.length_long, size.mass_long)):
        if length is not None:
            out = coupling_displacement(size.pipe_diameter, size.diameter, length)
            whole = (area_of(size.diameter) - area_of(0.9 * size.pipe_diameter)) * length
            assert out * 7850 < mass < whole * 7850


@pytest.mark.parametrize("size", coupling_sizes(), ids=lambda size: f"{size.pipe_diameter:.4f}")
def test_both_tables_print_the_same_coupling(size):
    rows = [row for row in casing_sizes() if abs(row.outer_diameter - size.pipe_diameter) < 2e-4]
    assert rows
    for row in rows:
        assert row.coupling_diameter == pytest.approx(size.diameter)


def test_a_coupling_that_was_not_found_in_print_is_asked_for():
    with pytest.raises(InputError, match=r"no coupling for 9\.625 in .* data sheet"):
        find_coupling(9.625 * 0.0254)


def test_a_coupling_less_than_the_pipe_is_refused_with_both_numbers():
    with pytest.raises(DomainError, match=r"0\.24 m is less than the outside diameter 0\.25 m"):
        coupling_displacement(0.25, 0.24, 0.25)


def test_a_coupling_longer_than_its_joint_is_refused():
    with pytest.raises(DomainError, match="not less than the length of the joint"):
        joint_displacement(0.25, 0.22, 0.5, 0.27, 0.55)


@given(bore=BORES, cut=st.floats(0.0, 1.0), top=st.floats(0.0, 500.0))
def test_volumes_of_the_parts_of_an_interval_add_up(bore, cut, top):
    pipe = [PipeInterval(0.0, 400.0, bore + 0.02, bore, 90.0),
            PipeInterval(400.0, 1000.0, bore + 0.03, bore, 120.0)]  # fmt: skip
    middle = top + cut * (1000.0 - top)
    parts = inside_volume(pipe, top, middle) + inside_volume(pipe, middle, 1000.0)
    assert parts == pytest.approx(inside_volume(pipe, top, 1000.0))
    assert parts == pytest.approx(area_of(bore) * (1000.0 - top), rel=1e-5)


def test_an_interval_counts_its_couplings_outside_only():
    plain = PipeInterval(0.0, 100.0, 0.25, 0.22, 90.0)
    with_couplings = PipeInterval(0.0, 100.0, 0.25, 0.22, 90.0, 0.001)
    assert with_couplings.closed - plain.closed == pytest.approx(0.001)
    assert with_couplings.steel - plain.steel == pytest.approx(0.001)
    assert with_couplings.bore == plain.bore == pytest.approx(area_of(0.22), rel=1e-6)
    assert plain.length == 100.0


@pytest.mark.parametrize(
    "wrong", [{"bottom": -200.0}, {"inner_diameter": 0.26}, {"weight": 2.0}, {"coupling_area": -1}]
)
def test_an_interval_that_cannot_be_is_refused(wrong):
    given_parts = {"top": 0.0, "bottom": 10.0, "outer_diameter": 0.25, "inner_diameter": 0.22,
                   "weight": 90.0}  # fmt: skip
    with pytest.raises(DomainError):
        PipeInterval(**(given_parts | wrong))


def test_pounds_and_gallons_agree_with_pint():
    got = coupling_displacement(si(5.5, "inch"), si(6.05, "inch"), si(8, "inch"))
    assert got / si(1, "gallon") == pytest.approx((6.05**2 - 5.5**2) * 0.7853982 * 8 / 231)
