"""The hole of a set-up with another excess, on the volume that the set-up names."""

from __future__ import annotations

from math import pi

import pytest

from tally.errors import DomainError
from tally.job.geometry import hole_of, hole_with_excess
from tally.job.setup import HoleSection, Setup
from tally.pipe.interval import PipeInterval
from tally.units import read
from tests.tally.job.invented import pumping, setup

FOOT = 0.3048
BIT, CALIPER, PIPE = 0.31115, 13 * 0.0254, 0.244475


def washed_out(on: str) -> Setup:
    """Return a set-up with an excess of its own from 300 to 400 ft, the rest as the bit left it."""
    section = HoleSection(
        top=read("300 ft", "length"),
        bottom=read("400 ft", "length"),
        diameter=read("12-1/4 in", "diameter"),
        excess=read("20 %", "ratio"),
        caliper=read("13 in", "diameter"),
    )
    return setup(sections=(section,), pumping=pumping(excess_applies_to=on))


@pytest.mark.parametrize(
    ("on", "ring"),
    [
        ("annulus", lambda wide: pi / 4 * (wide**2 - PIPE**2) * 1.5),
        ("hole", lambda wide: pi / 4 * (wide**2 * 1.5 - PIPE**2)),
    ],
)
def test_another_excess_takes_the_place_of_every_one_in_open_hole(on, ring):
    asked = hole_with_excess(washed_out(on), 0.5)
    pipe = (PipeInterval(0.0, 480 * FOOT, PIPE, 0.2205, 70.0),)
    for top, wide in ((200, BIT), (320, CALIPER), (450, BIT)):
        around = asked.annulus(pipe, top * FOOT, (top + 10) * FOOT)
        assert around / (10 * FOOT) == pytest.approx(ring(wide))
    cased = asked.annulus(pipe, 50 * FOOT, 60 * FOOT)
    assert cased == pytest.approx(hole_of(washed_out(on)).annulus(pipe, 50 * FOOT, 60 * FOOT))


def test_without_another_excess_each_section_keeps_its_own():
    hole = hole_with_excess(washed_out("annulus"), None)
    assert [each.excess for each in hole.sections if not each.cased] == [0.0, 0.2, 0.0]


@pytest.mark.parametrize("on", ["annulus", "hole"])
def test_an_excess_out_of_its_range_is_refused_on_either(on):
    with pytest.raises(DomainError, match="Excess"):
        hole_with_excess(washed_out(on), -1.5)
