"""Ratings of the pipe body: how they hang together, and second opinions.

Must hold:
- internal yield is Barlow's pressure on seven eighths of the wall; doubling the wall doubles it;
- body yield is the area of a ring, taken as polygons, times the yield strength;
- a rating as published lies within half a step of the unrounded one, halves up;
- the standard grades have the minimum yields of the list; a high-collapse mill grade is asked for.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import DomainError, InputError
from tally.pipe.grades import MINIMUM_YIELD_PSI, minimum_yield
from tally.pipe.ratings import (
    POUND_FORCE,
    PSI,
    body_yield,
    coupling_internal_yield,
    internal_yield,
    to_nearest,
)
from tests.tally.second_opinion import disc, si

UNIT_DISC = disc(1.0)


def area_of(diameter):
    """Return the area of a circle from the polygon of its unit circle."""
    return UNIT_DISC * diameter**2


BORES = st.floats(0.08, 0.7)
WALLS = st.floats(0.004, 0.03)
YIELDS = st.sampled_from(sorted(set(MINIMUM_YIELD_PSI.values()))).map(lambda psi: psi * PSI)


def test_constants_agree_with_pint():
    assert si(1, "psi") == pytest.approx(PSI, rel=1e-12)
    assert si(1, "force_pound") == pytest.approx(POUND_FORCE, rel=1e-12)


@given(bore=BORES, wall=WALLS, strength=YIELDS)
def test_internal_yield_holds_half_a_ring_together(bore, wall, strength):
    outer = bore + 2 * wall
    pressure, _ = internal_yield(outer, wall, strength, 1.0)
    assert pressure * outer == pytest.approx(2 * wall * strength)  # pressure on D, steel on 2 t
    assert internal_yield(outer, wall, strength)[0] == pytest.approx(0.875 * pressure)


@given(bore=BORES, wall=WALLS, strength=YIELDS)
def test_body_yield_is_the_ring_of_polygons_times_the_strength(bore, wall, strength):
    ring = area_of(bore + 2 * wall) - area_of(bore)
    got = body_yield(bore + 2 * wall, bore, strength)[0]
    assert got == pytest.approx(ring * strength, rel=1e-4)


@given(bore=BORES, wall=WALLS, strength=YIELDS)
def test_a_rating_as_published_is_within_half_a_step(bore, wall, strength):
    outer = bore + 2 * wall
    burst, rated = internal_yield(outer, wall, strength)
    assert abs(burst - rated) <= 5 * PSI * (1 + 1e-9)
    assert rated / PSI / 10 == pytest.approx(round(rated / PSI / 10))
    pull, rated_pull = body_yield(outer, bore, strength)
    assert abs(pull - rated_pull) <= 500 * POUND_FORCE * (1 + 1e-9)


def test_halves_go_up():
    assert to_nearest(4755.0, 10.0) == 4760.0
    assert to_nearest(4754.9, 10.0) == 4750.0


@given(coupling=st.floats(0.1, 0.5), share=st.floats(0.5, 0.99), strength=YIELDS)
def test_a_coupling_of_wider_root_holds_less(coupling, share, strength):
    root = max(0.05, coupling * share)
    held = coupling_internal_yield(coupling, root, strength)[0]
    assert held == pytest.approx(strength * (1 - root / coupling))
    assert coupling_internal_yield(coupling, max(0.05, root * 0.99), strength)[0] >= held


def test_a_root_as_wide_as_the_coupling_is_refused():
    with pytest.raises(DomainError, match="as wide as the coupling"):
        coupling_internal_yield(0.25, 0.25, 500e6)


@pytest.mark.parametrize("grade", list(MINIMUM_YIELD_PSI))
def test_a_grade_carries_its_strength_in_its_name(grade):
    assert minimum_yield(grade) == pytest.approx(int(grade[1:]) * 1000 * si(1, "psi"))
    assert minimum_yield(f" {grade[0].lower()}-{grade[1:]}") == minimum_yield(grade)


@pytest.mark.parametrize("grade", ["L80HC", "HC-L80", "p110 hc"])
def test_a_high_collapse_grade_is_asked_for(grade):
    with pytest.raises(InputError, match=r"high-collapse grade of its mill.*data sheet"):
        minimum_yield(grade)


@pytest.mark.parametrize("grade", ["X52", "", "80"])
def test_an_unknown_grade_names_those_of_the_table(grade):
    with pytest.raises(InputError, match=r"no standard grade of the table .H40, J55.*data sheet"):
        minimum_yield(grade)


@pytest.mark.parametrize("wall", [0.0029, 0.11, float("nan")])
def test_a_wall_out_of_range_is_refused(wall):
    with pytest.raises(DomainError, match=r"Wall .* is outside 0\.003 to 0\.1 m"):
        internal_yield(0.25, wall, 500e6)


def test_a_wall_that_leaves_no_bore_is_refused_with_both_numbers():
    with pytest.raises(DomainError, match=r"Wall 0\.05 m leaves no bore .* 0\.1 m"):
        internal_yield(0.1, 0.05, 500e6)


def test_a_strength_typed_in_the_wrong_unit_is_refused():
    with pytest.raises(DomainError, match="Yield strength 80,000 Pa is outside"):
        internal_yield(0.25, 0.01, 80_000.0)
