"""Stretch.

Must hold:
- two lengths stretch as much as the two together, and twice the pull twice as far;
- along the string it is the closed formula in a vertical hole, and scipy's integral in any;
- a string in a fluid as dense as its steel, squeezed alike from all sides, only gets shorter.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from tally.hole.survey import Station, Survey
from tally.pipe.interval import PipeInterval
from tally.pipe.weight import STANDARD_GRAVITY, STEEL_DENSITY, steel_area
from tally.string.columns import column
from tally.string.stretch import (
    POISSON,
    YOUNG,
    stretch_by_pull,
    stretch_own_weight,
    string_stretch,
)
from tests.tally.second_opinion import si

AREA = steel_area(0.2445, 0.2205)
BENT = Survey([Station(300.0, 0.0, 0.0), Station(900.0, 0.9, 0.7), Station(1500.0, 1.2, 1.5)])


@given(one=st.floats(0.0, 5000.0), two=st.floats(0.0, 5000.0), pull=st.floats(0.0, 5e6))
def test_lengths_add_up_and_pull_scales(one, two, pull):
    whole = stretch_by_pull(one + two, pull, AREA)
    parts = stretch_by_pull(one, pull, AREA) + stretch_by_pull(two, pull, AREA)
    assert whole == pytest.approx(parts)
    assert stretch_by_pull(one, 2 * pull, AREA) == pytest.approx(
        2 * stretch_by_pull(one, pull, AREA)
    )


@given(length=st.floats(10.0, 3000.0), density=st.floats(0.0, 2400.0))
def test_along_a_vertical_string_it_is_the_closed_formula(length, density):
    pipe = [PipeInterval(0.0, length, 0.2445, 0.2205, AREA * STEEL_DENSITY)]
    mud = column(density)
    got = string_stretch(pipe, mud, mud, Survey())
    assert got == pytest.approx(stretch_own_weight(length, density), rel=1e-6, abs=1e-9)


@settings(deadline=None, max_examples=10)
@given(inside=st.floats(0.0, 2000.0), level=st.floats(0.0, 800.0), pull=st.floats(0.0, 1e6))
def test_along_any_string_it_is_the_strain_integrated(inside, level, pull):
    pipe = [PipeInterval(0.0, 1500.0, 0.2445, 0.2205, 70.0)]
    mud, fill = column(1300.0), column(inside, level)
    bore, outer = pipe[0].bore, pipe[0].closed
    down = BENT.true_vertical

    def strain(depth):
        fluid = bore * inside * (down(1500.0) - max(down(depth), down(level)))
        mass = 70.0 * (down(1500.0) - down(depth)) + fluid
        weight = mass - outer * 1300.0 * (down(1500.0) - down(depth))
        into = inside * max(0.0, down(depth) - down(level))
        pressed = into * bore - 1300.0 * down(depth) * outer
        return (pull + (weight + (1 - 2 * POISSON) * pressed) * STANDARD_GRAVITY) / (YOUNG * AREA)

    expected = quad(strain, 0.0, 1500.0, points=[300.0, 900.0, level], limit=200)[0]
    assert string_stretch(pipe, fill, mud, BENT, pull) == pytest.approx(
        expected, rel=2e-4, abs=2e-4
    )


def test_a_string_that_floats_in_its_own_density_gets_shorter():
    assert stretch_own_weight(1000.0, 3000.0) < stretch_own_weight(1000.0, 0.0)
    squeezed = stretch_own_weight(1000.0, 3000.0, steel_density=7000.0, poisson=0.0)
    assert squeezed == pytest.approx(STANDARD_GRAVITY * 1e6 / 2 / YOUNG * 1000.0)


def test_the_printed_forms_hold_30_million_psi():
    assert si(30e6, "psi") == pytest.approx(YOUNG)
    # e = L T / (735,000 W): inches, feet, pounds, with steel of 3.4 lb/ft for a square inch
    feet, pounds, weight = 8500.0, 230_000.0, 23.52
    area = si(weight / 3.4, "inch**2")
    got = stretch_by_pull(si(feet, "foot"), si(pounds, "force_pound"), area)
    assert got == pytest.approx(si(feet * pounds / (735_000 * weight), "inch"), rel=0.001)
    # L**2 / 96.25e6 * (65.44 - 1.44 mud): inches, feet, lb/gal
    got = stretch_own_weight(si(10_000, "foot"), si(12, "pound/gallon"), si(65.44, "pound/gallon"))
    assert got == pytest.approx(si(1e8 / 96.25e6 * (65.44 - 1.44 * 12), "inch"), rel=0.001)
