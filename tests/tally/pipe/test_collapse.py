"""Collapse of the pipe body.

Must hold:
- the four regimes meet without a step, whatever the yield strength;
- collapse never rises with D/t, and never with tension within the stated range;
- it never falls with a higher grade (tension left out of it);
- yield collapse is the thick-cylinder pressure at which the bore yields;
- elastic collapse is the classical buckling pressure, reduced as the bulletin reduces it;
- below the stated range a sentence names the stress, what it leaves and the limit.
"""

from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tally.errors import DomainError
from tally.pipe.collapse import (
    LEAST_YIELD,
    _regime_and_pressure,
    collapse,
    collapse_factors,
    collapse_load,
    collapse_under_tension,
    factors_psi,
    yield_under_tension,
)
from tally.pipe.grades import MINIMUM_YIELD_PSI
from tally.pipe.ratings import PSI

STRENGTHS = st.floats(40_000.0, 125_000.0)
LEFT = st.floats(LEAST_YIELD, 125_000.0)
RATIOS = st.floats(6.0, 90.0)
OUTER = 0.5


def at(ratio, psi):
    """Return the collapse pressure in psi at a slenderness, with its regime."""
    pressure, _, regime, _ = collapse(OUTER, OUTER / ratio, psi * PSI)
    return pressure / PSI, regime


def pulled(ratio, psi, share):
    """Return the collapse pressure under a share of the yield strength."""
    return collapse_under_tension(OUTER, OUTER / ratio, psi * PSI, share * psi * PSI)[0]


@given(psi=STRENGTHS)
def test_the_regimes_meet_without_a_step(psi):
    known = factors_psi(psi)
    limits = (known.yield_limit, known.plastic_limit, known.transition_limit)
    assert list(limits) == sorted(limits)
    for number, limit in enumerate(limits, start=1):
        below, before = at(limit * (1 - 1e-9), psi)
        above, after = at(limit * (1 + 1e-9), psi)
        assert (before, after) == (number, number + 1)
        # the published elastic constant is cut to four figures, so that joint is not exact
        assert below == pytest.approx(above, rel=1e-6)


@given(psi=STRENGTHS, ratio=RATIOS, more=st.floats(1.0, 1.1))
def test_collapse_never_rises_with_slenderness(psi, ratio, more):
    assert at(ratio * more, psi)[0] <= at(ratio, psi)[0] * (1 + 1e-9)


@given(psi=STRENGTHS, ratio=RATIOS, more=st.floats(1.0, 1.1))
def test_a_stronger_pipe_never_collapses_earlier(psi, ratio, more):
    assume(psi * more <= 125_000.0)
    assert at(ratio, psi * more)[0] >= at(ratio, psi)[0] * (1 - 1e-9)


@given(psi=STRENGTHS, ratio=RATIOS, share=st.floats(0.0, 0.9), more=st.floats(0.0, 0.05))
def test_collapse_never_rises_with_tension(psi, ratio, share, more):
    try:
        least = pulled(ratio, psi, share + more)
    except DomainError:
        assume(False)
    assert least <= pulled(ratio, psi, share) * (1 + 1e-9)


@given(psi=STRENGTHS, ratio=RATIOS)
def test_without_tension_it_is_the_plain_rating(psi, ratio):
    assert pulled(ratio, psi, 0.0) == pytest.approx(at(ratio, psi)[0] * PSI, rel=1e-12)


@given(psi=STRENGTHS, share=st.floats(0.0, 0.9))
def test_the_strength_left_lies_on_the_yield_ellipse(psi, share):
    try:
        left = yield_under_tension(psi * PSI, share * psi * PSI) / (psi * PSI)
    except DomainError:
        assume(False)
    assert left**2 + left * share + share**2 == pytest.approx(1.0)


@given(psi=STRENGTHS, ratio=st.floats(5.0, 11.9))
def test_yield_collapse_is_where_the_bore_of_a_thick_cylinder_yields(psi, ratio):
    pressure, regime = at(ratio, psi)
    assert regime == 1
    outer, inner = 1.0, 1.0 - 2 / ratio
    hoop_at_bore = 2 * pressure * outer**2 / (outer**2 - inner**2)
    assert hoop_at_bore == pytest.approx(psi)


@given(ratio=st.floats(43.0, 95.0))
def test_elastic_collapse_is_the_classical_one_reduced(ratio):
    young, poisson = 30e6, 0.3
    classical = 2 * young / (1 - poisson**2) / (ratio * (ratio - 1) ** 2)
    pressure, regime = at(ratio, 80_000)
    assert regime == 4
    assert pressure == pytest.approx(0.7125 * classical, rel=2e-3)


@given(left=LEFT, ratio=RATIOS, more=st.floats(1.0, 1.05))
def test_down_to_the_limit_there_is_no_step_and_no_rise(left, ratio, more):
    pressure = _pressure(ratio, left)
    assert 0 < _pressure(ratio * more, left) <= pressure * (1 + 1e-9)
    assert _pressure(ratio * (1 + 1e-9), left) == pytest.approx(pressure, rel=1e-6)
    if left * more <= 125_000.0:
        assert _pressure(ratio, left * more) >= pressure * (1 - 1e-9)


@pytest.mark.parametrize("left", [16_000.0, 16_500.0, 17_000.0, 18_000.0, 20_000.0])
def test_where_no_plastic_range_is_left_its_neighbours_meet(left):
    ratios = [10 * 1.001**step for step in range(2300)]
    pressures = [_pressure(ratio, left) for ratio in ratios]
    for one, two in pairwise(pressures):
        assert two < one < two * 1.01


def _pressure(ratio, psi):
    return _regime_and_pressure(ratio, psi)[1]


def test_every_standard_grade_has_factors():
    for psi in MINIMUM_YIELD_PSI.values():
        assert collapse_factors(psi * PSI)[0] > 2.9


def test_too_much_tension_is_refused_in_words():
    said = (
        r"Stress along the pipe 78,000 psi leaves 3,.* psi of a yield strength of 80,000 psi, "
        r"less than the 16,000 psi .* data sheet"
    )
    with pytest.raises(DomainError, match=said):
        collapse_under_tension(0.2445, 0.012, 80_000 * PSI, 78_000 * PSI)


def test_more_stress_than_yield_and_compression_are_refused():
    for stress in (81_000 * PSI, -1.0, float("nan")):
        with pytest.raises(DomainError, match=r"Stress along the pipe .* is outside"):
            collapse_under_tension(0.2445, 0.012, 80_000 * PSI, stress)


@pytest.mark.parametrize(("wall", "said"), [(0.1, "over wall 2.5 is"), (0.0024, "Wall 0.0024 m")])
def test_a_pipe_too_thick_or_too_thin_is_refused(wall, said):
    with pytest.raises(DomainError, match=said):
        collapse(0.25, wall, 80_000 * PSI)


def test_a_grade_above_those_published_is_refused():
    with pytest.raises(DomainError, match=r"Yield strength .* is outside"):
        collapse(0.25, 0.012, 140_000 * PSI)


@given(bore=st.floats(0.08, 0.7), wall=st.floats(0.004, 0.03), outside=st.floats(0, 1e8),
       inside=st.floats(0, 1e8))  # fmt: skip
def test_the_load_with_pressure_inside_is_the_force_on_half_a_ring(bore, wall, outside, inside):
    outer = bore + 2 * wall
    load = collapse_load(outer, wall, outside, inside)
    assert load * outer == pytest.approx(outside * outer - inside * bore, abs=1.0)
